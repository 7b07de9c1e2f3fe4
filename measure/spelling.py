"""How figures are spelled: marks, spaces, fractions and units, brought to one spelling that two patterns can read.

Nothing here guesses. Only the digits 0 to 9 count as digits, and a unit is written small or all in capitals: `Mm` is neither
millimetres nor anything else that is taped.
"""

from __future__ import annotations

from measure.length import NM_PER_FOOT, NM_PER_INCH, NM_PER_METRE, NM_PER_MM

MOST_LETTERS = 64
"""No figure is longer; more is refused before it is looked at."""

_EDGES = " \t\r\n"
_SAME = str.maketrans(
    dict.fromkeys("’‘‛′ʹ", "'") | dict.fromkeys("”“‟″ʺ", '"') | dict.fromkeys("\u00a0\u202f\u2007", " ") | {"\u2044": "/"}
)

VULGAR = {"½": (1, 2), "¼": (1, 4), "¾": (3, 4), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8)}
"""The one-letter fractions that a tape has a mark for."""

PARTS = frozenset((2, 4, 8, 16, 32, 64))
"""Halves to sixty-fourths: what a fraction may be counted in."""

FIGURE = (
    r"(?:([0-9]+)(?:([.,])([0-9]+))?"  # 1 2 3: 35, 35.25, 895,5
    r"|(?:([0-9]+)(?: +|-))?([0-9]+)/([0-9]+)"  # 4 5 6: 35 1/4, 35-1/4, 1/4
    rf"|(?:([0-9]+)(?: *|-))?([{''.join(VULGAR)}])"  # 7 8: 35¼, ¼
    r"|([.,])([0-9]+))"  # 9 10: .5
)
"""A pattern of ten groups, read by `measure.parse`."""


def _spelled(*names: str) -> tuple[str, ...]:
    return tuple(form for name in names for form in dict.fromkeys((name, name.upper())))


INCH_NAMES = (*_spelled("in", "inch", "inches"), '"')
FOOT_NAMES = (*_spelled("ft", "foot", "feet"), "'")
METRIC_NM = {"mm": NM_PER_MM, "cm": 10 * NM_PER_MM, "m": NM_PER_METRE}
NM_PER_UNIT = (
    dict.fromkeys(INCH_NAMES, NM_PER_INCH)
    | dict.fromkeys(FOOT_NAMES, NM_PER_FOOT)
    | {form: nm for name, nm in METRIC_NM.items() for form in _spelled(name)}
)
"""Nanometres in every unit, by each of its spellings."""


def one_of(names: tuple[str, ...]) -> str:
    """A pattern for one of the names, the longest first."""
    return "|".join(sorted(names, key=len, reverse=True))


def plain(text: str) -> str:
    """The text with straight marks and plain spaces, two apostrophes as an inch mark, nothing at its ends."""
    text = text.strip(_EDGES)
    if not text.isascii():
        text = text.translate(_SAME).strip(_EDGES)
    return text.replace("''", '"') if "''" in text else text
