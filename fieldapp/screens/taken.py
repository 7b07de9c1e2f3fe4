"""How a figure was taken, remembered for a run on this device: where the tape began, over what the rise was read. Pure.

Nothing here is taken for granted: what is not said stays unsaid and goes into no reading.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from measure.errors import EntryError
from measure.job import Units
from measure.length import Length
from measure.parse import parse_length

SpanHow = Literal["hook", "start", "case", "laser"]
Lay = Literal["", "level", "along"]
RiseOver = Literal["centres", "faces", "level", "slope"]
SlopeForm = Literal["deg", "%", "1:n", "in/ft", "mm/m"]
Words = dict[str, Any]

SPAN_HOWS: tuple[SpanHow, ...] = ("hook", "start", "case", "laser")
RISE_OVERS: tuple[RiseOver, ...] = ("centres", "faces", "level", "slope")
FORMS: dict[Units, tuple[SlopeForm, ...]] = {"in": ("deg", "%", "in/ft", "1:n"), "mm": ("deg", "%", "mm/m", "1:n")}
START: dict[Units, str] = {"in": "1 in", "mm": "100 mm"}
"""The mark at which a tape is begun when its hook is not to be trusted."""


@dataclass(frozen=True, slots=True)
class SpanTaken:
    """case: the case's length as typed, empty while nobody said it. lay: empty while nobody said which way the tape lay."""

    how: SpanHow = "hook"
    case: str = ""
    lay: Lay = ""

    def words(self, units: Units) -> Words:
        """What a reading says of it."""
        said: Words = {}
        if self.how == "start":
            said["start"] = START[units]
        elif self.how == "case":
            said["case"] = self.case
        elif self.how == "laser":
            said["how"] = "laser"
        if self.lay:
            said["taped"] = self.lay
        return said

    def counts_as(self, read: Length, units: Units) -> Length:
        """What a figure so read counts as: less the tape's start, plus the case. A case not said yet adds nothing."""
        if self.how == "start":
            return read - parse_length(START[units], units)
        if self.how == "case" and self.case:
            return read + parse_length(self.case, units)
        return read


@dataclass(frozen=True, slots=True)
class RiseTaken:
    """level: the length of the level as typed, empty while nobody said it. form: the slope's spelling."""

    over: RiseOver = "centres"
    level: str = ""
    form: SlopeForm = "deg"

    def words(self) -> Words:
        """What a reading says of it: a slope has no base, its text says it all."""
        if self.over == "slope":
            return {}
        return {"over": self.level if self.over == "level" else self.over}


@dataclass(frozen=True, slots=True)
class Taken:
    """All that this device remembers of how a job is taped. spans, rises: by run.

    from_right: the walk goes from right to left. outside: the person stands outside and sees the picture mirrored.
    level: the length of the level that posts are read for plumb with. mark: how far up a diagonal's mark is. As typed.
    """

    spans: Mapping[str, SpanTaken] = field(default_factory=dict)
    rises: Mapping[str, RiseTaken] = field(default_factory=dict)
    from_right: bool = False
    outside: bool = False
    level: str = ""
    mark: str = ""

    def span(self, run: str) -> SpanTaken:
        """How spans of a run are taped; the case's length is remembered from any run."""
        known = self.spans.get(run)
        if known is not None:
            return known
        return SpanTaken(case=next((s.case for s in reversed(self.spans.values()) if s.case), ""))

    def rise(self, run: str) -> RiseTaken:
        """How rises of a run are read; the level's length is remembered from any run."""
        known = self.rises.get(run)
        if known is not None:
            return known
        return RiseTaken(level=next((r.level for r in reversed(self.rises.values()) if r.level), ""))

    def with_span(self, run: str, taken: SpanTaken) -> Taken:
        return replace(self, spans={**self.spans, run: taken})

    def with_rise(self, run: str, taken: RiseTaken) -> Taken:
        return replace(self, rises={**self.rises, run: taken})

    def as_dict(self) -> Words:
        """As it is kept beside the book."""
        return {
            "spans": {run: {"how": s.how, "case": s.case, "lay": s.lay} for run, s in self.spans.items()},
            "rises": {run: {"over": r.over, "level": r.level, "form": r.form} for run, r in self.rises.items()},
            "from_right": self.from_right, "outside": self.outside, "level": self.level, "mark": self.mark,
        }  # fmt: skip

    @classmethod
    def from_dict(cls, kept: Words) -> Taken:
        """What was kept. What a later version wrote and this one does not know is left out."""
        spans = {run: SpanTaken(**_known(s, SpanTaken)) for run, s in kept.get("spans", {}).items()}
        rises = {run: RiseTaken(**_known(r, RiseTaken)) for run, r in kept.get("rises", {}).items()}
        return cls(spans, rises, **_known({k: v for k, v in kept.items() if k not in ("spans", "rises")}, cls))


def more_than_nothing(text: str, units: Units, wrong: EntryError) -> Length:
    """A length above 0 as typed; `wrong` is raised where it is 0."""
    read = parse_length(text, units)
    if not read:
        raise wrong
    return read


def _known(kept: Words, kind: type) -> Words:
    return {k: v for k, v in kept.items() if k in kind.__slots__}
