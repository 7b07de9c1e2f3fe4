"""A page of the plan with one figure and the keypad: keys of the page, of a real keyboard or of an instrument end in the same figure."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.entry import Entry
from fieldapp.parts.page import reached
from fieldapp.parts.space import column
from fieldapp.screens.new_page import NewPage
from fieldapp.screens.typed_keys import letter_of

if TYPE_CHECKING:
    from fieldapp.app import App


class KeysPage(NewPage):
    """entry: the figure as far as it is typed. The keys are built once; a press patches what `shows` gives back."""

    entry: Entry

    def __init__(self, app: App, job: str = "") -> None:
        super().__init__(app, job)
        self.draft = ""
        """The name of the draft that the half-typed figure is kept under."""
        self._begun: Entry | None = None

    def begin(self, draft: str, said: Entry) -> None:
        """The figure as it was left half-typed, else as it was said before: then the first digit begins another one.

        draft: the name that it is kept under.
        """
        self.draft = draft
        half = self.app.draft_of(draft)
        self.entry = Entry.from_text(half, said.units, said.form) if half else said
        self._begun = None if half or said.empty else said

    def _fresh(self, key: str) -> Entry:
        """What a key is added to."""
        again = self.entry is self._begun and len(key) == 1 and key.isdigit()
        return Entry(units=self.entry.units, form=self.entry.form) if again else self.entry

    def shows(self, wrong: str = "") -> list[ft.Control]:
        """Set what has been typed, and why it cannot be kept; the controls to update."""
        raise NotImplementedError

    def kept(self) -> None:
        """Keep was pressed."""
        raise NotImplementedError

    def sheet_of_keys(self, parts: list[ft.Control], keypad: ft.Control) -> ft.Control:
        """A page whose foot is the keypad, which always stays whole."""
        paper = self.look.leaf if self.app.look.wide else self.look.paper
        body = ft.SafeArea(column([*parts, keypad], expand=True), expand=True)
        return self.framed(reached(self.look, ft.Container(body, bgcolor=paper, expand=True, padding=ft.Padding.only(bottom=16))))

    def press(self, key: str) -> None:
        """A key of the keypad."""
        if key == "keep":
            self.kept()
        elif key == "point" and self.entry.units == "mm" and not self.entry.free:
            entry = self.entry if self.entry.whole else self.entry.press("0")
            self.type(entry if entry.tail else entry.type(","))
        else:
            self.type(self._fresh(key).press(key))

    def type(self, entry: Entry) -> None:
        """The figure is this one now."""
        self.entry = entry
        self.app.keep_draft_of(self.draft, entry.text)
        self.update(*self.shows())

    def on_key(self, event: ft.KeyboardEvent) -> None:
        letter = letter_of(event)
        if letter == "Enter":
            self.kept()
        elif letter == "Backspace":
            self.type(self.entry.press("erase"))
        elif letter:
            self.type(self._fresh(letter).type(letter))
