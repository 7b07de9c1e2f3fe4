"""How far a panel may turn in the grooves of each kind of post, and about which line: from the maker's sheet."""

from __future__ import annotations

import flet as ft

from fieldapp.parts.action import main_action
from fieldapp.parts.post_pictures import turn_in_groove
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.stroke import drawing
from fieldapp.parts.text import text
from fieldapp.screens.new_figures import FIGURES, TURNING, shown
from fieldapp.screens.new_page import NewPage
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say

_HEIGHT = 190


class TurningScreen(NewPage):
    """A kind of post that nothing is said of is not checked for turn."""

    step = "system"
    before = above = "sheet"
    row = "sheet"

    def view(self) -> ft.Control:
        look = self.look
        width = self.picture_width
        each = self.form.of("system", "turning_corner_each")
        picture = drawing(turn_in_groove(look, width, _HEIGHT, float(each or 0)), width, _HEIGHT, say("new.turning_says"))
        work: list[ft.Control] = [self.asks(say("new.turning_asks"), say("new.turning_told")), *self.beside(picture), gap(GRID), rule(look, look.line)]
        for kind, grooves in TURNING.items():
            work.append(self._row(f"turning_{kind}_each"))
            if grooves:
                work.append(self._row(f"turning_{kind}_grooves", say("new.usual_grooves", degrees=grooves)))
        work += [gap(MARGIN), rule(look, look.line), self._row("turn_axis")]
        work += [inset(text(look, say("new.turn_axis_told"), "note", look.ink2), top=6), gap(MARGIN)]
        return self.sheet(work, [main_action(look, say("new.limits_done"), lambda _: self.back())])

    def _row(self, key: str, usual: str = "") -> ft.Control:
        value = usual if usual and not self.form.of("system", key) else shown(self.form, key)
        return open_row(self.look, FIGURES[key].name, value, on_click=lambda _: self.to("figure", key=key))
