"""Readings, moved posts and written answers: what people said, never overwritten.

A reading holds its figure as a value and, beside it, what was typed letter for letter.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from measure.length import Length
from measure.slope import Slope

What = Literal["span", "top-span", "rise", "base-rise", "diagonal-rising", "diagonal-falling", "plumb", "overall", "overall-rise"]
Role = Literal["first", "second", "read-back"]
Side = Literal["left", "right"]
How = Literal["marks", "case", "bent", "laser"]


@dataclass(frozen=True, slots=True)
class Reading:
    """One figure taken from a tape or level.

    place: bay (its tag), or post (its id; run too where it ends two runs), or run.
    value: as read, before start and case. text: value as typed.
    over: `centres`, `faces`, or the length of the level; over_text as typed. None for a slope or where it makes no sense.
    A read-back leaves high, over, taped, start, case at None to take them from what it repeats.
    """

    what: What
    value: Length | Slope
    text: str
    by: str
    at: datetime
    bay: str | None = None
    post: str | None = None
    run: str | None = None
    role: Role = "first"
    id: str | None = None
    replaces: str | None = None
    high: Side | None = None
    over: Literal["centres", "faces"] | Length | None = None
    over_text: str = ""
    taped: Literal["level", "along"] | None = None
    how: How | None = None
    start: Length | None = None
    start_text: str = ""
    case: Length | None = None
    case_text: str = ""
    toward: Side | None = None
    mark: Length | None = None
    hooked: Literal["inside", "outside"] | None = None

    @property
    def corrected(self) -> Length:
        """The length read, less the tape's start, plus the case. Slopes have none: TypeError."""
        if isinstance(self.value, Slope):
            raise TypeError("a slope has no corrected length")
        nm = self.value.nm
        if self.start is not None:
            nm -= self.start.nm
        if self.case is not None:
            nm += self.case.nm
        return Length(nm)


@dataclass(frozen=True, slots=True)
class Moved:
    """A post that was shimmed or moved: every older reading that touches it is stale."""

    post: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Answer:
    """Why a query stands, in writing, with a name. place: a bay's tag or a run's name."""

    check: str
    reason: str
    by: str
    at: datetime
    bay: str | None = None
    run: str | None = None
