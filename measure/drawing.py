"""A panel drawn: to scale, its rack enlarged by a factor that the drawing prints, seen from where its run says.

SVG with one user unit a millimetre of paper; black lines on white, nothing loaded from outside.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2, degrees

from measure.job import Units
from measure.markup import markup_safe
from measure.order import OrderLine
from measure.pane_text import LengthText, PaneText, pane_text
from measure.panel import Panel

MARK = "<!-- Spanbook: drawing of one panel -->"
"""First line of every drawing file: how an earlier order's drawings are known as ours."""
WIDE, HIGH = 108.0, 100.0
_LEFT, _TOP, _ACROSS, _UP = 19.0, 14.0, 70.0, 62.0
"""Where the glass may lie on the sheet, mm."""
_POST = 3.0
_ENLARGED = (1, 2, 5, 10, 20, 50)
_ROOM = 27.0
"""Glass narrower or lower than this on paper, mm, has its mark and diagonals written beside it."""
_SEEN_RACK = 0.07
"""A rack is enlarged until it is this part of the width."""

Point = tuple[float, float]


def enlargement(pane: Panel) -> int:
    """By how much the rack is drawn larger than it is: 1, 2, 5, 10, 20 or 50."""
    if not pane.rack:
        return 1
    return next((k for k in _ENLARGED if k * pane.rack.nm >= _SEEN_RACK * pane.width.nm), _ENLARGED[-1])


def drawn_corners(pane: Panel) -> tuple[Point, ...]:
    """The pane on the sheet in mm, x to the right and y down, from the lower left corner counter-clockwise as seen."""
    extra = (enlargement(pane) - 1) * pane.rack.mm
    left_foot, right_foot = (nm / 1e6 + (extra if nm else 0.0) for nm in pane.feet_nm)
    left, right = pane.left_edge.mm, pane.right_edge.mm
    if pane.shape == "level-top":
        left, right = (left, right + extra) if pane.high_end == "left" else (left + extra, right)
    wide, high = pane.width.mm, max(left_foot + left, right_foot + right)
    scale = min(_ACROSS / wide, _UP / high)
    x = _LEFT + (_ACROSS - wide * scale) / 2
    floor = _TOP + (_UP + high * scale) / 2

    def place(across: float, up: float) -> Point:
        return x + across * scale, floor - up * scale

    return place(0, left_foot), place(wide, right_foot), place(wide, right_foot + right), place(0, left_foot + left)


def scale_words(pane: Panel) -> str:
    """`To scale; the rack is drawn 10 times its size.`"""
    k = enlargement(pane)
    return "To scale." if k == 1 else f"To scale; the rack is drawn {k} times its size."


def panel_drawing(line: OrderLine, units: Units) -> str:
    """One panel as an SVG element."""
    return _Sheet(line, units, pane_text(line.pane, units), drawn_corners(line.pane)).svg()


def drawing_file(line: OrderLine, units: Units) -> bytes:
    """One panel as an SVG file of its own."""
    head = f'<?xml version="1.0" encoding="UTF-8"?>\n{MARK}\n'
    return (head + panel_drawing(line, units) + "\n").encode("utf-8", "replace")


@dataclass(frozen=True, slots=True)
class _Sheet:
    """The parts of one drawing. corners: lower left, lower right, upper right, upper left, in mm of the sheet."""

    line: OrderLine
    units: Units
    text: PaneText
    corners: tuple[Point, ...]

    def svg(self) -> str:
        tag, view = markup_safe(self.line.panel), markup_safe(self.line.seen_from)
        parts = (
            f'<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 {WIDE:g} {HIGH:g}"'
            f' width="{WIDE:g}mm" height="{HIGH:g}mm"'
            ' font-family="Arial, Helvetica, Liberation Sans, sans-serif" font-size="3.2" fill="#000">',
            f"<title>Panel {tag}, seen from {view}</title>",
            f'<rect width="{WIDE:g}" height="{HIGH:g}" fill="#fff"/>',
            _words(2, 4.5, f"Seen from {view}.", weight="bold"),
            self._posts(),
            self._pane(),
            self._diagonals(),
            self._width(),
            self._upright(0, 3, self.text.left_edge, "left"),
            self._upright(1, 2, self.text.right_edge, "right"),
            self._rack() if self.line.pane.rack else "",
            _words(2, HIGH - 2, scale_words(self.line.pane), size=2.8),
            "</svg>",
        )
        return "".join(parts)

    @property
    def _uprights(self) -> tuple[float, float]:
        """Left and right upright on the sheet, mm."""
        lower_left, lower_right, upper_right, upper_left = self.corners
        return lower_left[1] - upper_left[1], lower_right[1] - upper_right[1]

    @property
    def _narrow(self) -> bool:
        return self.corners[1][0] - self.corners[0][0] < _ROOM

    @property
    def _slim(self) -> bool:
        """Too narrow or too flat on paper for words inside the glass."""
        return self._narrow or min(self._uprights) < _ROOM

    @property
    def _crossing(self) -> float:
        """Where the diagonals cross, as a part of each from the left."""
        left, right = self._uprights
        return left / (left + right)

    def _posts(self) -> str:
        """Both posts, each with its own foot at the lower corner; a name at each head."""
        drawn = []
        for (x, foot), (_, top), start, side in (
            (self.corners[0], self.corners[3], 1 - _POST, "left"),
            (self.corners[1], self.corners[2], -1.0, "right"),
        ):
            head, high = top - 1.5, side == self.line.pane.high_end
            drawn.append(_rect(x + start, head, _POST, foot + 3 - head))
            words, weight = (f"{side}, high end", "bold") if high else (side, "normal")
            anchor = "middle" if not self._narrow else "end" if side == "left" else "start"
            drawn.append(_words(x + start + _POST / 2, head - 1.5, words, anchor=anchor, weight=weight))
        return "".join(drawn)

    def _pane(self) -> str:
        points = " ".join(f"{x:.2f},{y:.2f}" for x, y in self.corners)
        glass = f'<polygon points="{points}" fill="#fff" fill-opacity=".75" stroke="#000" stroke-width=".6"/>'
        tag = markup_safe(self.line.panel)
        if self._slim:
            return glass + _words(WIDE - 2, 6.5, tag, "end", min(7.0, 70 / len(self.line.panel)), "bold")
        (x0, y0), (x2, y2), (_, y3) = self.corners[0], self.corners[2], self.corners[3]
        middle, crossing = x0 + self._crossing * (x2 - x0), y0 + self._crossing * (y2 - y0)
        top = y3 + self._crossing * (y2 - y3)
        size = min(9.0, (crossing - top) * 0.45, (x2 - x0) / (0.75 * max(4, len(self.line.panel))))
        return glass + _words(middle, top + (crossing - top) * 0.4 + size / 3, tag, "middle", size, "bold")

    def _diagonals(self) -> str:
        """Dashed, each with its figure along the longer part beside their crossing; beside the glass where it is slim."""
        lower_left, lower_right, upper_right, upper_left = self.corners
        rising, falling = f"{self.text.diagonal_rising} mm", f"{self.text.diagonal_falling} mm"
        crossing = self._crossing
        drawn = _dashed(lower_left, upper_right) + _dashed(upper_left, lower_right)
        if self._slim:
            told = (f"rising diagonal {rising}", f"falling diagonal {falling}")
            return drawn + "".join(_words(WIDE - 2, HIGH - 6 + 4 * at, words, "end", 2.8) for at, words in enumerate(told))
        at = 0.54 * crossing if crossing >= 0.5 else 1 - 0.54 * (1 - crossing)
        return drawn + _along(lower_left, upper_right, at, rising) + _along(upper_left, lower_right, at, falling)

    def _width(self) -> str:
        """Square across, below the lower foot."""
        (x0, y0), (x1, y1) = self.corners[:2]
        y = max(y0, y1) + 13
        helps = "".join(_line(x, y - 6.5, x, y + 1.5, thin=True) for x in (x0, x1))
        return helps + _line(x0, y, x1, y) + _tick(x0, y) + _tick(x1, y) + self._size((x0 + x1) / 2, y, self.text.width)

    def _upright(self, lower: int, upper: int, size: LengthText, side: str) -> str:
        x, outward = self._column(side)
        foot, head = self.corners[lower], self.corners[upper]
        edge = foot[0] + outward * 3
        helps = _line(edge, foot[1], x + outward * 1.5, foot[1], thin=True) + _line(
            edge, head[1], x + outward * 1.5, head[1], thin=True
        )
        turned = f'<g transform="rotate(-90 {x:.2f} {(foot[1] + head[1]) / 2:.2f})">'
        lettering = turned + self._size(x, (foot[1] + head[1]) / 2, size) + "</g>"
        return helps + _line(x, foot[1], x, head[1]) + _tick(x, foot[1]) + _tick(x, head[1]) + lettering

    def _column(self, side: str) -> tuple[float, float]:
        """Where the uprights of a side are dimensioned, and which way is outward."""
        return (self.corners[0][0] - 9.5, -1.0) if side == "left" else (self.corners[1][0] + 9.5, 1.0)

    def _rack(self) -> str:
        """From a level line through the low foot up to the high foot, in line with that side's upright."""
        high, low = (0, 1) if self.line.pane.high_end == "left" else (1, 0)
        x, outward = self._column(self.line.pane.high_end)
        foot, level = self.corners[high], self.corners[low][1]
        anchor = "start" if outward < 0 else "end"
        return "".join(
            (
                _line(self.corners[low][0], level, x + outward * 1.5, level, thin=True, dashes="2 1"),
                _line(x, foot[1], x, level),
                _tick(x, level),
                _words(x + outward * 1.5, level + 4.6, f"rack {self.text.rack.text}", anchor=anchor, size=3.8, weight="bold"),
            )
        )

    def _size(self, x: float, y: float, size: LengthText) -> str:
        """The figure that binds above a dimension line, the other unit's below it."""
        other = f"{size.mm} mm" if self.units == "in" else f"{size.inch} in"
        return _words(x, y - 1.2, size.text, anchor="middle", size=3.8, weight="bold") + _words(
            x, y + 3.4, other, anchor="middle", size=2.7
        )


def _dashed(start: Point, end: Point) -> str:
    return _line(*start, *end, thin=True, dashes="3 1.5")


def _along(start: Point, end: Point, at: float, words: str) -> str:
    """Words on a line, a part of the way along it."""
    turn = degrees(atan2(end[1] - start[1], end[0] - start[0]))
    x, y = start[0] + at * (end[0] - start[0]), start[1] + at * (end[1] - start[1])
    return f'<g transform="rotate({turn:.2f} {x:.2f} {y:.2f})">{_words(x, y - 1, words, anchor="middle", size=2.8)}</g>'


def _line(x0: float, y0: float, x1: float, y1: float, thin: bool = False, dashes: str = "") -> str:
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    width = ".18" if thin else ".3"
    return f'<line x1="{x0:.2f}" y1="{y0:.2f}" x2="{x1:.2f}" y2="{y1:.2f}" stroke="#000" stroke-width="{width}"{dashed}/>'


def _tick(x: float, y: float) -> str:
    return f'<line x1="{x - 1:.2f}" y1="{y + 1:.2f}" x2="{x + 1:.2f}" y2="{y - 1:.2f}" stroke="#000" stroke-width=".5"/>'


def _rect(x: float, y: float, wide: float, high: float) -> str:
    return (
        f'<rect x="{x:.2f}" y="{y:.2f}" width="{wide:.2f}" height="{high:.2f}" fill="#e4e4e4" stroke="#777" stroke-width=".2"/>'
    )


def _words(x: float, y: float, text: str, anchor: str = "start", size: float = 3.2, weight: str = "normal") -> str:
    """text is safe already."""
    bold = ' font-weight="bold"' if weight == "bold" else ""
    return f'<text x="{x:.2f}" y="{y:.2f}" text-anchor="{anchor}" font-size="{size:.2f}"{bold}>{text}</text>'
