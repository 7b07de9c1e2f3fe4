"""The ordered panel as a shop drawing: outline, dimension lines, the rack at its corner, the high end named.

Seen from the deck, looking out; the page says so in bold under every drawing. Widths and heights have scales of their own and are
not to be measured; the slope is drawn a stated number of times, true to that number.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import flet as ft

from fieldapp.parts.bay_shape import RUN_FACTORS, choose_factor
from fieldapp.parts.stroke import (
    CHAIN,
    LEFT,
    NBSP,
    RIGHT,
    Point,
    Shapes,
    arrow_head,
    dimension,
    drawing,
    line,
    poly,
    stroke,
    wash,
    word,
)
from fieldapp.parts.tape_piece import along, tape_piece
from fieldapp.theme import Look

High = Literal["left", "right", "none"]
Length = Literal["width", "left", "right", "rising", "falling"]


@dataclass(frozen=True, slots=True)
class PanelShape:
    """The panel in one unit, ratios matter: width, the two uprights, the rack and the side on which it stands higher."""

    width: float
    left: float
    right: float
    rack: float
    high: High = "none"

    @property
    def tan(self) -> float:
        """Rack over width, without sign."""
        return self.rack / self.width if self.width else 0.0


@dataclass(frozen=True, slots=True)
class PanelWords:
    """Figures as ordered, and words: tag in the glass, `rack 3/8 in` at its corner, `high end`."""

    tag: str
    width: str
    left: str
    right: str
    rack: str = ""
    high_end: str = ""


@dataclass(frozen=True, slots=True)
class PanelLines:
    """Corners in pixels, y down: lower left, lower right, upper right, upper left; how many times the slope is drawn."""

    corners: tuple[Point, Point, Point, Point]
    factor: int
    base: float


def panel_lines(panel: PanelShape, x0: float, x1: float, top: float, base: float, room: float = 0.45) -> PanelLines:
    """The corners between x0 and x1. base, top: y of the low foot, of the highest corner. room: what the slope may take."""
    run = x1 - x0
    factor = choose_factor(panel.tan, run, (base - top) * room, RUN_FACTORS)
    climb = factor * panel.tan * run
    if climb > (base - top) * room:  # too steep for its true slope: the picture becomes narrower
        run *= (base - top) * room / climb
        climb = (base - top) * room
        x0, x1 = (x0 + x1 - run) / 2, (x0 + x1 + run) / 2
    low_l, low_r = (0.0, climb) if panel.high == "right" else (climb, 0.0) if panel.high == "left" else (0.0, 0.0)
    # Uprights share one scale of heights; a level-top's differ by the rack, drawn as many times as the slope.
    extra = factor * (max(panel.left, panel.right) - min(panel.left, panel.right)) * run / panel.width
    short = base - top - climb if not extra else base - top - max(climb, extra)
    left = short + (extra if panel.left > panel.right else 0)
    right = short + (extra if panel.right > panel.left else 0)
    corners = ((x0, base - low_l), (x1, base - low_r), (x1, base - low_r - right), (x0, base - low_l - left))
    return PanelLines(corners, factor, base)


def panel_drawing(look: Look, panel: PanelShape, words: PanelWords, w: float, h: float, says: str = "") -> tuple[ft.Control, int]:
    """The drawing, and how many times its slope is drawn: to be printed beside it."""
    lines = panel_lines(panel, 62, w - 62, 16, h - 72)
    a, b, c, d = lines.corners
    size = min(look.size("body"), 20)
    shapes: Shapes = [poly(list(lines.corners), wash(look.glass)), poly(list(lines.corners), stroke(look.glass_edge, 2.5))]
    shapes.append(line((a[0], lines.base), (b[0], lines.base), stroke(look.line, 1.2, CHAIN)))
    shapes += _width(look, a, b, lines.base + 44, words.width, size + 2)
    shapes += _upright(look, a, d, -26, words.left, size) + _upright(look, b, c, 26, words.right, size)
    if panel.rack and panel.high != "none":
        shapes += _rack(look, panel, lines, words, size)
    shapes.append(word((a[0] + b[0]) / 2, (a[1] + c[1]) / 2, words.tag, look.ink, 34, True))
    return drawing(shapes, w, h, says), lines.factor


def _width(look: Look, a: Point, b: Point, y: float, words: str, size: float) -> Shapes:
    ext = stroke(look.line, 1)
    return [
        line((a[0], a[1] + 4), (a[0], y + 6), ext), line((b[0], b[1] + 4), (b[0], y + 6), ext),
        *dimension((a[0], y), (b[0], y), look.ink),
        word((a[0] + b[0]) / 2, y, f"{NBSP}{words}{NBSP}", look.ink, size, True, ground=look.leaf),
    ]  # fmt: skip


def _upright(look: Look, low: Point, high: Point, out: float, words: str, size: float) -> Shapes:
    x, s, ext = low[0] + out, 1 if out > 0 else -1, stroke(look.line, 1)
    return [
        line((x + s * 6, low[1]), (low[0] + s * 4, low[1]), ext), line((x + s * 6, high[1]), (high[0] + s * 4, high[1]), ext),
        *dimension((x, low[1]), (x, high[1]), look.ink),
        word(x, (low[1] + high[1]) / 2, f"{NBSP}{words}{NBSP}", look.ink, size, True, turn=-math.pi / 2, ground=look.leaf),
    ]  # fmt: skip


def _rack(look: Look, panel: PanelShape, lines: PanelLines, words: PanelWords, size: float) -> Shapes:
    """The rack arrow stands at the corner it belongs to; `high end` in the glass under its upper corner."""
    right = panel.high == "right"
    corner, upper = (lines.corners[1], lines.corners[2]) if right else (lines.corners[0], lines.corners[3])
    s, at = (1, RIGHT) if right else (-1, LEFT)
    x = corner[0] + s * 11
    shapes: Shapes = [
        line((corner[0], lines.base), (x + s * 6, lines.base), stroke(look.line, 1.2)),
        line((corner[0] + s * 4, corner[1]), (x + s * 6, corner[1]), stroke(look.line, 1)),
        line((x, lines.base), (x, corner[1] + 2), stroke(look.ink, 2)), arrow_head((x, corner[1] + 1), math.pi / 2, look.ink, 9),
        word(corner[0] - s * 8, lines.base + 15, words.rack, look.ink, size, True, at),
    ]  # fmt: skip
    mark = upper[0] - s * 16, upper[1] + 22
    shapes.append(poly([(mark[0] - 8, mark[1] + 16), (mark[0] + 8, mark[1] + 16), mark], wash(look.ink)))
    return [*shapes, word(mark[0] - s * 14, mark[1] + 10, words.high_end, look.ink, size, True, at)]


def lengths_drawing(
    look: Look, panel: PanelShape, w: float, h: float, ask: Length | None, got: dict[Length, str], says: str = ""
) -> tuple[ft.Control, int]:
    """A panel as it stands here and its five lengths: the asked one is a blade, those done carry their figure. And the factor."""
    lines = panel_lines(panel, 84, w - 84, 12, h - 58, 0.3)
    a, b, c, d = lines.corners
    shapes: Shapes = [poly(list(lines.corners), wash(look.glass)), poly(list(lines.corners), stroke(look.glass_edge, 2.5))]
    low = lines.base + 22
    spots: dict[Length, tuple[Point, Point, Point, ft.Alignment, str]] = {
        "rising": (along(a, c, 0.04), along(a, c, 0.96), along(a, c, 0.80), ft.Alignment.CENTER, look.glass),
        "falling": (along(d, b, 0.04), along(d, b, 0.96), along(d, b, 0.80), ft.Alignment.CENTER, look.glass),
        "width": ((a[0], low), (b[0], low), ((a[0] + b[0]) / 2, low), ft.Alignment.CENTER, look.paper),
        "left": ((a[0] - 22, a[1]), (d[0] - 22, d[1]), (a[0] - 34, (a[1] + d[1]) / 2), RIGHT, look.paper),
        "right": ((b[0] + 22, b[1]), (c[0] + 22, c[1]), (b[0] + 34, (b[1] + c[1]) / 2), LEFT, look.paper),
    }
    for key, (p, q, label, at, under) in spots.items():
        if key == ask:
            shapes += tape_piece(look, p, q, 11, False, 7)
            continue
        shapes += dimension(p, q, look.ink if key in got else look.line, 1.2 if key in got else 1.5, 6)
        if key in got:
            shapes.append(word(*label, f"{NBSP}{got[key]}{NBSP}", look.ink, look.drawn(17), True, at, ground=under))
    return drawing(shapes, w, h, says), lines.factor


def turned_round(
    look: Look, tag: str, stands: str, goes_in: str, high_end: str, high_here: High, w: float, says: str = ""
) -> ft.Control:
    """A mirrored panel as it stands, the turn about an upright axis, as it goes in."""
    h, pw, ph, climb = 176.0, 124.0, 104.0, 16.0
    base = h - 34
    shapes: Shapes = []
    there: High = "right" if high_here == "left" else "left"
    for x, high, cap in ((16.0, high_here, stands), (w - 16 - pw, there, goes_in)):
        left, right = (climb, 0.0) if high == "left" else (0.0, climb)
        box = [(x, base - left), (x + pw, base - right), (x + pw, base - ph - right), (x, base - ph - left)]
        shapes += [poly(box, wash(look.glass)), poly(box, stroke(look.glass_edge, 2.5))]
        shapes += [
            word(x + pw / 2, base - ph / 2 + 4, tag, look.ink, 28, True),
            word(x + pw / 2, h - 14, cap, look.ink, look.drawn(), True),
        ]
        s = 1 if high == "left" else -1
        hx = x + 14 if high == "left" else x + pw - 14
        shapes.append(poly([(hx - 7, base - ph + 16), (hx + 7, base - ph + 16), (hx, base - ph + 3)], wash(look.ink)))
        shapes.append(word(hx + s * 11, base - ph + 11, high_end, look.ink, 14, at=LEFT if s > 0 else RIGHT))
    return drawing(shapes + _turn(look, w / 2, base - ph / 2 - 6), w, h, says)


def _turn(look: Look, x: float, y: float) -> Shapes:
    ring = [(x + 38 * math.cos(math.radians(d)), y + 15 * math.sin(math.radians(d))) for d in range(155, -62, -8)]
    end, before = ring[-1], ring[-2]
    angle = math.atan2(before[1] - end[1], before[0] - end[0])
    axis = line((x, y - 46), (x, y + 46), stroke(look.ink, 1.2, CHAIN))
    return [axis, poly(ring, stroke(look.ink, 3), close=False), arrow_head(along(before, end, 2.0), angle, look.ink, 15, 0.5)]


def changed_panel(
    look: Look, panel: PanelShape, tag: str, note: str, width: str, apart: float, w: float, says: str = ""
) -> tuple[ft.Control, int]:
    """The frozen panel in solid line, what the bay asks now dashed and yellow beyond it or within, drawn as often as the slope.

    apart: how much wider the bay asks now, in the panel's unit; negative where it asks for less.
    """
    h = 176.0
    lines = panel_lines(panel, 30, w - 56, 14, h - 46, 0.45)
    a, b, c, d = lines.corners
    off = lines.factor * apart * (b[0] - a[0]) / panel.width
    off = max(min(off, 40), -40)
    more = [b, (b[0] + off, b[1]), (c[0] + off, c[1]), c]
    shapes: Shapes = [
        poly([a, b, c, d], wash(look.glass)),
        poly(more, wash(look.tape)),
        poly(more, stroke(look.ink, 1.5, [4, 3])),
    ]
    shapes += [
        poly([a, b, c, d], stroke(look.glass_edge, 2.5)),
        word((a[0] + b[0]) / 2, lines.base - 66, tag, look.ink, 34, True),
    ]
    shapes += [word((a[0] + b[0]) / 2, lines.base - 34, note, look.ink2, look.drawn())]
    y = lines.base + 26
    shapes += [line((x, y0 + 4), (x, y + 8), stroke(look.line, 1)) for x, y0 in ((a[0], a[1]), (b[0], b[1]), (b[0] + off, b[1]))]
    shapes += dimension((a[0], y), (b[0], y), look.ink)
    shapes.append(word((a[0] + b[0]) / 2, y, f"{NBSP}{width}{NBSP}", look.ink, look.drawn(18), True, ground=look.paper))
    return drawing(shapes, w, h, says), lines.factor
