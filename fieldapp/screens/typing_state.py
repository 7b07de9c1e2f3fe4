"""What has been typed to a question so far, what it shows, and the reading that it makes. Pure: a new value for every press."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from fieldapp.parts.entry import Entry
from fieldapp.screens.asking import Asking, Words
from fieldapp.words import say
from measure.as_read import with_unit
from measure.errors import EntryError
from measure.length import Length
from measure.rounding import apart_text, mm_decimal, plain_text
from measure.slope import Slope

LEVEL = "level"
"""The side that means neither: its figure is 0."""
_FINE_MM = 50
"""Below so many millimetres the echo has two decimals."""
_BARE = frozenset("0123456789 ./,½¼¾⅛⅜⅝⅞-⁄")


@dataclass(frozen=True, slots=True)
class Shown:
    """The fields of what the stage shows (parts/question.py): figure, unit, echo, spoken, place on the blade, lit key, refusal."""

    whole: str
    fraction: Fraction | None
    unit: str
    echo: str
    says: str
    value: Fraction | None
    lit: str | None
    caret: bool
    problem: str


@dataclass(frozen=True, slots=True)
class Typing:
    """side: `left`, `level`, `right` or None while nobody chose. problem: why the last Keep was refused."""

    asking: Asking
    entry: Entry
    side: str | None = None
    problem: str = ""

    @classmethod
    def begin(cls, asking: Asking, text: str = "", side: str = "") -> Typing:
        """An empty question, or the one that was left half-typed."""
        entry = Entry.from_text(text, asking.units, asking.form, asking.rise)  # type: ignore[arg-type]
        return cls(asking, entry, side or None)

    # ---- what a press does ---------------------------------------------------------------------------------------------
    def press(self, key: str) -> Typing:
        """A key of the keypad. The decimal key of a millimetre job writes a comma."""
        if key == "point" and self.asking.units == "mm" and not self.entry.free:
            entry = self.entry if self.entry.whole else self.entry.press("0")
            return self._with(entry if entry.tail else entry.type(","))
        return self._with(self.entry.press(key))

    def type(self, written: str) -> Typing:
        """Letters from a real keyboard."""
        return self._with(self.entry.type(written))

    def pick(self, side: str) -> Typing:
        """Which end is higher. Level is 0 at once; another side takes that 0 away again."""
        entry = self.entry
        if side == LEVEL:
            entry = replace(_blank(entry), whole="0")
        elif self.side == LEVEL:
            entry = _blank(entry)
        return replace(self, entry=entry, side=side, problem="")

    def refused(self, problem: str) -> Typing:
        """The same with the reason why it was not kept; what was typed stays."""
        return replace(self, problem=problem)

    def _with(self, entry: Entry) -> Typing:
        side = self.side
        if side == LEVEL and entry != self.entry:
            side = None
        return replace(self, entry=entry, side=side, problem="")

    # ---- what it shows -------------------------------------------------------------------------------------------------
    def shown(self, other_unit: bool = True) -> Shown:
        """other_unit: whether the figure is echoed in the other unit."""
        whole, fraction = self.entry.shown
        if self.asking.form == "1:n" and not self.entry.free:
            whole = f"1:{whole}"
        says = self.spoken
        if self.problem:
            says = f"{says}. {self.problem}"
        value = None if self.problem else self.entry.on_blade
        return Shown(whole, fraction, self._unit, self._echo(other_unit), says, value, self.entry.lit, True, self.problem)

    @property
    def untouched(self) -> bool:
        """Whether neither a figure nor a side was given yet."""
        return self.entry.empty and not self.side

    @property
    def spoken(self) -> str:
        """The figure with its unit."""
        if self.entry.empty:
            return say("walk.nothing", unit=self._unit or self.asking.unit)
        return self.entry.text if self.asking.form else with_unit(self.entry.text, self.asking.units)

    @property
    def _unit(self) -> str:
        """A figure that was written with its own unit shows no other."""
        return self.asking.unit if _BARE.issuperset(self.entry.free) else ""

    def _echo(self, other_unit: bool) -> str:
        value = self.entry.value()
        if not isinstance(value, Length):
            whole_first = self.entry.empty and self.asking.units == "in" and not self.asking.form
            return say("walk.whole_first") if whole_first else ""
        span = self.asking.span
        if span is not None and span.counts_as(value, self.asking.units) != value:
            counts = span.counts_as(value, self.asking.units)
            return say("walk.counts_as", figure=plain_text(counts, self.asking.units)) if counts.nm > 0 else ""
        return other_units(value, self.asking.units) if other_unit else ""

    # ---- what it makes -------------------------------------------------------------------------------------------------
    def reading(self) -> Words:
        """The reading's words but for who and when. EntryError says why there is none and what to do."""
        value = self.entry.read()
        self._refuse_nothing(value)
        self._refuse_taken(value)
        words = {**self.asking.said, "value": self.entry.text}
        if isinstance(value, Slope):
            words.pop("over", None)
        if self.asking.sides and _size(value):
            words["high" if self.asking.sides == "rise" else "toward"] = self._side()
        return words

    def _side(self) -> str:
        if self.side in ("left", "right"):
            return self.side
        raise EntryError(self.entry.text, say(f"walk.no_side_{self.asking.sides}"), say(f"walk.say_side_{self.asking.sides}"))

    def _refuse_nothing(self, value: Length | Slope) -> None:
        if not self.asking.zero and not _size(value):
            raise EntryError(self.entry.text, say("walk.zero"), say(f"walk.type_{self.asking.units}"))

    def _refuse_taken(self, value: Length | Slope) -> None:
        """What does not go with how it was taken."""
        span, over, text = self.asking.span, self.asking.over, self.entry.text
        if span is not None and isinstance(value, Length):
            if span.how == "case" and not span.case:
                raise EntryError(text, say("walk.no_case"), say("walk.say_case"))
            if span.counts_as(value, self.asking.units).nm <= 0:
                raise EntryError(text, say("walk.less_than_start"), say("walk.say_start"))
        if over is not None and over.over == "slope" and isinstance(value, Length):
            raise EntryError(text, say("walk.length_for_slope"), say("walk.say_over"))


def other_units(value: Length, units: str) -> str:
    """A length in the unit that the job does not use: `1027.1 mm`, `~ 40 7/16 in`."""
    if units == "mm":
        return say("walk.about", figure=apart_text(value, "in"))
    return f"{mm_decimal(value.nm, 2 if abs(value.mm) < _FINE_MM else 1)} mm"


def _blank(entry: Entry) -> Entry:
    return Entry(entry.units, entry.form, entry.rise)


def _size(value: Length | Slope) -> bool:
    return bool(value.value if isinstance(value, Slope) else value.nm)
