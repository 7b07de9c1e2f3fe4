"""A finding: what a check makes of a bay, a run or the job."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

from measure.reading import Answer

Verdict = Literal["clear", "query", "hold", "caution"]
CHECKS = (
    "missing", "read-back", "off-plan", "spacing", "second-tape", "lean", "plumb", "grip", "slope", "neighbour", "high-end",
    "rack-line", "design-slope", "closing", "closing-rise", "glass-size", "glass-mass", "post-height", "turn", "slip",
    "two-sides",
)
CAUTIONS = ("system", "sheet", "tape", "guard", "lift")


@dataclass(frozen=True, slots=True)
class Slip:
    """A likely slip. name: a short key (`start-1in`, `fraction`, `next-inch`, `case-twice` …). sentence: in plain words.

    read: what the tape showed if the slip is so, as text that can be kept as a reading; start/case: the correction
    that a new reading would say, as text.
    """

    name: str
    sentence: str
    read: str = ""
    start: str = ""
    case: str = ""


@dataclass(frozen=True, slots=True)
class Finding:
    """bay and run None: the job. sentence: what was compared, by how much, what to do.

    rests_on: the time of the newest reading behind it; an answer counts only when newer.
    answer: the written answer that counts, on a query.
    facts: (words, figure) pairs for a screen, figures already formatted.
    unread: what is missing, where that is the finding: `span`, `rise`, `base-rise`, `read-back`, `plumb`.
    stops: False where the glass is ordered or on site: the finding is told but stops nothing.
    """

    check: str
    verdict: Verdict
    sentence: str
    bay: str | None = None
    run: str | None = None
    rests_on: datetime | None = None
    answer: Answer | None = None
    slips: tuple[Slip, ...] = ()
    facts: tuple[tuple[str, str], ...] = field(default=())
    stops: bool = True
    unread: str = ""

    @property
    def place(self) -> str:
        return self.bay if self.bay is not None else f"run {self.run}" if self.run is not None else "job"

    @property
    def stands_in_the_way(self) -> bool:
        """A hold, or a query that nobody answered."""
        return self.stops and (self.verdict == "hold" or (self.verdict == "query" and self.answer is None))

    @property
    def word(self) -> str:
        """The verdict as printed: an answered query says `answered`."""
        return "answered" if self.verdict == "query" and self.answer is not None else self.verdict
