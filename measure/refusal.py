"""Why a figure is not read, and what to type instead.

Every sentence ends in an example in “ ”, and every such example is read: a test types them all.
"""

from __future__ import annotations

import re

from measure.errors import EntryError
from measure.length import GREATEST_NM
from measure.spelling import FOOT_NAMES, INCH_NAMES, NM_PER_UNIT, PARTS, VULGAR
from measure.units import JobUnits

_DASHES = "-‐‑‒–—―−﹣－"
_NAMES = re.compile(rf"[^\W\d_{''.join(VULGAR)}]+|['\"]")
_NO_MARK_ON_TAPE = "⅓⅔⅕⅖⅗⅘⅙⅚⅐⅑⅒⅟↉"
_COUNTS = "a tape has halves to sixty-fourths only"
_NEGATIVE = "Type it without the minus sign, as “3/8 in” or “10 mm”, and say in high which side stands higher, left or right."
_SLOPES = "Type it as “1.2 deg”, “2 %”, “1:48”, “1/4 in/ft” or “20 mm/m”."
SLOPE_SIGN = re.compile(r"[%°:]|deg|per|[a-z\"] */", re.IGNORECASE)
"""What only a slope is spelled with."""

_REASONS: tuple[tuple[re.Pattern[str], str, str], ...] = tuple(
    (re.compile(pattern), why, do)
    for pattern, why, do in (
        (r"^\+", "a figure has no sign", "Type it without the plus sign, as “3/8 in” or “10 mm”."),
        (r"(?i)^(?:nan|inf|infinity)\b", "it is no number", "Type what the tape shows, as “35 1/4 in” or “895 mm”."),
        (r"[0-9.] *[eE] *[-+]?[0-9]", "a power of ten is not read", "Write the figure out, as “1000 mm”."),
        (
            f"[{_NO_MARK_ON_TAPE}]",
            _COUNTS,
            "Type the nearest mark, as “35 5/16 in”, or a decimal, as “35.3 in”.",
        ),
        (
            r"[.,][0-9]*[.,]",
            "it has more than one point or comma",
            "Type it without marks between thousands, as “1250 mm” or “1250.5 mm”.",
        ),
        (r"[0-9][.,](?![0-9])", "digits are missing after the point", "Type “5”, or “5.0”."),
        (
            r"[.,][0-9]+(?: *| *- *)(?:[0-9]+/|[½¼¾⅛⅜⅝⅞])",
            "it is a decimal and a fraction in one",
            "Type one of the two, as “35.75 in” or “35 3/4 in”.",
        ),
        (r"[0-9]+/[0-9]+/", "it is no fraction", "Type it as “35 1/4 in”."),
    )
)


def empty(text: str, units: JobUnits) -> EntryError:
    return EntryError(text, "nothing is typed", f"Type a length, as {_example(units)}.")


def too_long(text: str) -> EntryError:
    return EntryError(text, f"no figure has {len(text)} letters", "Type what the tape shows, as “35 1/4 in” or “895 mm”.")


def bad_fraction(text: str, whole: int, top: int, bottom: int, unit: str) -> EntryError:
    """A fraction of another count than halves to sixty-fourths, or one that is 0, 1 or more. unit: `in` or `in/ft`."""
    if bottom not in PARTS:
        return EntryError(text, _COUNTS, f"Type the nearest mark, as “5/16 {unit}”, or a decimal, as “0.3 {unit}”.")
    if 0 < top < bottom:
        return EntryError(text, "its fraction begins with a zero", f"Type it as “1/4 {unit}”.")
    more, rest = divmod(top, bottom)
    meant = f"{whole + more} {rest}/{bottom}" if rest else f"{whole + more}"
    # What is far too long or steep anyway is not offered.
    if whole + more >= (3000 if unit == "in" else 20):
        meant = "1 1/4"
    why = "its fraction is nothing" if not top else "its fraction is one or more"
    return EntryError(text, why, f"Type “{meant} {unit}” if that is meant.")


def fraction_without_inches(text: str, shown: str) -> EntryError:
    """A bare fraction in a millimetre job."""
    return EntryError(text, "this job is in millimetres, and a fraction is of inches", f"Type “{shown} in” if inches are meant.")


def fraction_of_other_unit(text: str) -> EntryError:
    return EntryError(text, "fractions are read of inches only", "Type “35 1/4 in”, “2 ft 6 in”, “2.5 ft” or “895.5 mm”.")


def comma_in_inches(text: str) -> EntryError:
    return EntryError(text, "inches take a point, no comma", "Type it as “12.5 in” or “12 1/2 in”.")


def comma_in_slope(text: str) -> EntryError:
    return EntryError(text, "inches take a point, no comma", "Type it as “0.25 in/ft” or “1/4 in/ft”.")


def thousands(text: str, thousandths: int, shape: str, nm_per_unit: int = 0) -> EntryError:
    """Three digits after a point or comma: a decimal, or a thousand? shape: how the answer is spelled, as `{} mm` or `1:{}`."""
    whole, tail = divmod(thousandths, 1000)
    decimal = f"{whole}.{tail:03d}".rstrip("0").rstrip(".")
    # With just three digits left the question would come again: one zero more answers it.
    answer = shape.format(decimal + "0" if tail % 10 else decimal)
    if thousandths * nm_per_unit > GREATEST_NM:
        return EntryError(text, "the mark could be one between thousands", f"Type “{answer}” if that is meant.")
    return EntryError(text, f"this may be {thousandths} or {decimal}", f"Type “{shape.format(thousandths)}” or “{answer}”.")


def inches_over_a_foot(text: str) -> EntryError:
    return EntryError(text, "after feet there are less than 12 inches", "Type “3 ft 2 in”, or inches alone, as “38 in”.")


def parted_foot(text: str) -> EntryError:
    return EntryError(text, "feet before inches are whole", "Type “2 ft 9 in”, or inches alone, as “33 in”.")


def too_fine(text: str) -> EntryError:
    why = "it is no whole number of nanometres"
    return EntryError(text, why, "Type fewer decimals, as “35.2344 in” or “894.95 mm”.")


def too_great(text: str) -> EntryError:
    return EntryError(text, "it is over 100 m", "Type what the tape shows, as “35 1/4 in” or “895 mm”.")


def not_a_length(text: str, shown: str, units: JobUnits) -> EntryError:
    """The first reason that fits a text which no pattern reads."""
    if not shown:
        return empty(text, units)
    if found := _unreadable(text, shown):
        return found
    if SLOPE_SIGN.search(shown):
        return EntryError(text, "this is a slope, and a length is asked", "Type a length, as “3/8 in” or “10 mm”.")
    for pattern, why, do in _REASONS:
        if pattern.search(shown):
            return EntryError(text, why, do)
    return _unit_reason(text, shown) or EntryError(text, "it is no length", f"Type it as {_example(units)}.")


def not_a_slope(text: str, shown: str) -> EntryError:
    """A text that has a slope's sign and is none."""
    return _unreadable(text, shown) or EntryError(text, "it is no slope", _SLOPES)


def too_steep(text: str, most: str) -> EntryError:
    return EntryError(text, f"a slope is below {most}", _SLOPES)


def one_to_nothing(text: str) -> EntryError:
    return EntryError(text, "no slope is one to nothing", "Type it as “1:48”, a level one as “0 %”.")


def _unreadable(text: str, shown: str) -> EntryError | None:
    """Letters that belong to no figure, and signs."""
    if shown[0] in _DASHES:
        return EntryError(text, "a figure is never negative", _NEGATIVE)
    if any(c.isdigit() and not c.isascii() for c in shown):
        return EntryError(text, "only the digits 0 to 9 are read", "Type it as “895 mm” or “35 1/4 in”.")
    if not shown.isprintable():
        return EntryError(text, "it holds a letter that cannot be seen", "Type it anew, as “895 mm” or “35 1/4 in”.")
    return None


def _unit_reason(text: str, shown: str) -> EntryError | None:
    names = _NAMES.findall(shown)
    wrong = [name for name in names if name not in NM_PER_UNIT]
    if any(name.lower() in NM_PER_UNIT for name in wrong):
        return EntryError(text, "a unit is written small or all in capitals", "Type “895 mm”, “895 MM” or “35 1/4 in”.")
    if wrong:
        return EntryError(text, "its unit is not read", "Type “35 1/4 in”, “2 ft 11 in”, “895 mm”, “89.5 cm” or “0.895 m”.")
    kinds = {name in INCH_NAMES or name in FOOT_NAMES for name in names}
    if len(kinds) > 1:
        return EntryError(text, "it mixes inches and millimetres", "Type it in one of them, as “35 1/4 in” or “895 mm”.")
    if len(names) > 1:
        return EntryError(text, "its units do not follow each other", "Type “2 ft 11 1/4 in”, “35 1/4 in” or “895 mm”.")
    if len(re.findall(r"[0-9]+", shown)) > 1 and "/" not in shown:
        return EntryError(
            text, "it is two figures", "Type one figure, as “1250 mm”, or a fraction with its line, as “35 1/4 in”."
        )
    return None


def _example(units: JobUnits) -> str:
    return "“35 1/4”, “35.25” or “2 ft 11 1/4 in”" if units == "in" else "“895”, “895.5” or “0.895 m”"
