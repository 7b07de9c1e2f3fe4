"""What the pages of a new job share: the half-filled form, the way through as a strip of four bays, one width everywhere."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import sign_action
from fieldapp.parts.head import HEAD, Signal
from fieldapp.parts.page import page_sheet
from fieldapp.parts.run_strip import RunStrip
from fieldapp.parts.space import inset
from fieldapp.parts.text import heading, text
from fieldapp.parts.walk_stage import WIDEST
from fieldapp.screens import new_model as model
from fieldapp.screens.new_form import NewForm
from fieldapp.screens.runs_model import next_run
from fieldapp.screens.screen import Screen
from fieldapp.theme import Look
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App

PAGES = {"name": "new", "system": "new-system", "glass": "new-glass", "runs": "new-runs"}
_ADDRESS, _FORM, _UNITS = "/new", "form", "units"
_SIGNAL = 112
_STRIP = 28


class NewPage(Screen):
    """step: where in the way this page stands. Back leads to the page before; the form is kept at every answer."""

    step: model.Step = "name"
    title = say("new.title")
    up = ("new", {})

    def __init__(self, app: App) -> None:
        super().__init__(app)
        kept = app.draft_of(_FORM, _ADDRESS)
        self.form = NewForm.from_text(kept) if kept else NewForm.fresh(app.draft_of(_UNITS, _ADDRESS) or "in")

    @property
    def look(self) -> Look:
        """A page is no wider than a hand's work needs."""
        look = self.app.look
        return look.on(min(look.width, WIDEST))

    def keep(self, form: NewForm) -> None:
        """Take an answer; it is on the disk right after this press."""
        self.form = form
        self.app.keep_draft_of(_FORM, form.text if form.begun else "", _ADDRESS)

    def done(self) -> None:
        """The job is made: an empty form, in the same units."""
        self.app.keep_draft_of(_UNITS, self.form.units, _ADDRESS)
        self.keep(NewForm.fresh(self.form.units))

    def back(self) -> None:
        """To the page before, wherever the person came from."""
        name, params = self.up or ("jobs", {})
        self.app.go(name, **params)

    def go_to(self, step: model.Step) -> None:
        """To the first page of a step."""
        if step == "runs" and not self.form.runs:
            self.keep(next_run(self.form, ""))
        if step == "runs" and not self.form.runs[-1].said:
            self.app.go("new-run", number=len(self.form.runs) - 1)
        else:
            self.app.go(PAGES[step])

    def sheet(
        self, work: list[ft.Control], actions: list[ft.Control] | None = None, keys: bool = False, scrolls: bool = True
    ) -> ft.Control:
        """The page below its head."""
        look = self.look
        return self.framed(page_sheet(look, [self.head(), *work], actions, scrolls=scrolls, keys=keys))

    def framed(self, page: ft.Control) -> ft.Control:
        """In the middle of a wide screen."""
        side = (self.app.look.width - self.look.width) / 2
        return ft.Container(page, padding=ft.Padding.symmetric(horizontal=side), bgcolor=self.look.paper, expand=True)

    def head(self) -> ft.Control:
        """The way back; the four steps, each a button once it can be reached."""
        look = self.look
        signal = Signal(look, *self.app.signal)
        room = look.width - HEAD - (24 if look.big else _SIGNAL)
        bays = model.strip(self.form)
        now = say(f"new.step_{self.step}")
        strip = RunStrip(look, bays, room, _STRIP, now, on_bay=self._jump, says=model.strip_says(self.step))
        parts = [
            sign_action(look, ft.Icons.ARROW_BACK, say("app.back"), lambda _: self.back()),
            ft.Container(strip.control, padding=ft.Padding.only(top=4)), ft.Container(expand=True),
        ]  # fmt: skip
        parts += [] if look.big else [signal.control]
        row = ft.Row(parts, spacing=0, vertical_alignment=ft.CrossAxisAlignment.CENTER)
        return ft.Container(row, height=HEAD, padding=ft.Padding.only(left=4, right=12))

    def _jump(self, word: str) -> None:
        step = next(s for s in model.STEPS if say(f"new.step_{s}") == word)
        if model.STEPS.index(step) <= model.STEPS.index(model.reached(self.form)):
            self.go_to(step)

    def asks(self, question: str, told: str = "") -> ft.Control:
        """The page's question, one sentence below it."""
        lines: list[ft.Control] = [heading(self.look, question, "title")]
        if told:
            lines.append(text(self.look, told, "body", self.look.ink2))
        return inset(ft.Column(lines, spacing=0, tight=True), bottom=6)

    def on_change(self, topics: frozenset[str]) -> None:
        """What is being said here stays; nobody else says it."""
