"""The read-back, alone on one phone: the first figure under hatching until the second is in; then both, and both marks on one blade."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action, side_by_side, sign_action, small_action
from fieldapp.parts.blade import Blade
from fieldapp.parts.entry import Entry
from fieldapp.parts.field import Field
from fieldapp.parts.figure import Figure
from fieldapp.parts.head import HEAD, tag_head, title_head
from fieldapp.parts.keypad import Keypad
from fieldapp.parts.leaf import Plate
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import text
from fieldapp.parts.verdict import sign
from fieldapp.screens import readback_model as model
from fieldapp.screens.both_view import agreed_title, both_figures
from fieldapp.screens.looks_on import looks_on, looks_on_page
from fieldapp.screens.question_view import pad_words
from fieldapp.screens.screen import Screen
from fieldapp.screens.tape_anew import tape_anew
from fieldapp.screens.typed_keys import letter_of
from fieldapp.screens.waiting_model import Waiting, to_tape, waiting
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say
from measure.errors import DocumentError, EntryError

if TYPE_CHECKING:
    from fieldapp.app import App


class ReadBackScreen(Screen):
    """bay: the one being read back; left out, the first of the shuffled ones. Who reads back is asked once, on this screen."""

    def __init__(self, app: App, job: str, bay: str = "") -> None:
        super().__init__(app)
        self.job, self.live = job, app.desk.job(job)
        self.up = ("review", {"job": job})
        self.by = app.draft_of("by") or (app.person if app.host.connection.guest else "")
        self.tag, self._told, self._busy, self._wrong = "", False, False, ""
        self._pick(app.draft_of("bay") or bay)
        self.entry = Entry.from_text(app.draft_of("figure"), self.live.plan.units)

    @property
    def told_at(self) -> float | None:  # type: ignore[override]
        """Below the bay's name where the keys are; elsewhere the page gives way."""
        return HEAD if self.by and self.tag and not self._told else None

    def _pick(self, wanted: str = "") -> None:
        open_ = model.to_read(self.live, self.by)
        self.left = len(open_)
        self._taping = self.app.desk.company.taped_by(self.job, self.app)
        followed = self._taping.bay if self._taping else ""
        self.tag = next((tag for tag in (wanted, followed) if tag in open_), open_[0] if open_ else "")
        self.on_bay = self.tag if self.by else ""

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def view(self) -> ft.Control:
        self._seen = self._state()
        if looks_on(self.app):
            head = title_head(self.app.look, say("readback.what"), self.live.name, say("app.back"), lambda _: self.app.back())
            return looks_on_page(self.app, head, self.job)
        if not self.by:
            return self._who()
        if self._told and self.tag:
            return self._both()
        return self._ask() if self.tag else self._done()

    def _who(self) -> ft.Control:
        look = mid(self.app.look)
        head = title_head(look, say("readback.who"), say("readback.who_where"), say("app.back"), lambda _: self.app.back())
        self._name = Field(
            look, say("readback.who"), self.app.draft_of("name"), on_focus=self.app.field_on, on_blur=self.app.field_off,
            on_change=lambda e: self.app.keep_draft_of("name", e.control.value or ""), on_submit=lambda _: self._named(),
        )  # fmt: skip
        note = text(look, say("readback.who_hint"), "note", look.ink2)
        return mid_sheet(self.app.look, [head, inset(column([self._name.control, note], GRID), top=MARGIN)], [main_action(look, say("readback.is_me"), lambda _: self._named()), self._by_letter()])

    def _by_letter(self) -> ft.Button:
        return small_action(self.app.look, say("letter.ask"), lambda _: self.app.go("ask", job=self.job))

    def _head(self) -> ft.Control:
        count = say("readback.count", at=1, n=self.left)
        taping = self._taping
        under = say("share.follows", name=taping.name, bay=taping.bay) if taping and taping.name else say("readback.under")
        look, aloud = mid(self.app.look), lambda _: self.app.go("say", job=self.job, bay=self.tag)
        tail = [] if self._told or not self.app.person else [sign_action(look, ft.Icons.RECORD_VOICE_OVER_OUTLINED, say("share.say"), aloud)]
        return tag_head(look, self.tag, say("readback.what"), count, say("app.back"), lambda _: self.app.back(), under, tail)

    def _ask(self) -> ft.Control:
        look, unit = mid(self.app.look), self.live.plan.units
        first = model.first_span(self.live, self.live.bay(self.tag))
        room = look.width - 2 * MARGIN
        small = look.low or look.big
        cover = Plate(look, say("readback.tape", name=first.by if first else ""), gap(0), 76 if small else 100, say("readback.covered"))
        self._figure = Figure(look, room - 30)
        mine = Plate(look, say("readback.mine", name=self.by), self._figure.control, 96 if small else 124)
        self._blade = Blade(look, unit, look.width, look.width * 0.875, empty=say("readback.empty"))
        self._pad = Keypad(look, self.entry.pad, self._press, pad_words(unit))
        self._wrong_text = text(look, self._wrong, "note", look.hold, bold=True)
        self._says = ft.Container(self._wrong_text, padding=ft.Padding.symmetric(horizontal=MARGIN), visible=bool(self._wrong))
        question = ft.Semantics(identifier="question", container=True, label=say("readback.under"), content=ft.Container(width=look.width, height=1))
        self._top = ft.Container(self._head())
        parts: list[ft.Control] = [self._top, question, cover.control, gap(GRID), mine.control, gap(GRID), self._says, self._blade.control]
        self._show()
        return mid_sheet(self.app.look, parts, [self._pad.control], scrolls=False, keys=True)

    def _show(self) -> list[ft.Control]:
        whole, fraction = self.entry.shown
        unit = self.live.units
        words = " ".join(p for p in (whole, str(fraction or "")) if p)
        self._figure.show(whole, fraction, "" if self.entry.free else unit, f"{words} {unit}".strip())
        changed = self._blade.show(self.entry.on_blade)
        return [self._figure.control, *changed, *self._pad.light(self.entry.lit)]

    def _both(self) -> ft.Control:
        look, found = mid(self.app.look), model.outcome(self.live, self.tag)
        if found is None:
            return self._done()
        work = [self._head(), *both_figures(look, self.live.plan.units, found)]
        return mid_sheet(self.app.look, work, self._then(found.agree), ground=look.verdict("clear" if found.agree else "hold")[1])

    def _then(self, agree: bool) -> list[ft.Control]:
        look = mid(self.app.look)
        if agree:
            after = [t for t in model.to_read(self.live, self.by) if t != self.tag]
            last = say("share.go_on") if to_tape(self.live) else say("readback.done")
            words = say("readback.next", tag=after[0]) if after else last
            return [main_action(look, words, lambda _: self._next(), onward=True)]
        anew = small_action(look, say("readback.tape_anew", tag=self.tag), lambda _: tape_anew(self.app, self.job, self.tag))
        on = small_action(look, say("readback.to_review"), lambda _: self.app.go("review", job=self.job))
        return [main_action(look, say("readback.again"), lambda _: self._again()), side_by_side(look, anew, on)]

    def _done(self) -> ft.Control:
        look = mid(self.app.look)
        found = self._waiting()
        head = title_head(look, found.title, self.live.name, say("app.back"), lambda _: self.app.back())
        row = inset(ft.Row([sign(look, found.sign, 64, 48), text(look, found.sentence, "lead", expand=True)], spacing=MARGIN), top=MARGIN)
        more = inset(column([text(look, sentence, "body", look.ink2) for sentence in found.more], GRID), top=MARGIN)
        return mid_sheet(self.app.look, [head, row, more], [main_action(look, say("readback.to_review"), lambda _: self.app.go("review", job=self.job), onward=True)])

    def _waiting(self) -> Waiting:
        taping = (self._taping.name, self._taping.bay) if self._taping else None
        together = bool(self.app.host.connection.guest) or bool(self.app.desk.company.of(self.job, self.app))
        return waiting(self.live, self.by, taping, together)

    # ---- what a tap does -----------------------------------------------------------------------------------------------
    def _named(self) -> None:
        by = " ".join((self._name.box.value or "").split())
        wrong = say("readback.no_name") if not by else ""
        if wrong:
            self._name.show(wrong)
            self.update(self._name.control)
            return
        self.by = by
        self.app.keep_draft_of("by", by)
        self._pick()
        self.app.be_here()
        self.app.typing = False
        self.app.redraw()

    def _press(self, key: str) -> None:
        if key == "keep":
            self.app.run(self._keep)
        elif key == "point" and self.live.plan.units == "mm" and not self.entry.free:  # the key shows a comma and writes one
            entry = self.entry if self.entry.whole else self.entry.press("0")
            self._set(entry if entry.tail else entry.type(","))
        else:
            self._set(self.entry.press(key))

    def _set(self, entry: Entry) -> None:
        self.entry = entry
        changed = self._show()
        if self._says.visible:
            self._says.visible = False
            changed.append(self._says)
        self.update(*changed)
        self.app.keep_draft_of("figure", entry.text)
        self.app.keep_draft_of("bay", self.tag if entry.text else "")

    def on_key(self, event: ft.KeyboardEvent) -> None:
        if not self.by or self._told or not self.tag or looks_on(self.app):
            return
        letter = letter_of(event)
        if letter == "Enter":
            self.app.run(self._keep)
        elif letter:
            self._set(self.entry.press("erase") if letter == "Backspace" else self.entry.type(letter))

    async def _keep(self) -> None:
        if self._busy:
            return
        wrong = model.refusal(self.live, self.tag, self.by)
        self._busy = True
        try:
            if not wrong:
                self.entry.read()
                await self.app.desk.keep_reading(self.job, self.by, **model.words_of(self.live, self.tag, self.entry.text))
        except EntryError as refused:
            wrong = str(refused)
        except DocumentError as refused:
            wrong = " ".join(p.sentence for p in refused.problems)
        finally:
            self._busy = False
        if wrong:
            self._wrong_text.value, self._says.visible = wrong, True
            self.update(self._says)
            return
        self.entry = Entry(self.live.plan.units)
        self.app.keep_draft_of("figure", "")
        self._told = True
        found = model.outcome(self.live, self.tag)
        self.title = agreed_title(self.tag, found.agree) if found else ""
        self.app.redraw()

    def _next(self) -> None:
        self._told, self.title = False, ""
        self.app.keep_draft_of("bay", "")
        self._pick()
        self.app.be_here()
        self.app.redraw()

    def _again(self) -> None:
        self._told, self.title = False, ""
        self.app.redraw()

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "everything", f"job {self.job}"):
            if self._told and model.outcome(self.live, self.tag) is None:
                self._told = False  # taped anew: to be read anew
            if self._told:
                self.app.redraw()
            else:
                self._look_again(self.tag, "everything" in topics)
        elif f"people {self.job}" in topics and self.by and not self._told:
            self._look_again(self.tag if self.entry.text else "")  # to the bay that the tape is on, unless something is typed here already

    def _look_again(self, wanted: str, anew: bool = False) -> None:
        """Which bay it is now. Where it is the same, only the head follows: the keys stay under the finger."""
        self._pick(wanted)
        self.app.be_here()
        before, now = self._seen, self._state()
        if anew or (self.by and before[:2] != now[:2]) or (before != now and not self.tag):
            self.app.redraw()
        elif self.by and before != now:
            self._seen = now
            self._top.content = self._head()
            self.update(self._top)

    def _state(self) -> tuple[object, ...]:
        """What the page rests on: the bay and its first figure; then what its head says; then, with nothing to read, what is waited for."""
        first = model.first_span(self.live, self.live.bay(self.tag)) if self.tag else None
        taping = (self._taping.name, self._taping.bay) if self._taping else ()
        return (self.tag, first, self.left, taping, None if self.tag else self._waiting())
