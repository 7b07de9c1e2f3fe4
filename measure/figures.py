"""Typed figures of one job file turned into values, each read once; what cannot be read is kept with its place."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any

from measure.errors import EntryError
from measure.job import Units
from measure.json_path import Path, shown
from measure.length import Length
from measure.moment import parse_moment
from measure.parse import parse_length, parse_rise, parse_slope
from measure.slope import Slope
from measure.strict_json import number_text

STAND_IN = Length(1)
"""Stands where a figure could not be read; the job is refused then, so nobody ever sees it."""
_NO_TIME = datetime.fromisoformat("2000-01-01T00:00:00Z")
Typed = str | int | Decimal
Number = int | Decimal
Words = Mapping[str, Any]
Problem = tuple[Path, str]


def text_of(typed: Typed) -> str:
    """What was typed; a bare number by its digits."""
    return typed if isinstance(typed, str) else number_text(typed)


def zero_trouble(text: str) -> str:
    return f"{shown(text)}: this length is more than 0. Give it as it was measured, or as the sheet says."


class Figures:
    """units: the job's; None where they are not known, then no figure is judged. problems: grows as figures are read."""

    def __init__(self, units: Units | None) -> None:
        self.units = units
        self.problems: list[Problem] = []
        self._lengths: dict[str, Length] = {}
        self._rises: dict[str, Length | Slope] = {}

    def refuse(self, place: Path, sentence: str) -> None:
        self.problems.append((place, sentence))

    def refused(self, place: Path) -> bool:
        """Whether something was refused at just this place."""
        return any(where == place for where, _ in self.problems)

    def length(self, typed: Typed, place: Path, key: str, zero: bool = False) -> Length:
        """One length. zero: 0 makes sense too."""
        text = text_of(typed)
        length = self._lengths.get(text)
        if length is None:
            if self.units is None:
                return STAND_IN
            try:
                length = self._lengths[text] = parse_length(text, self.units)
            except EntryError as problem:
                self.refuse((*place, key), str(problem))
                return STAND_IN
        if not length.nm and not zero:
            self.refuse((*place, key), zero_trouble(text))
        return length

    def maybe(self, words: Words, key: str, place: Path, zero: bool = False) -> Length | None:
        """The length under a key that may be left out."""
        typed = words.get(key)
        return None if typed is None else self.length(typed, place, key, zero)

    def needed(self, words: Words, key: str, place: Path, zero: bool = False) -> Length:
        """The length under a key that is needed; a stand-in where it is not there, which was told with the shape."""
        typed = words.get(key)
        return STAND_IN if typed is None else self.length(typed, place, key, zero)

    def rise(self, typed: Typed, place: Path, key: str) -> Length | Slope:
        """A length, 0 too, or a slope."""
        text = text_of(typed)
        rise = self._rises.get(text)
        if rise is None:
            if self.units is None:
                return STAND_IN
            try:
                rise = self._rises[text] = parse_rise(text, self.units)
            except EntryError as problem:
                self.refuse((*place, key), str(problem))
                return STAND_IN
        return rise

    def slope(self, words: Words, key: str, place: Path) -> Fraction | None:
        """tan θ of a slope that may be left out."""
        typed = words.get(key)
        if typed is None:
            return None
        text = text_of(typed)
        try:
            slope = parse_slope(text)
        except EntryError as problem:
            self.refuse((*place, key), str(problem))
            return None
        if slope is None:
            self.refuse((*place, key), f"{shown(text)} is no slope: type it as 8 %, 4.6 deg, 1:12, 1 in/ft or 80 mm/m.")
            return None
        return slope.tan

    def number(self, words: Words, key: str, place: Path, greatest: int, above_zero: bool = False) -> Fraction | None:
        """A bare number that may be left out, from 0 to `greatest`."""
        number: Number | None = words.get(key)
        if number is None:
            return None
        if 0 <= number <= greatest and (number or not above_zero):
            return Fraction(number)
        low = "above 0 and" if above_zero else "0 at least and"
        self.refuse((*place, key), f"{number_text(number)} cannot be: this number is {low} {greatest} at most.")
        return None

    def moment(self, words: Words, place: Path) -> datetime:
        """The time under `at`."""
        try:
            return parse_moment(words["at"])
        except EntryError as problem:
            self.refuse((*place, "at"), str(problem))
        except KeyError:
            pass  # told with the shape
        return _NO_TIME

    def name(self, words: Words, key: str, place: Path, what: str) -> str:
        """A text that must not be blank."""
        name: str | None = words.get(key)
        if name is not None and not name.strip():
            self.refuse((*place, key), f"Nothing stands here: {what}.")
        return name or ""
