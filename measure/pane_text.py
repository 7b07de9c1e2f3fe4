"""A pane's figures as they are printed: the same text in every file of an order.

Figures with a root or a product are rounded from whole numbers, so that a half meets the half-even rule and nothing else.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import isqrt

from measure.job import Units
from measure.length import Length
from measure.panel import GLASS_DENSITY, Panel
from measure.rounding import inch_decimal, mm_decimal, order_text

_M2 = 10**18
"""nm² in a m²."""
_KG_PER_NM3 = (int(GLASS_DENSITY), 10**27)


@dataclass(frozen=True, slots=True)
class LengthText:
    """One ordered size: decimal inches, millimetres, and as a shop reads it in the job's units."""

    inch: str
    mm: str
    text: str


@dataclass(frozen=True, slots=True)
class PaneText:
    """Sizes of one pane. Lengths named as the columns of order.csv are millimetres, the angle degrees."""

    width: LengthText
    left_edge: LengthText
    right_edge: LengthText
    rack: LengthText
    sloped_edge: str
    lower_angle: str
    diagonal_rising: str
    diagonal_falling: str
    bound_width: str
    bound_height: str
    area: str
    mass: str


@lru_cache(maxsize=16384)
def length_text(length: Length, units: Units) -> LengthText:
    return LengthText(inch_decimal(length), mm_decimal(length.nm), order_text(length, units))


def pane_text(pane: Panel, units: Units) -> PaneText:
    """Every figure of a pane as text."""
    left, right = pane.feet_nm
    width = length_text(pane.width, units)
    across = pane.width.nm**2
    return PaneText(
        width=width,
        left_edge=length_text(pane.left_edge, units),
        right_edge=length_text(pane.right_edge, units),
        rack=length_text(pane.rack, units),
        sloped_edge=mm_decimal(near_root(across + pane.rack.nm**2)),
        lower_angle=f"{pane.lower_angle_deg:.2f}",
        diagonal_rising=mm_decimal(near_root(across + (right + pane.right_edge.nm - left) ** 2)),
        diagonal_falling=mm_decimal(near_root(across + (left + pane.left_edge.nm - right) ** 2)),
        bound_width=width.mm,
        bound_height=length_text(pane.bound_height, units).mm,
        area=area_text(double_area(pane)),
        mass=mass_text(double_volume(pane)),
    )


def near_root(square: int) -> int:
    """√square in whole nanometres; where that is no whole number, an odd one next to it, which no half to the even meets."""
    root = isqrt(square)
    return root if root * root == square else root | 1


def double_area(pane: Panel) -> int:
    """Twice the area, nm²: a whole number, so that sums stay exact."""
    return pane.width.nm * (pane.left_edge.nm + pane.right_edge.nm)


def double_volume(pane: Panel) -> int:
    """Twice the volume, nm³."""
    return double_area(pane) * pane.thickness.nm


def area_text(double_nm2: int) -> str:
    """m² to four decimals from twice the area."""
    return quotient_text(double_nm2, 2 * _M2, 4)


def mass_text(double_nm3: int) -> str:
    """kg to one decimal from twice the volume (EN 572-1, 2500 kg/m³)."""
    density, per = _KG_PER_NM3
    return quotient_text(double_nm3 * density, 2 * per, 1)


def quotient_text(top: int, bottom: int, places: int) -> str:
    """top/bottom, neither negative, to so many decimals (one or more), an exact half to the even digit."""
    whole, rest = divmod(top * 10**places, bottom)
    if 2 * rest > bottom or (2 * rest == bottom and whole % 2):
        whole += 1
    digits = f"{whole:0{places + 1}d}"
    return f"{digits[:-places]}.{digits[-places:]}"
