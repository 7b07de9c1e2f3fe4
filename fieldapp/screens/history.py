"""What was read at a bay: all of it, whose, and which counts. An older one can count again: a new reading says the same."""

from __future__ import annotations

from dataclasses import replace

import flet as ft

from fieldapp.parts.action import action
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import column, gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.screens import more_model as model
from fieldapp.screens.answer_view import spoken
from fieldapp.screens.looks_on import looks_on
from fieldapp.screens.more_model import ReadRow
from fieldapp.screens.name_pick import NamePick
from fieldapp.screens.of_bay import BayScreen
from fieldapp.theme import GRID, MARGIN, TOUCH
from fieldapp.words import say

_SHORT = 16
"""Letters of a figure that stands whole in one line of the largest letters."""


class HistoryScreen(BayScreen):
    """The newest first."""

    def view(self) -> ft.Control:
        look = mid(self.app.look)
        rows = model.read_rows(self.live, self.tag, self.app.host.clock.now())
        rows = [replace(row, again=False) for row in rows] if looks_on(self.app) else rows
        lines: list[ft.Control] = [line for at, row in enumerate(rows) for line in (self._row(row, len(rows) - at, len(rows)), rule(look))]
        if not rows:
            lines = [inset(text(look, say("more.nothing_read"), "body", look.ink2))]
        self._who = NamePick(self.app, self.names(), say("more.who"), self._nothing, self.app.person)
        who = [gap(MARGIN), self._who.control] if any(row.again for row in rows) and not self.app.person else []
        return mid_sheet(self.app.look, [self.head(say("more.history_title")), rule(look, look.line), *lines, *who, gap(MARGIN)])

    def _row(self, row: ReadRow, at: int, of: int) -> ft.Control:
        """at: its place among the readings of this bay, the oldest first: buttons of the same words are told apart by it."""
        look = mid(self.app.look)
        figure = [text(look, f"{row.name}:", "body", bold=True), text(look, row.value, "body", bold=True, no_wrap=len(row.value) < _SHORT)]
        parts: list[ft.Control] = [ft.Row(figure, spacing=6, run_spacing=0, wrap=True), text(look, row.said, "note", look.ink2)]
        if row.again:
            again = action(look, say("more.count_again"), lambda _: self.app.run(self._again, row), height=TOUCH, role="note")
            says = say("more.count_again_says", what=row.name, figure=row.value, at=at, n=of)
            parts.append(ft.Row([spoken(again, says)]))
        return inset(column(parts, 4), top=GRID, bottom=GRID)

    def _nothing(self) -> None:
        """A name alone keeps nothing."""

    async def _again(self, row: ReadRow) -> None:
        wrong = self._who.refused()
        if wrong:
            self.app.tell(wrong)
            return
        if self.busy:
            return
        self.busy = True
        try:
            await self.app.desk.keep_reading(self.id, self._who.name, **model.again_words(self.live, row.reading))
        finally:
            self.busy = False
        self.app.redraw()
