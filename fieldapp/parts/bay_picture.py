"""The bay as seen from the deck, looking out: plumb posts, the deck at its slope, the panel with its edges in the grooves, and
what is asked lit in the tape's yellow, with its hook and its reading end."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import flet as ft
import flet.canvas as cv

from fieldapp.parts.bay_shape import BayLines, BayShape, bay_lines
from fieldapp.parts.stroke import (
    HIDDEN,
    LEFT,
    NBSP,
    RIGHT,
    Point,
    Shapes,
    box,
    dimension,
    dot,
    line,
    poly,
    redraw,
    stroke,
    wash,
    word,
)
from fieldapp.parts.tape_piece import ground, laid, post, straightedge, tape_piece
from fieldapp.theme import GLASS, Look

Ask = Literal["span", "top-span", "rise", "base-rise", "diagonal-rising", "diagonal-falling", "kept", "none"]
Drawn = Callable[[int], str]
_TAPE_UP = 9
"""The tape lies just above the base plates."""
_THICK = 11
_FIGURE = 80
"""Room that a figure of 72 px needs."""
_SIDE, _BESIDE = 28, 36
"""Margins outside the posts: where their names stand above them, and where they stand beside them."""
_ABOVE = 14
"""What of a figure's box may lie over a low picture's edge: no sign of it is as high as its box."""


@dataclass(frozen=True, slots=True)
class BayNames:
    """Words inside the drawing. drawn: how the factor is printed, as `lambda n: f"slope drawn {n} times"`; empty says nothing.

    mark: beside the mark of a diagonal. kept: what stands in the dimension line of a kept bay. how: how a span lies, as in `laid`.
    """

    left: str
    right: str
    drawn: Drawn = lambda _: ""
    mark: str = ""
    kept: str = ""
    how: str = "hook"


class BayPicture:
    """The picture and, over it, the figure standing in the glass. `show` draws another bay or question in the same canvas.

    close: where there is little height the names stand beside the posts, and how the slope is drawn in the corner that it leaves.
    post: the least height of a post. lines: where everything lies, for what is drawn below it (the post's face runs on into the blade). glass_box: left, top, width
    and height of the glass, for a figure that another layer holds.
    """

    def __init__(
        self, look: Look, width: float, height: float, figure: ft.Control | None = None, foot: float = 36, top: float = 22,
        close: bool = False, post: float = 70,
    ) -> None:  # fmt: skip
        self._look, self.width, self.height, self.foot, self._top = look, width, height, foot, top
        self._close, self._post = close, post
        self._canvas = cv.Canvas(width=width, height=height)
        self._says = ft.Semantics(image=True, label="", content=self._canvas)
        self._over = ft.Container(figure, alignment=ft.Alignment.CENTER, left=0, top=0, visible=figure is not None)
        self.control = ft.Stack([self._says, self._over], width=width, height=height)
        self.lines = bay_lines(BayShape(1, 0.1, 0.1), width, height, top=top, foot=foot)
        self.glass_box = (0.0, 0.0, width, height)

    def show(self, shape: BayShape, ask: Ask, names: BayNames, says: str) -> None:
        """Draw this. The caller updates `control`."""
        look = self._look
        side = _BESIDE if self._close else _SIDE
        lines = self.lines = bay_lines(shape, self.width, self.height, side, self._top, self.foot, self._post)
        panel = panel_corners(lines, ask)
        shapes = _glass(look, panel)
        shapes += ground(look, (0, lines.floor(0)), (lines.width, lines.floor(lines.width)))
        shapes += _how_drawn(look, lines, names.drawn, self.height - self.foot, self._close and ask)
        shapes += _posts(look, lines, panel, names, ask, self._close)
        shapes += _ASKED[ask](look, lines, names) if ask in _ASKED else []
        redraw(self._canvas, shapes)
        self._says.label = says
        self._set_glass_box(panel)

    def _set_glass_box(self, panel: list[Point]) -> None:
        """The box inside the panel. A figure stays whole where a steep bay leaves less: it then stands over the panel's edges."""
        bottom_l, bottom_r, top_r, top_l = panel
        top, bottom = (top_l[1] + top_r[1]) / 2, (bottom_l[1] + bottom_r[1]) / 2
        high = max(bottom - top, _FIGURE)
        self.glass_box = bottom_l[0], max((top + bottom - high) / 2, -_ABOVE if self._close else 0), bottom_r[0] - bottom_l[0], high
        self._over.left, self._over.top, self._over.width, self._over.height = self.glass_box


def panel_corners(lines: BayLines, ask: Ask) -> list[Point]:
    """Lower left, lower right, upper right, upper left of what is seen of the panel between the posts."""
    off = 30 if ask in ("span", "base-rise") else 20
    lid = 26 if ask == "top-span" else 8
    at = lambda x, up, y: (x, y(x) + up)  # noqa: E731
    top_l, top_r = at(lines.xl, lid, lines.head), at(lines.xr, lid, lines.head)
    if lines.shape.level_top:
        level = min(top_l[1], top_r[1])
        top_l, top_r = (top_l[0], level), (top_r[0], level)
    return [at(lines.xl, -off, lines.floor), at(lines.xr, -off, lines.floor), top_r, top_l]


def _glass(look: Look, panel: list[Point]) -> Shapes:
    edge = stroke(look.glass_edge, GLASS)
    return [poly(panel, wash(look.glass)), line(panel[0], panel[1], edge), line(panel[3], panel[2], edge)]


def _how_drawn(look: Look, lines: BayLines, drawn: Drawn, low: float, close: str | bool) -> Shapes:
    """How often the slope is drawn: under the deck; in a low picture over the low end of the panel, or under the high end of a rise."""
    words = drawn(lines.factor) if lines.shape.tan else ""
    if not words:
        return []
    if not close:
        return [word(lines.width / 2, low + 15, words, look.ink2, look.drawn())]
    left_low = lines.shape.tan > 0
    if close in ("rise", "base-rise"):
        x, at = (lines.width - 4, RIGHT) if left_low else (4, LEFT)
        return [word(x, low + 6, words, look.ink2, look.drawn(), at=at, ground=look.paper)]
    x, at = (lines.xl + 6, LEFT) if left_low else (lines.xr - 6, RIGHT)
    return [word(x, 5, words, look.ink2, look.drawn(), at=at)]


def _posts(look: Look, lines: BayLines, panel: list[Point], names: BayNames, ask: Ask, close: bool = False) -> Shapes:
    """Posts with their base plates; the panel's edge, hidden in its groove, dashed."""
    shapes: Shapes = []
    plate = lines.shape.plate * lines.k
    left = (lines.xl - lines.left_wide, lines.left_wide, lines.foot_l, lines.top_l, names.left, lines.xl - lines.left_wide * 0.35)
    right = (lines.xr, lines.right_wide, lines.foot_r, lines.top_r, names.right, lines.xr + lines.right_wide * 0.35)
    for (x, wide, foot, top, name, hidden), low, high in ((left, panel[0], panel[3]), (right, panel[1], panel[2])):
        shapes += post(look, x, top, foot, wide, plate)
        shapes.append(line((hidden, high[1]), (hidden, low[1]), stroke(look.paper, 1.5, HIDDEN)))
        if ask == "rise":  # the straightedge lies on the posts: their names stand outside
            out = -16 if name == names.left else 16
            shapes.append(word(x + wide / 2 + out - (wide / 2 if out < 0 else -wide / 2), foot - 56, name, look.ink, 15, True))
        elif close:
            beside, at = (x - 5, RIGHT) if name == names.left else (x + wide + 5, LEFT)
            shapes.append(word(beside, top + 9, name, look.ink, 14, True, at))
        else:
            shapes.append(word(x + wide / 2, top - 13, name, look.ink, 15, True))
    return shapes


def _span(look: Look, lines: BayLines, names: BayNames) -> Shapes:
    a, b = (lines.xl, lines.floor(lines.xl) - _TAPE_UP), (lines.xr, lines.floor(lines.xr) - _TAPE_UP)
    return laid(look, a, b, _THICK, names.how, 7)


def _top_span(look: Look, lines: BayLines, names: BayNames) -> Shapes:
    a, b = (lines.xl, lines.head(lines.xl) + 18), (lines.xr, lines.head(lines.xr) + 18)
    return laid(look, a, b, _THICK, names.how, 7)


def _rise(look: Look, lines: BayLines, names: BayNames) -> Shapes:
    """A levelled straightedge on the higher post; the gap over the lower one is asked."""
    a, b = lines.middles
    y = min(lines.top_l, lines.top_r) - 2
    low_x, low_top = (a, lines.top_l) if lines.shape.tan > 0 else (b, lines.top_r)
    shapes = straightedge(look, (a - 18, y), (b + 18, y), 9, bubble=False) + _vial(look, (a + b) / 2, y)
    if not lines.shape.tan:
        return shapes
    gap = [(low_x - 7, y), (low_x + 7, y), (low_x + 7, low_top), (low_x - 7, low_top)]
    return [*shapes, poly(gap, wash(look.tape)), poly(gap, stroke(look.outline))]


def _vial(look: Look, x: float, y: float) -> Shapes:
    return [
        box(x - 18, y - 8.5, 36, 7, wash(look.clear_bg), 3),
        box(x - 18, y - 8.5, 36, 7, stroke(look.ink, 1), 3),
        dot(x, y - 5, 3, wash(look.ink)),
    ]


def _base_rise(look: Look, lines: BayLines, names: BayNames) -> Shapes:
    """The straightedge lies on the deck between the faces, levelled; the gap at its low end is asked."""
    if not lines.shape.tan:
        return []
    right_high = lines.shape.tan > 0
    y = min(lines.floor(lines.xl), lines.floor(lines.xr)) - 2
    low_x = lines.xl + 14 if right_high else lines.xr - 14
    shapes = straightedge(look, (lines.xl + 1, y), (lines.xr - 1, y), 8)
    deck = lines.floor(low_x) - 1
    gap = [(low_x - 7, y), (low_x + 7, y), (low_x + 7, deck), (low_x - 7, deck)]
    return [*shapes, poly(gap, wash(look.tape)), poly(gap, stroke(look.outline))]


def _diagonal(rising: bool) -> Callable[[Look, BayLines, BayNames], Shapes]:
    def draw(look: Look, lines: BayLines, names: BayNames) -> Shapes:
        """Foot to a mark up the other post; the other diagonal dashed, both marks named."""
        feet = {"left": (lines.xl, lines.floor(lines.xl) - 9), "right": (lines.xr, lines.floor(lines.xr) - 9)}
        marks = {"left": (lines.xl, lines.head(lines.xl) + 16), "right": (lines.xr, lines.head(lines.xr) + 16)}
        a, b, c, d = ("left", "right", "right", "left") if rising else ("right", "left", "left", "right")
        shapes: Shapes = [line(feet[c], marks[d], stroke(look.ink, 1.5, HIDDEN))]
        shapes += [line((x - 9, y), (x + 9, y), stroke(look.ink, 2.5)) for x, y in marks.values()]
        shapes += tape_piece(look, feet[a], marks[b], 8 if rising else -8, True, 6)
        if names.mark:
            x, y = marks[b]
            inward, at = (-12, RIGHT) if rising else (12, LEFT)
            words = f"{NBSP}{names.mark}{NBSP}"
            shapes.append(word(x + inward, y + 30, words, look.ink, look.drawn(), True, at, ground=look.glass))
        return shapes

    return draw


def _kept(look: Look, lines: BayLines, names: BayNames) -> Shapes:
    """A dimension line under the deck, the figure in the other unit in it."""
    y = max(lines.foot_l, lines.foot_r) + 38
    shapes: Shapes = [line((x, lines.floor(x) + 3), (x, y + 8), stroke(look.ink, 1.2)) for x in (lines.xl, lines.xr)]
    shapes += dimension((lines.xl, y), (lines.xr, y), look.ink)
    if names.kept:
        middle = (lines.xl + lines.xr) / 2
        shapes.append(word(middle, y, f"{NBSP}{names.kept}{NBSP}", look.ink, min(look.drawn(16), 20), ground=look.paper))
    return shapes


_ASKED: dict[str, Callable[[Look, BayLines, BayNames], Shapes]] = {
    "span": _span, "top-span": _top_span, "rise": _rise, "base-rise": _base_rise, "kept": _kept,
    "diagonal-rising": _diagonal(True), "diagonal-falling": _diagonal(False),
}  # fmt: skip
