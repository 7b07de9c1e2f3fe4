"""The tape of a job: its marks and class, where it begins, how it is placed, what a laser is good for; or one used before."""

from __future__ import annotations

from typing import Any

import flet as ft

from fieldapp.parts.action import main_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.screens import new_model as model
from fieldapp.screens.form_words import NOT_FROM_HOOK
from fieldapp.screens.new_figures import FIGURES, shown
from fieldapp.screens.new_page import NewPage
from fieldapp.screens.preset_row import known_row, new_row
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say

USUAL_PLACING = "0.3 mm"


class TapeScreen(NewPage):
    """Every figure of it goes into the doubt of a span."""

    step = "name"
    row = "tape"

    def view(self) -> ft.Control:
        look, form = self.look, self.form
        marks = _with_own([(m, m) for m in model.TAPE_MARKS[form.units]], form.of("tape", "division"))
        classes = [(c, say(f"new.class_{c}")) for c in model.TAPE_CLASSES[form.units]]
        hooks = [("", say("new.from_hook")), (NOT_FROM_HOOK, say("new.not_from_hook"))]
        part = lambda words: inset(text(look, words, "note", look.ink2), top=MARGIN, bottom=4)  # noqa: E731
        placing = form.of("tape", "placing") or say("new.usual_placing", figure=USUAL_PLACING)
        work = [
            self.asks(say("new.tape"), say("new.tape_told")), *known_row(self, "tape"),
            part(say("new.marks")), Choice(look, marks, form.of("tape", "division"), self._choosing("division")).control,
            part(say("new.class")), Choice(look, classes, form.of("tape", "class") or "II", self._choosing("class"), stacked=False).control,
            part(say("new.begins")), Choice(look, hooks, form.of("tape", "from_hook"), self._choosing("from_hook"), stacked=look.big).control,
            gap(MARGIN), rule(look, look.line),
            open_row(look, FIGURES["placing"].name, placing, on_click=lambda _: self.to("figure", key="placing")),
            open_row(look, FIGURES["laser"].name, shown(form, "laser"), on_click=lambda _: self.to("figure", key="laser")), *new_row(self, "tape"), gap(GRID),
        ]  # fmt: skip
        return self.sheet(work, [main_action(look, say("new.limits_done"), lambda _: self.back())])

    def _choosing(self, key: str) -> Any:
        def choose(value: str) -> None:
            self.keep(self.form.say("tape", **{key: value}))
            self.app.redraw()

        return choose


def _with_own(options: list[tuple[str, str]], own: str) -> list[tuple[str, str]]:
    """A division that is none of the usual ones stays to be seen."""
    return options if not own or any(own == value for value, _ in options) else [*options, (own, own)]
