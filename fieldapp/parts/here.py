"""Who is on a bay just now: the letter of a name on a dark plate, at a corner of the bay's sign in every strip and plan."""

from __future__ import annotations

import flet as ft

from fieldapp.parts.stroke import Shapes, box, drawing, wash, word
from fieldapp.theme import Look

_MOST = 3


def here_shapes(look: Look, letters: str, right: float, middle: float) -> Shapes:
    """A plate for each letter, the last one ending at `right`, halfway up at `middle`. letters: `KM`; more than three end in a `+`."""
    shown = letters if len(letters) <= _MOST else letters[: _MOST - 1] + "+"
    size = look.drawn(13)
    side = size + 5
    shapes: Shapes = []
    for n, one in enumerate(shown):
        x = right - (len(shown) - n) * (side + 1)
        shapes.append(box(x, middle - side / 2, side, side, wash(look.paper), 3))  # a rim of paper parts it from the sign
        shapes.append(box(x + 1, middle - side / 2 + 1, side - 2, side - 2, wash(look.ink), 2))
        shapes.append(word(x + side / 2, middle, one, look.paper, size, True))
    return shapes


def person_plates(look: Look, letters: str) -> ft.Control:
    """The plates by themselves, beside a word that says who they are."""
    side = look.drawn(13) + 5
    wide = (side + 1) * min(len(letters), _MOST) + 2
    return drawing(here_shapes(look, letters, wide, side / 2 + 1), wide, side + 2)
