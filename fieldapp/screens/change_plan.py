"""Change the plan of a job that is there: tap a bay, say what stands in it; kept together as a new version, with a name."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.head import title_head
from fieldapp.parts.page import page_sheet
from fieldapp.parts.plan_picture import PlanBay, PlanPicture, PlanRun, PlanWords
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.parts.walk_stage import WIDEST
from fieldapp.screens import change_plan_model as model
from fieldapp.screens import settings_model
from fieldapp.screens.name_pick import NamePick
from fieldapp.screens.review_model import review
from fieldapp.screens.screen import Screen
from fieldapp.screens.walk_model import names_offered
from fieldapp.theme import GRID, MARGIN, Look
from fieldapp.words import say
from measure.errors import DocumentError

if TYPE_CHECKING:
    from fieldapp.app import App

_PARTS = ("glass", "status", "shape")
_MOST_IN_PICTURE = 60
_MOST_TOLD = 3
_HEIGHT, _LOW_HEIGHT = 280, 200


class ChangePlanScreen(Screen):
    """Changes are a draft until the main action; readings stay whatever the plan becomes."""

    title = say("change.title")

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app)
        self.id, self.live = job, app.desk.job(job)
        self.up = ("review", {"job": job})
        self._words = app.desk.words(job)
        self._of = {bay["tag"]: bay for bay in self._words["bays"]}
        self._changes = model.Changes.from_text(app.draft, self._of)
        kept = app.draft_of("bay")
        self._tag = kept if kept in self._of else ""
        self._busy = False

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def view(self) -> ft.Control:
        look = self.app.look.on(min(self.app.look.width, WIDEST))
        crew = [p.name for p in settings_model.crew_of(self.app.desk.setting("crew", []))]
        self._who = NamePick(self.app, names_offered(self.live, crew), say("change.who"), lambda: None, self.app.person)
        self._wrong = text(look, "", "body", look.hold, bold=True, visible=False)
        head = title_head(look, say("change.title"), self.live.name, say("app.back"), lambda _: self.app.back())
        work = [
            head, inset(text(look, say("change.told"), "body", look.ink2), bottom=6), *self._plan(look), *self._bay(look),
            rule(look, look.line),
            inset(text(look, model.told(self._changes), "body", bold=True), top=GRID, bottom=GRID), self._who.control,
            inset(self._wrong, top=GRID), gap(MARGIN),
        ]  # fmt: skip
        page = page_sheet(look, work, [main_action(look, say("change.keep"), self._keep)])
        side = (self.app.look.width - look.width) / 2
        return ft.Container(page, padding=ft.Padding.symmetric(horizontal=side), bgcolor=look.paper, expand=True)

    def _plan(self, look: Look) -> list[ft.Control]:
        """The plan to tap in; a long railing as a list of its bays."""
        if len(self._of) > _MOST_IN_PICTURE:
            return [open_row(look, tag, on_click=lambda _, t=tag: self._tap(t), lit=tag == self._tag) for tag in self._of]
        picture = PlanPicture(
            look, look.width, _LOW_HEIGHT if look.low else _HEIGHT, PlanWords(say("review.deck"), say("review.wall")), self._tap
        )
        found = review(self.live)
        runs = []
        for run in found.plan:
            bays = []
            for bay in run.bays:
                glass = model.now(self._of[bay.tag], self._changes, "glass") != "none"
                word = "" if glass else bay.tag
                bays.append(PlanBay(bay.tag, bay.spacing, bay.sign, glass, word, bay.says))
            runs.append(PlanRun(run.name, tuple(bays), run.turn, run.left, run.right))
        picture.show(runs, found.plan_says, chosen=self._tag or None)
        return [picture.control, gap(GRID)]

    def _bay(self, look: Look) -> list[ft.Control]:
        if not self._tag:
            return []
        bay = self._of[self._tag]
        rows: list[ft.Control] = [inset(text(look, self._tag, "lead", bold=True), bottom=6)]
        for part in _PARTS:
            if part != "glass" and model.now(bay, self._changes, "glass") == "none":
                continue
            say_part = lambda word, part=part: self._change(part, word)  # noqa: E731
            rows += [
                Choice(look, model.options(part), model.now(bay, self._changes, part), say_part, height=56).control,
                gap(GRID),
            ]
        return rows

    # ---- what a tap does -----------------------------------------------------------------------------------------------
    def _tap(self, tag: str) -> None:
        self._tag = tag
        self.app.keep_draft_of("bay", tag)
        self.app.redraw()

    def _change(self, part: str, word: str) -> None:
        self._changes = model.change(self._of[self._tag], self._changes, part, word)
        self.app.keep_draft(self._changes.text)
        self.app.redraw()

    async def _keep(self, event: ft.Event[ft.Control]) -> None:
        wrong = say("change.nothing") if not self._changes.bays else self._who.refused()
        if wrong or self._busy:
            self._tell(wrong)
            return
        self._busy = True
        try:
            # As it is now: somebody else may have changed another part of the plan since this page was opened.
            words = model.changed(self.app.desk.words(self.id), self._changes)
            await self.app.desk.keep_plan(self.id, words, self._who.name)
        except DocumentError as refused:
            self._tell("\n".join(str(p) for p in refused.problems[:_MOST_TOLD]))
            return
        finally:
            self._busy = False
        for name in ("", "bay", "name"):
            self.app.keep_draft_of(name, "")
        self.app.back()

    def _tell(self, wrong: str) -> None:
        self._wrong.value, self._wrong.visible = wrong, bool(wrong)
        self.update(self._wrong)

    def on_change(self, topics: frozenset[str]) -> None:
        """The plan under the changes is read anew when they are kept; what was chosen here stays."""
