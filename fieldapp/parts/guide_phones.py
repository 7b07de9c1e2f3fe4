"""Pictures of the guide about phones: how the tool gets there, what it keeps, both ends of a day. draw(look, w, h) -> shapes."""

from __future__ import annotations

from fieldapp.parts.guide_pictures import call
from fieldapp.parts.stroke import HIDDEN, Shapes, arrow_head, box, dot, framed, hatch, line, stroke, wash, word
from fieldapp.parts.verdict import Sign, sign_shapes
from fieldapp.theme import Look

_ACROSS, _UP = 78.0, 148.0
"""A phone as it is drawn, in px."""


def _phone(look: Look, x: float, y: float, dark: bool = False) -> Shapes:
    """A phone whose middle is x, its top y. dark: a private window."""
    left = x - _ACROSS / 2
    shapes = framed(left, y, _ACROSS, _UP, look.post if dark else look.leaf, look.ink, 2.5, 11)
    return [*shapes, line((x - 9, y + 8), (x + 9, y + 8), stroke(look.paper if dark else look.line, 2.5))]


def _bar(look: Look, x: float, y: float, words: str) -> Shapes:
    """A browser's line with an address."""
    return [*framed(x - 31, y, 62, 18, look.paper, look.line, 1.2, 5), word(x, y + 9, words, look.ink, 12, True)]


def _sign(look: Look, x: float, y: float, sign: Sign = "clear", wide: float = 52) -> Shapes:
    return sign_shapes(look, sign, x - wide / 2, y, wide, wide * 0.76)


def _onward(look: Look, x0: float, x1: float, y: float) -> Shapes:
    return [line((x0, y), (x1 - 4, y), stroke(look.ink, 2)), arrow_head((x1, y), 3.14159, look.ink, 10)]


def _homes(look: Look, x: float, y: float) -> Shapes:
    """A home screen: plain places, one with the tool's sign."""
    shapes: Shapes = []
    for row in range(4):
        for column in range(3):
            left, top = x - 31 + column * 23, y + row * 26
            if (row, column) == (1, 1):
                shapes += [
                    *framed(left - 2, top - 2, 20, 20, look.leaf, look.ink, 1.5, 4),
                    *sign_shapes(look, "clear", left, top + 1, 16, 13),
                ]
            else:
                shapes.append(box(left, top, 16, 16, stroke(look.line, 1.2), 4))
    return shapes


def onto_the_phone(look: Look, w: float, h: float) -> Shapes:
    """1 the address in a browser, 2 the home screen with the sign on it, 3 the sign large: ready."""
    top, places = 46.0, (w * 0.17, w * 0.5, w * 0.83)
    shapes: Shapes = []
    for x in places:
        shapes += _phone(look, x, top)
    first, second, third = places
    shapes += _bar(look, first, top + 20, "https")
    for n in range(4):
        shapes.append(
            line((first - 26, top + 56 + n * 16), (first + (26 if n < 3 else 6), top + 56 + n * 16), stroke(look.line, 2))
        )
    shapes += _homes(look, second, top + 22)
    shapes += [
        *_sign(look, third, top + 46, wide=58),
        line((third - 26, top + 112), (third + 26, top + 112), stroke(look.line, 2)),
    ]
    for a, b in ((first, second), (second, third)):
        shapes += _onward(look, a + _ACROSS / 2 + 6, b - _ACROSS / 2 - 6, top + _UP / 2)
    for number, x in zip("123", places, strict=True):
        shapes += call(look, number, (x, 20), (x, top + 2), good=True)
    return shapes


def what_it_keeps(look: Look, w: float, h: float) -> Shapes:
    """1 the phone with the job in it; not 2 a private window, 3 one that is being cleared, 4 another browser beside it."""
    top, places = 46.0, tuple(w * share for share in (0.13, 0.38, 0.62, 0.87))
    shapes: Shapes = []
    for at, x in enumerate(places):
        shapes += _phone(look, x, top, dark=at == 1)
    one, two, three, four = places
    shapes += _sign(look, one, top + 50)
    shapes += [dot(two - 12, top + 62, 9, stroke(look.paper, 2)), dot(two + 12, top + 62, 9, stroke(look.paper, 2))]
    shapes += [
        line((two - 3, top + 62), (two + 3, top + 62), stroke(look.paper, 2)),
        line((two - 26, top + 48), (two + 26, top + 48), stroke(look.paper, 3)),
    ]
    shapes.append(box(two - 24, top + 88, 48, 32, stroke(look.paper, 1.5, HIDDEN)))
    shapes += [*_sign(look, three, top + 50, "todo"), *hatch(three - 26, top + 50, three + 26, top + 90, look.line, 7, 1.4)]
    shapes += [line((three - 28, top + 96), (three + 28, top + 44), stroke(look.ink, 3))]
    shapes += [*_bar(look, four, top + 20, "A"), *_sign(look, four, top + 42, wide=34)]
    shapes += [*_bar(look, four, top + 82, "B"), box(four - 17, top + 106, 34, 26, stroke(look.line, 1.5, HIDDEN))]
    shapes += call(look, "1", (one, 20), (one, top + 2), good=True)
    for number, x in zip("234", places[1:], strict=True):
        shapes += call(look, number, (x, 20), (x, top + 2))
    return shapes


def _desk(look: Look, x: float, y: float) -> Shapes:
    """The office: a screen on a table, the tick on it."""
    screen = framed(x - 48, y, 96, 66, look.leaf, look.ink, 2.5, 4)
    foot = [line((x, y + 66), (x, y + 84), stroke(look.ink, 4)), line((x - 60, y + 84), (x + 60, y + 84), stroke(look.ink, 3))]
    legs = [line((x + s * 54, y + 84), (x + s * 54, y + 128), stroke(look.ink, 3)) for s in (-1, 1)]
    return [*screen, *_sign(look, x, y + 16, wide=44), *foot, *legs]


def both_ends_of_the_day(look: Look, w: float, h: float) -> Shapes:
    """At home 1 ready and 2 tried with the network off; on the site 3 sent to the office, or 4 saved as a copy."""
    top = 46.0
    one, two, desk, file = w * 0.14, w * 0.385, w * 0.825, w * 0.605
    shapes = [*_phone(look, one, top), *_sign(look, one, top + 50)]
    shapes += [*_phone(look, two, top), *_no_signal(look, two, top + 44)]
    middle = w * 0.53
    shapes.append(line((middle, 10), (middle, top + _UP + 4), stroke(look.line, 1.5, HIDDEN)))
    shapes += _desk(look, desk, top + 20)
    shapes += _onward(look, middle + 14, desk - 54, top + 40)
    shapes += _file(look, file, top + 100)
    for number, x, y in (("1", one, top + 2), ("2", two, top + 2), ("3", desk, top + 22)):
        shapes += call(look, number, (x, 20), (x, y), good=True)
    return [*shapes, *call(look, "4", (file, top + 74), (file, top + 102), good=True)]


def _no_signal(look: Look, x: float, y: float) -> Shapes:
    """Four bars of signal, struck through; the sign below."""
    bars = [box(x - 20 + n * 11, y + 24 - n * 6, 7, 6 + n * 6, wash(look.line)) for n in range(4)]
    return [*bars, line((x - 24, y - 2), (x + 24, y + 34), stroke(look.ink, 3)), *_sign(look, x, y + 48)]


def _file(look: Look, x: float, y: float) -> Shapes:
    """A job file."""
    lines = [line((x - 12, y + 14 + n * 9), (x + (12 if n < 2 else 2), y + 14 + n * 9), stroke(look.line, 1.8)) for n in range(3)]
    return [*framed(x - 20, y, 40, 48, look.leaf, look.ink, 2), *lines]
