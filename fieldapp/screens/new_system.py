"""Which posts: systems that the crew used before, or another one by its six figures."""

from __future__ import annotations

import flet as ft

from fieldapp.parts.action import action
from fieldapp.parts.post_section import section_picture
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.parts.verdict import sign
from fieldapp.screens import system_model as model
from fieldapp.screens.form_words import form_of
from fieldapp.screens.new_figures import SIX
from fieldapp.screens.new_page import NewPage
from fieldapp.screens.preset_row import known_row
from fieldapp.screens.presets_model import name_of
from fieldapp.screens.section_words import section_words
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say

_MOST_JOBS = 4


class SystemScreen(NewPage):
    """A system whose figures nobody confirmed wears the dashed sign."""

    step = "system"
    above = "sheet"
    row = "sheet"

    def view(self) -> ft.Control:
        look = self.look
        rows = [self._row(row) for row in self._known()]
        if model.six_said(self.form) and not name_of(self.form, "system", self.app.desk.presets("system")):
            rows.insert(0, self._own())
        begun = any(self.form.of("system", key) for key in SIX) and not model.six_said(self.form)
        label = say("new.go_on_six" if begun else "new.another" if rows else "new.type_six")
        if not rows:
            rows = [inset(text(look, say("new.none_known"), "body", look.ink2), top=MARGIN)]
        work = [
            self.asks(say("new.which"), say("new.which_told")), *self.beside(self._picture()),
            gap(4), rule(look, look.line), *rows, *known_row(self, "system"), gap(GRID),
        ]  # fmt: skip
        # In a job that is there the six figures are changed on the sheet's page, one by one: they are never all gone.
        return self.sheet(work, [] if self.job else [action(look, label, lambda _: self._another(), height=64)])

    def _picture(self) -> ft.Control:
        return section_picture(self.look, model.drawn(self.form), None, section_words(), self.picture_width, say("new.section_plain"))

    def _known(self) -> list[model.PresetRow]:
        desk = self.app.desk
        of_jobs = []
        for card in desk.jobs()[:_MOST_JOBS]:
            words = desk.words(card.id)
            of_jobs.append((card.name, form_of(words).system))
        return model.preset_rows(desk.presets("system"), of_jobs)

    def _own(self) -> ft.Control:
        name = self.form.of("system", "name") or say("new.unnamed")
        confirmed = model.complete(self.form.system.get("confirmed") or {})
        return self._line(say("new.this_system", system=name), say("new.this_told"), confirmed, lambda: self.to("sheet"))

    def _row(self, row: model.PresetRow) -> ft.Control:
        return self._line(row.name, row.sentence, row.confirmed, lambda: self._choose(row))

    def _line(self, name: str, sentence: str, confirmed: bool, tap: object) -> ft.Control:
        mark = sign(self.look, "clear" if confirmed else "todo", 44, 32)
        return open_row(self.look, name, sentence=sentence, picture=mark, on_click=lambda _: tap(), least=0)

    def _choose(self, row: model.PresetRow) -> None:
        self.keep(model.chosen(self.form, row.system))
        self.to("sheet")

    def _another(self) -> None:
        if model.six_said(self.form):
            self.keep(model.chosen(self.form, {}))
        first = next(key for key in SIX if not self.form.of("system", key))
        self.to("figure", key=first)
