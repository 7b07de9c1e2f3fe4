"""One pane as it will be cut: everything follows from its rounded width, height and rack.

Seen from the side that the run names. Corners from the left foot, counted (lower left, lower right, upper right, upper left):
(0, y_l), (W, y_r), (W, y_r + h_r), (0, y_l + h_l), the low foot at 0 and the high one at R.
Racked: both uprights H. Level-top: the high end H, the low end H + R. R = 0: a rectangle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from measure.length import NM_PER_MM, Length
from measure.plan import Shape

PaneShape = Literal["rectangle", "racked", "level-top"]
HighEnd = Literal["left", "right", "none"]
GLASS_DENSITY = 2500.0
"""kg/m³ (EN 572-1): 25 kg/m² for 10 mm."""


@dataclass(frozen=True)
class Panel:
    """width: square across, upright to upright. rack and edges: never negative. All of them whole order steps."""

    shape: PaneShape
    width: Length
    left_edge: Length
    right_edge: Length
    rack: Length
    high_end: HighEnd
    thickness: Length

    @property
    def feet_nm(self) -> tuple[int, int]:
        """Height of the left and the right lower corner above the lower of the two, in nm."""
        return (self.rack.nm if self.high_end == "left" else 0, self.rack.nm if self.high_end == "right" else 0)

    @property
    def corners_mm(self) -> tuple[tuple[float, float], ...]:
        """The four corners in mm, counter-clockwise from the lower left."""
        left, right = (nm / NM_PER_MM for nm in self.feet_nm)
        w = self.width.mm
        return ((0.0, left), (w, right), (w, right + self.right_edge.mm), (0.0, left + self.left_edge.mm))

    @property
    def lower_angle_deg(self) -> float:
        """The smaller of the two lower corner angles: 90° − atan(R/W), at the low foot."""
        return 90.0 - math.degrees(math.atan2(self.rack.nm, self.width.nm))

    @property
    def bound_height(self) -> Length:
        """From the lowest corner to the highest: H + R for both shapes."""
        left, right = self.feet_nm
        return Length(max(left + self.left_edge.nm, right + self.right_edge.nm))

    @property
    def area_m2(self) -> float:
        """Mean of the two uprights times the width (the shoelace rule for plumb uprights)."""
        return self.width.nm * (self.left_edge.nm + self.right_edge.nm) / 2 / 1e18

    @property
    def mass_kg(self) -> float:
        return self.area_m2 * self.thickness.nm / 1e9 * GLASS_DENSITY

    @cached_property
    def pane_key(self) -> tuple[object, ...]:
        """Equal for panes of the same form whichever way they are turned about an upright axis."""
        edges = (self.left_edge.nm, self.right_edge.nm) if self.high_end != "right" else (self.right_edge.nm, self.left_edge.nm)
        return (self.shape, self.width.nm, *edges, self.rack.nm, self.thickness.nm)


def cut_panel(shape: Shape, width: Length, height: Length, rack: Length, thickness: Length) -> Panel:
    """The pane of a bay from its rounded width W, height H and signed rack R (positive: right end high).

    A level-top's height is its high upright's. R = 0 gives a rectangle, high end `none`.
    """
    size = abs(rack)
    high: HighEnd = "none" if not size else "right" if rack.nm > 0 else "left"
    if not size:
        return Panel("rectangle", width, height, height, size, high, thickness)
    if shape == "racked":
        return Panel("racked", width, height, height, size, high, thickness)
    low = height + size
    left, right = (height, low) if high == "left" else (low, height)
    return Panel("level-top", width, left, right, size, high, thickness)
