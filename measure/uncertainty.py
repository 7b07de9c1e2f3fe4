"""What a tape, a level and a hand are worth: standard uncertainties in millimetres.

Rectangular distributions after JCGM 100:2008 4.3.7 (u = a/√3, a resolution r: r/√12). Tape classes after Directive 2014/32/EU
Annex X and OIML R 35-1: ±(a + b·L) mm, L in whole metres rounded up, c more from the end hook. Inch tapes after NIST Handbook 44
§5.52. Placing and levels are judgement, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from measure.length import NM_PER_FOOT, NM_PER_METRE, Length
from measure.reading import How
from measure.system import Tape

CLASS_MM = {"I": (0.1, 0.1, 0.1), "II": (0.3, 0.2, 0.2), "III": (0.6, 0.4, 0.3)}
"""a, b and c of a tape's class, mm."""
INCH_ROWS = ((6, 1, 32), (30, 1, 16), (55, 1, 8), (80, 3, 16), (100, 1, 4))
"""To so many feet: n/m of an inch."""
LAST_INCH_FEET = 30
PLACING_MM: dict[How, float] = {"marks": 0.3, "case": 0.5, "bent": 1.0}
LEVEL_MM_PER_M = 0.5
SLOPE_TOOL_DEG = 0.1
FACE_MM = 0.3
"""A post's face taken from a sheet."""
SQRT3, SQRT12 = math.sqrt(3), math.sqrt(12)


def tape_permissible_mm(tape: Tape, length_nm: int, hooked: bool) -> float:
    """The greatest permissible error ± in mm of a tape over a length in nm; hooked: begun at its end hook."""
    if tape.tape_class == "US":
        return next((25.4 * n / m for feet, n, m in INCH_ROWS if length_nm <= feet * NM_PER_FOOT), 6.35)
    a, b, c = CLASS_MM[tape.tape_class]
    metres = -(-abs(length_nm) // NM_PER_METRE)
    return a + b * metres + (c if hooked else 0.0)


def beyond_inch_rows(tape: Tape, length: Length) -> bool:
    """An inch tape longer than 30 ft has no row to lean on."""
    return tape.tape_class == "US" and length.nm > LAST_INCH_FEET * NM_PER_FOOT


@dataclass(frozen=True, slots=True)
class SpanDoubt:
    """read, tape, placing: standard uncertainties in mm. For a laser, read holds read and tape together."""

    read: float
    tape: float
    placing: float

    @property
    def u(self) -> float:
        """Standard uncertainty of one length, mm."""
        return math.sqrt(self.read**2 + self.tape**2 + self.placing**2)

    @property
    def U(self) -> float:
        """Expanded uncertainty 2u, mm."""
        return 2 * self.u

    @property
    def repeat(self) -> float:
        """√(u_read² + u_place²): what differs between two readings on one tape, mm."""
        return math.hypot(self.read, self.placing)

    @property
    def same_tape_difference(self) -> float:
        """How far two honest readings on one tape may lie apart: 2√2 · repeat, mm."""
        return 2 * math.sqrt(2) * self.repeat

    @property
    def two_tape_difference(self) -> float:
        """How far two honest readings on two tapes may lie apart: 2√2 · u, mm."""
        return 2 * math.sqrt(2) * self.u


def span_doubt(tape: Tape, length_nm: int, how: How | None = None, case: bool = False, started: bool = False) -> SpanDoubt:
    """Doubt of a length taken with this tape. how goes before the tape's own placing; a case without how is `case`."""
    if how is None and case:
        how = "case"
    placing = tape.placing.mm if how is None else PLACING_MM.get(how, tape.placing.mm)
    if how == "laser" and tape.laser is not None:
        return SpanDoubt(tape.laser.mm / SQRT3, 0.0, placing)
    permissible = tape_permissible_mm(tape, length_nm, tape.from_hook and not started)
    return SpanDoubt(tape.division.mm / SQRT12, permissible / SQRT3, placing)


def hook_mm(tape: Tape) -> float:
    """c of the end hook, mm; 0 for inch tapes and for a tape not begun at its hook."""
    return CLASS_MM[tape.tape_class][2] if tape.from_hook and tape.tape_class in CLASS_MM else 0.0


def rise_u_mm(division: Length, base_mm: float) -> float:
    """u_r of a rise read over a base in mm: division²/12 + (0.5 mm/m · base)²/3 + (0.5 mm)², judgement."""
    return math.sqrt(division.mm**2 / 12 + (LEVEL_MM_PER_M * base_mm / 1000) ** 2 / 3 + 0.5**2)


def slope_u_tan(half_digit_tan: float, tan: float) -> float:
    """u of tan θ for a slope read as such: half its last digit (rectangular) and 0.1° of the instrument, judgement."""
    tool = math.radians(SLOPE_TOOL_DEG) * (1 + tan**2)
    return math.sqrt(half_digit_tan**2 / 3 + tool**2)


def margin_u_mm(size_tolerance: Length, u: float) -> float:
    """u_M = √(t_W²/3 + u²) of a grip margin, mm."""
    return math.sqrt(size_tolerance.mm**2 / 3 + u**2)


def diagonals_u_mm(rising_mm: float, falling_mm: float, marks_mm: float, scale: float, repeat: float) -> float:
    """u(R) of a rack by the opening's two diagonals on one tape, mm: R = scale · (p² − q²)/(2 · both marks) + what the marks give.

    marks_mm: both marks added. scale: the base of the rack over the span. repeat: √(u_read² + u_place²) of one diagonal.
    """
    return scale * repeat * math.hypot(rising_mm, falling_mm) / marks_mm
