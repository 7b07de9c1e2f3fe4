"""Pictures of the other readings of a bay, a post or a run: small for rows, large for their own question.

Each is draw(look, w, h) -> shapes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from fieldapp.parts.stroke import (
    CHAIN,
    HIDDEN,
    LEFT,
    RIGHT,
    Shapes,
    box,
    dot,
    framed,
    hatch,
    line,
    mapped,
    poly,
    stroke,
    wash,
    word,
)
from fieldapp.parts.taken_pictures import opening
from fieldapp.parts.tape_piece import PAST, ground, laid, tape_piece
from fieldapp.theme import Look

Draw = Callable[[Look, float, float], Shapes]


def second_tape(look: Look, w: float, h: float) -> Shapes:
    """The same span, started anew."""
    o = opening(look, w, h, 0, 8, 8, top=6, foot=8)
    y = o.floor(w / 2) - 8
    return [
        *o.shapes,
        *tape_piece(look, (o.xl, y), (o.xr, y), 8, step=5),
        *tape_piece(look, (o.xl, y - 17), (o.xr, y - 17), 8, step=5),
    ]


def top_span(look: Look, w: float, h: float) -> Shapes:
    """The same two posts, at the head."""
    o = opening(look, w, h, 0, 8, 8, top=4, foot=8)
    return [*o.shapes, *tape_piece(look, (o.xl, 17), (o.xr, 17), 8, step=5)]


def diagonals(look: Look, w: float, h: float) -> Shapes:
    """Foot to a mark up the other post, both ways."""
    o = opening(look, w, h, 0, 8, 8, top=4, foot=8)
    y, mark = o.floor(0) - 3, 12.0
    shapes = [
        *o.shapes,
        *tape_piece(look, (o.xl, y), (o.xr, mark), 6, step=5),
        line((o.xr, y), (o.xl, mark), stroke(look.ink, 1.5, HIDDEN)),
    ]
    return shapes + [line((x, mark), (x + 10, mark), stroke(look.ink, 2.5)) for x in (o.xl - 8, o.xr - 2)]


def rise(look: Look, w: float, h: float) -> Shapes:
    """How much higher one post's foot stands."""
    o = opening(look, w, h, 12, 8, 8, top=6, foot=8)
    x = o.xl - 4
    return [
        *o.shapes,
        line((x - 6, 6), (o.xr + 8, 6), stroke(look.ink, 3)),
        *tape_piece(look, (x + 4, 18), (x + 4, 7), 8, hook=False),
    ]


def moved_post(look: Look, w: float, h: float) -> Shapes:
    """A post was shimmed or moved: its readings grow old."""
    x, foot = w / 2, h - 8
    shapes = [*ground(look, (4, foot), (w - 4, foot), 2.5, 6, 7), box(x - 17, 5, 10, foot - 5, stroke(look.line, 1.5, HIDDEN))]
    shapes += [box(x + 8, 5, 10, foot - 5, wash(look.post)), line((x - 5, 20), (x + 2, 20), stroke(look.ink, 2))]
    return [*shapes, poly([(x + 7, 20), (x, 15), (x, 25)], wash(look.ink))]


def note(look: Look, w: float, h: float) -> Shapes:
    """Words that stay with the bay."""
    lines = [line((20, y), (x, y), stroke(look.ink, 1.5)) for y, x in ((16, w - 20), (25, w - 24), (34, w - 32))]
    return [*framed(14, 5, w - 28, h - 10, look.leaf, look.ink), *lines]


@dataclass(frozen=True, slots=True)
class PlumbWords:
    """gap: beside the gap that is taped. over: two lines about the level's length. drawn: two lines, how often it is drawn."""

    gap: str = ""
    over: tuple[str, str] = ("", "")
    drawn: tuple[str, str] = ("", "")


def plumb(toward: str = "left", words: PlumbWords | None = None) -> Draw:
    """A post that leans, a level held plumb against the side that its head leaves, the gap at its head lit.

    toward: `left`, `right`, or anything else for plumb. The lean is drawn as the words say; without words, in a row, more.
    """

    def draw(look: Look, w: float, h: float) -> Shapes:
        lean = 0.0 if toward not in ("left", "right") else 0.13 if words is None else 0.078
        shapes = _leaning(look, w, h, lean)
        if toward == "right":
            shapes = mapped(shapes, lambda x, y: (w * 0.92 - x, y))
        return shapes + (_plumb_words(look, w, h, words) if words else [])

    return draw


def level_at_post(look: Look, w: float, h: float) -> Shapes:
    """A level held upright against a post, its whole length taped."""
    k = h / 56
    x, low = w * 0.40 + 24 * k, h - 12 * k
    up = low - (h - 16 * k) * 0.86
    return [*_leaning(look, w, h, 0.0), *tape_piece(look, (x, low), (x, up), 5 * k, hook=False, step=5)]


def _leaning(look: Look, w: float, h: float, lean: float) -> Shapes:
    k = h / 56
    x, foot, top, wide = w * 0.40, h - 8 * k, 6 * k, 11 * k
    high = foot - top - 2
    head = lean * high
    face = lambda y: x + wide - head * (foot - y) / high  # noqa: E731
    shapes: Shapes = [line((x - 24 * k, foot), (x + 40 * k, foot), stroke(look.deck, 2.5))]
    shapes += hatch(x - 24 * k, foot + 2, x + 40 * k, foot + 7 * k, look.line, 7, 1)
    shapes.append(poly([(x, foot), (x + wide, foot), (x + wide - head, top), (x - head, top)], wash(look.post)))
    shapes.append(box(x - 5 * k, foot - 3 * k, wide + 10 * k, 3 * k, wash(look.post)))
    level, low = x + wide + 1.5 * k, foot - 4 * k
    up = low - high * 0.86
    shapes += framed(level, up, 7 * k, high * 0.86, look.leaf, look.ink)
    shapes.append(dot(level + 3.5 * k, (up + low) / 2, 2.6 * k, wash(look.ink)))
    gap = up + 5 * k
    lit = [(face(gap), gap), (level, gap), (level, gap - 5 * k), (face(gap - 5 * k), gap - 5 * k)]
    return [*shapes, poly(lit, wash(look.tape)), poly(lit, stroke(look.outline))]


def _plumb_words(look: Look, w: float, h: float, words: PlumbWords) -> Shapes:
    size, x = look.drawn(), w * 0.62
    shapes: Shapes = [word(x, h * 0.20, words.gap, look.ink, size, True, LEFT)]
    for at, lines in ((x, words.over), (14.0, words.drawn)):
        shapes += [word(at, h * 0.62 + i * (size + 4), s, look.ink2, size, at=LEFT) for i, s in enumerate(lines)]
    return shapes


def overall(look: Look, w: float, h: float) -> Shapes:
    """A run in one pull, outside to outside."""
    return run_overall(4 if w < 200 else 6, "outside")(look, w, h)


def run_overall(posts: int, hooked: str, hook: str = "", read: str = "", how: str = "hook") -> Draw:
    """One pull along the deck side of the posts, `outside` to outside or `inside` to inside. hook, read: words at its ends.

    how: how the tape lies, as in `laid`.
    """

    def draw(look: Look, w: float, h: float) -> Shapes:
        k = min(h / 56, 2.4)
        n, foot, wide = max(2, min(posts, 9)), h - 9 * k - (8 if hook else 0), 7 * min(k, 2)
        x0, x1 = 10.0 + (PAST if how == "start" and hooked == "outside" else 0), w - 10
        step = (x1 - x0 - wide) / (n - 1)
        shapes = ground(look, (0, foot), (w, foot), 2.5, 6 * k, 7)
        for i in range(n):
            x = x0 + i * step
            shapes.append(box(x, 4 * k, wide, foot - 4 * k, wash(look.post)))
            if i < n - 1:
                shapes += [box(x + wide - 1, 9 * k, step - wide + 2, foot - 15 * k, wash(look.glass))]
                shapes.append(line((x + wide, 9 * k), (x + step, 9 * k), stroke(look.glass_edge, 1.5)))
        a, b = (x0, x1) if hooked == "outside" else (x0 + wide, x1 - wide)
        shapes += laid(look, (a, foot - 5 * k), (b, foot - 5 * k), 9 * k, how, 6)
        shapes.append(word(14, h - 8, hook, look.ink, look.drawn(), True, LEFT, ground=look.paper))
        return [*shapes, word(w - 14, h - 8, read, look.ink, look.drawn(), True, RIGHT, ground=look.paper)]

    return draw


def run_rise(posts: int, high: str, words: str = "") -> Draw:
    """How much higher one end of the run stands: its first and last post on a slope, the level line between them."""

    def draw(look: Look, w: float, h: float) -> Shapes:
        n, climb = max(2, min(posts, 9)), 0.0 if high not in ("left", "right") else h * 0.28
        x0, x1, low = 16.0, w - 16, h - 22
        floor = lambda x: low - climb * ((x - x0) / (x1 - x0) if high == "right" else (x1 - x) / (x1 - x0))  # noqa: E731
        shapes = ground(look, (0, floor(0)), (w, floor(w)), 2.5, 10, 8)
        top = floor(x1 if high == "right" else x0) - h * 0.42
        for i in range(n):
            x = x0 + (x1 - x0) * i / (n - 1)
            shapes.append(box(x - 5, floor(x) - h * 0.42, 10, h * 0.42, wash(look.post)))
        low_x = x0 if high == "right" else x1
        shapes.append(line((x0 - 10, top), (x1 + 10, top), stroke(look.ink, 1.5, CHAIN)))
        if climb:
            shapes += tape_piece(look, (low_x + 5, top + climb), (low_x + 5, top), 10, hook=False)
        return [*shapes, word(w / 2, h - 6, words, look.ink2, look.drawn())]

    return draw
