"""Typed lengths and slopes as values: strict, exact, whole numbers only.

A bare number takes the job's unit. What could mean two things is refused with a question, what means nothing is refused with
an example (refusal.py). No float on the way: a figure is a whole number over a whole number until it is nanometres.

One question is asked by rule: one to three digits, a point or comma, exactly three digits. `1,250` and `1.250` may be 1250 or
1.25. It is asked of millimetres and centimetres, where both are lengths that people tape; not of metres (a thousand metres
are over 100 m), not of inches with a point (`35.125` is a tape's own eighth), and not where a 0 stands before the mark, since
no thousand begins with 0.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from measure import refusal
from measure.length import GREATEST_NM, NM_PER_FOOT, NM_PER_INCH, NM_PER_METRE, Length
from measure.slope import Slope, SlopeForm
from measure.spelling import FIGURE, FOOT_NAMES, INCH_NAMES, MOST_LETTERS, NM_PER_UNIT, PARTS, VULGAR, one_of, plain
from measure.units import JobUnits

_INCH, _FOOT = one_of(INCH_NAMES), one_of(FOOT_NAMES)
_PER = r"(?: */ *| +(?:per|PER) +)"
_LENGTH = re.compile(rf"{FIGURE} *({one_of(tuple(NM_PER_UNIT))})?")
_FEET_AND_INCHES = re.compile(rf"([0-9]+|([0-9.,/ ]+)) *(?:{_FOOT}) *-? *{FIGURE} *(?:{_INCH})?")
_FIGURE = re.compile(FIGURE)
_SLOPE = re.compile(
    rf"{FIGURE} *(?:(?P<deg>°|deg|DEG|degrees?|DEGREES?)|(?P<percent>%|per ?cent|PER ?CENT)"
    rf"|(?P<in>{_INCH}){_PER}(?:{_FOOT})|(?P<mm>mm|MM){_PER}[mM])"
)
_ONE_TO = re.compile(r"1 *: *(.+)")
_FORMS: tuple[tuple[str, SlopeForm, int, str], ...] = (
    ("deg", "deg", 60, "60 deg"),
    ("percent", "%", 175, "175 %"),
    ("in", "in/ft", 21, "21 in/ft (175 %)"),
    ("mm", "mm/m", 1750, "1750 mm/m (175 %)"),
)
"""group of _SLOPE, form, what it stays below, in words. A slope per length has the bound of the per cent."""


class _Figure(NamedTuple):
    """top/bottom; mark: what stands before the last digits, `.`, `,`, `/` or nothing."""

    top: int
    bottom: int
    mark: str

    @property
    def may_be_thousands(self) -> bool:
        """One to three digits, a mark, exactly three digits."""
        return self.bottom == 1000 and self.mark != "/" and 1000 <= self.top < 1_000_000


def parse_length(text: str, units: JobUnits) -> Length:
    """The length a person typed; a bare number is in `units`. 0 is read. EntryError says what to type instead."""
    if len(text) > MOST_LETTERS:
        raise refusal.too_long(text)
    shown = plain(text)
    found = _LENGTH.fullmatch(shown)
    if found is None:
        return _feet_and_inches(text, shown, units)
    groups = found.groups()
    figure, unit = _figure(text, groups), groups[10]
    nm_per_unit = NM_PER_UNIT[unit or units]
    if figure.mark:
        _refuse_mark(text, figure, shown, unit, nm_per_unit, units)
    return _length(text, figure.top * nm_per_unit, figure.bottom)


def parse_slope(text: str) -> Slope | None:
    """The slope a person typed; None where the text is spelled as no slope is. EntryError: it is one, and not as it should be."""
    if len(text) > MOST_LETTERS:
        return None
    shown = plain(text)
    if not refusal.SLOPE_SIGN.search(shown):
        return None
    if one_to := _ONE_TO.fullmatch(shown):
        return _one_to(text, shown, one_to[1])
    found = _SLOPE.fullmatch(shown)
    if found is None:
        raise refusal.not_a_slope(text, shown)
    figure = _figure(text, found.groups(), "in/ft")
    group, form, bound, most = next(row for row in _FORMS if found[row[0]])
    if figure.mark == "/" and form != "in/ft":
        raise refusal.not_a_slope(text, shown)
    if figure.mark == "," and form == "in/ft":
        raise refusal.comma_in_slope(text)
    # A thousand degrees or per cent is no slope, 1250 mm/m is one.
    if group == "mm" and figure.may_be_thousands:
        raise refusal.thousands(text, figure.top, "{} mm/m")
    if figure.top >= bound * figure.bottom:
        raise refusal.too_steep(text, most)
    return Slope(form, Fraction(figure.top, figure.bottom), Fraction(1, figure.bottom))


def parse_rise(text: str, units: JobUnits) -> Length | Slope:
    """A rise as people give it: a length, or a slope. EntryError says what to type instead."""
    slope = parse_slope(text)
    return parse_length(text, units) if slope is None else slope


def _one_to(text: str, shown: str, after: str) -> Slope:
    found = _FIGURE.fullmatch(after)
    if found is None:
        raise refusal.not_a_slope(text, shown)
    figure = _figure(text, found.groups(), "in/ft")
    if figure.mark == "/":
        raise refusal.not_a_slope(text, shown)
    if not figure.top:
        raise refusal.one_to_nothing(text)
    if figure.may_be_thousands:
        raise refusal.thousands(text, figure.top, "1:{}")
    if 7 * figure.top <= 4 * figure.bottom:
        raise refusal.too_steep(text, "175 %")
    return Slope("1:n", Fraction(figure.top, figure.bottom), Fraction(1, figure.bottom))


def _figure(text: str, groups: tuple[str | None, ...], unit: str = "in") -> _Figure:
    """A figure from the ten groups of FIGURE. unit: what a refused fraction is told in."""
    whole, mark, tail, before, top, bottom, ahead, vulgar, lone_mark, lone_tail = groups[:10]
    if whole is not None:
        if tail is None:
            return _Figure(int(whole), 1, "")
        return _Figure(int(whole + tail), 10 ** len(tail), mark or "")
    if top is not None and bottom is not None:
        parts, of, count = int(top), int(bottom), int(before or 0)
        if of not in PARTS or not 0 < parts < of or top[0] == "0" or bottom[0] == "0":
            raise refusal.bad_fraction(text, count, parts, of, unit)
        return _Figure(count * of + parts, of, "/")
    if vulgar is not None:
        parts, of = VULGAR[vulgar]
        return _Figure(int(ahead or 0) * of + parts, of, "/")
    digits = lone_tail or ""
    return _Figure(int(digits), 10 ** len(digits), lone_mark or "")


def _refuse_mark(text: str, figure: _Figure, shown: str, unit: str | None, nm_per_unit: int, units: JobUnits) -> None:
    """A fraction of anything but inches, a comma in inches, and what may be a decimal or a thousand."""
    if figure.mark == "/":
        if unit is None and units == "mm" and figure.top * NM_PER_INCH <= GREATEST_NM * figure.bottom:
            raise refusal.fraction_without_inches(text, shown)
        if nm_per_unit != NM_PER_INCH:
            raise refusal.fraction_of_other_unit(text)
        return
    inches = nm_per_unit in (NM_PER_INCH, NM_PER_FOOT)
    asked = (figure.mark == "," and unit is None) if inches else nm_per_unit != NM_PER_METRE
    if asked and figure.may_be_thousands:
        raise refusal.thousands(text, figure.top, f"{{}} {unit}" if unit else "{}", nm_per_unit)
    if inches and figure.mark == ",":
        raise refusal.comma_in_inches(text)


def _feet_and_inches(text: str, shown: str, units: JobUnits) -> Length:
    """`2' 11 1/4"`, `2 ft 11 in`, `2'-11`; EntryError where the text is no such thing either."""
    found = _FEET_AND_INCHES.fullmatch(shown)
    if found is None:
        raise refusal.not_a_length(text, shown, units)
    feet, parted, *groups = found.groups()
    if parted:
        raise refusal.parted_foot(text)
    inches = _figure(text, tuple(groups))
    if inches.mark == ",":
        raise refusal.comma_in_inches(text)
    if inches.top >= 12 * inches.bottom:
        raise refusal.inches_over_a_foot(text)
    return _length(text, int(feet) * NM_PER_FOOT * inches.bottom + inches.top * NM_PER_INCH, inches.bottom)


def _length(text: str, top_nm: int, bottom: int) -> Length:
    nm, rest = divmod(top_nm, bottom)
    # Too long comes first: what is over 100 m is wrong in its first digits, whatever the last ones say.
    if nm > GREATEST_NM or (nm == GREATEST_NM and rest):
        raise refusal.too_great(text)
    if rest:
        raise refusal.too_fine(text)
    return Length(nm)
