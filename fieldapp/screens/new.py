"""A new job, its first page: what it is called, what the tape says, how fine the shop cuts."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import flet as ft

from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.row import open_row
from fieldapp.parts.sample_pictures import scale
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.parts.tile import Tiles
from fieldapp.screens import new_model as model
from fieldapp.screens.new_form import NewForm
from fieldapp.screens.new_page import NewPage
from fieldapp.theme import EDGE, GRID
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App


class NameScreen(NewPage):
    """A form that was left half filled is found again here. A job that is there keeps its units."""

    before = ""
    row = "name"

    def __init__(self, app: App, job: str = "") -> None:
        super().__init__(app, job)
        self._wrong = ""

    def view(self) -> ft.Control:
        look, form = self.look, self.form
        self._name = self.field(say("new.job"), form.of("job", "name"), lambda words: self._write("name", words), role="lead")
        self._name.show(self._wrong)
        site = self.field(say("new.site"), form.of("job", "site"), lambda words: self._write("site", words), say("new.site_hint"))
        units = [(u, say(f"new.units_{u}")) for u in ("in", "mm")]
        marks = [(m, m) for m in model.TAPE_MARKS[form.units]]
        classes = [(c, say(f"new.class_{c}")) for c in model.TAPE_CLASSES[form.units]]
        steps = [(s, say("new.to_step", step=s), scale(form.units, i + 1)) for i, s in enumerate(model.ORDER_STEPS[form.units])]
        backs = [(r, say(f"new.read_back_{r}")) for r in model.READ_BACKS]
        plumbs = [(p, say(f"new.plumb_{p}")) for p in model.PLUMBS]
        self._choices = {
            ("tape", "division"): Choice(look, marks, form.of("tape", "division"), self._choosing("tape", "division")),
            ("tape", "class"): Choice(look, classes, form.of("tape", "class"), self._choosing("tape", "class"), stacked=False),
            ("job", "order_step"): Tiles(look, steps, form.of("job", "order_step"), self._choosing("job", "order_step"), 2, 116),
            ("job", "read_back"): Choice(look, backs, form.of("job", "read_back") or "asked", self._choosing("job", "read_back")),
            ("job", "plumb"): Choice(look, plumbs, form.of("job", "plumb") or "no", self._choosing("job", "plumb")),
        }
        kept = ft.Row(
            [
                ft.Icon(ft.Icons.SAVE_OUTLINED, size=20, color=look.ink2),
                text(look, say("new.kept"), "body", look.ink2, expand=True),
            ],
            spacing=GRID,
        )
        part = lambda words: inset(text(look, words, "note", look.ink2), top=GRID, bottom=4)  # noqa: E731
        chosen = self._choices
        work = [
            self.asks(say("new.call"), say("new.call_told")), inset(self._name.control, EDGE, EDGE, bottom=GRID),
            inset(site.control, EDGE, EDGE), gap(20),
            *self._tape(units, part), gap(20),
            self.asks(say("new.fine"), say("new.fine_told")), chosen["job", "order_step"].control, gap(20),
            self.asks(say("new.read_back"), say("new.read_back_told")), chosen["job", "read_back"].control, gap(20),
            self.asks(say("new.plumb"), say("new.plumb_told")), chosen["job", "plumb"].control, gap(16), inset(kept),
        ]  # fmt: skip
        if not self.job:
            work += [gap(GRID), rule(look), open_row(look, say("new.head"), sentence=say("new.head_told"), on_click=lambda _: self.to("head"), least=0)]
        if form.begun and not self.job:
            work += [gap(GRID), inset(small_action(look, say("new.over"), lambda _: self._over()), EDGE, EDGE)]
        label = say("change.so" if self.job else "new.to_system")
        return self.sheet([*work, gap(GRID)], [main_action(look, label, lambda _: self._next(), onward=not self.job)])

    def _tape(self, units: list[tuple[str, str]], part: Callable[[str], ft.Control]) -> list[ft.Control]:
        """The tape's own page has the rest; in a job that is there it has all of it."""
        if self.job:
            return []
        look, chosen = self.look, self._choices
        more = open_row(look, say("new.more_tape"), sentence=say("new.more_tape_told"), on_click=lambda _: self.to("tape"), least=0)
        return [
            self.asks(say("new.tape")), Choice(look, units, self.form.units, self._units, height=64).control,
            part(say("new.marks")), chosen["tape", "division"].control,
            part(say("new.class")), chosen["tape", "class"].control, gap(GRID), rule(look), more,
        ]  # fmt: skip

    def _write(self, key: str, words: str) -> None:
        self.keep(self.form.say("job", **{key: words}))
        if key == "name" and self._wrong and not model.refused_name(words):
            self._wrong = ""
            self._name.show()
            self.update(self._name.control)

    def _choosing(self, part: str, key: str) -> Any:
        def choose(value: str) -> None:
            self.keep(self.form.say(part, **{key: value}))
            choice = self._choices[part, key]
            choice.show(value)
            self.update(choice.control)

        return choose

    def _units(self, units: str) -> None:
        self.keep(self.form.in_units(units))
        self.app.redraw()

    def _over(self) -> None:
        self.keep(NewForm.fresh(self.form.units))
        self._wrong = ""
        self.app.redraw()

    def _next(self) -> None:
        self._wrong = model.missing(self.form, "name")
        if self._wrong:
            self._name.show(self._wrong)
            self.update(self._name.control)
        elif self.job:
            self.back()
        else:
            self.go_to("system")
