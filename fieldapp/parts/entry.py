"""The figure being typed: a value that never changes, a new one for every press. No flet, no arithmetic of its own.

Keys and a real keyboard (or an instrument that types) end in the same text, as a person would write it: `40 7/16`,
`3 ft 4 7/16 in`, `1027.5`, `1.2 deg`. Reading it is the work of measure.parse.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from measure.errors import EntryError
from measure.length import NM_PER_INCH, NM_PER_MM, Length
from measure.parse import parse_length, parse_rise
from measure.slope import Slope

Units = Literal["in", "mm"]
Form = Literal["", "deg", "%", "1:n", "in/ft", "mm/m"]

_KEYED = re.compile(r"(?:(?P<feet>\d+) ft ?)?(?:(?P<whole>\d+)(?![\d/]))?(?: ?(?P<num>\d{1,2})/(?P<den>2|4|8|16))?(?: in)?")
_DECIMAL = re.compile(r"(?P<whole>\d*)(?P<tail>[.,]\d*)?")
_FIGURE_ALONE = re.compile(r"[\d .,/½¼¾⅛⅜⅝⅞-]+")
_MOST_DIGITS = {"in": 4, "mm": 6}
_MOST_TYPED = 40


@dataclass(frozen=True, slots=True)
class Entry:
    """units: the job's. form: the slope's spelling that is asked, empty for a length. rise: slopes are read too, typed freely.

    feet, whole, tail: digits as pressed (tail with its decimal mark). sixteenth: 0 to 15. free: what a real keyboard wrote when
    it is more than digits; it then stands alone.
    """

    units: Units = "in"
    form: Form = ""
    rise: bool = False
    feet: str = ""
    whole: str = ""
    sixteenth: int = 0
    tail: str = ""
    free: str = ""

    @classmethod
    def from_text(cls, text: str, units: Units = "in", form: Form = "", rise: bool = False) -> Entry:
        """A draft brought back: `entry.text` read into the same entry."""
        empty = cls(units=units, form=form, rise=rise)
        bare = _without_form(text.strip(), form)
        if empty.pad == "inch":
            found = _KEYED.fullmatch(bare)
            if found and (found["num"] is None or 0 < Fraction(int(found["num"]), int(found["den"])) < 1):
                n = int(found["num"]) * 16 // int(found["den"]) if found["num"] else 0
                return replace(empty, feet=found["feet"] or "", whole=found["whole"] or "", sixteenth=n)
        elif found := _DECIMAL.fullmatch(bare):
            return replace(empty, whole=found["whole"], tail=found["tail"] or "")
        return replace(empty, free=text)

    @property
    def pad(self) -> Literal["inch", "decimal"]:
        """The keypad this entry wants."""
        inch = self.units == "in" if not self.form else self.form == "in/ft"
        return "inch" if inch else "decimal"

    @property
    def empty(self) -> bool:
        """Nothing typed yet."""
        return not (self.feet or self.whole or self.sixteenth or self.tail or self.free)

    @property
    def fraction(self) -> Fraction | None:
        """The chosen sixteenths in lowest terms."""
        return Fraction(self.sixteenth, 16) if self.sixteenth else None

    @property
    def shown(self) -> tuple[str, Fraction | None]:
        """What the figure shows: everything before the fraction, and the fraction. A free figure is shown as it was written."""
        if self.free:
            keyed = Entry.from_text(self.free, self.units, self.form)
            return (self.free, None) if keyed.free or keyed.feet else (keyed.whole + keyed.tail, keyed.fraction)
        whole = self.whole + self.tail
        return (f"{self.feet} ft {whole}".strip() if self.feet else whole), self.fraction

    @property
    def lit(self) -> str | None:
        """The key that stays lit."""
        return f"{self.sixteenth}/16" if self.sixteenth and not self.free else None

    @property
    def text(self) -> str:
        """What is kept, letter for letter."""
        figure = self.free or self._bare
        if not self.form or not figure or (self.free and not _FIGURE_ALONE.fullmatch(self.free)):
            return figure
        return f"1:{figure}" if self.form == "1:n" else f"{figure} {self.form}"

    @property
    def _bare(self) -> str:
        """The figure without the slope's spelling, as keys and digits wrote it."""
        figure = " ".join(part for part in (self.whole + self.tail, str(self.fraction or "")) if part)
        if self.feet:
            figure = f"{self.feet} ft {figure} in" if figure else f"{self.feet} ft"
        return figure

    def press(self, key: str) -> Entry:
        """The entry after a key: `0` … `9`, `1/16` … `15/16`, `ft`, `point`, `erase`. Others leave it as it is."""
        if key == "erase":
            return self._erased()
        if self.free:
            return self._typed(
                {"ft": " ft ", "point": "."}.get(key, key if key.isdigit() else f" {Fraction(key)}" if "/" in key else "")
            )
        if key.endswith("/16"):
            return replace(self, sixteenth=int(key.removesuffix("/16")))
        if key == "ft":
            return replace(self, feet=self.whole, whole="") if self.whole and not self.feet else self
        if key == "point":
            return replace(self, tail=".") if self.pad == "decimal" and not self.tail else self
        return self._digit(key) if len(key) == 1 and key in "0123456789" else self

    def type(self, written: str) -> Entry:
        """The entry after letters from a real keyboard, one or many.

        Digits are the same as keys, as far as keys go; anything more is kept as it was written.
        """
        entry = self
        for letter in written:
            keyed = entry._keyed(letter)
            if keyed is not None:
                entry = keyed
            elif letter != " " or not entry.empty:
                entry = replace(entry, feet="", whole="", tail="", sixteenth=0, free=entry.free or entry._bare)._typed(letter)
        return entry

    def _keyed(self, letter: str) -> Entry | None:
        """The entry after a letter that a key could have written, None where no key could."""
        if self.free:
            return None
        if letter in "0123456789":
            after = self._digit(letter)
            return after if after.whole + after.tail == self.whole + self.tail + letter else None
        mark = letter in ".," and self.pad == "decimal" and self.whole and not self.tail
        return replace(self, tail=letter) if mark else None

    def value(self) -> Length | Slope | None:
        """What it reads as, None while it cannot be read."""
        try:
            return self.read()
        except EntryError:
            return None

    def read(self) -> Length | Slope:
        """What it reads as. EntryError says what is wrong and what to type instead."""
        reader = parse_rise if self.rise or self.form else parse_length
        return reader(self.text, self.units)

    @property
    def on_blade(self) -> Fraction | None:
        """Where it lies on the blade, in inches or millimetres. None for a slope and while it cannot be read."""
        value = self.value()
        if not isinstance(value, Length):
            return None
        return Fraction(value.nm, NM_PER_INCH if self.units == "in" else NM_PER_MM)

    def _digit(self, digit: str) -> Entry:
        if self.tail:
            # One decimal for a length in millimetres: a tenth is the finest that is taped; slopes have two.
            return replace(self, tail=self.tail + digit) if len(self.tail) <= (2 if self.form else 1) else self
        if len(self.whole) >= _MOST_DIGITS[self.units]:
            return self
        return replace(self, whole=digit if self.whole == "0" else self.whole + digit)

    def _typed(self, written: str) -> Entry:
        return replace(self, free=(self.free + written)[:_MOST_TYPED])

    def _erased(self) -> Entry:
        if self.free:
            return Entry.from_text(self.free[:-1].rstrip(), self.units, self.form, self.rise)
        if self.sixteenth:
            return replace(self, sixteenth=0)
        if self.tail:
            return replace(self, tail=self.tail[:-1])
        if self.whole or not self.feet:
            return replace(self, whole=self.whole[:-1])
        return replace(self, feet="", whole=self.feet)


def _without_form(text: str, form: Form) -> str:
    if form == "1:n":
        return text.removeprefix("1:").strip()
    return text.removesuffix(form).strip() if form else text
