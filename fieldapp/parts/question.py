"""What the walk asks, and what has been typed so far: plain values, all words already chosen."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from fieldapp.parts.bay_picture import Ask, BayNames
from fieldapp.parts.bay_shape import BayShape
from fieldapp.parts.blade_tiles import Unit
from fieldapp.parts.keypad import Pad
from fieldapp.parts.tile import Draw

Layout = Literal["in glass", "upright", "below"]


@dataclass(frozen=True, slots=True)
class Question:
    """One question of the walk.

    tag, what, where: `A3`, `span`, `Tape tight, just above the base plates.` ask: what the bay's drawing lights; a `picture`
    stands in for the bay where the question is of a post or a run. says: the drawing in words.
    hook, read: beside the two ends of the tape; foot: under the end of an upright blade. empty: in the blank blade.
    counts: the echo says what the figure counts as, and stands in a line of its own above `hook` and `read`.
    sides: choices under the drawing, (value, word, spoken), such as left higher / level / right higher.
    """

    tag: str
    what: str
    where: str
    says: str
    ask: Ask = "span"
    shape: BayShape = field(default_factory=lambda: BayShape(40, 2.5, 2.5, 0, 5))
    names: BayNames = field(default_factory=lambda: BayNames("", ""))
    units: Unit = "in"
    pad: Pad = "inch"
    hook: str = ""
    read: str = ""
    foot: str = ""
    empty: str = ""
    picture: Draw | None = None
    sides: tuple[tuple[str, str, str], ...] = ()
    counts: bool = False

    @property
    def bladed(self) -> bool:
        """Whether a blade echoes the figure: not for a slope, nor where picture and choices leave no room (`empty` says nothing)."""
        return bool(self.empty) or self.layout != "below"

    @property
    def layout(self) -> Layout:
        """Where figure and blade stand: in the glass over a lying blade, beside an upright one, or below the picture."""
        if self.picture is None and self.ask in ("span", "top-span"):
            return "in glass"
        return "upright" if self.picture is None and self.ask in ("rise", "base-rise") else "below"


@dataclass(frozen=True, slots=True)
class Typed:
    """What has been typed. whole, fraction: the figure; echo: the same in the other unit; says: spoken, with its unit.

    value: where it lies on the blade, None while it cannot be read. lit: the sixteenth's key. problem: why it is not kept.
    """

    whole: str = ""
    fraction: Fraction | None = None
    unit: str = "in"
    echo: str = ""
    says: str = ""
    value: Fraction | None = None
    lit: str | None = None
    caret: bool = True
    problem: str = ""
