"""The figures of the post system, the glass, the tape and the limits of a job.

Every figure of a system is the user's own, from a dated sheet that a named person confirmed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from measure.length import Length

PostKind = Literal["end", "line", "corner", "wall"]
TapeClass = Literal["I", "II", "III", "US"]
DEFAULT_GROOVES: Mapping[str, Fraction] = {"line": Fraction(180), "corner": Fraction(90)}


@dataclass(frozen=True, slots=True)
class Turning:
    """How far a panel may turn either way in one kind of post, and the angle between the post's grooves (degrees)."""

    each: Fraction
    grooves: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Confirmed:
    """Who confirmed the system's figures, when (a date as typed) and from which sheet."""

    by: str
    at: str
    sheet: str


@dataclass(frozen=True, slots=True)
class System:
    name: str
    post_face: Length
    greatest_spacing: Length
    allowance: Length
    groove_depth: Length
    least_bite: Length
    least_play: Length
    base_plate: Length | None = None
    turn_axis: Length | None = None
    post_height: Length | None = None
    turning: Mapping[str, Turning] = field(default_factory=dict)
    confirmed: Confirmed | None = None


@dataclass(frozen=True, slots=True)
class Glass:
    """edge: the words for top, uprights and bottom. finish_face: None when the glass is plain on both faces."""

    thickness: Length
    height: Length
    size_tolerance: Length
    kind: str = ""
    edge_top: str = ""
    edge_uprights: str = ""
    edge_bottom: str = ""
    corners: str = ""
    holes: str = "none"
    stamp: str = ""
    standard: str = ""
    finish_face: str | None = None
    least_width: Length | None = None
    greatest_width: Length | None = None
    least_height: Length | None = None
    greatest_height: Length | None = None
    least_corner_angle: Fraction | None = None
    greatest_mass_kg: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Tape:
    division: Length
    tape_class: TapeClass = "II"
    from_hook: bool = True
    placing: Length = Length(300_000)
    laser: Length | None = None


@dataclass(frozen=True, slots=True)
class Limits:
    """None: not checked. slope and slope_step are tan θ."""

    plan_tolerance: Length | None = None
    second_tape: Length | None = None
    lean: Length | None = None
    slope: Fraction | None = None
    slope_step: Fraction = Fraction(1, 100)
