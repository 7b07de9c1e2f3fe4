"""The form of a new job, half filled or whole: what was typed, by part, letter for letter. Pure.

It is kept as text (a draft) at every answer, so that leaving, a reload or a flat battery loses nothing.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, replace
from typing import Any

Typed = Mapping[str, Any]
BY_UNITS: dict[str, dict[str, dict[str, str]]] = {
    "in": {
        "job": {"units": "in", "order_step": "1/16 in", "read_back": "asked"},
        "tape": {"division": "1/16 in", "class": "US"},
        "limits": {"plan_tolerance": "1/4 in", "second_tape": "1/8 in", "lean": "3/16 in", "slope": "8 %"},
    },
    "mm": {
        "job": {"units": "mm", "order_step": "1 mm", "read_back": "asked"},
        "tape": {"division": "1 mm", "class": "II"},
        "limits": {"plan_tolerance": "6 mm", "second_tape": "3 mm", "lean": "5 mm", "slope": "8 %"},
    },
}
"""What a new job begins with; everything else is asked."""
GLASS = {"edge_top": "polished", "edge_uprights": "ground", "edge_bottom": "ground"}


@dataclass(frozen=True, slots=True)
class RunForm:
    """One run as it was said: bays × spacing, or, by `length`, from the middle of its first post to that of its last.

    left: the kind of its first post where it stands alone. turn: degrees to the run before it, empty where it stands alone.
    right: the kind of its last post. face: of a wall post at its right end. without: numbers of bays that have no glass -> `none`.
    """

    bays: int = 1
    spacing: str = ""
    length: str = ""
    by: str = "spacing"
    left: str = "end"
    right: str = "end"
    turn: str = ""
    face: str = ""
    without: Mapping[str, str] = field(default_factory=dict)

    @property
    def said(self) -> bool:
        """Whether how long it is was said."""
        return bool(self.length if self.by == "length" else self.spacing)


@dataclass(frozen=True, slots=True)
class NewForm:
    """job, tape, system, glass, limits: texts by key, as in a job file (edges of the glass as `edge_top` …)."""

    job: Typed
    tape: Typed
    limits: Typed
    system: Typed = field(default_factory=dict)
    glass: Typed = field(default_factory=lambda: dict(GLASS))
    runs: tuple[RunForm, ...] = ()

    @classmethod
    def fresh(cls, units: str = "in") -> NewForm:
        """Nothing asked yet."""
        return cls(**{part: dict(words) for part, words in BY_UNITS[units].items()})

    @classmethod
    def from_text(cls, text: str) -> NewForm:
        """A draft brought back; one that an earlier version wrote otherwise is begun anew."""
        try:
            kept = json.loads(text)
            runs = tuple(RunForm(**run) for run in kept.pop("runs"))
            form = cls(**kept, runs=runs)
            return form if form.units in BY_UNITS else cls.fresh()
        except (ValueError, TypeError, KeyError, AttributeError):
            return cls.fresh()

    @property
    def text(self) -> str:
        """The draft."""
        return json.dumps(asdict(self), ensure_ascii=False)

    @property
    def units(self) -> str:
        return str(self.job.get("units", ""))

    @property
    def begun(self) -> bool:
        """Whether anything was said."""
        return self != NewForm.fresh(self.units)

    def of(self, part: str, key: str) -> str:
        """What was said there; empty where nothing was."""
        return str(getattr(self, part).get(key, ""))

    def say(self, part: str, **words: Any) -> NewForm:
        """The same with some answers; an empty one takes it out."""
        said = {k: v for k, v in {**getattr(self, part), **words}.items() if v not in ("", None)}
        return replace(self, **{part: said})

    def in_units(self, units: str) -> NewForm:
        """The job in other units: steps, marks and limits begin again, what has its own unit stays."""
        if units == self.units:
            return self
        fresh = NewForm.fresh(units)
        kept = {k: v for k, v in self.job.items() if k not in ("units", "order_step")}
        return replace(self, job={**fresh.job, **kept}, tape=fresh.tape, limits=fresh.limits)

    def with_run(self, number: int, **words: Any) -> NewForm:
        """The same with a run changed; number 0 is the first."""
        runs = list(self.runs)
        runs[number] = replace(runs[number], **words)
        return replace(self, runs=tuple(runs))
