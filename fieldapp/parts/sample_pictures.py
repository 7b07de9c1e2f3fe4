"""Choices that are their own sample: both themes, letters in three sizes, either hand, how fine a scale is; roles at a job."""

from __future__ import annotations

from collections.abc import Callable

from fieldapp.parts.blade_tiles import SCALES, Unit
from fieldapp.parts.stroke import RIGHT, Shapes, box, framed, line, poly, stroke, wash, word
from fieldapp.parts.tape_piece import tape_piece
from fieldapp.theme import Look, Theme

Draw = Callable[[Look, float, float], Shapes]


def light(theme: Theme) -> Draw:
    """A figure and a piece of tape in that theme, whatever the theme is now."""

    def draw(look: Look, w: float, h: float) -> Shapes:
        there = Look(theme)
        ground = [box(0, 0, w, h, wash(there.paper)), word(w / 2, h / 2 - 8, "40", there.ink, 34, True)]
        return [*ground, *tape_piece(there, (18, h - 8), (w - 18, h - 8), 12, hook=False)]

    return draw


def letters(size: float) -> Draw:
    """A figure in that size."""
    return lambda look, w, h: [word(w / 2, h / 2, "40", look.ink, size, True)]


def hand(side: str, keep: str) -> Draw:
    """The last row of keys for that hand."""

    def draw(look: Look, w: float, h: float) -> Shapes:
        keys = [("⌫", 26.0), ("", 26.0), (keep, w - 24 - 68)]
        x, shapes = 12.0, []
        for name, wide in keys if side == "right" else keys[::-1]:
            main = name == keep
            shapes += framed(x, h / 2 - 15, wide, 30, look.main if main else look.leaf, look.ink if main else look.line, 1.5, 4)
            if name:
                shapes.append(word(x + wide / 2, h / 2, name, look.on_main if main else look.ink, 14, main))
            x += wide + 8
        return shapes

    return draw


def key_size(large: bool) -> Draw:
    """Keys as they are, or large."""

    def draw(look: Look, w: float, h: float) -> Shapes:
        cols = 3 if large else 4
        side = (w - 24 - 6 * (cols - 1)) / cols
        high = min(side, (h - 12) / 2 if not large else h - 16)
        shapes: Shapes = []
        for i in range(cols * (1 if large else 2)):
            x, y = 12 + (side + 6) * (i % cols), 6 + (high + 6) * (i // cols)
            shapes += [
                *framed(x, y, side, high, look.leaf, look.line, 1.5, 4),
                word(x + side / 2, y + high / 2, str(i + 1), look.ink, 14, True),
            ]
        return shapes

    return draw


def scale(unit: Unit, fine: int = 1) -> Draw:
    """A stretch of scale with the asked step; grey, since nothing is measured here. fine: 2 halves the step."""

    def draw(look: Look, w: float, h: float) -> Shapes:
        per = 16 * fine if unit == "in" else 10 * fine
        step = 10 / fine if unit == "in" else 8 / fine
        first = per * 3 // 8 if unit == "in" else per // 2
        shapes: Shapes = [box(6, 12, w - 12, h - 12, wash(look.rule)), line((6, 12), (w - 6, 12), stroke(look.ink))]
        for n in range(first, first + int((w - 16) / step) + 1):
            x = 8 + (n - first) * step
            share = _share(unit, n, fine)
            shapes.append(line((x, 12), (x, 12 + (h - 12) * share), stroke(look.ink, 2 if n % per == 0 else 1.3)))
            if n % per == 0 and x > 52:
                name = str(n // per + (39 if unit == "in" else 101))
                shapes.append(word(x - 5, h - 18, name, look.ink, 24, True, RIGHT))
        return shapes

    return draw


def _share(unit: Unit, n: int, fine: int) -> float:
    if n % fine:
        return 0.11 if unit == "in" else 0.13
    whole = n // fine
    if unit == "in":
        return SCALES["in"].tick(whole)[0]
    return SCALES["mm"].tick(whole)[0] if whole % 5 == 0 else 0.24


def role_tape(look: Look, w: float, h: float) -> Shapes:
    """The one who tapes."""
    return [
        *tape_piece(look, (20, h / 2 + 14), (w - 14, h / 2 + 14), 22, True, 8),
        word(w / 2 + 4, h / 2 + 8, "40", look.on_tape, 16, True),
    ]


def role_scribe(look: Look, w: float, h: float) -> Shapes:
    """The one who writes and reads back."""
    x, y = w / 2 - 30, h / 2 - 22
    pencil = [poly([(x + 40, y + 34), (x + 62, y + 2), (x + 70, y + 8), (x + 48, y + 38)], wash(look.ink))]
    pencil.append(poly([(x + 40, y + 34), (x + 48, y + 38), (x + 38, y + 42)], wash(look.ink)))
    return [*framed(x, y, 60, 44, look.paper, look.ink), word(x + 20, y + 22, "40", look.ink, 18, True), *pencil]


def role_office(look: Look, w: float, h: float) -> Shapes:
    """The one at the desk."""
    x, y = w / 2 - 36, h / 2 - 24
    grid = [line((x, y + d), (x + 72, y + d), stroke(look.ink, 1.2)) for d in (12, 24, 36)]
    grid += [line((x + d, y), (x + d, y + 48), stroke(look.ink, 1.2)) for d in (22, 48)]
    return [*framed(x, y, 72, 48, look.paper, look.ink, 2), *grid]
