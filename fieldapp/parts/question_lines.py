"""The words over a picture: which bay, what is asked, where exactly, or why a figure is not kept."""

from __future__ import annotations

import flet as ft

from fieldapp.parts.space import column, inset
from fieldapp.parts.text import BOLD, NORMAL, text
from fieldapp.theme import GRID, Look


class QuestionLines:
    """Which bay, what, and where exactly: tag in bold, then one sentence. headed: the head says the first two."""

    def __init__(self, look: Look, headed: bool | None = None) -> None:
        self._tag, self._what = text(look, "", "title", bold=True), text(look, "", "title")
        self._where = text(look, "", "body", look.ink2)
        self._look, self._said, self._refused = look, "", ""
        place = ft.Semantics(identifier="place", container=True, content=self._tag)
        top = ft.Row([place, self._what], spacing=GRID, run_spacing=0, wrap=True)
        asked = ft.Semantics(identifier="question", container=True, content=column([self._where]))
        self._asked = asked
        self.control = inset(ft.Column([asked] if (look.named if headed is None else headed) else [top, asked], spacing=2, tight=True), bottom=4)

    def show(self, tag: str, what: str, where: str) -> None:
        """The caller updates `control`."""
        self._tag.value, self._what.value, self._said, self._refused = tag, what, where, ""
        self._set()

    def refuse(self, problem: str) -> list[ft.Control]:
        """Why the figure is not kept, in the place of where it is taken; nothing: that again. Returns what changed."""
        if problem == self._refused:
            return []
        self._refused = problem
        self._set()
        return [self._asked]

    def _set(self) -> None:
        look, wrong = self._look, bool(self._refused)
        self._where.value, self._where.color = self._refused or self._said, look.hold if wrong else look.ink2
        self._where.size, self._where.weight = look.size("note" if wrong else "body"), BOLD if wrong else NORMAL
        shown, what = self._where.value, self._what.value
        self._asked.label = f"{what}. {shown}" if shown else what
        self._asked.exclude_semantics = True
        self._where.visible = bool(shown)
