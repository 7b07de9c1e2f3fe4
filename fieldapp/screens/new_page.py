"""What the pages of a job's plan share, whether it is new or there already: the form, the head, and their place on the screen.

A new job's half-filled form is a draft of this device; in a job that is there the same pages change the draft of its plan
(plan_change.py). On a wide screen the whole plan stands at the left, the page that asks at the right.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import flet as ft

from fieldapp.parts.action import main_action, sign_action
from fieldapp.parts.field import Field
from fieldapp.parts.head import HEAD, Signal, title_head
from fieldapp.parts.page import DETAIL, Spread, page_sheet
from fieldapp.parts.run_strip import RunStrip
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import heading, text
from fieldapp.parts.walk_stage import WIDEST
from fieldapp.screens import new_model as model
from fieldapp.screens.change_overview import change_overview
from fieldapp.screens.form_words import changed_words, form_of
from fieldapp.screens.new_form import NewForm
from fieldapp.screens.new_overview import new_overview
from fieldapp.screens.plan_change import PlanChange
from fieldapp.screens.runs_model import next_run
from fieldapp.screens.screen import Screen
from fieldapp.theme import GRID, MARGIN, Look, SizeRole
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_ADDRESS, _FORM, _UNITS = "/new", "form", "units"
_SIGNAL = 112
_STRIP = 28


class NewPage(Screen):
    """job: the one whose plan is changed; empty for a new one. Every answer is kept at once.

    step: where in the way of a new job this page stands. before: the page that Back leads to there (empty: the jobs).
    above: the same while a plan is changed (empty: the plan). row: of the plan's overview that it belongs to.
    """

    step: model.Step = "name"
    before = "name"
    above = ""
    row = ""
    title = say("new.title")

    def __init__(self, app: App, job: str = "") -> None:
        super().__init__(app)
        self.job = job
        self.change: PlanChange | None = None
        if job:
            self.title = say("change.title")
            self.change = PlanChange(app, job)
            self.form = form_of(self.change.now)
        else:
            kept = app.draft_of(_FORM, _ADDRESS)
            self.form = NewForm.from_text(kept) if kept else NewForm.fresh(app.draft_of(_UNITS, _ADDRESS) or "in")
        self.up = self.at(self.above if job else self.before)
        self._overview: ft.Column | None = None
        self._aside: list[ft.Control] = []

    @property
    def look(self) -> Look:
        """A page is no wider than a hand's work needs; on a wide screen it is the right one of two."""
        look = self.app.look
        return look.on(DETAIL, look.height - HEAD) if look.wide else look.on(min(look.width, WIDEST))

    @property
    def plan_change(self) -> PlanChange:
        """The plan that is being changed; only pages of a job that is there ask for it."""
        if self.change is None:
            raise SpanbookError(say("app.no_such_page"))
        return self.change

    def keep(self, form: NewForm) -> None:
        """Take an answer; it is on the disk right after this press."""
        self.form = form
        if self.change is not None:
            self.change.keep(changed_words(self.change.now, form))
        else:
            self.app.keep_draft_of(_FORM, form.text if form.begun else "", _ADDRESS)
        if self._overview is not None:
            self._overview.controls = self._left()
            self.update(self._overview)

    def done(self) -> None:
        """The job is made: an empty form, in the same units."""
        self._overview = None
        self.app.keep_draft_of(_UNITS, self.form.units, _ADDRESS)
        self.keep(NewForm.fresh(self.form.units))

    # ---- where ---------------------------------------------------------------------------------------------------------
    def at(self, page: str, **params: str) -> tuple[str, dict[str, str]]:
        """A page of the plan by its short name, as a route and its parameters; empty for what lies above all of them."""
        if self.job:
            return (f"change-{page}" if page else "plan", {**params, "job": self.job})
        return ("jobs" if not page else "new" if page == "name" else f"new-{page}", params)

    def to(self, page: str, **params: object) -> None:
        """Go to a page of the plan."""
        name, found = self.at(page, **{k: str(v) for k, v in params.items()})
        self.app.go(name, **found)

    def back(self) -> None:
        """To the page above, wherever the person came from: going up is no step further on."""
        name, params = self.up or ("jobs", {})
        self.app.up(name, **params)

    def go_to(self, step: model.Step) -> None:
        """To the first page of a step of a new job."""
        if step == "runs" and not self.form.runs:
            self.keep(next_run(self.form, ""))
        if step == "runs" and not self.form.runs[-1].said:
            self.app.go("new-run", number=len(self.form.runs) - 1)
        else:
            self.to(step)

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def sheet(
        self, work: list[ft.Control], actions: list[ft.Control] | None = None, keys: bool = False, scrolls: bool = True
    ) -> ft.Control:
        """The page below its head."""
        paper = self.look.leaf if self.app.look.wide else None
        return self.framed(page_sheet(self.look, [*self.tops(), *work], actions, scrolls=scrolls, keys=keys, paper=paper))

    def framed(self, page: ft.Control) -> ft.Control:
        """In its place: beside the whole plan on a wide screen, else in the middle."""
        full = self.app.look
        if full.wide:
            self._overview = column(self._left())
            aside = [gap(MARGIN), *self._aside, gap(MARGIN)] if self._aside else []
            left = [*aside, self._overview] if self.job else [self._overview, *aside]
            return Spread(full, self.head(), left, page).control
        side = (full.width - self.look.width) / 2
        return ft.Container(page, padding=ft.Padding.symmetric(horizontal=side), bgcolor=full.paper, expand=True)

    def beside(self, picture: ft.Control) -> list[ft.Control]:
        """A page's picture: in the page itself, or large on the left one of two. To be called while the page is built."""
        self._aside = [picture] if self.app.look.wide else []
        return [] if self._aside else [picture]

    @property
    def picture_width(self) -> float:
        """The room that `beside` has."""
        return self.app.look.width - DETAIL if self.app.look.wide else self.look.width

    def _left(self) -> list[ft.Control]:
        """The whole plan so far."""
        look = self.app.look.on(self.app.look.width - DETAIL)
        if self.change is not None:
            return change_overview(self.app, look, self.change, self.opened(), picture=not self._aside)
        return new_overview(look, self.form, self.step, self._jump_to, picture=not self._aside)

    def opened(self) -> str:
        """The row of the plan's overview that is open at the right."""
        return self.row

    def tops(self) -> list[ft.Control]:
        """The head, where it stands on this page and not across both."""
        return [] if self.app.look.wide else [self.head()]

    def head(self) -> ft.Control:
        """The way back; the four steps of a new job, each a button once it can be reached, or the name of the job."""
        back = lambda _: self.back()  # noqa: E731
        if self.change is not None:
            return title_head(self.app.look, say("change.title"), self.change.live.name, say("app.back"), back)
        look = self.app.look if self.app.look.wide else self.look
        signal = Signal(look, *self.app.signal)
        room = min(look.width, WIDEST) - HEAD - (24 if look.big else _SIGNAL)
        now = say(f"new.step_{self.step}")
        strip = RunStrip(look, model.strip(self.form), room, _STRIP, now, on_bay=self._jump, says=model.strip_says(self.step))
        parts = [
            sign_action(look, ft.Icons.ARROW_BACK, say("app.back"), back),
            ft.Container(strip.control, padding=ft.Padding.only(top=4)), ft.Container(expand=True),
        ]  # fmt: skip
        parts += [] if look.big else [signal.control]
        row = ft.Row(parts, spacing=0, vertical_alignment=ft.CrossAxisAlignment.CENTER)
        return ft.Container(row, height=HEAD, padding=ft.Padding.only(left=4, right=12))

    def _jump(self, word: str) -> None:
        self._jump_to(next(s for s in model.STEPS if say(f"new.step_{s}") == word))

    def _jump_to(self, step: model.Step) -> None:
        if model.STEPS.index(step) <= model.STEPS.index(model.reached(self.form)):
            self.go_to(step)

    def asks(self, question: str, told: str = "") -> ft.Control:
        """The page's question, one sentence below it."""
        lines: list[ft.Control] = [heading(self.look, question, "title")]
        if told:
            lines.append(text(self.look, told, "body", self.look.ink2))
        return inset(ft.Column(lines, spacing=0, tight=True), top=GRID if self.app.look.wide else 0, bottom=6)

    def field(self, label: str, value: str, write: Callable[[str], object], hint: str = "", role: SizeRole = "body", **more: Any) -> Field:
        """A field whose words are taken at each letter; real keys go to it while it has the keyboard."""
        return Field(
            self.look, label, value, hint, role, on_change=lambda e: write(e.control.value or ""), on_focus=self.app.field_on,
            on_blur=self.app.field_off, **more,
        )  # fmt: skip

    def onward(self, label: str, step: model.Step, height: float = 72) -> ft.Button:
        """The main action: on to the next step of a new job, back to the plan while one is changed."""
        if self.job:
            return main_action(self.look, say("change.so"), lambda _: self.back(), height=height)
        return main_action(self.look, label, lambda _: self.go_to(step), onward=True, height=height)

    def on_change(self, topics: frozenset[str]) -> None:
        """What is being said here stays; nobody else says it."""
