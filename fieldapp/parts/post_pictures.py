"""Posts from above and angles of turn, as tiles to choose by; the edge of a pane, end on. draw(look, w, h) -> shapes."""

from __future__ import annotations

import math
from collections.abc import Callable

from fieldapp.parts.stroke import Point, Shapes, box, dimension, hatch, line, poly, stroke, wash, word
from fieldapp.theme import Look

Draw = Callable[[Look, float, float], Shapes]


def _square(look: Look, x: float, y: float, r: float = 9) -> Shapes:
    return [box(x - r, y - r, 2 * r, 2 * r, wash(look.ink))]


def _pane(look: Look, a: Point, b: Point) -> Shapes:
    return [line(a, b, stroke(look.glass_edge, 9)), line(a, b, stroke(look.glass, 6))]


def end_post(look: Look, w: float, h: float) -> Shapes:
    """The run ends free."""
    return [*_pane(look, (0, h / 2), (w / 2 + 12, h / 2)), *_square(look, w / 2 + 12, h / 2)]


def corner_post(look: Look, w: float, h: float) -> Shapes:
    """The next run begins at this post."""
    x, y = w / 2 + 8, h / 2 - 10
    return [*_pane(look, (0, y), (x, y)), *_pane(look, (x, y), (x, h)), *_square(look, x, y)]


def wall_post(look: Look, w: float, h: float) -> Shapes:
    """The run ends at a wall."""
    x = w / 2 + 14
    wall = [*hatch(x + 10, 4, x + 26, h - 4, look.line, 7, 1.2), line((x + 10, 4), (x + 10, h - 4), stroke(look.ink, 3))]
    return [*_pane(look, (0, h / 2), (x, h / 2)), *wall, *_square(look, x, h / 2)]


def turn(angle: float) -> Draw:
    """Two panels and the angle between them on the deck side, which is below."""

    def draw(look: Look, w: float, h: float) -> Shapes:
        x, y = w / 2, h * (0.34 if angle < 180 else 0.62 if angle > 180 else 0.5)
        a, long = math.radians(180 - angle), 90
        ex, ey = long * math.cos(a), long * math.sin(a)
        share = min(1.0, (w / 2 - 3) / abs(ex) if abs(ex) > 1 else 1.0)
        share = min(share, (h - 3 - y) / ey if ey > 1 else 1.0, (y - 3) / -ey if ey < -1 else 1.0)
        end = x + ex * share, y + ey * share
        arc = [
            (x + 20 * math.cos(math.pi - math.radians(angle) * i / 12), y + 20 * math.sin(math.pi - math.radians(angle) * i / 12))
            for i in range(13)
        ]
        return [
            poly([(x, y), *arc], wash(look.rule)),
            *_pane(look, (6, y), (x, y)),
            *_pane(look, (x, y), end),
            *_square(look, x, y, 8),
        ]

    return draw


def turn_in_groove(look: Look, w: float, h: float, degrees: float) -> Shapes:
    """A post cut through, seen from above, and how far a pane may turn either way from straight out; 0: not said, drawn at 30."""
    x, y, side, each = w * 0.34, h / 2, 92.0, math.radians(degrees or 30)
    post: Shapes = [box(x - side, y - side / 2, side, side, wash(look.leaf)), *hatch(x - side, y - side / 2, x, y + side / 2, look.post, 8, 1.3)]
    post.append(box(x - side, y - side / 2, side, side, stroke(look.ink, 2)))
    groove = [box(x - 34, y - 13, 34, 26, wash(look.paper)), poly([(x, y - 13), (x - 34, y - 13), (x - 34, y + 13), (x, y + 13)], stroke(look.ink, 2), close=False)]
    long, axis = w * 0.44, (x - 14, y)
    at = lambda turn, far: (axis[0] + far * math.cos(turn), axis[1] + far * math.sin(turn))  # noqa: E731
    fan = [at(-each + 2 * each * i / 16, 120) for i in range(17)]
    ghost = [line(at(0, -16), at(turn, min(long, (h / 2 - 8) / max(abs(math.sin(turn)), 0.01))), stroke(look.glass_edge, 2, [5, 4])) for turn in (-each, each)]
    told = [word(*at(0, 158), f"± {degrees:g}°", look.ink, look.drawn(18), True)] if degrees else []
    chain = line(axis, at(0, 128), stroke(look.ink2, 1.2, [8, 3, 2, 3]))
    return [*post, *groove, poly([axis, *fan], wash(look.rule)), *ghost, *_pane(look, (axis[0] - 14, y), at(each * 0.5, long * 0.62)), chain, *told]


def other(words: str = "… °") -> Draw:
    """Another one, to be typed."""
    return lambda look, w, h: [word(w / 2, h / 2, words, look.ink, 26, True)]


def pane_edge(mm: float, px: float = 6.3) -> Draw:
    """The upright edge of a pane seen end on, px pixels a millimetre: about life size."""

    def draw(look: Look, w: float, h: float) -> Shapes:
        t = min(mm * (px if w > 100 else 5), w - 12)
        x, rim = (w - t) / 2, stroke(look.glass_edge, 2.5)
        shapes: Shapes = [box(x, 8, t, h - 8, wash(look.glass)), line((x, 8), (x, h), rim), line((x + t, 8), (x + t, h), rim)]
        return [*shapes, line((x, 8), (x + t, 8), rim), *dimension((x, 22), (x + t, 22), look.ink, head=6)]

    return draw


def laminated_edge(mm: float, px: float = 6.3) -> Draw:
    """Two panes with their interlayer."""

    def draw(look: Look, w: float, h: float) -> Shapes:
        return [*pane_edge(mm, px)(look, w, h), line((w / 2, 8), (w / 2, h), stroke(look.glass_edge, 2, [5, 3]))]

    return draw
