"""Small pictures to choose by: how a tape or a level lay, and what the glass follows. Each is draw(look, w, h) -> shapes."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from fieldapp.parts.stroke import HIDDEN, Shapes, box, dimension, dot, framed, hatch, line, poly, stroke, wash, word
from fieldapp.parts.tape_piece import ground, straightedge, tape_piece
from fieldapp.theme import Look

_FACE = 34.0


@dataclass(frozen=True, slots=True)
class Opening:
    """Two posts on a floor: the shapes, the inside faces, the floor's height at x, the posts' tops."""

    shapes: Shapes
    xl: float
    xr: float
    floor: Callable[[float], float]


def opening(
    look: Look,
    w: float,
    h: float,
    fall: float = 0,
    post: float = 12,
    side: float = 20,
    plates: bool = True,
    top: float = 10,
    foot: float = 12,
) -> Opening:
    """fall above 0: the right post stands higher by so many pixels."""
    xl, xr, low = side + post, w - side - post, h - foot
    floor = lambda x: low - fall * (x - xl + post / 2) / (xr - xl + post)  # noqa: E731
    shapes = ground(look, (0, floor(0)), (w, floor(w)), 2.5, 8, 8)
    for x in (xl - post, xr):
        middle = x + post / 2
        y = top + (fall if middle < w / 2 else 0)
        shapes.append(box(x, y, post, floor(middle) - y, wash(look.post)))
        if plates:
            shapes.append(box(middle - post, floor(middle) - 4, 2 * post, 4, wash(look.post)))
    return Opening(shapes, xl, xr, floor)


def _two_faces(look: Look, w: float, h: float) -> Shapes:
    """Two post faces close up, for what a tape does between them."""
    shapes: Shapes = []
    for x in (0.0, w - _FACE):
        shapes += [box(x, 8, _FACE, h - 16, wash(look.paper)), *hatch(x, 8, x + _FACE, h - 8, look.post, 7, 1.1)]
    return shapes + [line((x, 8), (x, h - 8), stroke(look.ink, 2.5)) for x in (_FACE, w - _FACE)]


def _mark(look: Look, x: float, h: float, name: str, size: float = 14) -> Shapes:
    """A numeral left of its line, on the blade of these pictures."""
    return [
        word(x - 8, h / 2 + 3, name, look.on_tape, size, True),
        line((x, h / 2 - 9), (x, h / 2 + 9), stroke(look.on_tape, 1.5)),
    ]


def hooked(look: Look, w: float, h: float) -> Shapes:
    """Hook on one face, read at the other."""
    return [
        *_two_faces(look, w, h),
        *tape_piece(look, (_FACE, h / 2 + 9), (w - _FACE, h / 2 + 9), 18),
        *_mark(look, _FACE + 55, h, "1"),
    ]


def from_mark(name: str) -> Callable[[Look, float, float], Shapes]:
    """Started at its 1 in (or 100 mm) mark."""

    def draw(look: Look, w: float, h: float) -> Shapes:
        shapes = [*_two_faces(look, w, h), *tape_piece(look, (8, h / 2 + 9), (w - _FACE, h / 2 + 9), 18)]
        shapes += [line((_FACE, h / 2 - 20), (_FACE, h / 2 + 20), stroke(look.ink, 2.5))]
        shapes.append(poly([(_FACE - 6, h / 2 - 24), (_FACE + 6, h / 2 - 24), (_FACE, h / 2 - 14)], wash(look.ink)))
        size = 14 if len(name) < 2 else 11
        return [*shapes, word(_FACE - 9 - 2 * (len(name) - 1), h / 2 + 3, name, look.on_tape, size, True)]

    return draw


def cased(look: Look, w: float, h: float) -> Shapes:
    """The tape's case stands in the opening; its length belongs to the figure."""
    y, x = h / 2, w - _FACE - 46
    shapes = [*_two_faces(look, w, h), *tape_piece(look, (_FACE, y + 14), (x + 8, y + 14), 14)]
    shapes += [box(x, y - 24, 46, 40, wash(look.ink), 8), dot(x + 23, y - 4, 11, stroke(look.paper, 1.5))]
    return [*shapes, *dimension((x, y + 24), (x + 46, y + 24), look.ink, head=6)]


def laser(look: Look, w: float, h: float) -> Shapes:
    """A laser from its back."""
    y = h / 2
    shapes = [
        *_two_faces(look, w, h),
        box(_FACE, y - 11, 48, 22, wash(look.ink), 4),
        box(_FACE + 6, y - 5, 22, 10, wash(look.paper), 1),
    ]
    return [
        *shapes,
        line((_FACE + 48, y), (w - _FACE - 2, y), stroke(look.ink, 2.5, [8, 4])),
        dot(w - _FACE, y, 4, wash(look.ink)),
    ]


def two_marks(look: Look, w: float, h: float) -> Shapes:
    """Two marks, or sliding sticks, brought out of the opening."""
    y = h / 2
    shapes = [*_two_faces(look, w, h), *framed(_FACE, y - 16, (w - 2 * _FACE) * 0.66, 9, look.leaf, look.ink)]
    shapes += framed(_FACE + (w - 2 * _FACE) * 0.34, y - 6, (w - 2 * _FACE) * 0.66, 9, look.leaf, look.ink)
    return [*shapes, *tape_piece(look, (_FACE, y + 26), (w - _FACE, y + 26), 12)]


def bent(look: Look, w: float, h: float) -> Shapes:
    """The blade bent up in the corner: the least sure way."""
    y, x = h / 2 + 14, w - _FACE
    shapes = [*_two_faces(look, w, h), *tape_piece(look, (_FACE, y), (x - 16, y), 14)]
    curve = [
        (x - 16, y),
        (x - 6, y - 4),
        (x - 2, y - 14),
        (x - 2, y - 40),
        (x - 14, y - 40),
        (x - 14, y - 20),
        (x - 18, y - 14),
        (x - 16, y - 14),
    ]
    return [*shapes, poly(curve, wash(look.tape)), poly(curve, stroke(look.outline))]


def level_lay(look: Look, w: float, h: float) -> Shapes:
    """The tape lay level."""
    o = opening(look, w, h, 26)
    y = o.floor(o.xr) - 12
    return [*o.shapes, *tape_piece(look, (o.xl, y), (o.xr, y), 9)]


def along_lay(look: Look, w: float, h: float) -> Shapes:
    """The tape lay along the slope."""
    o = opening(look, w, h, 26)
    return [*o.shapes, *tape_piece(look, (o.xl, o.floor(o.xl) - 7), (o.xr, o.floor(o.xr) - 7), 9)]


def over_tops(look: Look, w: float, h: float) -> Shapes:
    """A straightedge over the post tops."""
    o = opening(look, w, h, 18, top=22)
    x = o.xl - 6
    return [
        *o.shapes,
        *straightedge(look, (x - 12, 22), (o.xr + 18, 22)),
        *tape_piece(look, (x + 5, 40), (x + 5, 22), 10, hook=False),
    ]


def over_faces(look: Look, w: float, h: float) -> Shapes:
    """A straightedge between the faces."""
    o = opening(look, w, h, 24, top=8)
    y, x = o.floor(o.xr) - 2, o.xl + 12
    return [
        *o.shapes,
        *straightedge(look, (o.xl + 1, y), (o.xr - 1, y), 8),
        *tape_piece(look, (x, o.floor(x) - 1), (x, y), 10, hook=False),
    ]


def over_level(look: Look, w: float, h: float) -> Shapes:
    """A level of known length."""
    o = opening(look, w, h, 26, top=8)
    a, b = w / 2 - 34, w / 2 + 34
    y, x = o.floor(b) - 1, a + 8
    return [*o.shapes, *straightedge(look, (a, y), (b, y), 8), *tape_piece(look, (x, o.floor(x) - 1), (x, y), 10, hook=False)]


def as_slope(name: str = "1.2°") -> Callable[[Look, float, float], Shapes]:
    """Read as a slope: an angle's wedge, with an example."""

    def draw(look: Look, w: float, h: float) -> Shapes:
        o = opening(look, w, h, 26, top=8, plates=False)
        x, r = o.xl + 8, 62
        y, angle = o.floor(o.xl + 8) - 2, math.atan2(o.floor(o.xl) - o.floor(o.xr), o.xr - o.xl)
        fan = [(x + r * math.cos(angle * i / 6), y - r * math.sin(angle * i / 6)) for i in range(7)]
        shapes = [*o.shapes, poly([(x, y), *fan], wash(look.tape)), line((x, y), (x + r + 10, y), stroke(look.ink, 1.2, [6, 3]))]
        return [*shapes, poly(fan, stroke(look.outline, 2), close=False), word(w / 2 + 4, h * 0.30, name, look.ink, 17, True)]

    return draw


def _follows(posts: bool) -> Callable[[Look, float, float], Shapes]:
    """One post close up on a steep run: do the corners meet at the post, or do the edges run in one line?"""

    def draw(look: Look, w: float, h: float) -> Shapes:
        wide, tan, c, low, high = 44.0, 0.42, w / 2, h - 28, 40.0
        edges = c - wide / 2 + 10, c + wide / 2 - 10
        straight = lambda x, y: y - tan * (x - c)  # noqa: E731
        shapes: Shapes = []
        for x0, x1, edge in ((-4, edges[0], edges[0]), (edges[1], w + 4, edges[1])):
            at = (lambda x, y, e=edge: y - tan * 1.22 * (x - e)) if posts else straight
            pane = [(x0, at(x0, low)), (x1, at(x1, low)), (x1, at(x1, high)), (x0, at(x0, high))]
            rim = stroke(look.glass_edge, 2.5)
            shapes += [poly(pane, wash(look.glass)), line(pane[0], pane[1], rim), line(pane[2], pane[3], rim)]
        shapes.append(box(c - wide / 2, 8, wide, h - 16, wash(look.post)))
        shapes += [line((e, 10), (e, h - 10), stroke(look.paper, 1.5, HIDDEN)) for e in edges]
        for y in (low, high):
            a, b = [(e, y if posts else straight(e, y)) for e in edges]
            shapes += [line(a, b, stroke(look.paper, 2.5)), dot(*a, 4, wash(look.paper)), dot(*b, 4, wash(look.paper))]
        return shapes

    return draw


follows_posts, follows_slope = _follows(True), _follows(False)
"""Neighbours' corners meet at their post; or top and bottom run in one line through all posts."""
