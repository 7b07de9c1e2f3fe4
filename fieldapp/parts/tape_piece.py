"""Pieces that many drawings share: a piece of blade between two points, a straightedge, the ground, a post."""

from __future__ import annotations

import math

from fieldapp.parts.stroke import CENTER, Point, Shapes, box, dot, line, poly, stroke, wash, word
from fieldapp.theme import BOLD, Look

PAST = 18
"""How far a blade begun at a mark is seen past the face, in pixels: not to scale, so that it is seen at all."""


def along(a: Point, b: Point, share: float, up: float = 0) -> Point:
    """The point at a share of the way from a to b, `up` pixels to the left of it (upwards when going right)."""
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = math.hypot(dx, dy) or 1
    return a[0] + dx * share + dy / length * up, a[1] + dy * share - dx / length * up


def tape_piece(look: Look, a: Point, b: Point, thick: float = 10, hook: bool = True, step: float = 6) -> Shapes:
    """A lit length: blade from a to b, lying on the line between them, hook at a."""
    length = math.hypot(b[0] - a[0], b[1] - a[1])
    if length < 0.5:
        return []
    corners = [along(a, b, 0), along(a, b, 1), along(a, b, 1, thick), along(a, b, 0, thick)]
    shapes: Shapes = [poly(corners, wash(look.tape)), poly(corners, stroke(look.outline))]
    for i in range(1, int((length - 2) / step) + 1):
        share = i * step / length
        shapes.append(line(along(a, b, share, thick), along(a, b, share, thick * 0.5), stroke(look.on_tape, 1)))
    if hook:
        shapes.append(line(along(a, b, 1.5 / length, thick + 3), along(a, b, 1.5 / length, -4), stroke(look.ink, 4)))
    return shapes


def laid(look: Look, a: Point, b: Point, thick: float = 10, how: str = "hook", step: float = 6) -> Shapes:
    """A span as it is taken from face a to face b. how: `hook`; `start`, a mark at the face and the blade on past it, without a hook;
    `case`, the tape's case against the other face; `laser`, no tape at all."""
    length = math.hypot(b[0] - a[0], b[1] - a[1]) or 1
    if how == "start":
        past = along(a, b, -PAST / length)
        mark = line(along(a, b, 0, thick + 5), along(a, b, 0, -3), stroke(look.ink, 3))
        return [*tape_piece(look, past, b, thick, False, step), mark]
    if how == "case":
        share = 1 - 2 * thick / length
        corners = [along(a, b, share, -1), along(a, b, 1, -1), along(a, b, 1, 2 * thick), along(a, b, share, 2 * thick)]
        reel = dot(*along(a, b, 1 - thick / length, thick), thick * 0.55, stroke(look.paper, 1.5))
        return [*tape_piece(look, a, along(a, b, share), thick, True, step), poly(corners, wash(look.ink)), reel]
    if how == "laser":
        body = [along(a, b, 0, -1), along(a, b, 3 * thick / length, -1), along(a, b, 3 * thick / length, thick), along(a, b, 0, thick)]
        ray = line(along(a, b, 3 * thick / length, thick / 2), along(a, b, 1, thick / 2), stroke(look.ink, 2, [8, 4]))
        return [poly(body, wash(look.ink)), ray, dot(*along(a, b, 1, thick / 2), 4, wash(look.ink))]
    return tape_piece(look, a, b, thick, True, step)


def straightedge(look: Look, a: Point, b: Point, thick: float = 9, bubble: bool = True) -> Shapes:
    """A level or straightedge, its underside from a to b."""
    corners = [a, b, along(a, b, 1, thick), along(a, b, 0, thick)]
    shapes: Shapes = [poly(corners, wash(look.leaf)), poly(corners, stroke(look.ink))]
    if bubble:
        shapes.append(dot(*along(a, b, 0.5, thick / 2), thick * 0.38, wash(look.ink)))
    return shapes


def ground(look: Look, left: Point, right: Point, weight: float = BOLD, deep: float = 10, step: float = 9) -> Shapes:
    """The line of the deck, section lines under it: solid ground."""
    slope = (right[1] - left[1]) / ((right[0] - left[0]) or 1)
    floor = lambda x: left[1] + (x - left[0]) * slope  # noqa: E731
    shapes: Shapes = []
    x = left[0]
    while x < right[0] - 2:
        end = min(x + step, right[0])
        shapes.append(line((x, floor(x) + deep), (end, floor(end) + 1), stroke(look.line, 1)))
        x += step
    return [*shapes, line(left, right, stroke(look.deck, weight))]


def post(look: Look, x: float, top: float, foot: float, wide: float, plate: float = 0, cap: bool = True) -> Shapes:
    """A plumb post, x its left face; foot: the deck under its middle. plate: width of its base plate."""
    middle = x + wide / 2
    shapes: Shapes = [box(x, top, wide, foot - top - (6 if plate else 0), wash(look.post))]
    if plate:
        shapes.append(box(middle - plate / 2, foot - 8, plate, 7, wash(look.post)))
    if cap:
        shapes.append(line((x - 3, top), (x + wide + 3, top), stroke(look.ink, BOLD)))
    return shapes


def tag(look: Look, x: float, y: float, name: str, size: float = 15) -> Shapes:
    """A post's name over it."""
    return [word(x, y, name, look.ink, size, True, CENTER)]
