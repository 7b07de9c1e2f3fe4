"""Notes of a bay: words that stay with it, and the name of a photo."""

from __future__ import annotations

from datetime import datetime

import flet as ft

from fieldapp.parts.action import main_action
from fieldapp.parts.field import Field
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import column, gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.screens.name_pick import NamePick
from fieldapp.screens.of_bay import BayScreen
from fieldapp.theme import EDGE, GRID, MARGIN
from fieldapp.words import day, say


class NoteScreen(BayScreen):
    """What was noted before, then a new one."""

    def view(self) -> ft.Control:
        look = mid(self.app.look)
        before = [self._noted(note) for note in self.app.desk.notes(self.id, self.tag)]
        self._words = self._field("words", "more.note_words", lines=3)
        self._photo = self._field("photo", "more.photo", hint=say("more.photo_hint"))
        self._who = NamePick(self.app, self.names(), say("more.who"), self._right, self.app.person)
        work = [
            self.head(say("more.note_title")), *before, inset(self._words.control, EDGE, EDGE, top=GRID),
            inset(self._photo.control, EDGE, EDGE, top=GRID), gap(MARGIN), self._who.control, gap(MARGIN),
        ]  # fmt: skip
        return mid_sheet(self.app.look, work, [main_action(look, say("more.note_keep"), self._keep, height=64)])

    def _field(self, name: str, label: str, lines: int = 1, hint: str = "") -> Field:
        return Field(
            mid(self.app.look), say(label), self.app.draft_of(name), hint, role="body", lines=lines,
            on_change=lambda e: self.app.keep_draft_of(name, e.control.value or ""), on_focus=self.app.field_on, on_blur=self.app.field_off,
        )  # fmt: skip

    def _noted(self, note: dict[str, str]) -> ft.Control:
        look = mid(self.app.look)
        parts: list[ft.Control] = [text(look, s, "body", bold=True) for s in (note.get("text", ""), note.get("photo", "")) if s]
        when = day(datetime.fromisoformat(note["at"]))
        return column([inset(column([*parts, text(look, say("more.noted", by=note["by"], when=when), "note", look.ink2)], 2), top=GRID, bottom=GRID), rule(look)])

    def _right(self) -> None:
        self._words.show()
        self.update(self._words.control)

    async def _keep(self, event: ft.Event[ft.Control]) -> None:
        words, photo = self.app.draft_of("words").strip(), self.app.draft_of("photo").strip()
        wrong = "" if words or photo else say("more.note_needed")
        wrong = wrong or self._who.refused()
        if wrong:
            self._words.show(wrong)
            self.update(self._words.control)
            return
        if self.busy:
            return
        self.busy = True
        try:
            await self.app.desk.keep_note(self.id, self._who.name, self.tag, words, photo)
        finally:
            self.busy = False
        for name in ("words", "photo", "name"):
            self.app.keep_draft_of(name, "")
        self.app.redraw()
