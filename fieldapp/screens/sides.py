"""Said on two sides: two first readings of one thing, a plan changed here and there. Shown side by side; people decide."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.finding_row import finding_row
from fieldapp.parts.head import title_head
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.run_strip import Sign
from fieldapp.parts.space import column, gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.screens import settings_model
from fieldapp.screens.asking import ASKED
from fieldapp.screens.name_pick import NamePick
from fieldapp.screens.screen import Screen
from fieldapp.screens.sides_model import ConflictView, SideView, conflict_views, settling
from fieldapp.screens.walk_model import names_offered
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
        look = mid(self.app.look)
        head = title_head(look, say("sides.title"), self.live.name, say("app.back"), lambda _: self.app.back())
        found = conflict_views(self.live, self.app.desk.conflicts(self.job))
        if not found:
            return mid_sheet(self.app.look, [head, inset(text(look, say("sides.none"), "lead"), top=MARGIN)])
        crew = [p.name for p in settings_model.crew_of(self.app.desk.setting("crew", []))]
        sides = [side.by for one in self.app.desk.conflicts(self.job) for side in one.sides if side.by]
        self._who = NamePick(self.app, names_offered(self.live, [*crew, *sides]), say("sides.who"), lambda: None, self.app.person)
        asked = any(self._may(one) for one in found) and not self.app.person
        who = [inset(self._who.control, 0, 0, top=MARGIN, bottom=MARGIN)] if asked else []
        return mid_sheet(self.app.look, [head, *who, *(part for one in found for part in self._one(one))])

    def _may(self, one: ConflictView) -> bool:
        """Whether it can be settled here: the plan is the owner's, figures are those of who tapes and who reads back."""
        place = self.app.host.connection
        return not place.guest or (not one.plan and place.role != "office")

    def _one(self, one: ConflictView) -> list[ft.Control]:
        look, may = mid(self.app.look), self._may(one)
        verdict: Sign = "hold" if one.plan else "query"
        parts: list[ft.Control] = [finding_row(look, verdict, say(f"review.verdict_{verdict}"), one.place, one.sentence)]
        if not may:
            parts.append(inset(text(look, say("sides.owner" if one.plan else "sides.taped"), "body", bold=True), top=GRID, bottom=GRID))
        for side in one.sides:
            parts += [self._side(one, side), *([self._holds(one, side)] if may else []), inset(rule(look), 0, 0, top=GRID)]
        if one.bay and may:
            again = main_action(look, say("sides.again", place=one.place), lambda _: self._tape(one))
            parts.append(inset(again, EDGE, EDGE, top=GRID))
        return [*parts, gap(MARGIN)]

    def _side(self, one: ConflictView, side: SideView) -> ft.Control:
        """Whose it is and when at the left, the figure at the right; a plan has its own lines."""
        look = mid(self.app.look)
        named: list[ft.Control] = [text(look, side.by, "lead", bold=True), *([text(look, side.when, "note", look.ink2)] if side.when else [])]
        if one.plan:
            return inset(column([*named, text(look, side.said)], 2), top=GRID)
        figure = text(look, side.said, "lead", bold=True)
        row = column([*named, figure], 2) if look.big else ft.Row([ft.Column(named, spacing=2, expand=True, tight=True), figure], spacing=12)
        return inset(ft.Semantics(container=True, label=f"{side.by}, {side.when}, {side.said}", content=row), top=GRID)

    def _holds(self, one: ConflictView, side: SideView) -> ft.Control:
        tap = small_action(mid(self.app.look), side.holds, lambda _: self.app.run(self._settle, one, side.id))
        return inset(tap, EDGE, EDGE, top=GRID)

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
            if wrong := self._who.refused():
                self.app.tell(wrong)
                return
            if one.plan:
                await self.app.desk.settle_plan(self.job, id, self._who.name)
            else:
                await self.app.desk.keep_reading(self.job, self._who.name, **settling(self.live, id))
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
