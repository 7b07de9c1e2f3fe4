"""The second phone: reads back what a letter asks, bay by bay, and shows its answer as a QR code. It needs no job and no network."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.letter import Answer, Ask
from fieldapp.parts.action import main_action
from fieldapp.parts.blade import Blade
from fieldapp.parts.entry import Entry
from fieldapp.parts.field import Field
from fieldapp.parts.figure import Figure
from fieldapp.parts.head import HEAD, tag_head, title_head
from fieldapp.parts.keypad import Keypad
from fieldapp.parts.leaf import Plate
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import column, gap, inset
from fieldapp.screens.letter_view import letter_view, link_to
from fieldapp.screens.question_view import pad_words
from fieldapp.screens.screen import Screen
from fieldapp.screens.settings_model import refused_name
from fieldapp.screens.typed_keys import letter_of
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say
from measure.errors import EntryError

if TYPE_CHECKING:
    from fieldapp.app import App


class AnswerLetterScreen(Screen):
    """letter: as scanned. Raises LetterError for what is none. Figures so far are this screen's draft: a reload loses none."""

    title = say("letter.answer")

    def __init__(self, app: App, letter: str) -> None:
        super().__init__(app)
        self.ask = Ask.read(letter)
        self.by = app.draft_of("by")
        self._figures: list[str] = json.loads(app.draft_of("figures") or "[]")
        self.entry = Entry.from_text(app.draft, self.ask.units)  # type: ignore[arg-type]

    @property
    def told_at(self) -> float | None:  # type: ignore[override]
        """Below the bay's name where the keys are; elsewhere the page gives way."""
        return HEAD if self.by and len(self._figures) < len(self.ask.bays) else None

    def view(self) -> ft.Control:
        if not self.by:
            return self._who()
        return self._read() if len(self._figures) < len(self.ask.bays) else self._answer()

    def _who(self) -> ft.Control:
        look = mid(self.app.look)
        under = say("letter.read_for", job=self.ask.name)
        head = title_head(look, say("readback.who"), under, say("app.back"), lambda _: self.app.back())
        self._name = Field(look, say("readback.who"), self.app.person, on_focus=self.app.field_on, on_blur=self.app.field_off, on_submit=lambda _: self._named())
        return mid_sheet(self.app.look, [head, inset(column([self._name.control], GRID), top=MARGIN)], [main_action(look, say("readback.is_me"), lambda _: self._named())])

    def _named(self) -> None:
        wrong = refused_name(self._name.box.value or "", ())
        if wrong:
            self._name.show(wrong)
            self.update(self._name.control)
            return
        self.by = " ".join((self._name.box.value or "").split())
        self.app.keep_draft_of("by", self.by)
        self.app.typing = False
        self.app.redraw()

    def _read(self) -> ft.Control:
        look, at = mid(self.app.look), len(self._figures)
        tag, unit = self.ask.bays[at][0], self.ask.units
        count = say("letter.of", at=at + 1, n=len(self.ask.bays))
        head = tag_head(look, tag, say("readback.what"), count, say("app.back"), lambda _: self.app.back(), say("letter.read_for", job=self.ask.name))
        self._figure = Figure(look, look.width - 2 * MARGIN - 30)
        mine = Plate(look, say("readback.mine", name=self.by), self._figure.control, 124)
        self._blade = Blade(look, unit, look.width, look.width * 0.875, empty=say("readback.empty"))  # type: ignore[arg-type]
        self._pad = Keypad(look, self.entry.pad, self._press, pad_words(unit))
        self._show()
        return mid_sheet(self.app.look, [head, gap(GRID), mine.control, gap(GRID), self._blade.control], [self._pad.control], scrolls=False, keys=True)

    def _show(self) -> list[ft.Control]:
        whole, fraction = self.entry.shown
        words = " ".join(p for p in (whole, str(fraction or ""), "" if self.entry.free else self.ask.units) if p)
        self._figure.show(whole, fraction, "" if self.entry.free else self.ask.units, words)
        return [self._figure.control, *self._blade.show(self.entry.on_blade), *self._pad.light(self.entry.lit)]

    def _press(self, key: str) -> None:
        if key == "keep":
            self._keep()
        else:
            self._set(self.entry.press(key))

    def _set(self, entry: Entry) -> None:
        self.entry = entry
        self.update(*self._show())
        self.app.keep_draft(entry.text)

    def on_key(self, event: ft.KeyboardEvent) -> None:
        if not self.by or len(self._figures) >= len(self.ask.bays):
            return
        letter = letter_of(event)
        if letter == "Enter":
            self._keep()
        elif letter:
            self._set(self.entry.press("erase") if letter == "Backspace" else self.entry.type(letter))

    def _keep(self) -> None:
        try:
            self.entry.read()
        except EntryError as refused:
            self.app.tell(str(refused))
            return
        self._figures.append(self.entry.text)
        self.entry = Entry(self.ask.units)  # type: ignore[arg-type]
        self.app.keep_draft_of("figures", json.dumps(self._figures))
        self.app.keep_draft("")
        if len(self._figures) == len(self.ask.bays):
            self.app.keep_draft_of("at", self.app.host.clock.now().isoformat(timespec="milliseconds"))
        self.app.redraw()

    def _answer(self) -> ft.Control:
        look = mid(self.app.look)
        figures = tuple((tag, digest, text) for (tag, digest), text in zip(self.ask.bays, self._figures, strict=True))
        answer = Answer(self.ask.job, self.by, self.app.draft_of("at"), figures)
        head = title_head(look, say("letter.answer"), say("letter.read_for", job=self.ask.name), say("app.back"), lambda _: self.app.back())
        return mid_sheet(self.app.look, [head, *letter_view(self.app, link_to(self.app, "answer", answer.text()), say("letter.answer_do")), gap(MARGIN)])

    def on_change(self, topics: frozenset[str]) -> None:
        """Nobody else has a part in it."""
