"""Strokes for the drawings: lines, washes, hatching, dimension arrows, words on a canvas.

Everything is in logical pixels, y down. A drawing is a list of shapes; it is put on a canvas by `drawing`.
"""

from __future__ import annotations

import dataclasses
import math
from collections.abc import Callable, Iterable, Sequence
from functools import cache

import flet as ft
import flet.canvas as cv

from fieldapp.theme import FONT, LINE

Point = tuple[float, float]
Shapes = list[cv.Shape]

HIDDEN = [4.0, 3.0]
"""Dashes of an edge that is hidden, and of what is not there yet."""
CHAIN = [8.0, 3.0, 2.0, 3.0]
"""Dashes of a level line or an axis."""
NBSP = "\u00a0"
LEFT, RIGHT, CENTER = ft.Alignment.CENTER_LEFT, ft.Alignment.CENTER_RIGHT, ft.Alignment.CENTER


def stroke(color: str, weight: float = LINE, dash: list[float] | None = None) -> ft.Paint:
    """A pen: its ink, its weight, its dashes."""
    return ft.Paint(
        color=color, stroke_width=weight, style=ft.PaintingStyle.STROKE, stroke_dash_pattern=dash,
        stroke_join=ft.StrokeJoin.MITER,
    )  # fmt: skip


def wash(color: str) -> ft.Paint:
    """A filled ground."""
    return ft.Paint(color=color, style=ft.PaintingStyle.FILL)


def line(a: Point, b: Point, pen: ft.Paint) -> cv.Shape:
    """A straight line from a to b."""
    return cv.Line(a[0], a[1], b[0], b[1], paint=pen)


def poly(points: Sequence[Point], pen: ft.Paint, close: bool = True) -> cv.Shape:
    """A line through the points, closed unless said."""
    steps: list[cv.Path.PathElement] = [cv.Path.MoveTo(*points[0])]
    steps += [cv.Path.LineTo(*p) for p in points[1:]]
    return cv.Path(steps + ([cv.Path.Close()] if close else []), paint=pen)


def box(x: float, y: float, w: float, h: float, pen: ft.Paint, radius: float = 0) -> cv.Shape:
    """An upright box from its upper left corner."""
    return cv.Rect(x, y, w, h, border_radius=radius, paint=pen)


def framed(x: float, y: float, w: float, h: float, ground: str, ink: str, weight: float = LINE, radius: float = 0) -> Shapes:
    """An upright box with its ground and its outline."""
    return [box(x, y, w, h, wash(ground), radius), box(x, y, w, h, stroke(ink, weight), radius)]


def dot(x: float, y: float, radius: float, pen: ft.Paint) -> cv.Shape:
    """A circle, or a point."""
    return cv.Circle(x, y, radius, paint=pen)


def word(
    x: float, y: float, text: str, color: str, size: float = 14, bold: bool = False,
    at: ft.Alignment = CENTER, turn: float = 0, ground: str | None = None,
) -> cv.Shape:  # fmt: skip
    """A word; `at` says which of its own points lies at x, y. `ground` cuts the lines behind it. turn in radians."""
    weight = ft.FontWeight.BOLD if bold else ft.FontWeight.NORMAL
    style = ft.TextStyle(size=size, weight=weight, color=color, font_family=FONT, height=1.1, bgcolor=ground)
    return cv.Text(x=x, y=y, value=text, alignment=at, rotate=turn, style=style)


def hatch(x0: float, y0: float, x1: float, y1: float, color: str, step: float = 6, weight: float = 1.2) -> Shapes:
    """Section lines at 45 degrees inside an upright box, ending at its edges."""
    lines: Shapes = []
    high, start = y1 - y0, x0 - (y1 - y0)
    while start < x1:
        low_x, low_y, up_x, up_y = start, y1, start + high, y0
        if low_x < x0:
            low_x, low_y = x0, y1 - (x0 - low_x)
        if up_x > x1:
            up_x, up_y = x1, y0 + (up_x - x1)
        if low_x < up_x:
            lines.append(line((low_x, low_y), (up_x, up_y), stroke(color, weight)))
        start += step
    return lines


def arrow_head(tip: Point, angle: float, color: str, size: float = 7, spread: float = 0.35) -> cv.Shape:
    """A filled head at `tip`; the shaft lies in direction `angle` (radians) from it."""
    wings = [(tip[0] + size * math.cos(angle + s), tip[1] + size * math.sin(angle + s)) for s in (spread, -spread)]
    return poly([tip, *wings], wash(color))


def dimension(a: Point, b: Point, color: str, weight: float = 1.2, head: float = 7) -> Shapes:
    """A dimension line with filled heads at both ends."""
    angle = math.atan2(b[1] - a[1], b[0] - a[0])
    return [line(a, b, stroke(color, weight)), arrow_head(a, angle, color, head), arrow_head(b, angle + math.pi, color, head)]


def mapped(shapes: Iterable[cv.Shape], move: Callable[[float, float], Point], turn: float = 0) -> Shapes:
    """The same shapes elsewhere: `move` shifts, mirrors or turns every point; words stay readable, turned by `turn`."""
    out: Shapes = []
    for s in shapes:
        if isinstance(s, cv.Rect):
            corners = [(s.x, s.y), (s.x + s.width, s.y), (s.x + s.width, s.y + s.height), (s.x, s.y + s.height)]
            out.append(poly([move(*c) for c in corners], s.paint))
        elif isinstance(s, cv.Line):
            out.append(line(move(s.x1, s.y1), move(s.x2, s.y2), s.paint))
        elif isinstance(s, cv.Circle):
            out.append(dot(*move(s.x, s.y), s.radius, s.paint))
        elif isinstance(s, cv.Text):
            x, y = move(s.x, s.y)
            out.append(cv.Text(x=x, y=y, value=s.value, alignment=s.alignment, rotate=(s.rotate or 0) + turn, style=s.style))
        else:
            steps = [type(e)(*move(e.x, e.y)) if hasattr(e, "x") else e for e in s.elements]
            out.append(cv.Path(steps, paint=s.paint))
    return out


def drawing(shapes: Shapes, w: float, h: float, says: str = "") -> ft.Control:
    """The shapes on a canvas, spoken as one picture. Without `says` (beside its own words, inside a button) it is silent."""
    canvas = cv.Canvas(width=w, height=h, shapes=shapes)
    return ft.Semantics(image=True, label=says, content=canvas) if says else canvas


_OF_EVERY = {field.name for field in dataclasses.fields(cv.Shape)}


def redraw(canvas: cv.Canvas, shapes: Shapes) -> None:
    """Put these shapes on a canvas that may show others. A drawing that stands there already is not sent again. The caller updates.

    A shape that only changed its values in its place would not be painted anew by the page, so what differs is drawn whole.
    """
    if [_looks(one) for one in canvas.shapes] != [_looks(one) for one in shapes]:
        canvas.shapes = shapes


def _looks(shape: cv.Shape) -> tuple[object, ...]:
    return (type(shape), *(getattr(shape, name) for name in _own(type(shape))))


@cache
def _own(kind: type[cv.Shape]) -> tuple[str, ...]:
    return tuple(field.name for field in dataclasses.fields(kind) if field.name not in _OF_EVERY)
