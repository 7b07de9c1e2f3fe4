"""The only place where a length is rounded or written out.

One half rule for all: nearest, an exact half to the even step (NIST Handbook 44, appendix A, 10.3; ISO 80000-1 annex B rule A).
Whole numbers and fractions are rounded exactly; a float is taken at the exact value it holds.
"""

from __future__ import annotations

from fractions import Fraction
from math import gcd

from measure.length import NM_PER_INCH, NM_PER_MM, Length
from measure.units import JobUnits

_NM_PER_SIXTY_FOURTH = NM_PER_INCH // 64
_APART = {"in": Length(NM_PER_INCH // 32), "mm": Length(NM_PER_MM // 10)}


def round_to_step(value: int | Fraction | float, step: Length) -> Length:
    """value in nanometres, to the nearest whole step, an exact half to the even one."""
    top, bottom = value.as_integer_ratio()
    return Length(_nearest(top, bottom * step.nm) * step.nm)


def order_text(length: Length, units: JobUnits) -> str:
    """As a shop reads it, reduced fractions and no feet: `42 3/8 in`, `0 in`, `920 mm`, `920.5 mm`.

    A length that is on no sixty-fourth has four decimals in inches; a rounded order holds none.
    """
    if units == "mm":
        return f"{_shortest(length.nm, NM_PER_MM, 6)} mm"
    return f"{_sixty_fourths(length.nm) or inch_decimal(length)} in"


def inch_decimal(length: Length) -> str:
    """Decimal inches: exact on a sixty-fourth (`42.375`), else four decimals; never an exponent."""
    if length.nm % _NM_PER_SIXTY_FOURTH == 0:
        return _shortest(length.nm, NM_PER_INCH, 6)
    return _decimal(length.nm, NM_PER_INCH, 4)


def mm_decimal(nm: int | Fraction | float, places: int = 2) -> str:
    """Millimetres to so many decimals; nothing that rounds to zero keeps a minus sign."""
    top, bottom = nm.as_integer_ratio()
    return _decimal(top, bottom * NM_PER_MM, places)


def plain_text(length: Length, units: JobUnits) -> str:
    """The shortest exact text, which parse_length reads back to the same value: `35 1/4 in`, `35.3 in`, `895.5 mm`.

    In an inch job a length that has no short end in inches is told in millimetres.
    """
    millimetres = f"{_unasked(_shortest(length.nm, NM_PER_MM, 6))} mm"
    if units == "mm":
        return millimetres
    if fraction := _sixty_fourths(length.nm):
        return f"{fraction} in"
    # 1 in = 2^6 · 5^5 · 127 nm: only what 127 divides has an end in decimal inches.
    if length.nm % 127:
        return millimetres
    return min(f"{_shortest(length.nm, NM_PER_INCH, 6)} in", millimetres, key=len)


def apart_text(length: Length, units: JobUnits) -> str:
    """A difference for a sentence, to 1/32 in or 0.1 mm: `3/16 in`, `4.8 mm`. What rounds to nothing is `under 1/32 in`."""
    step = _APART[units]
    rounded = round_to_step(length.nm, step)
    if length and not rounded:
        return f"under {order_text(step, units)}"
    return order_text(rounded, units)


def told_as_nothing(length: Length, units: JobUnits) -> bool:
    """Whether a difference is finer than a sentence tells it: below half of 1/32 in or 0.1 mm."""
    return not round_to_step(length.nm, _APART[units])


def _nearest(top: int, bottom: int) -> int:
    """The whole number nearest to top/bottom (bottom above 0), an exact half to the even one."""
    whole, rest = divmod(top, bottom)
    return whole + (2 * rest > bottom or (2 * rest == bottom and whole % 2 == 1))


def _decimal(top: int, bottom: int, places: int) -> str:
    parts = _nearest(top * 10**places, bottom)
    digits = f"{abs(parts):0{places + 1}d}"
    sign = "-" if parts < 0 else ""
    return f"{sign}{digits[:-places]}.{digits[-places:]}" if places else sign + digits


def _shortest(nm: int, nm_per_unit: int, most_places: int) -> str:
    text = _decimal(nm, nm_per_unit, most_places)
    return text.rstrip("0").rstrip(".")


def _unasked(decimal: str) -> str:
    """Three decimals get a zero more: `1.125` would be asked about when read back."""
    return decimal + "0" if len(decimal.partition(".")[2]) == 3 else decimal


def _sixty_fourths(nm: int) -> str:
    """Inches with a reduced fraction, `42 3/8`; empty where the length is on no sixty-fourth."""
    parts, rest = divmod(abs(nm), _NM_PER_SIXTY_FOURTH)
    if rest:
        return ""
    sign = "-" if nm < 0 else ""
    whole, parts = divmod(parts, 64)
    if not parts:
        return f"{sign}{whole}"
    shared = gcd(parts, 64)
    fraction = f"{parts // shared}/{64 // shared}"
    return f"{sign}{whole} {fraction}" if whole else sign + fraction
