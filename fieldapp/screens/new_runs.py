"""The whole plan of a new job: tap a bay to leave its glass out, add a run, and go to the first bay."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action, side_by_side, small_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.plan_picture import PlanPicture, PlanWords
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.screens import new_model, presets_model
from fieldapp.screens import runs_model as model
from fieldapp.screens.new_form import NewForm
from fieldapp.screens.new_page import NewPage
from fieldapp.theme import GRID, Look
from fieldapp.words import say
from measure.documents import read_words
from measure.errors import DocumentError, SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_MOST_TOLD = 3
_HEIGHT, _LOW_HEIGHT, _FLAT_HEIGHT, _WIDE_HEIGHT = 300, 220, 150, 400


def _height(look: Look, form: NewForm) -> float:
    """Of the plan: a straight railing needs little."""
    return _FLAT_HEIGHT if model.straight(form) else _LOW_HEIGHT if look.low else _HEIGHT


class RunsScreen(NewPage):
    """Nothing is chosen before a bay is tapped."""

    step = "runs"
    before = "glass"

    def __init__(self, app: App, job: str = "") -> None:
        super().__init__(app, job)
        if not self.form.runs or not self.form.runs[-1].said:
            raise SpanbookError(say("new.run_first"))
        self._sums = model.sums(self.form)
        self._chosen = app.draft_of("bay")
        self._busy = False

    def view(self) -> ft.Control:
        look, form = self.look, self.form
        self._sums = model.sums(form)
        height = _WIDE_HEIGHT if self.app.look.wide and not model.straight(form) else _height(look, form)
        picture = PlanPicture(look, self.picture_width, height, PlanWords(say("new.deck"), say("new.wall")), self._tap)
        says = say("new.whole_plan_says", bays=self._sums.bays, panels=self._sums.panels)
        picture.show(model.drawn(form), says, chosen=self._chosen or None)
        last = model.run_name(len(form.runs) - 1)
        work = [
            self.asks(say("new.is_this"), say("new.is_this_told")), *self.beside(picture.control), gap(GRID), *self._bay(),
            rule(look, look.line), gap(GRID),
            *self._totals(), gap(GRID), rule(look), *(self._run(i) for i in range(len(form.runs))), gap(GRID),
        ]  # fmt: skip
        pair = [small_action(look, say("new.add_run"), lambda _: self._add())] if len(form.runs) < len(model.NAMES) else []
        pair.append(small_action(look, say("new.take_off", run=last), lambda _: self._off()))
        return self.sheet(work, [main_action(look, say("new.plan_right"), self._begin), side_by_side(look, *pair)])

    def _bay(self) -> list[ft.Control]:
        look, tag = self.look, self._chosen
        if not tag:
            return []
        spacing, sentence = model.bay_line(self.form, tag)
        line = [text(look, tag, "lead", bold=True), text(look, spacing, "lead"), text(look, say("new.middle"), "note", look.ink2)]
        options = [(w, say(f"new.{w}")) for w in (model.PANEL, model.NONE)]
        return [
            inset(ft.Row(line, spacing=10, wrap=True), bottom=6),
            Choice(look, options, model.what_stands(self.form, tag), self._make, height=56).control,
            inset(text(look, sentence, "body", look.ink2), top=6, bottom=10),
        ]

    def _totals(self) -> list[ft.Control]:
        look, sums = self.look, self._sums
        counts = [text(look, s, "lead", bold=True) for s in (sums.bays, sums.panels, sums.posts)]
        row = ft.Row(counts, alignment=ft.MainAxisAlignment.SPACE_BETWEEN, wrap=True)
        return [inset(row), inset(text(look, sums.kinds, "body", look.ink2))]

    def _run(self, number: int) -> ft.Control:
        run = self.form.runs[number]
        value = model.told(self.form, run).sentence if run.by == "length" else f"{run.bays} × {run.spacing}"
        name = say("new.run", run=model.run_name(number))
        opened = lambda _: self.to("run", number=number)  # noqa: E731
        return open_row(
            self.look, name, "" if run.by == "length" else value, value if run.by == "length" else "", on_click=opened
        )

    # ---- what a tap does -----------------------------------------------------------------------------------------------
    def _tap(self, tag: str) -> None:
        self._chosen = tag
        self.app.keep_draft_of("bay", tag)
        self.app.redraw()

    def _make(self, what: str) -> None:
        self.keep(model.with_bay(self.form, self._chosen, what))
        self.app.redraw()

    def _add(self) -> None:
        number = len(self.form.runs)
        if self.form.runs[-1].right == "wall":
            self.keep(model.next_run(self.form, ""))
            self.to("run", number=number)
        else:
            self.to("turn", number=number)

    def _off(self) -> None:
        self.keep(model.without_last(self.form))
        self._chosen = ""
        self.app.keep_draft_of("bay", "")
        if self.form.runs:
            self.app.redraw()
        else:
            self.go_to("runs")

    async def _begin(self, event: ft.Event[ft.Control]) -> None:
        """The job is made; on to its first bay."""
        lacking = next((s for s in new_model.STEPS if new_model.missing(self.form, s)), None)
        if lacking:
            self.app.tell(new_model.missing(self.form, lacking))
            self.go_to(lacking)
        elif not self._busy:
            self._busy = True
            try:
                await self._make_job()
            except DocumentError as refused:
                self.app.tell("\n".join(str(p) for p in refused.problems[:_MOST_TOLD]))
            finally:
                self._busy = False

    async def _make_job(self) -> None:
        words = new_model.job_words(self.form)
        first = next((bay.tag for bay in read_words(words).job().bays if bay.has_glass), None)
        if first is None:
            self.app.tell(say("new.no_bay_with_glass"))
            return
        id = await self.app.desk.add_job(words)
        known = {kind: self.app.desk.presets(kind) for kind in presets_model.KINDS}
        for kind, (name, kept) in presets_model.of_new_job(self.form, known).items():
            await self.app.desk.keep_preset(kind, name, kept)
        self.app.keep_draft_of("bay", "")
        self.done()
        self.app.follow("jobs")  # Back leads there, not into a form that is empty now
        self.app.go("walk", job=id, bay=first)
