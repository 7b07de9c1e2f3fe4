"""What a changed plan does, bay by bay, before it is kept by name."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.live_job import LiveJob
from fieldapp.parts.action import main_action
from fieldapp.parts.finding_row import finding_row
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import text
from fieldapp.parts.verdict import small_band
from fieldapp.screens import ROUTES, settings_model
from fieldapp.screens import change_plan_model as model
from fieldapp.screens.name_pick import NamePick
from fieldapp.screens.new_page import NewPage
from fieldapp.screens.plan_effects import BayEffect, effects, job_under, ordered_panels
from fieldapp.screens.walk_model import names_offered
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say
from measure.errors import DocumentError

if TYPE_CHECKING:
    from fieldapp.app import App

_MOST_TOLD, _MOST_ROWS, _AT_ONCE = 4, 60, 25


class KeepPlanScreen(NewPage):
    """The bays are looked into a few at a time: the page stays usable, and says how far it is."""

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app, job)
        self._found: list[BayEffect] = []
        self._busy, self._done, self._wrong_plan = False, False, ""
        self._after: LiveJob | None = None
        try:
            self._after = job_under(job, self.plan_change.words, self.plan_change.now)
        except DocumentError as refused:
            self._wrong_plan = "\n".join(str(p) for p in refused.problems[:_MOST_TOLD])

    def opened(self) -> str:
        return ""

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def view(self) -> ft.Control:
        look, change = self.look, self.plan_change
        crew = [p.name for p in settings_model.crew_of(self.app.desk.setting("crew", []))]
        self._who = NamePick(self.app, names_offered(change.live, crew), say("change.who"), lambda: None, self.app.person)
        self._wrong = text(look, self._wrong_plan, "body", look.hold, bold=True, visible=bool(self._wrong_plan))
        lines = [text(look, one, "body") for one in model.told(change.draft)[:_MOST_ROWS]]
        self._heading = text(look, "", "lead", bold=True)
        self._rows = column([])
        self._show()
        work = [
            self.asks(say("change.keep_title")), inset(column(list(lines), 4), bottom=GRID),
            inset(self._wrong, bottom=GRID), inset(ft.Semantics(header=True, live_region=True, content=self._heading), top=GRID, bottom=GRID),
            self._rows, gap(MARGIN), self._who.control, inset(text(look, say("change.kept_told"), "note", look.ink2), top=GRID), gap(MARGIN),
        ]  # fmt: skip
        return self.sheet(work, [main_action(look, say("change.keep"), self._keep_plan)])

    def shown(self) -> None:
        self.app.run(self._look_into)

    async def _look_into(self) -> None:
        """Bay by bay, resting in between."""
        if self._after is None:
            return
        change = self.plan_change
        orders = self.app.desk.orders(change.id)
        panels = ordered_panels(orders[-1].panels, change.live.plan.units) if orders else {}
        for number, effect in enumerate(effects(change.live, self._after, change.words, panels)):
            if effect is not None:
                self._found.append(effect)
            if number % _AT_ONCE == _AT_ONCE - 1:
                self._heading.value = say("change.looking", n=number + 1)
                self.update(self._heading)
                await asyncio.sleep(0)
                if self.app.screen is not self:
                    return
        self._done = True
        self._show()
        self.update(self._heading, self._rows)

    def _show(self) -> None:
        look = self.look
        if not self._done:
            self._heading.value = "" if self._after is None else say("change.looking", n=len(self._found))
            return
        self._heading.value = say("change.differ", n=len(self._found)) if self._found else say("change.no_bay_differs")
        rows: list[ft.Control] = [self._row(effect) for effect in self._found[:_MOST_ROWS]]
        if more := len(self._found) - _MOST_ROWS:
            rows += [inset(text(look, say("change.and_more", n=more), "body"))] if more > 0 else []
        self._rows.controls = rows or [small_band(look, "clear", text(look, say("change.same_told"), "body", bold=True))]

    def _row(self, effect: BayEffect) -> ft.Control:
        """The sign that the bay would have, what it had, and why."""
        word = say(f"change.sign_{effect.sign}") if effect.after else say("change.sign_gone")
        moved = effect.before != effect.after and effect.before is not None and effect.after is not None
        place = say("change.place_was", place=effect.place, was=say(f"change.sign_{effect.before}")) if moved else effect.place
        return finding_row(self.look, effect.sign, word, place, "\n".join(effect.sentences))

    # ---- what is kept --------------------------------------------------------------------------------------------------
    async def _keep_plan(self, event: ft.Event[ft.Control]) -> None:
        change = self.plan_change
        wrong = self._wrong_plan or ("" if change.draft.changed else say("change.nothing")) or self._who.refused()
        if wrong or self._busy:
            self._tell(wrong)
            return
        if change.stale:
            self.app.up("plan", job=change.id)
            self.app.tell(say("change.meanwhile"))
            return
        self._busy = True
        try:
            await self.app.desk.keep_plan(change.id, change.now, self._who.name)
        except DocumentError as refused:
            self._tell("\n".join(str(p) for p in refused.problems[:_MOST_TOLD]))
            return
        finally:
            self._busy = False
        change.forget()
        self.app.keep_draft_of("name", "")
        plan = ROUTES["plan"].address(job=change.id)
        self.app.keep_draft_of("bay", "", plan)
        self.app.up("review", leaving=plan, job=change.id)

    def _tell(self, wrong: str) -> None:
        self._wrong.value, self._wrong.visible = wrong, bool(wrong)
        self.update(self._wrong)
        if wrong:
            self.app.tell(wrong)
