"""A slope as typed: degrees, per cent, 1:n, inches per foot or millimetres per metre.

Every form but degrees gives an exact tangent.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

SlopeForm = Literal["deg", "%", "1:n", "in/ft", "mm/m"]


@dataclass(frozen=True, slots=True)
class Slope:
    """value: the number in its own form (degrees, per cent, the n of 1:n, inches, millimetres).

    last_digit: the size of the last typed digit, in the same form (1/16 for `3/16 in/ft`).
    """

    form: SlopeForm
    value: Fraction
    last_digit: Fraction

    @property
    def tan(self) -> Fraction:
        """tan θ, without sign. Exact, but for degrees (a float's tangent)."""
        return _tan(self.form, self.value)

    @property
    def half_digit_tan(self) -> float:
        """Half the last typed digit as a difference of tan θ (dimensionless)."""
        half = self.last_digit / 2
        if self.form == "1:n":
            return abs(float(1 / (self.value - half) - 1 / (self.value + half))) / 2 if self.value > half else 0.0
        if self.form == "deg":
            return math.radians(float(half)) / math.cos(math.radians(float(self.value))) ** 2
        return float(_tan(self.form, half))

    @property
    def is_design(self) -> bool:
        """A figure as drawings give it: `1:n`, or a whole per cent."""
        return self.form == "1:n" or (self.form == "%" and self.value.denominator == 1)


def _tan(form: SlopeForm, value: Fraction) -> Fraction:
    if form == "deg":
        return Fraction(math.tan(math.radians(float(value)))) if value else Fraction(0)
    if form == "%":
        return value / 100
    if form == "1:n":
        return 1 / value
    return value / (12 if form == "in/ft" else 1000)
