"""Further units for figures that are already numbers: yards, square feet, pounds.

One registry of pint, built when first asked (it takes a moment) with exact fractions. Typed text never comes here: pint reads
`49 3/8 inch` as 18.375 in and `12,5 mm` as 125 mm without an error; `measure.parse` reads text.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from pint import UnitRegistry

JobUnits = Literal["in", "mm"]
"""What a job is taped and ordered in."""

Unit = Literal["nm", "mm", "cm", "m", "in", "ft", "yd", "m2", "ft2", "in2", "kg", "lb", "kg/m2", "lb/ft2", "rad", "deg"]

_NAMES: dict[str, str] = {
    "nm": "nanometer",
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "in": "inch",
    "ft": "foot",
    "yd": "yard",
    "m2": "meter ** 2",
    "ft2": "foot ** 2",
    "in2": "inch ** 2",
    "kg": "kilogram",
    "lb": "pound",
    "kg/m2": "kilogram / meter ** 2",
    "lb/ft2": "pound / foot ** 2",
    "rad": "radian",
    "deg": "degree",
}


def convert(value: int | Fraction, unit: Unit, to: Unit) -> Fraction:
    """The same quantity in another unit, exact between lengths, areas and masses (degrees: π as pint holds it).

    ValueError: a unit that is not listed, or two that do not measure the same kind of thing.
    """
    return Fraction(value) * _factor(unit, to)


@cache
def _factor(unit: str, to: str) -> Fraction:
    from pint import DimensionalityError

    for name in (unit, to):
        if name not in _NAMES:
            raise ValueError(f"{name!r} is not one of the units {', '.join(_NAMES)}")
    try:
        factor: Fraction = registry().Quantity(Fraction(1), _NAMES[unit]).to(_NAMES[to]).magnitude
    except DimensionalityError as error:
        raise ValueError(f"{unit} does not turn into {to}") from error
    return factor


@cache
def registry() -> UnitRegistry[Fraction]:
    """The one registry, with exact fractions."""
    from pint import UnitRegistry

    return UnitRegistry(non_int_type=Fraction, cache_folder=None)
