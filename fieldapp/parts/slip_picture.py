"""A likely slip, drawn: a finding that shows how the tape lay is understood in seconds."""

from __future__ import annotations

import math
from fractions import Fraction

import flet as ft

from fieldapp.parts.blade import two_on_blade
from fieldapp.parts.blade_tiles import Unit
from fieldapp.parts.stroke import Shapes, box, dimension, dot, drawing, framed, hatch, line, poly, stroke, wash, word
from fieldapp.parts.tape_piece import tape_piece
from fieldapp.theme import BOLD, Look

_PX = {"in": 64.0, "mm": 6.4}
_TALL = 94
_BLADE = 36
_TOP = 30


def hook_end(look: Look, unit: Unit, width: float, start: int, says: str = "") -> ft.Control:
    """The beginning of a blade at a post's face: start 0 the hook grips it; 1 (in) or 100 (mm) that mark does: a burnt inch.

    start in the unit. In millimetres the blade is drawn from 50 mm before the mark.
    """
    face = 96.0
    px = _PX[unit]
    first = 0 if unit == "in" or start < 50 else start - 12
    at = lambda v: face + (v - start) * px  # noqa: E731
    shapes = _begun(look, at(first), width, hooked=first == 0)
    shapes += _ticks(look, unit, first, at, width, start)
    return drawing(shapes + _face(look, face, width), width, _TALL, says)


def _begun(look: Look, x: float, width: float, hooked: bool) -> Shapes:
    y, h = _TOP, _BLADE
    shapes = [
        box(x, y, width - x, h, wash(look.tape)),
        line((x, y), (width, y), stroke(look.ink)),
        line((x, y + h), (width, y + h), stroke(look.ink)),
    ]
    return [*shapes, line((x, y - 5), (x, y + h + 8), stroke(look.ink, 4))] if hooked else shapes


def _ticks(look: Look, unit: Unit, first: int, at: object, width: float, start: int) -> Shapes:
    y, h, shapes = _TOP, _BLADE, []
    parts = 8 if unit == "in" else 1
    n = first * parts + 1
    while at(n / parts) < width:  # type: ignore[operator]
        x = at(n / parts)  # type: ignore[operator]
        whole = n % parts == 0 if unit == "in" else n % 10 == 0
        half = n % (parts // 2) == 0 if unit == "in" else n % 5 == 0
        shapes.append(line((x, y), (x, y + h * (0.34 if whole else 0.3 if half else 0.18)), stroke(look.on_tape, 1.4)))
        if whole:
            label = str(n // parts if unit == "in" else n // 10)
            shapes.append(
                word(x - (3 + 6 * len(label) if n == start * parts else 0), y + h * 0.66, label, look.on_tape, 18, True)
            )
        n += 1
    return shapes


def _face(look: Look, face: float, width: float) -> Shapes:
    y, h = _TOP, _BLADE
    shapes = [box(24, y - 22, face - 24, h + 40, wash(ft.Colors.with_opacity(0.12, look.post)))]
    shapes += hatch(24, y - 22, face, y - 6, look.post, 9, 1) + hatch(24, y + h + 8, face, y + h + 18, look.post, 9, 1)
    return [
        *shapes, line((face, y - 24), (face, y + h + 20), stroke(look.ink, BOLD)),
        poly([(face - 8, y - 26), (face + 8, y - 26), (face, y - 14)], wash(look.ink)),
    ]  # fmt: skip


def other_mark(
    look: Look, unit: Unit, read: Fraction, likely: Fraction, words: tuple[str, str], width: float, says: str = ""
) -> ft.Control:
    """Two marks on one blade, as read and as it likely stood: another denominator, the neighbouring mark.

    words: what stands beside the two pointers, one or two letters each. Marks further apart than the picture: see `far_apart`.
    """
    return two_on_blade(look, unit, read, likely, words, width, 56, says)


def far_apart(look: Look, left: str, right: str, apart: str, width: float, says: str = "") -> ft.Control:
    """Two figures and what lies between them, where one blade cannot show both: a foot, a case, the next bay's figure."""
    y, mid = 40.0, width / 2
    shapes = tape_piece(look, (24, y + 14), (width - 24, y + 14), 24, True, 9)
    for x, name in ((mid - 70, left), (mid + 70, right)):
        shapes += [line((x, y - 22), (x, y + 14), stroke(look.ink, BOLD)), word(x, y - 30, name, look.ink, 16, True)]
    return drawing(
        [*shapes, *dimension((mid - 70, y + 30), (mid + 70, y + 30), look.ink), word(mid, y + 44, apart, look.ink, 14, True)],
        width,
        _TALL,
        says,
    )


def case_left_out(look: Look, case: str, width: float, says: str = "") -> ft.Control:
    """The tape's case in the opening: its own length belongs to the figure."""
    y, x = 46.0, width - 110
    shapes: Shapes = hatch(8, y - 34, 40, y + 34, look.post, 8, 1) + hatch(width - 40, y - 34, width - 8, y + 34, look.post, 8, 1)
    shapes += [line((e, y - 36), (e, y + 36), stroke(look.ink, BOLD)) for e in (40, width - 40)]
    shapes += tape_piece(look, (40, y + 16), (x + 10, y + 16), 20, True, 8)
    shapes += [*framed(x, y - 26, 70, 46, look.ink, look.ink, 1.5, 8), dot(x + 35, y - 4, 14, stroke(look.paper, 1.5))]
    return drawing(
        [*shapes, *dimension((x, y + 30), (x + 70, y + 30), look.ink, head=6), word(x + 35, y + 42, case, look.ink, 14, True)],
        width,
        _TALL,
        says,
    )


def tilted(look: Look, words: str, width: float, says: str = "") -> ft.Control:
    """A tape that does not lie straight across reads too long."""
    shapes: Shapes = [line((x, 8), (x, 84), stroke(look.ink, BOLD)) for x in (40, width - 40)]
    shapes += [line((40, 70), (width - 40, 70), stroke(look.ink, 1.2, [6, 3]))]
    angle = math.atan2(34, width - 80)
    shapes += tape_piece(look, (40, 70), (width - 40, 70 - (width - 80) * math.tan(angle)), 12, True, 8)
    return drawing([*shapes, word(width / 2, 82, words, look.ink, 14, True)], width, _TALL, says)
