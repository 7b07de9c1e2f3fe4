"""Pictures of the guide: right places carry a solid number, wrong ones an open number. draw(look, w, h) -> shapes."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from fieldapp.parts.stroke import HIDDEN, RIGHT, Point, Shapes, box, dot, drawing, line, stroke, wash, word
from fieldapp.parts.tape_piece import ground, straightedge, tape_piece
from fieldapp.theme import BOLD, Look


def call(look: Look, number: str, at: Point, to: Point, good: bool = False) -> Shapes:
    """A number in a ring with a line to its place."""
    x, y = at
    disc = [dot(x, y, 15, wash(look.main if good else look.paper)), dot(x, y, 15, stroke(look.paper if good else look.ink, 2))]
    return [
        line(to, at, stroke(look.ink)),
        dot(*to, 4, wash(look.ink)),
        *disc,
        word(x, y, number, look.on_main if good else look.ink, 17, True),
    ]


def ring(look: Look, number: str, good: bool = True) -> ft.Control:
    """The number of a line below a picture, as it stands in the picture."""
    shapes = [
        dot(18, 18, 16, wash(look.main if good else look.paper)),
        dot(18, 18, 16, stroke(look.main if good else look.ink, 2)),
        word(18, 18, number, look.on_main if good else look.ink, 17, True),
    ]
    return drawing(shapes, 36, 36)


def foot_of_post(look: Look, w: float, h: float) -> Shapes:
    """The foot of the left post from the deck: 1 where the hook goes; 2 plate's edge, 3 gasket's lip, 4 the head: not there."""
    face, floor = 150.0, h - 56
    floor_of_groove = face - 30
    shapes: Shapes = [
        box(face, 26, w - face, floor - 94, wash(look.glass)),
        line((face, floor - 68), (w, floor - 68), stroke(look.glass_edge, 2.5)),
    ]
    shapes += ground(look, (0, floor), (w, floor), BOLD, 14, 9)
    shapes += [box(60, 12, face - 60, floor - 28, wash(look.post)), line((57, 12), (face + 3, 12), stroke(look.ink, BOLD))]
    hidden = stroke(look.paper, 1.5, HIDDEN)
    shapes += [
        line((floor_of_groove, 16), (floor_of_groove, floor - 68), hidden),
        line((floor_of_groove, floor - 68), (face, floor - 68), hidden),
    ]
    shapes += [
        box(14, floor - 16, 182, 15, wash(look.post), 1),
        dot(34, floor - 17, 5, wash(look.ink)),
        dot(176, floor - 17, 5, wash(look.ink)),
    ]
    shapes.append(box(face, 26, 7, floor - 94, wash(look.ink)))
    shapes += _hooked(look, face, floor - 22, w)
    shapes += call(look, "1", (108, floor - 40), (face - 2, floor - 34), good=True)
    shapes += call(look, "2", (232, h - 20), (196, floor - 8)) + call(look, "3", (206, 92), (face + 4, 118))
    return shapes + call(look, "4", (206, 40), (face + 1, 20))


def _hooked(look: Look, face: float, y: float, w: float) -> Shapes:
    shapes = tape_piece(look, (face, y), (w + 8, y), 24, True, 9)
    for i in (1, 2):
        x = face + i * 90
        shapes += [
            line((x + 2, y - 24), (x + 2, y), stroke(look.on_tape, 2)),
            word(x - 4, y - 9, str(i), look.on_tape, 20, True, RIGHT),
        ]
    return shapes


def straightedge_over_posts(look: Look, w: float, h: float) -> Shapes:
    """The rise: 1 the levelled straightedge on the higher post, 2 the gap over the lower one; 3 the deck is not the place."""
    left, right, floor, climb, top = 70.0, w - 90, h - 50, 40.0, 60.0
    slope = lambda x: floor - climb * (x - left) / (right - left)  # noqa: E731
    shapes = ground(look, (0, slope(0)), (w, slope(w)), BOLD, 12, 9)
    for x, y in ((left, top + climb), (right, top)):
        shapes += [box(x - 12, y, 24, slope(x) - y, wash(look.post)), box(x - 26, slope(x) - 8, 52, 8, wash(look.post))]
        shapes.append(line((x - 16, y), (x + 16, y), stroke(look.ink, BOLD)))
    shapes += straightedge(look, (left - 40, top - 2), (right + 40, top - 2), 12)
    shapes += tape_piece(look, (left + 8, top + climb), (left + 8, top - 2), 16, hook=False)
    shapes += call(look, "1", (w / 2 + 60, 24), (w / 2 + 40, top - 8), good=True) + call(
        look, "2", (left + 60, top + climb / 2 + 22), (left + 6, top + climb / 2), good=True
    )
    return shapes + call(look, "3", (w / 2, h - 18), (w / 2 + 10, slope(w / 2 + 10) - 2))


def filling_bay(share: float, words: str = "") -> Callable[[Look, float, float], Shapes]:
    """A bay that its pane fills from the left, as parts arrive: glass colour, never yellow. share: 0 to 1."""

    def draw(look: Look, w: float, h: float) -> Shapes:
        x0, x1, floor = 36.0, w - 36, h - 22
        x, edge = x0 + (x1 - x0) * min(max(share, 0.0), 1.0), stroke(look.glass_edge, 2.5)
        shapes = [
            *ground(look, (0, floor), (w, floor), BOLD, 12, 9),
            box(x0, 16, x1 - x0, floor - 28, stroke(look.line, 1.5, HIDDEN)),
        ]
        shapes.append(box(x0, 16, x - x0, floor - 28, wash(look.glass)))
        shapes += [
            line((x0, 16), (x, 16), edge),
            line((x0, floor - 12), (x, floor - 12), edge),
            line((x, 16), (x, floor - 12), edge),
        ]
        for p in (x0 - 18, x1):
            shapes += [box(p, 6, 18, floor - 6, wash(look.post)), box(p - 9, floor - 6, 36, 6, wash(look.post))]
            shapes.append(line((p - 3, 6), (p + 21, 6), stroke(look.ink, BOLD)))
        return [*shapes, word((x0 + x1) / 2, (4 + floor) / 2, words, look.ink, look.drawn(20), True)]

    return draw
