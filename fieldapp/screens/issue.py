"""Issue an order: what goes out and what stays out, once more; who issues it; then it is numbered and never changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action
from fieldapp.parts.facts import facts
from fieldapp.parts.head import title_head
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import text
from fieldapp.screens import settings_model
from fieldapp.screens.name_pick import NamePick
from fieldapp.screens.order_model import issue_view
from fieldapp.screens.ordered import last_issued
from fieldapp.screens.screen import Screen
from fieldapp.screens.walk_model import names_offered
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App


class IssueScreen(Screen):
    """Nobody is chosen beforehand: the order prints this name."""

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app)
        self.job, self.live = job, app.desk.job(job)
        self.up = ("order", {"job": job})
        self.title = self.live.name
        self._busy = False

    def view(self) -> ft.Control:
        full = self.app.look
        look = mid(full)
        found = issue_view(self.app.desk.order(self.job), last_issued(self.app, self.live))
        head = title_head(look, found.title, self.live.name, say("app.back"), lambda _: self.app.back())
        crew = [p.name for p in settings_model.crew_of(self.app.desk.setting("crew", []))]
        self._who = NamePick(self.app, names_offered(self.live, crew), say("order.who"), lambda: None)
        self._missing = text(look, "", "body", look.hold, bold=True, visible=False)
        work = [head, inset(facts(look, found.facts, look.ink), bottom=MARGIN)]
        if found.cautions:
            cautions = [text(look, say("order.cautions"), bold=True), *(text(look, c, "note", look.ink2) for c in found.cautions)]
            work.append(inset(column(list(cautions), GRID), top=MARGIN))
        work += [gap(MARGIN), self._who.control, inset(text(look, say("order.never"), "note", look.ink2), top=GRID)]
        work += [inset(self._missing, top=GRID), gap(MARGIN)]
        actions = [main_action(look, found.action, lambda _: self.app.run(self._issue))] if found.action else []
        return mid_sheet(full, work, list(actions))

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "everything", f"job {self.job}", f"orders {self.job}") and not self._busy:
            self.app.redraw()

    async def _issue(self) -> None:
        wrong = self._who.refused()
        if wrong:
            self._missing.value, self._missing.visible = wrong, True
            self.update(self._missing)
            return
        if self._busy:
            return
        self._busy = True
        try:
            orders = self.app.desk.orders(self.job)
            await self.app.desk.issue_order(self.job, self._who.name, orders[-1].order_no if orders else None)
        finally:
            self._busy = False
        self.app.keep_draft_of("name", "")
        self.app.back()
