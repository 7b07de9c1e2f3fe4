"""A second reader of lengths and slopes, in another style and sharing no code: what it makes of a text is what `measure.parse` makes.

It cuts the text into tokens and walks over them with Fractions, where the parser has two patterns and whole numbers. Both know
the same written grammar; a slip in either shows as a text on which they part.
SPANBOOK_FUZZ sets how many random texts are read (4 000 when it is not set).
"""

import os
import random
from fractions import Fraction
from itertools import groupby

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measure.errors import EntryError
from measure.length import Length
from measure.parse import parse_length, parse_rise
from measure.slope import Slope

TEXTS = int(os.environ.get("SPANBOOK_FUZZ", "4000"))

QUOTES = {"'": "'", "\u2018": "'", "\u2019": "'", "\u201b": "'", "\u2032": "'", "\u02b9": "'",
          '"': '"', "\u201c": '"', "\u201d": '"', "\u201f": '"', "\u2033": '"', "\u02ba": '"'}  # fmt: skip
SPACES = " \u00a0\u202f\u2007"
HALVES_TO_EIGHTHS = dict(zip("½¼¾⅛⅜⅝⅞", map(Fraction, ("1/2", "1/4", "3/4", "1/8", "3/8", "5/8", "7/8")), strict=True))
MM = {"mm": 1, "cm": 10, "m": 1000}
INCH, FOOT = Fraction("25.4"), Fraction("304.8")
INCH_WORDS, FOOT_WORDS = {"in", "inch", "inches", '"'}, {"ft", "foot", "feet", "'"}


class Unreadable(Exception):
    """The second reader's only answer to what it does not read."""


def need(truth):
    if not truth:
        raise Unreadable


def tokens(text):
    """Digits and words in one piece, quote marks straight, spaces as one; anything else a token of its own."""
    need(len(text) <= 64)

    def kind(letter):
        if letter in SPACES:
            return "space"
        if letter in "0123456789":
            return "digits"
        if letter in QUOTES:
            return "quote"
        return "word" if letter.isascii() and letter.isalpha() else "other"

    cut = []
    for what, run in groupby(text.strip(" \t\r\n").strip(SPACES + "\t\r\n"), kind):
        run = "".join(run)
        if what == "space":
            cut.append(" ")
        elif what == "quote":
            straight = "".join(QUOTES[c] for c in run)
            cut.extend(straight.replace("''", '"'))
        elif what == "other":
            cut.extend("/" if c == "\u2044" else c for c in run)
        else:
            cut.append(run)
    return cut


class Walk:
    """A place in the tokens."""

    def __init__(self, cut):
        self.left = list(cut)

    def see(self, ahead=0):
        return self.left[ahead] if ahead < len(self.left) else ""

    def take(self, *wanted):
        if self.see() and (not wanted or self.see() in wanted):
            return self.left.pop(0)
        return ""

    def number(self):
        """(value, kind): kind is whole, part, `.` or `,`; and whether a thousand could be meant."""
        if self.see() in HALVES_TO_EIGHTHS:
            return HALVES_TO_EIGHTHS[self.take()], "part", False
        if self.see() and self.see() in ".,":
            mark, tail = self.take(), self.take()
            need(tail.isdigit() and tail.isascii())
            return Fraction(f"0.{tail}"), mark, False
        first = self.take()
        need(first.isascii() and first.isdigit())
        if self.see() and self.see() in ".," and self.see(1).isdigit() and self.see(1).isascii():
            mark, tail = self.take(), self.take()
            return Fraction(f"{first}.{tail}"), mark, len(tail) == 3 and 1 <= int(first) <= 999
        if self.see() == "/":
            return self.over(first), "part", False
        joint = 1 if self.see() in (" ", "-") else 0
        if self.see(joint) in HALVES_TO_EIGHTHS and self.see(joint):
            self.left = self.left[joint:]
            return int(first) + HALVES_TO_EIGHTHS[self.take()], "part", False
        if joint and self.see(1).isdigit() and self.see(1).isascii() and self.see(2) == "/":
            self.take()
            return int(first) + self.over(self.take()), "part", False
        return Fraction(int(first)), "whole", False

    def over(self, top):
        need(self.take("/"))
        bottom = self.take()
        need(bottom in ("2", "4", "8", "16", "32", "64") and not top.startswith("0") and int(top) < int(bottom))
        return Fraction(int(top), int(bottom))

    def end(self):
        need(not self.left)


def unit_of(word):
    need(word == word.lower() or word == word.upper())
    return word.lower()


def second_length(text, units):
    """Nanometres as a Fraction, or Unreadable."""
    walk = Walk(tokens(text))
    value, kind, thousand = walk.number()
    walk.take(" ")
    unit = unit_of(walk.take())
    if unit in FOOT_WORDS and walk.left:
        need(kind == "whole")
        millimetres = value * FOOT + inches_after_feet(walk)
    elif unit in FOOT_WORDS:
        need(kind in ("whole", "."))
        millimetres = value * FOOT
    elif unit in INCH_WORDS or (not unit and units == "in"):
        need(kind != ",")
        millimetres = value * INCH
    else:
        unit = unit or "mm"
        need(unit in MM and kind != "part" and not (thousand and unit in ("mm", "cm")))
        millimetres = value * MM[unit]
    walk.end()
    nm = millimetres * 1_000_000
    need(nm.denominator == 1 and millimetres <= 100_000)
    return nm


def inches_after_feet(walk):
    walk.take(" ")
    if walk.take("-"):
        walk.take(" ")
    value, kind, _ = walk.number()
    need(value < 12 and kind != ",")
    walk.take(" ")
    if walk.left:
        need(unit_of(walk.take()) in INCH_WORDS)
    return value * INCH


def second_slope(text):
    """tan θ and the form, or Unreadable. Degrees as a number of degrees."""
    walk = Walk(tokens(text))
    value, kind, thousand = walk.number()
    walk.take(" ")
    if walk.take(":"):
        need(value == 1 and kind == "whole" and text.strip(SPACES + " \t\r\n")[:1] == "1")
        walk.take(" ")
        n, kind, thousand = walk.number()
        need(kind != "part" and not thousand and n > 0 and 1 / n < Fraction(7, 4))
        form, tan = "1:n", 1 / n
    else:
        unit = walk.take()
        unit = unit if unit in ("%", "°") else unit_of(unit)
        form, tan = slope_by_unit(walk, unit, value, kind, thousand)
    walk.end()
    return form, tan


def slope_by_unit(walk, unit, value, kind, thousand):
    if unit in ("°", "deg", "degree", "degrees"):
        need(kind != "part" and value < 60)
        return "deg", value
    if unit == "per":
        walk.take(" ")
        need(unit_of(walk.take()) == "cent")
        unit = "%"
    if unit in ("%", "percent"):
        need(kind != "part" and value < 175)
        return "%", value / 100
    spaced = walk.take(" ")
    if walk.take("per", "PER"):
        need(spaced and walk.take(" "))
    else:
        need(walk.take("/"))
        walk.take(" ")
    under = unit_of(walk.take())
    if unit in INCH_WORDS and under in FOOT_WORDS:
        need(kind != "," and value < 21)
        return "in/ft", value / 12
    need((unit, under) == ("mm", "m") and kind != "part" and not thousand and value < 1750)
    return "mm/m", value / 1000


def agreed(text, units):
    """What both readers make of a text; fails where they part."""
    try:
        ours = parse_length(text, units)
    except EntryError as error:
        ours = None
        assert str(error).encode("utf-8")
    try:
        second = second_length(text, units)
    except Unreadable:
        second = None
    assert (ours.nm if ours is not None else None) == second, ascii(text)
    return ours


def agreed_rise(text, units):
    try:
        ours = parse_rise(text, units)
    except EntryError as error:
        ours = None
        assert str(error).encode("utf-8")
    if isinstance(ours, Slope):
        form, tan = second_slope(text)
        assert (form, tan) == (ours.form, ours.value if form == "deg" else ours.tan), ascii(text)
    elif ours is None:
        for read in (second_slope, lambda same: second_length(same, units)):
            with pytest.raises(Unreadable):
                read(text)
    else:
        assert ours == Length(int(second_length(text, units))), ascii(text)
    return ours


PIECES = ["0", "1", "2", "7", "11", "12", "35", "250", "895", "1000", "99999", ".", ",", "/", "-", " ", "  ", "'", '"', "''", "’", "”", "′", "″",
          "1/4", "3/8", "5/4", "1/3", "63/64", "8/16", "¼", "⅞", "⅓", "⁄", "\u00a0", "\u202f", "in", "IN", "In", "inches", "ft", "FT", "feet",
          "mm", "MM", "Mm", "cm", "m", "M", "deg", "°", "%", ":", "1:", "per", " per ", "in/ft", "mm/m", "/ft", "/m", "e3", "nan", "inf", "+",
          "−", "٣", "５", "\0", "\ud800", "\u200b", "\n", "x"]  # fmt: skip
SPELLINGS = ["35 1/4", "35-1/4", "35¼", '35 1/4"', "35.25", "2' 11 1/4\"", "2 ft 11 1/4 in", "2'-11 1/4\"", "2' 11", "895", "895 mm", "89.5 cm",
             "0.895 m", "895,5", ".5", "8/16", "1.250 m", "35.125 in", "1.2 deg", "2 %", "1:48", "1/4 in/ft", "1/4 in per ft", "20 mm/m"]  # fmt: skip
LETTERS = "0123456789 ./,-'\"¼½⅜incmftINMMFTdegper%°:⁄’”′″\u00a0"


def out_of_pieces(chance):
    return "".join(chance.choices(PIECES, k=chance.randint(1, 7)))


def out_of_letters(chance):
    return "".join(chance.choices(LETTERS, k=chance.randint(1, 9)))


def nearly_right(chance):
    """A good spelling with one to three letters put in, taken out or exchanged."""
    text = list(chance.choice(SPELLINGS))
    for _ in range(chance.randint(1, 3)):
        place = chance.randrange(len(text) + 1)
        text[place : place + chance.randint(0, 1)] = chance.choices(LETTERS, k=chance.randint(0, 1))
    return "".join(text)


def any_letters(chance):
    return "".join(
        chr(chance.randrange(0x11_0000) if chance.random() < 0.4 else chance.randrange(0x100))
        for _ in range(chance.randint(0, 12))
    )


@pytest.mark.parametrize("make", [out_of_pieces, out_of_letters, nearly_right, any_letters])
def test_random_texts_never_crash_and_both_readers_agree(make):
    chance = random.Random(make.__name__)
    read = sum(agreed(text, units) is not None for text in (make(chance) for _ in range(TEXTS // 4)) for units in ("in", "mm"))
    # Not a test of refusals only: spellings near good ones must often be read.
    if make is nearly_right:
        assert read > TEXTS // 20


@pytest.mark.parametrize("make", [out_of_pieces, out_of_letters, nearly_right])
def test_random_rises_never_crash_and_both_readers_agree(make):
    chance = random.Random(make.__name__ + " rise")
    read = [agreed_rise(make(chance), units) for _ in range(TEXTS // 6) for units in ("in", "mm")]
    if make is nearly_right:
        assert sum(isinstance(value, Slope) for value in read) > TEXTS // 100


numbers = st.one_of(
    st.integers(0, 100_000).map(str),
    st.decimals(0, 4000, places=3).map(str),
    st.decimals(0, 4000, places=2).map(lambda d: str(d).replace(".", ",")),
    st.tuples(
        st.integers(0, 200), st.sampled_from([" ", "-"]), st.integers(0, 70), st.sampled_from([1, 2, 3, 4, 8, 16, 32, 64, 128])
    ).map(lambda p: f"{p[0]}{p[1]}{p[2]}/{p[3]}"),
    st.tuples(st.integers(0, 200), st.sampled_from(["", " ", "-"]), st.sampled_from("½¼¾⅛⅜⅝⅞⅓")).map(
        lambda p: f"{p[0]}{p[1]}{p[2]}"
    ),
)
units_typed = st.sampled_from(["", "in", "IN", '"', "''", "ft", "'", "mm", "MM", "cm", "m", "M", "Mm", "yd"])


@given(numbers, st.sampled_from(["", " "]), units_typed, st.sampled_from(["in", "mm"]))
def test_both_readers_agree_on_every_figure_with_every_unit(number, space, unit, units):
    agreed(f"{number}{space}{unit}", units)


@given(
    st.integers(0, 400), st.sampled_from(["'", "’", " ft", "ft"]), st.sampled_from([" ", "-", " - ", ""]), numbers, units_typed
)
def test_both_readers_agree_on_feet_and_inches(feet, mark, joint, number, unit):
    agreed(f"{feet}{mark}{joint}{number}{unit}", "in")


@given(
    numbers, st.sampled_from([" %", "%", " deg", "°", " in/ft", " in per ft", '"/ft', " mm/m", " mm per m", " in/m", " mm/ft"])
)
def test_both_readers_agree_on_slopes(number, unit):
    agreed_rise(number + unit, "in")
    agreed_rise(f"1:{number}", "mm")


@pytest.mark.parametrize("text", SPELLINGS)
def test_the_second_reader_reads_the_usual_spellings(text):
    # Else an agreement would only be one of refusals.
    assert agreed_rise(text, "in" if "," not in text else "mm") is not None
