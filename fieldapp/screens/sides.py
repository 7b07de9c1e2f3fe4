"""Said on two sides: two first readings of one thing, a plan changed here and there. Shown side by side; people decide."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.finding_row import finding_row
from fieldapp.parts.head import title_head
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.row import open_row
from fieldapp.parts.run_strip import Sign
from fieldapp.parts.space import gap, inset
from fieldapp.parts.text import text
from fieldapp.screens.asking import ASKED
from fieldapp.screens.screen import Screen
from fieldapp.screens.sides_model import ConflictView, conflict_views, settling
from fieldapp.theme import EDGE, GRID, MARGIN
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App


class SidesScreen(Screen):
    """Settled by taping again or by saying which side holds; until then no panel of it is ordered. Nothing is thrown away."""

    title = say("sides.title")

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app)
        self.job, self.live, self._busy = job, app.desk.job(job), False
        self.up = ("review", {"job": job})

    def view(self) -> ft.Control:
        look = self.app.look
        head = title_head(mid(look), say("sides.title"), self.live.name, say("app.back"), lambda _: self.app.back())
        found = conflict_views(self.live, self.app.desk.conflicts(self.job))
        if not found:
            return mid_sheet(look, [head, inset(text(look, say("sides.none"), "lead"), top=MARGIN)])
        return mid_sheet(look, [head, *(part for one in found for part in self._one(one))])

    def _one(self, one: ConflictView) -> list[ft.Control]:
        look = mid(self.app.look)
        verdict: Sign = "hold" if one.plan else "query"
        parts: list[ft.Control] = [finding_row(look, verdict, say(f"review.verdict_{verdict}"), one.place, one.sentence)]
        for side in one.sides:
            under = ", ".join(part for part in (side.under, say("sides.shown") if side.shown else "") if part)
            parts.append(open_row(look, side.by, side.figure, under, least=60, says=f"{side.by}, {under} {side.figure}".strip()))
            if words := one.holds(side):
                holds = small_action(look, words, lambda _, id=side.id: self.app.run(self._settle, one, id))
                parts.append(inset(holds, EDGE, EDGE, top=GRID, bottom=GRID))
        if one.bay:
            again = main_action(look, say("sides.again", place=one.place), lambda _: self._tape(one))
            parts.append(inset(again, EDGE, EDGE, top=GRID))
        return [*parts, gap(MARGIN)]

    def _tape(self, one: ConflictView) -> None:
        if one.what in ASKED:
            self.app.go("read", job=self.job, bay=one.bay, what=one.what)
        else:
            self.app.go("walk", job=self.job, bay=one.bay)

    async def _settle(self, one: ConflictView, id: str) -> None:
        """One tap: this side holds. Once, however often it is tapped."""
        if self._busy:
            return
        self._busy = True
        try:
            if not self.app.person:
                self.app.tell(say("sides.who"))
                return
            if one.plan:
                await self.app.desk.settle_plan(self.job, id, self.app.person)
            else:
                await self.app.desk.keep_reading(self.job, self.app.person, **settling(self.live, id))
        finally:
            self._busy = False
        self.app.redraw()

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "everything", f"job {self.job}"):
            self.app.redraw()


def sides_row(app: App, job: str) -> list[ft.Control]:
    """For the review and the order: that something was said on two sides, a tap from where it is settled; nothing where nothing was."""
    found = app.desk.conflicts(job)
    if not found:
        return []
    verdict: Sign = "hold" if any(one.kind == "plan" for one in found) else "query"
    go = lambda _: app.go("sides", job=job)  # noqa: E731
    return [finding_row(app.look, verdict, say(f"review.verdict_{verdict}"), say("sides.row"), say("sides.count", n=len(found)), go)]
