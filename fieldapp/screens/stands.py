"""It stands, because …: a query answered in writing, with a name."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import action, button_style, main_action
from fieldapp.parts.field import Field
from fieldapp.parts.head import tag_head
from fieldapp.parts.leaf import quoted
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import text
from fieldapp.parts.verdict import small_band
from fieldapp.screens import settings_model
from fieldapp.screens import stands_model as model
from fieldapp.screens.name_pick import NamePick
from fieldapp.screens.screen import Screen
from fieldapp.screens.walk_model import names_offered
from fieldapp.theme import EDGE, GRID, LINE, MARGIN
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App


class StandsScreen(Screen):
    """place: `A3` or `run A`. check: the query's name. Half-written words come back."""

    def __init__(self, app: App, job: str, place: str, check: str) -> None:
        super().__init__(app)
        self.id, self.live, self.place, self.check = job, app.desk.job(job), place, check
        where = model.place_of(self.live, place)
        if where is None:
            raise SpanbookError(say("walk.no_bay", tag=place, job=self.live.name))
        self._where = where
        self.title = self.live.name
        bay = where.get("bay") or self.live.book.run_bays[where["run"]][0].tag
        self.up = ("walk", {"job": job, "bay": bay})
        self._reason = app.draft_of("reason")
        self._busy = False

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def view(self) -> ft.Control:
        look = mid(self.app.look)
        found = model.query_at(self.live, self.place, self.check)
        head = tag_head(look, self.place, say("stands.title"), "", say("app.back"), lambda _: self.app.back())
        said = found.sentence if found else say("stands.no_query")
        words = ft.Semantics(identifier="finding", container=True, content=text(look, said, "body", bold=True))
        band = small_band(look, "query", words)
        self._reasons = {r: action(look, r, lambda _, r=r: self._pick(r), height=56, role="body") for r in model.reasons(self.check)}
        self._marks = {r: ft.Semantics(content=b, selected=False) for r, b in self._reasons.items()}
        own = "" if self._reason in self._reasons else self._reason
        self._own = Field(
            look, say("stands.own"), own, role="body", on_change=lambda e: self._write(e.control.value or ""),
            on_focus=self.app.field_on, on_blur=self.app.field_off,
        )  # fmt: skip
        crew = [p.name for p in settings_model.crew_of(self.app.desk.setting("crew", []))]
        self._who = NamePick(self.app, names_offered(self.live, crew), say("stands.who"), self._show)
        self._quote = text(look, "", "body", bold=True)
        self._missing = text(look, "", "body", look.hold, bold=True, visible=False)
        self._quoted = ft.Container(inset(quoted(look, say("stands.on_the_order"), self._quote)))
        self._main = main_action(look, say("stands.it_stands"), self._keep, height=64)
        self._set()
        work = [
            head, band, gap(14), inset(column(list(self._marks.values()), GRID), EDGE, EDGE), gap(GRID), inset(self._own.control, EDGE, EDGE),
            gap(14), self._who.control, gap(14), self._quoted, inset(self._missing, top=GRID), gap(MARGIN),
        ]  # fmt: skip
        return mid_sheet(self.app.look, work, [self._main])

    def _set(self) -> None:
        """The chosen reason in ink; the order's words; the action in ink only once both are there."""
        look = mid(self.app.look)
        for reason, button in self._reasons.items():
            on = reason == self._reason
            face, ink, edge = (look.main, look.on_main, look.main) if on else (look.leaf, look.ink, look.line)
            button.style = button_style(look, face, ink, edge, padding=ft.Padding.symmetric(horizontal=GRID, vertical=16 if look.big else 0))
            button.content.color, self._marks[reason].selected = ink, on
        self._quote.value = model.on_the_order(self.check, self._reason, self._who.name)
        self._quoted.visible = bool(self._quote.value)
        ready = bool(self._quote.value)
        face, ink, edge = (look.main, look.on_main, look.main) if ready else (look.paper, look.ink2, look.line)
        self._main.style = button_style(look, face, ink, edge, LINE, ft.Padding.symmetric(horizontal=GRID, vertical=16 if look.big else 0))
        self._main.content.color = ink

    def _show(self) -> None:
        self._missing.visible = False
        self._set()
        self.update(*self._marks.values(), self._quoted, self._missing, self._main)

    # ---- what a tap does -----------------------------------------------------------------------------------------------
    def _pick(self, reason: str) -> None:
        self._own.box.value = ""
        self.update(self._own.control)
        self._write(reason)

    def _write(self, reason: str) -> None:
        self._reason = reason
        self.app.keep_draft_of("reason", reason)
        self._show()

    async def _keep(self, event: ft.Event[ft.Control]) -> None:
        wrong = model.refused_reason(self._reason) or self._who.refused()
        if wrong:
            self._missing.value, self._missing.visible = wrong, True
            self.update(self._missing)
            return
        if self._busy:
            return
        self._busy = True
        try:
            reason = " ".join(self._reason.split())
            await self.app.desk.keep_answer(self.id, self._who.name, **self._where, check=self.check, reason=reason)
        finally:
            self._busy = False
        self.app.keep_draft_of("reason", "")
        self.app.keep_draft_of("name", "")
        self.app.back()

    def on_change(self, topics: frozenset[str]) -> None:
        """What is being written stays; the query above it is read again when it is kept."""
