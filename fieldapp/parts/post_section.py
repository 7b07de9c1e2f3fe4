"""Two posts cut through, seen from above: where the glass sits. The figure that is asked is lit and drawn to what was typed.

Each figure has its own scale (printed nowhere, since nothing is measured from it): at one for all a sixteenth would be 3 px.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import flet as ft

from fieldapp.parts.stroke import RIGHT, Point, Shapes, arrow_head, box, drawing, framed, hatch, line, poly, stroke, wash, word
from fieldapp.theme import GLASS, Look

Asked = Literal["face", "groove", "allowance", "bite", "play", "spacing"]
_SCALE = {"face": 50.0, "spacing": 50.0, "groove": 72.0, "allowance": 72.0, "bite": 80.0, "play": 80.0, None: 40.0}
_DEEP_IN = 1.8
"""Depth of a post along the line of sight, drawn only."""
_AIR = 16.0
"""Pixels between the edge of the picture and the deepest that is drawn in it."""


@dataclass(frozen=True, slots=True)
class SystemFigures:
    """The system's figures in inches, for the drawing only."""

    face: float = 2.5
    groove: float = 0.8125
    allowance: float = 1.3125
    bite: float = 0.25
    play: float = 0.0625
    glass: float = 0.394


@dataclass(frozen=True, slots=True)
class SectionWords:
    """Words in the drawing."""

    glass: str = "glass"
    left: str = "left post"
    right: str = "right post"
    above: str = "seen from above"
    both: str = "both together"
    home: str = "home"


@dataclass(frozen=True, slots=True)
class SectionLines:
    """Where everything lies, in pixels: k a scale in pixels an inch; post faces, groove floors, the pane's two ends."""

    k: float
    post: float
    left_face: float
    right_face: float
    left_floor: float
    right_floor: float
    left_edge: float
    right_edge: float
    top: float
    deep: float

    @property
    def middle(self) -> float:
        """y of the glass line."""
        return self.top + self.deep / 2


def section_height(ask: Asked | None) -> float:
    """Height of the picture in pixels."""
    return (46 if ask else 12) + _DEEP_IN * _SCALE[ask] + 24


def section_lines(figures: SystemFigures, ask: Asked | None, w: float) -> SectionLines:
    """Bite and play push the panel home to the left, so that what is still held or still free at the right is seen.

    What is larger than usual is drawn smaller, so that it ends within the picture.
    """
    wide = ask in (None, "face", "spacing")
    reach = max(figures.groove, figures.allowance / 2, figures.bite, 0.5)
    k = min(_SCALE[ask], 140 / max(figures.face, 0.5) if wide else (w * 0.36 - _AIR) / reach)
    post = figures.face * k
    left = 20 + post if wide else w * 0.36
    right = w - left
    left_floor, right_floor = left - figures.groove * k, right + figures.groove * k
    edges = left - figures.allowance / 2 * k, right + figures.allowance / 2 * k
    if ask == "bite":
        edges = left_floor, right + figures.bite * k
    elif ask == "play":
        edges = left_floor, right_floor - figures.play * k
    return SectionLines(k, post, left, right, left_floor, right_floor, *edges, 46 if ask else 12, _DEEP_IN * _SCALE[ask])


def section_picture(
    look: Look,
    figures: SystemFigures,
    ask: Asked | None = None,
    words: SectionWords | None = None,
    w: float | None = None,
    says: str = "",
) -> ft.Control:
    """The drawing, `section_height(ask)` pixels high."""
    w = w or look.width
    return clipped(drawing(section_shapes(look, figures, ask, words or SectionWords(), w), w, section_height(ask), says), w, section_height(ask))


def clipped(picture: ft.Control, w: float, h: float) -> ft.Container:
    """The drawing within its edges, however large a figure is typed."""
    return ft.Container(picture, width=w, height=h, bgcolor=ft.Colors.TRANSPARENT, clip_behavior=ft.ClipBehavior.HARD_EDGE)


def section_shapes(look: Look, figures: SystemFigures, ask: Asked | None, words: SectionWords, w: float) -> Shapes:
    """The same as shapes, to be set again while a figure is typed."""
    lines = section_lines(figures, ask, w)
    shapes = _post(look, lines, w, left=True, lit=ask == "groove") + _post(look, lines, w, left=False, lit=False)
    if ask == "play":
        half = _groove_half(lines)
        shapes.append(
            box(lines.right_edge, lines.middle - half + 1, lines.right_floor - lines.right_edge, 2 * half - 2, wash(look.tape))
        )
    shapes += _pane(look, lines, figures, ask) + _gaskets(look, lines, figures)
    shapes += _asked(look, lines, figures, ask, words)
    return shapes + _labels(look, lines, figures, ask, words, w)


def _groove_half(lines: SectionLines) -> float:
    return 0.74 * lines.k / 2


def _post(look: Look, s: SectionLines, w: float, left: bool, lit: bool) -> Shapes:
    """Hatched metal, the groove open to the middle, the hollow behind it."""
    x = s.left_face - s.post if left else s.right_face
    face, floor, half, y = (
        (s.left_face, s.left_floor, _groove_half(s), s.middle)
        if left
        else (s.right_face, s.right_floor, _groove_half(s), s.middle)
    )
    shapes: Shapes = [box(x, s.top, s.post, s.deep, wash(look.leaf))]
    shapes += hatch(max(x, -2), s.top, min(x + s.post, w + 2), s.top + s.deep, look.post, 6, 1.1)
    shapes.append(box(x, s.top, s.post, s.deep, stroke(look.ink, 2.5)))
    a, b = min(face, floor), max(face, floor)
    shapes.append(box(a, y - half, b - a + 0.5, 2 * half, wash(look.tape if lit else look.paper)))
    shapes.append(
        poly([(face, y - half), (floor, y - half), (floor, y + half), (face, y + half)], stroke(look.ink, 2.5), close=False)
    )
    shapes.append(line((face, y - half + 1.5), (face, y + half - 1.5), stroke(look.paper, 3.5)))
    wall = 0.14 * s.k
    c, d = (x + wall, floor - wall) if left else (floor + wall, x + s.post - wall)
    if d - c > 4:
        shapes += framed(c, s.top + wall, d - c, s.deep - 2 * wall, look.paper, look.ink, 1.5, 3)
    return shapes


def _pane(look: Look, s: SectionLines, figures: SystemFigures, ask: Asked | None) -> Shapes:
    """The pane, broken in the middle; what is asked of it filled yellow."""
    y, half, m, z = s.middle, figures.glass * s.k / 2, (s.left_face + s.right_face) / 2, 7
    edge = stroke(look.glass_edge, GLASS)
    shapes: Shapes = []
    for a, b in ((s.left_edge, m - z), (m + z, s.right_edge)):
        shapes += [box(a, y - half, b - a, 2 * half, wash(look.glass))]
        shapes += [line((a, v), (b, v), edge) for v in (y - half, y + half)]
    shapes += [line((x, y - half - 1), (x, y + half + 1), edge) for x in (s.left_edge, s.right_edge)]
    for x in (m - z, m + z):
        zigzag: list[Point] = [(x - 3, y - half - 5), (x + 4, y - 3), (x - 4, y + 3), (x + 3, y + half + 5)]
        shapes.append(poly(zigzag, stroke(look.ink, 1.2), close=False))
    lit = {"allowance": ((s.left_edge, s.left_face), (s.right_face, s.right_edge)), "bite": ((s.right_face, s.right_edge),)}
    for a, b in lit.get(ask or "", ()):
        shapes += framed(a, y - half, b - a, 2 * half, look.tape, look.outline)
    return shapes


def _gaskets(look: Look, s: SectionLines, figures: SystemFigures) -> Shapes:
    """Lips at the mouths of the grooves."""
    half, glass = _groove_half(s), figures.glass * s.k / 2
    high = half - glass
    return [
        box(x, y, 0.28 * s.k, high - 1.5, wash(look.ink), 3)
        for x in (s.left_face - 0.3 * s.k, s.right_face + 0.02 * s.k)
        for y in (s.middle - half + 1.5, s.middle + glass)
        if high > 2
    ]


def _lit_length(look: Look, x1: float, x2: float, drop: float, near: bool = True, far: bool = True) -> Shapes:
    """A piece of blade over the drawing, its two ends let down to what it measures."""
    y, t = 30.0, 15.0
    shapes: Shapes = [line((x, y - t - 3), (x, drop), stroke(look.ink, 1.2)) for x, on in ((x1, near), (x2, far)) if on]
    shapes += framed(x1, y - t, x2 - x1, t, look.tape, look.outline)
    x = x1 + 6
    while x < x2 - 3:
        shapes.append(line((x, y - t), (x, y - t + 6), stroke(look.on_tape, 1)))
        x += 6
    return shapes


def _asked(look: Look, s: SectionLines, figures: SystemFigures, ask: Asked | None, words: SectionWords) -> Shapes:
    half, glass, m = _groove_half(s), figures.glass * s.k / 2, (s.left_face + s.right_face) / 2
    if ask == "face":
        return _lit_length(look, s.left_face - s.post, s.left_face, s.top)
    if ask == "groove":
        return _lit_length(look, s.left_floor, s.left_face, s.middle - half)
    if ask == "allowance":
        shapes = _lit_length(look, s.left_edge, s.left_face, s.middle - glass) + _lit_length(
            look, s.right_face, s.right_edge, s.middle - glass
        )
        return [*shapes, word(m, 23, words.both, look.ink, 14)]
    if ask == "bite":
        return _lit_length(look, s.right_face, s.right_edge, s.middle - glass) + _home(look, s, words)
    if ask == "play":
        return _lit_length(look, s.right_edge, s.right_floor, s.middle - half) + _home(look, s, words)
    return _spacing(look, s) if ask == "spacing" else []


def _home(look: Look, s: SectionLines, words: SectionWords) -> Shapes:
    """The panel is pushed home to the left."""
    x, y = s.left_floor, s.middle
    return [arrow_head((x - 20, y), 0, look.ink, 12, 0.52), word(x - 26, y, words.home, look.ink, 14, True, RIGHT)]


def _spacing(look: Look, s: SectionLines) -> Shapes:
    """Middle to middle, the blade broken: far more than the drawing holds."""
    m, low = (s.left_face + s.right_face) / 2, s.top + s.deep + 6
    a, b = s.left_face - s.post / 2, s.right_face + s.post / 2
    shapes = _lit_length(look, a, m - 8, low, far=False) + _lit_length(look, m + 8, b, low, near=False)
    shapes.append(box(m - 9, 11, 18, 22, wash(look.paper)))
    return shapes + [line((m + d, 12), (m + d + 4, 33), stroke(look.ink, 1.5)) for d in (-8, 4)]


def _labels(look: Look, s: SectionLines, figures: SystemFigures, ask: Asked | None, words: SectionWords, w: float) -> Shapes:
    m, size, low = w / 2, look.drawn(), s.top + s.deep + 13
    shapes: Shapes = [
        word(m, s.middle + figures.glass * s.k / 2 + 16, words.glass, look.ink2, size),
        word(m, low, words.above, look.ink2, size),
    ]
    if ask in (None, "face", "spacing") and look.text < 1.4:
        shapes += [
            word(s.left_face - s.post / 2, low, words.left, look.ink2, size),
            word(s.right_face + s.post / 2, low, words.right, look.ink2, size),
        ]
    return shapes
