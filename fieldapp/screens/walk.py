"""The walk: one question, one drawing, the keys; then what the tool makes of it; then the next."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.head import HEAD
from fieldapp.parts.page import DETAIL
from fieldapp.screens import settings_model
from fieldapp.screens import walk_model as model
from fieldapp.screens.answer_model import Act, Answer, answer, it_was, reading_of
from fieldapp.screens.asking import ASKED, Words, asking
from fieldapp.screens.looks_on import looks_on, looks_on_leaf, only_to_look
from fieldapp.screens.ordered import last_issued
from fieldapp.screens.present_model import letters_on, on_bays
from fieldapp.screens.screen import Screen
from fieldapp.screens.taken import Taken
from fieldapp.screens.taken_kept import keep_taken, kept_taken
from fieldapp.screens.typed_keys import letter_of
from fieldapp.screens.typing_state import Typing
from fieldapp.screens.walk_leaf import WhoLeaf, lay_leaf
from fieldapp.screens.walk_list import WalkList
from fieldapp.screens.walk_model import Step
from fieldapp.screens.walk_view import WalkTaps, WalkView
from fieldapp.words import say
from measure.errors import DocumentError, EntryError, SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_ASKS = ("ask", "again")


class WalkScreen(Screen):
    """One bay of the walk. what: a further reading that the address names; its Next leads back to the walk."""

    def __init__(self, app: App, job: str, bay: str, what: str = "") -> None:
        super().__init__(app)
        self.id, self.live = job, app.desk.job(job)
        if bay not in self.live.book.bays or (what and what not in ASKED):
            raise SpanbookError(say("walk.no_bay", tag=bay, job=self.live.name))
        self.tag, self._what = bay, what
        self.title = self.live.name
        self._busy = self._who = self._aside = False
        self._begin()

    @property
    def told_at(self) -> float:  # type: ignore[override]
        """Over the strip; where the bay's name stands in its place, below."""
        return HEAD if self._named_head else 0

    @property
    def _named_head(self) -> bool:
        return self.app.look.named or (self.app.look.big and self._step.kind in _ASKS and not self._who and not looks_on(self.app))

    @property
    def _taken(self) -> Taken:
        return kept_taken(self.app, self.id)

    def _begin(self) -> None:
        """Where the bay stands, with what was half-typed there."""
        step = model.step_of(self.live, self.tag, self.app.draft_of("step"), self._what)
        what = step.what or "span"
        if looks_on(self.app) and reading_of(self.live, self.live.bay(self.tag), what) is not None:
            step = Step("told", what)  # what is known there, not the keys
        self._set(step)

    def _set(self, step: Step) -> None:
        self._step = step
        self._answer: Answer | None = None
        self._stood = model.stood(self.live, self.tag, step)
        if step.kind in _ASKS:
            question = asking(self.live, self.tag, step.what, self._taken)
            self._typing = Typing.begin(question, self.app.draft_of(question.key), self.app.draft_of(f"{question.key} side"))

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def view(self) -> ft.Control:
        taps = WalkTaps(self._press, self._pick, self._do, self._how, self._more, self._back, self._review)
        look = self.app.look
        self._view = WalkView(look.on(DETAIL) if look.wide else look, self.live.units, taps, self.app.signal)
        self._list = WalkList(self.app, self.id, self.live) if look.wide else None
        self._place()
        self._show_head()
        return self._list.beside(self._view.control) if self._list else self._view.control

    def _place(self) -> list[ft.Control]:
        """Set what stands below the head; the controls to update."""
        view, look = self._view, self._view.look
        if self._who:
            return view.lay_leaf(self._who_leaf().control)
        if self._step.kind == "lay":
            return view.lay_leaf(lay_leaf(look, self.tag, lambda lay: self.app.run(self._keep_lay, lay)))
        if self._step.kind == "told":
            self._answer = self._against_order(answer(self.live, self.tag, self._step.what, self._taken))
            return view.tell(self._answer, not self._what)
        if looks_on(self.app):
            asked = self._typing.asking
            return view.lay_leaf(looks_on_leaf(self.app, look, self.id, self.tag, asked.tag, asked.what))
        return view.ask(self._typing, self.app.device.other_unit, model.how_word(self._typing), not self._what)

    def _against_order(self, made: Answer) -> Answer:
        """The answer, and that the panel which was ordered for this bay is another one. The office only looks."""
        last = last_issued(self.app, self.live)
        differs = [change for change in last.changed if change.tag == self.tag] if last else []
        made = replace(made, others=(*((c.sign, c.sentence) for c in differs), *made.others)) if differs else made
        return only_to_look(made) if looks_on(self.app) else made

    def _show_head(self) -> list[ft.Control]:
        """The strip lights what is being measured; where it gives way to a name, the name is that of the question or answer."""
        what, tag, now = "", self.tag, self.tag
        if self._answer is not None and self._step.kind == "told":
            what, tag, now = self._answer.title, self._answer.tag, ""
        elif self._step.kind in _ASKS:
            what, tag = self._typing.asking.what, self._typing.asking.tag
            now = "" if looks_on(self.app) else now  # nobody who looks on is at the tape
        company = self.app.desk.company
        strip = model.strip_of(self.live, self.tag, letters_on(company, self.id, self.app))
        named = self._named_head
        beside = self._list.show(tag, self._step.kind in _ASKS and not looks_on(self.app)) if self._list else []
        return [*self._view.head(strip, tag if named else now or None, what, on_bays(company, self.id, self.app), named), *beside]

    def _go_to(self, step: Step) -> None:
        """Another step at this bay, drawn at once and found again after a reload."""
        self._set(step)
        self.app.keep_draft_of("step", "" if step == model.step_of(self.live, self.tag, "", self._what) else step.draft)
        self.update(*self._place(), *self._show_head())

    def _who_leaf(self) -> WhoLeaf:
        crew = [p.name for p in settings_model.crew_of(self.app.desk.setting("crew", []))]
        return WhoLeaf(
            self._view.look, self.tag, model.names_offered(self.live, crew), lambda name: self.app.run(self._is, name),
            self.app.field_on, self.app.field_off, lambda name: self.app.keep_draft_of("who", name), self.app.draft_of("who"),
        )  # fmt: skip

    # ---- keys ----------------------------------------------------------------------------------------------------------
    def _press(self, key: str) -> None:
        if key == "keep":
            self.app.run(self._keep)
        else:
            self._type(self._typing.press(key))

    def _pick(self, side: str) -> None:
        self._typing = self._typing.pick(side)
        self.update(*self._view.sided(self._typing, self.app.device.other_unit))
        self._keep_drafts()

    def _type(self, typing: Typing) -> None:
        turned = typing.side != self._typing.side
        self._typing = typing
        show = self._view.sided if turned else self._view.typed
        self.update(*show(typing, self.app.device.other_unit))
        self._keep_drafts()

    def _keep_drafts(self) -> None:
        key = self._typing.asking.key
        self.app.keep_draft_of(key, self._typing.entry.text)
        self.app.keep_draft_of(f"{key} side", self._typing.side or "")

    def on_key(self, event: ft.KeyboardEvent) -> None:
        if self._step.kind not in _ASKS or self._who or looks_on(self.app):
            return
        letter = letter_of(event)
        if letter == "Enter":
            self.app.run(self._keep)
        elif letter == "Backspace":
            self._type(self._typing.press("erase"))
        elif letter:
            self._type(self._typing.type(letter))

    # ---- Keep ----------------------------------------------------------------------------------------------------------
    async def _keep(self) -> None:
        if self._busy or self._step.kind not in _ASKS:
            return
        self._busy = True
        try:
            words = self._typing.reading()
            if self._typing.asking.remembers:
                await self._remember(words["value"])
            elif not self.app.person:
                self._who = True
                self.update(*self._place(), *self._show_head())
            else:
                known = self._stood == model.stood(self.live, self.tag, self._step)  # else somebody read it meanwhile: both stay
                words["replaces"] = model.replaced(self.live, self.tag, self._step) if known else None
                await self._keep_words(self._step.what, words)
        except EntryError as refusal:
            self._type(self._typing.refused(str(refusal)))
        except DocumentError as refusal:
            self._type(self._typing.refused(" ".join(p.sentence for p in refusal.problems)))
        finally:
            self._busy = False

    async def _keep_words(self, told: str, words: Words) -> None:
        """Keep a reading; its answer stands there only once it is on the disk. told: the question that it answers."""
        await self.app.desk.keep_reading(self.id, self.app.person, **words)
        await self.app.desk.turns.own()
        self._typing = Typing.begin(asking(self.live, self.tag, told, self._taken))
        self._keep_drafts()
        self._go_to(model.after(self.live, self.tag, told))

    async def _keep_lay(self, lay: str) -> None:
        """How the tape lay: the same span said anew."""
        if not self._busy and self._named():
            self._busy = True
            try:
                await self._keep_words("span", model.lay_words(self.live, self.tag, lay))
            finally:
                self._busy = False

    async def _keep_slip(self) -> None:
        """It was begun at the 1 in mark: the same figure said anew, with its start."""
        slip = it_was(self._answer) if self._answer else None
        if slip is not None and not self._busy and self._named():
            self._busy = True
            try:
                await self._keep_words("span", model.start_words(self.live, self.tag, slip.start, slip.case))
            finally:
                self._busy = False

    def _named(self) -> bool:
        """Whether it is known who holds this device; else it is asked first."""
        if not self.app.person:
            self._who = True
            self.update(*self._place(), *self._show_head())
        return bool(self.app.person)

    async def _is(self, name: str) -> None:
        """Somebody said who measures: on the crew with them, and on with what was being kept."""
        crew = settings_model.crew_of(self.app.desk.setting("crew", []))
        name = " ".join(name.split())
        known = next((p for p in crew if settings_model.same_name(p.name, name)), None)
        wrong = "" if known else settings_model.refused_name(name, crew)
        if wrong:
            self.app.tell(wrong)
            return
        if known is None:
            people = [*crew, settings_model.Person(name)]
            await self.app.desk.keep_setting("crew", [p.as_dict() for p in people])
        await self.app.device.keep_person(known.name if known else name)
        self.app.keep_draft_of("who", "")
        self._who, self.app.typing = False, False
        self.app.settled()
        self.update(*self._place(), *self._show_head())
        if self._step.kind in _ASKS:
            await self._keep()

    async def _remember(self, text: str) -> None:
        """The length of a tool: this device knows it from now on."""
        key, run = self._typing.asking.key, self.live.bay(self.tag).run
        await keep_taken(self.app, self.id, model.remembered(self._taken, run, self._step.what, key, text))
        self.app.keep_draft_of(key, "")
        if self._what == key:
            self.app.back()
        else:
            self._go_to(self._step)

    # ---- what else a tap does ------------------------------------------------------------------------------------------
    def _do(self, act: Act) -> None:
        if act.name == "next":
            self._next(act.to)
        elif act.name == "again":
            self._go_to(Step("again", act.to))
        elif act.name == "ask":
            self._go_to(model.asked(self.live, self.tag, act.to))
        elif act.name == "it-was":
            self.app.run(self._keep_slip)
        elif act.name == "stands":
            place = self._answer.finding.place if self._answer and self._answer.finding else self.tag
            self.app.go("stands", job=self.id, place=place, check=act.to)
        elif act.name == "taken":
            self.app.go("taken", job=self.id, bay=self.tag, what=act.to)
        elif act.name == "sides":
            self.app.go("sides", job=self.id)
        elif act.name == "more":
            self._more()
        else:
            self._review()

    def _next(self, tag: str) -> None:
        """On to another question: at this bay, or at the next one without drawing the page anew."""
        self.app.keep_draft_of("step", "")
        if self._what:
            self.app.go("walk", job=self.id, bay=tag)
            return
        if tag != self.tag:
            self.tag = tag
            self.app.follow("walk", job=self.id, bay=tag)
        self._begin()
        self.update(*self._place(), *self._show_head())

    def _back(self) -> None:
        """From a figure that is measured again to its answer; else where the person came from."""
        answered = None if self._what or self._who else model.before(self.live, self.tag, self._step)
        if answered is None:
            self.app.back()
        else:
            self._go_to(answered)

    def leave(self) -> None:
        """A question of which nothing was typed is not what is found here the next time, but for a look at how it is taken."""
        if self._step.kind in _ASKS and self._typing.untouched and not self._aside:
            self.app.keep_draft_of("step", "")

    def _how(self) -> None:
        self._aside = True
        self.app.go("taken", job=self.id, bay=self.tag, what=self._step.what)

    def _more(self) -> None:
        self.app.go("more", job=self.id, bay=self.tag)

    def _review(self) -> None:
        self.app.go("review", job=self.id)

    def on_change(self, topics: frozenset[str]) -> None:
        """Somebody else kept something or moved: the strip and the answer follow; the keys, and what is being typed, are left alone."""
        if not self.concerns(topics, "everything", *(f"{of} {self.id}" for of in ("job", "people", "orders"))):
            return
        if self.tag not in self.live.book.bays:
            self.app.go("jobs")
            return
        anew = self.concerns(topics, "everything", "jobs")  # another plan, or a page that was away
        if self._step.kind == "told" and not self._who:
            self._tell_again()
        elif looks_on(self.app):  # it may be kept by now
            self._begin()
            self.update(*self._place())
        if anew:
            self.app.redraw()
        else:
            self.update(*self._show_head())

    def _tell_again(self) -> None:
        """The answer as it is now: what was read of another bay or of the run can be news to it too."""
        step, shown = model.step_of(self.live, self.tag, self._step.draft, self._what), self._answer
        if step == self._step and shown == self._against_order(answer(self.live, self.tag, step.what, self._taken)):
            return
        self._set(step)
        self.update(*self._place())
