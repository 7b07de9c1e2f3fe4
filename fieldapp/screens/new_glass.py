"""The glass of a new job: thickness by its edge, kind, height, how close the shop cuts; then limits and words where wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.post_pictures import pane_edge
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.parts.tile import Tiles
from fieldapp.screens import glass_model as model
from fieldapp.screens.new_figures import FIGURES, shown
from fieldapp.screens.new_page import NewPage
from fieldapp.screens.preset_row import known_row, new_row
from fieldapp.screens.words_page import WordsPage
from fieldapp.theme import GRID
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_LIMITS = ("plan_tolerance", "second_tape", "lean", "slope", "slope_step")


class GlassScreen(NewPage):
    """Thickness and kind are chosen; height and tolerance are asked; the rest has a default or may be left out."""

    step = "glass"
    before = "sheet"
    row = "glass"

    def view(self) -> ft.Control:
        look, form = self.look, self.form
        tiles = [(t, t, pane_edge(float(t.split()[0]))) for t in model.THICKNESSES]
        self._thick = Tiles(look, tiles, form.of("glass", "thickness"), self._thickness, 3, 128)
        kinds = [
            (k, say({"clear": "new.glass_clear", "frosted": "new.glass_frosted_face", "hole": "new.glass_hole"}[k]))
            for k in model.KINDS
        ]
        self._kinds = Choice(look, kinds, model.kind(form) or None, self._kind, height=56)
        self._handed = text(look, model.handed(form), "body", look.ink2)
        self._wrong = text(look, "", "body", look.hold, bold=True, visible=False)
        rows = [self._figure("height"), self._figure("size_tolerance"), *(self._words(k) for k in (*model.WORDS, *model.MORE_WORDS))]
        if not self.job:
            rows.append(open_row(look, say("new.limits"), "", model.limits_said(form), on_click=lambda _: self.to("limits"), least=0))
        work = [
            self.asks(say("new.what_glass"), say("new.glass_told")), *known_row(self, "glass"), gap(GRID),
            self._thick.control, gap(GRID),
            self._kinds.control,
            inset(self._handed, top=6, bottom=6), inset(self._wrong), rule(look, look.line), self._other_thickness(),
            *rows, *new_row(self, "glass"), inset(text(look, model.usual_mass(form), "body", bold=True), top=12, bottom=GRID),
        ]  # fmt: skip
        label = say("change.so" if self.job else "new.to_runs")
        return self.sheet(work, [main_action(look, label, lambda _: self._next(), onward=not self.job)])

    def _figure(self, key: str, name: str = "") -> ft.Control:
        return open_row(
            self.look, name or FIGURES[key].name, shown(self.form, key), on_click=lambda _: self.to("figure", key=key)
        )

    def _other_thickness(self) -> ft.Control:
        """One that has no tile; its figure stands here only then."""
        value = self.form.of("glass", "thickness")
        figure = "" if value in model.THICKNESSES else value
        return open_row(
            self.look, say("new.other_thickness"), figure, on_click=lambda _: self.to("figure", key="thickness")
        )

    def _words(self, key: str) -> ft.Control:
        value = self.form.of("glass", key) or say("new.not_said")
        return open_row(self.look, say(f"new.{key}"), value, on_click=lambda _: self.to("words", key=key))

    def _thickness(self, value: str) -> None:
        self.keep(self.form.say("glass", thickness=value))
        self.app.redraw()

    def _kind(self, value: str) -> None:
        self.keep(model.with_kind(self.form, value))
        self._kinds.show(value)
        self._handed.value = model.handed(self.form)
        self.update(self._kinds.control, self._handed)

    def _next(self) -> None:
        wrong = model.missing(self.form)
        if wrong:
            self._wrong.value, self._wrong.visible = wrong, True
            self.update(self._wrong)
            self.app.tell(wrong)
        elif self.job:
            self.back()
        else:
            self.go_to("runs")


class WordsScreen(WordsPage):
    """One of the glass's words. key: of `WORDS` or `MORE_WORDS` of the model."""

    step = "glass"
    before = above = "glass"
    row = "glass"

    def __init__(self, app: App, key: str, job: str = "") -> None:
        super().__init__(app, job)
        if key not in (*model.WORDS, *model.MORE_WORDS):
            raise SpanbookError(say("new.not_asked"))
        self._key = key
        self.begin(self.form.of("glass", key))

    def asked(self) -> tuple[str, str]:
        return say(f"new.{self._key}"), ""

    def ready(self) -> list[tuple[str, str | None]]:
        return [(words, words) for words in model.OFFERED[self._key]]

    def take(self, words: str | None) -> None:
        self.keep(model.with_words(self.form, self._key, words or ""))
        self.back()


class LimitsScreen(NewPage):
    """What is let through without a question, and what the shop can make. What is left out is not checked."""

    step = "glass"
    before = "glass"
    row = "limits"

    def view(self) -> ft.Control:
        look = self.look
        rows = [self._row(key) for key in _LIMITS]
        shop = [self._row(key) for key in model.OPTIONAL]
        work = [
            self.asks(say("new.limits_title"), say("new.limits_told")), rule(look, look.line), *known_row(self, "limits"), *rows, gap(16),
            self.asks(say("new.shop")), rule(look, look.line), *shop, *new_row(self, "limits"), gap(GRID),
        ]  # fmt: skip
        return self.sheet(work, [main_action(look, say("new.limits_done"), lambda _: self.back())])

    def _row(self, key: str) -> ft.Control:
        to = lambda _: self.to("figure", key=key)  # noqa: E731
        if key != "slope_step":
            return open_row(self.look, FIGURES[key].name, shown(self.form, key), on_click=to)
        figure = shown(self.form, key) if self.form.of("limits", key) else say("new.usual_slope_step")
        return open_row(self.look, FIGURES[key].name, figure, say("new.slope_step_told"), on_click=to, least=0)
