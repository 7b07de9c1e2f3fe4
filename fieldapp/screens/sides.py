"""Said on two sides: two first readings of one thing, a plan changed here and there. Shown side by side; people decide."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import small_action
from fieldapp.parts.finding_row import finding_row
from fieldapp.parts.head import title_head
from fieldapp.parts.page import page_sheet
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset
from fieldapp.parts.text import text
from fieldapp.screens.screen import Screen
from fieldapp.screens.sides_model import ConflictView, conflict_views
from fieldapp.theme import EDGE, GRID, MARGIN
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App


class SidesScreen(Screen):
    """A reading is settled by taping again, a plan by saying which one holds; nothing of the other side is thrown away."""

    title = say("sides.title")

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app)
        self.job, self.live = job, app.desk.job(job)
        self.up = ("review", {"job": job})

    def view(self) -> ft.Control:
        look = self.app.look
        head = title_head(look, say("sides.title"), self.live.name, say("app.back"), lambda _: self.app.back())
        found = conflict_views(self.live, self.app.desk.conflicts(self.job))
        if not found:
            return page_sheet(look, [head, inset(text(look, say("sides.none"), "lead"), top=MARGIN)])
        return page_sheet(look, [head, *(part for one in found for part in self._one(one))])

    def _one(self, one: ConflictView) -> list[ft.Control]:
        look = self.app.look
        parts: list[ft.Control] = [finding_row(look, "hold", say("review.verdict_hold"), one.place, one.sentence)]
        for side in one.sides:
            under = f"{side.under}, {say('sides.shown')}" if side.shown else side.under
            parts.append(open_row(look, side.by, side.figure, under, least=60, says=f"{under} {side.figure}".strip()))
            if one.plan:
                holds = small_action(look, say("sides.holds", by=side.by), lambda _, id=side.id: self.app.run(self._settle, id))
                parts.append(inset(holds, EDGE, EDGE, top=GRID, bottom=GRID))
        if one.bay:
            go = small_action(look, say("sides.go", place=one.bay), lambda _: self.app.go("walk", job=self.job, bay=one.bay))
            parts.append(inset(go, EDGE, EDGE, top=GRID))
        return [*parts, gap(MARGIN)]

    async def _settle(self, id: str) -> None:
        await self.app.desk.settle_plan(self.job, id, self.app.person)
        self.app.redraw()

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "everything", f"job {self.job}"):
            self.app.redraw()
