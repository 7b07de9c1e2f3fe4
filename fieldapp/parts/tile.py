"""A picture to choose by, its word below. Chosen: the word in solid ink, a 3 px ink edge (never yellow: that is the tape's)."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

import flet as ft

from fieldapp.parts.action import button_style
from fieldapp.parts.space import inset
from fieldapp.parts.stroke import Shapes, drawing
from fieldapp.parts.text import BOLD, NORMAL
from fieldapp.theme import EDGE, GRID, LINE, Look

Draw = Callable[[Look, float, float], Shapes]
V = TypeVar("V")


def _foot(look: Look) -> float:
    return 34 if not look.big else 30 * look.text


def tile(look: Look, draw: Draw, word: str, w: float, h: float, chosen: bool, pick: Callable[[], object]) -> ft.Control:
    """draw(look, w, h) gives the picture's shapes; it is inset by the edge, which a canvas would paint over."""
    foot, edge = _foot(look), 3 if chosen else 2
    size = look.size("body") if not look.big else 26
    label = ft.Text(
        word, size=size, weight=BOLD if chosen else NORMAL, color=look.on_main if chosen else look.ink,
        text_align=ft.TextAlign.CENTER, style=ft.TextStyle(height=1.1), max_lines=2,
    )  # fmt: skip
    band = ft.Container(
        label, bgcolor=look.main if chosen else None, width=w, height=foot, alignment=ft.Alignment.CENTER,
        padding=ft.Padding.symmetric(horizontal=4),
    )  # fmt: skip
    pw, ph = w - 2 * edge, h - foot - edge
    picture = ft.Container(
        drawing(draw(look, pw, ph), pw, ph), clip_behavior=ft.ClipBehavior.HARD_EDGE,
        margin=ft.Margin.only(left=edge, right=edge, top=edge), border_radius=4,
    )  # fmt: skip
    style = button_style(look, look.leaf, look.ink, look.ink if chosen else look.line, 3 if chosen else LINE)
    button = ft.Button(
        content=ft.Column([picture, band], spacing=0, tight=True), width=w, height=h, style=style,
        on_click=lambda _: pick(), clip_behavior=ft.ClipBehavior.ANTI_ALIAS,
    )  # fmt: skip
    return ft.Semantics(selected=chosen, content=button)


class Tiles:
    """Tiles in rows, one of them chosen or none. options: (value, word, draw). `show` changes the choice."""

    def __init__(
        self,
        look: Look,
        options: list[tuple[V, str, Draw]],
        now: V | None,
        pick: Callable[[V], object],
        cols: int = 2,
        h: float = 112,
        margin: float = EDGE,
    ) -> None:
        self._look, self._options, self._pick = look, options, pick
        self._cols = 1 if look.big else cols
        self._w = (look.width - 2 * margin - GRID * (self._cols - 1)) / self._cols
        self._h = h + 40 if look.big else h
        self._body = ft.Column([], spacing=GRID)
        self.control = inset(self._body, margin, margin)
        self.show(now)

    def show(self, now: V | None) -> None:
        """Choose. The caller updates `control`."""
        tiles = [
            tile(self._look, draw, word, self._w, self._h, value == now, lambda v=value: self._pick(v))
            for value, word, draw in self._options
        ]
        self._body.controls = [ft.Row(tiles[i : i + self._cols], spacing=GRID) for i in range(0, len(tiles), self._cols)]
