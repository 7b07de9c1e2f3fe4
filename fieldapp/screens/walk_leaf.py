"""Leaves in the place of the keys: which way the tape lay, and who measures. Nothing is chosen beforehand."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import flet as ft

from fieldapp.parts import taken_pictures
from fieldapp.parts.action import action, main_action
from fieldapp.parts.field import Field
from fieldapp.parts.leaf import over_leaf
from fieldapp.parts.page import page_sheet
from fieldapp.parts.question_lines import QuestionLines
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import text
from fieldapp.parts.tile import Tiles
from fieldapp.theme import EDGE, GRID, Look
from fieldapp.words import say

_TILE = 176


def lay_leaf(look: Look, tag: str, pick: Callable[[str], object]) -> ft.Control:
    """Above 3 % slope: level or along? A tap keeps it."""
    lines = QuestionLines(look)
    lines.show(tag, say("walk.lay"), say("walk.lay_where"))
    options = [
        ("level", say("walk.lay_level"), taken_pictures.level_lay), ("along", say("walk.lay_along"), taken_pictures.along_lay),
    ]  # fmt: skip
    tiles = Tiles(look, options, None, pick, 2, _TILE)
    told = inset(text(look, say("walk.lay_told"), "body", look.ink2), top=GRID, bottom=GRID)
    leaf = over_leaf(look, say("walk.lay_leaf"), [tiles.control, told])
    return page_sheet(look, [_asked(look, lines), leaf], ground=look.leaf)


def _asked(look: Look, lines: QuestionLines) -> ft.Control:
    """The question stays on paper; the leaf runs down to the foot."""
    return ft.Container(column([lines.control, gap(GRID)]), bgcolor=look.paper)


class WhoLeaf:
    """Who measures: names to tap, or a name to write. field: the words being written."""

    def __init__(
        self, look: Look, tag: str, names: Sequence[str], pick: Callable[[str], object], on_focus: Callable[[ft.Event], None],
        on_blur: Callable[[ft.Event], None], wrote: Callable[[str], None], written: str,
    ) -> None:  # fmt: skip
        self._pick = pick
        lines = QuestionLines(look)
        lines.show(tag, say("walk.who"), say("walk.who_where"))
        self.field = Field(
            look, say("walk.who_own" if names else "walk.who_first"), written, say("walk.who_hint"), on_focus=on_focus, on_blur=on_blur,
            on_change=lambda e: wrote(e.control.value or ""), on_submit=lambda _: self._own(), autofocus=not names,
        )  # fmt: skip
        plates = [action(look, name, lambda _, n=name: pick(n), height=56, role="body") for name in names]
        body: list[ft.Control] = [inset(column(list(plates), GRID), EDGE, EDGE)] if plates else []
        leaf = over_leaf(look, say("walk.who_leaf"), [*body, inset(self.field.control, EDGE, EDGE, top=GRID)])
        mine = main_action(look, say("walk.who_mine"), lambda _: self._own(), height=64)
        self.control = page_sheet(look, [_asked(look, lines), leaf], [mine], ground=look.leaf)

    def _own(self) -> None:
        self._pick(self.field.box.value or "")
