"""A length: a whole number of nanometres, and nothing else.

1 in = 25 400 000 nm exactly, since 1 in = 25.4 mm by definition (international yard, 1959).
"""

from __future__ import annotations

from dataclasses import dataclass

NM_PER_MM = 1_000_000
NM_PER_INCH = 25_400_000
NM_PER_FOOT = 12 * NM_PER_INCH
NM_PER_METRE = 1000 * NM_PER_MM
GREATEST_NM = 100 * NM_PER_METRE
"""The longest length that is read: 100 m."""


@dataclass(frozen=True, slots=True, order=True)
class Length:
    """A length in whole nanometres; may be negative as a difference."""

    nm: int

    def __add__(self, other: Length) -> Length:
        return Length(self.nm + other.nm)

    def __sub__(self, other: Length) -> Length:
        return Length(self.nm - other.nm)

    def __neg__(self) -> Length:
        return Length(-self.nm)

    def __abs__(self) -> Length:
        return Length(abs(self.nm))

    def __bool__(self) -> bool:
        return self.nm != 0

    @property
    def mm(self) -> float:
        """Millimetres as a float: for uncertainty and drawing, never to be stored or compared."""
        return self.nm / NM_PER_MM


ZERO = Length(0)


def inches(whole: int, sixty_fourths: int = 0) -> Length:
    """Whole inches and sixty-fourths as a Length (396 875 nm a sixty-fourth)."""
    return Length(whole * NM_PER_INCH + sixty_fourths * NM_PER_INCH // 64)


def millimetres(whole: int, tenths: int = 0) -> Length:
    """Whole millimetres and tenths as a Length."""
    return Length(whole * NM_PER_MM + tenths * NM_PER_MM // 10)
