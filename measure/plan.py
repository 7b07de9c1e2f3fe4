"""The plan: runs, posts and bays, and the planned span that follows from a spacing."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from measure.length import Length
from measure.system import PostKind

Shape = Literal["racked", "level-top"]
Status = Literal["to order", "ordered", "on site"]
RackFollows = Literal["posts", "slope"]
DEFAULT_ANGLE = {"line": Fraction(180), "corner": Fraction(90), "wall": Fraction(90), "end": None}
SEEN_FROM = "the deck, looking out"


@dataclass(frozen=True, slots=True)
class Run:
    """rack_follows: None when the job has not said (it is then `posts`, and a query where it matters)."""

    name: str
    rack_follows: RackFollows | None = None
    seen_from: str = SEEN_FROM


@dataclass(frozen=True, slots=True)
class Post:
    """angle: degrees on the deck side between the two panels, or between wall and panel; None: the kind's own."""

    id: str
    kind: PostKind
    angle: Fraction | None = None
    face: Length | None = None
    height: Length | None = None
    trimmed: bool = False

    @property
    def turned_to(self) -> Fraction | None:
        """The angle in force: as given, else the kind's own (None for an end post)."""
        return self.angle if self.angle is not None else DEFAULT_ANGLE[self.kind]


@dataclass(frozen=True, slots=True)
class Bay:
    """One of spacing (centre to centre) and planned_span is given.

    finish_face: None takes the job's, "" takes it off. has_glass False: a gate or way through.
    height: the panel's own H, None takes the job's (a level-top's is its high upright).
    """

    tag: str
    run: str
    left: str
    right: str
    spacing: Length | None = None
    planned_span: Length | None = None
    shape: Shape = "racked"
    height: Length | None = None
    finish_face: str | None = None
    has_glass: bool = True
    taller: bool = False
    status: Status = "to order"
