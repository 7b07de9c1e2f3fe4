"""Slopes as people type them, against published pairs and the definition of a tangent."""

import csv
import math
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measure.errors import EntryError
from measure.length import Length, inches, millimetres
from measure.parse import parse_rise, parse_slope
from measure.slope import Slope

with (Path(__file__).parents[1] / "data" / "slopes.csv").open(encoding="utf-8", newline="") as _file:
    PUBLISHED = list(csv.DictReader(_file))


@pytest.mark.parametrize("row", PUBLISHED, ids=lambda row: row["id"])
def test_a_typed_slope_has_the_published_tangent_per_cent_and_degrees(row):
    slope = parse_slope(row["typed"])
    assert slope is not None
    assert slope.tan == Fraction(row["tan"])
    assert round(float(slope.tan * 100), 3) == float(row["per_cent"])
    places = len(row["degrees"].partition(".")[2])
    assert round(math.degrees(math.atan(slope.tan)), places) == float(row["degrees"])


# Spelling, form, value, last typed digit. The spellings are the project's own grammar; the values are what the digits say.
READ = [
    ("1.2 deg", "deg", "1.2", "0.1"),
    ("1.2deg", "deg", "1.2", "0.1"),
    ("1.2 DEG", "deg", "1.2", "0.1"),
    ("1.2°", "deg", "1.2", "0.1"),
    ("1.2 °", "deg", "1.2", "0.1"),
    ("1,2 deg", "deg", "1.2", "0.1"),
    ("1.250 deg", "deg", "1.25", "0.001"),
    ("59.99 degrees", "deg", "59.99", "0.01"),
    ("0 deg", "deg", "0", "1"),
    (".5 deg", "deg", "0.5", "0.1"),
    ("2 %", "%", "2", "1"),
    ("2%", "%", "2", "1"),
    ("2.0 %", "%", "2", "0.1"),
    ("2,5 %", "%", "2.5", "0.1"),
    ("2 per cent", "%", "2", "1"),
    ("174.9 %", "%", "174.9", "0.1"),
    ("0%", "%", "0", "1"),
    ("1:48", "1:n", "48", "1"),
    ("1 : 48", "1:n", "48", "1"),
    ("1:12.5", "1:n", "12.5", "0.1"),
    ("1:0.6", "1:n", "0.6", "0.1"),
    ("1/4 in/ft", "in/ft", "1/4", "1/4"),
    ("3/16 in/ft", "in/ft", "3/16", "1/16"),
    ("8/16 in/ft", "in/ft", "1/2", "1/16"),
    ("1/4 in per ft", "in/ft", "1/4", "1/4"),
    ("1/4 IN PER FT", "in/ft", "1/4", "1/4"),
    ('1/4"/ft', "in/ft", "1/4", "1/4"),
    ("¼ in/ft", "in/ft", "1/4", "1/4"),
    ("1⁄4 in / ft", "in/ft", "1/4", "1/4"),
    ("1 1/2 in/ft", "in/ft", "3/2", "1/2"),
    ("0.25 in/ft", "in/ft", "1/4", "0.01"),
    ("20 15/16 in/ft", "in/ft", "335/16", "1/16"),
    ("20 mm/m", "mm/m", "20", "1"),
    ("20 mm per m", "mm/m", "20", "1"),
    ("20 MM/M", "mm/m", "20", "1"),
    ("12,5 mm/m", "mm/m", "12.5", "0.1"),
    ("1749 mm/m", "mm/m", "1749", "1"),
    ("\u00a02\u202f%\u00a0", "%", "2", "1"),
]


@pytest.mark.parametrize(("text", "form", "value", "last_digit"), READ, ids=[row[0] for row in READ])
def test_a_slope_is_read_as_its_digits_say(text, form, value, last_digit):
    expected = Slope(form, Fraction(value), Fraction(last_digit))
    assert parse_slope(text) == expected
    assert parse_rise(text, "in") == parse_rise(text, "mm") == expected


REFUSED = [
    ("60 deg", "below 60 deg"),
    ("60.0°", "below 60 deg"),
    ("175 %", "below 175 %"),
    ("1000%", "below 175 %"),
    ("1:0", "one to nothing"),
    ("1:0.0", "one to nothing"),
    ("1:0.5", "below 175 %"),
    ("1:0.57142857", "below 175 %"),
    ("21 in/ft", "below 21 in/ft"),
    ("1750 mm/m", "below 1750 mm/m"),
    ("1,250 mm/m", "may be 1250 or 1.25"),
    ("1.250 mm/m", "may be 1250 or 1.25"),
    ("1:1,250", "may be 1250 or 1.25"),
    ("-2 %", "never negative"),
    ("−2 %", "never negative"),
    ("–1:48", "never negative"),
    ("1:-48", "no slope"),
    ("2:48", "no slope"),
    ("1:", "no slope"),
    (":48", "no slope"),
    ("1:48 %", "no slope"),
    ("1:1/4", "no slope"),
    ("%", "no slope"),
    ("deg", "no slope"),
    ("2. %", "no slope"),
    ("1e1 %", "no slope"),
    ("nan deg", "no slope"),
    ("inf %", "no slope"),
    ("1/4 %", "no slope"),
    ("1/4 deg", "no slope"),
    ("1/4 mm/m", "no slope"),
    ("1/4 in/m", "no slope"),
    ("20 mm/ft", "no slope"),
    ("20 Mm/m", "no slope"),
    ("20 cm/m", "no slope"),
    ("1 per ft", "no slope"),
    ("1/4 inper ft", "no slope"),
    ("2 Deg", "no slope"),
    ("1/3 in/ft", "halves to sixty-fourths"),
    ("5/4 in/ft", "one or more"),
    ("0/4 in/ft", "is nothing"),
    ("0,25 in/ft", "no comma"),
    ("٢ %", "digits 0 to 9"),
    ("2 %\0", "cannot be seen"),
]


@pytest.mark.parametrize(("text", "why"), REFUSED, ids=[ascii(row[0]) for row in REFUSED])
def test_a_slope_that_is_not_as_it_should_be_says_why(text, why):
    with pytest.raises(EntryError) as refused:
        parse_slope(text)
    assert why in str(refused.value)
    with pytest.raises(EntryError):
        parse_rise(text, "in")


@pytest.mark.parametrize(
    "text", ["", "3/8", "35 1/4 in", "1/4", "9 mm", "9,5", "2' 11", "nan", "48", "1 48", "x" * 10_000, "9" * 10_000]
)
def test_what_is_spelled_as_no_slope_is_left_to_the_length(text):
    assert parse_slope(text) is None


@pytest.mark.parametrize(
    ("text", "units", "expected"),
    [("3/8", "in", inches(0, 24)), ("9.5", "mm", millimetres(9, 5)), ("0", "in", Length(0)), ("3/8 in", "mm", inches(0, 24))],
)
def test_a_rise_is_a_length_where_it_is_no_slope(text, units, expected):
    assert parse_rise(text, units) == expected


def test_a_rise_below_nothing_is_told_to_say_which_side_is_high():
    with pytest.raises(EntryError, match="high"):
        parse_rise("-3/8", "in")


@given(st.integers(1, 10_000), st.integers(0, 4))
def test_every_form_gives_the_tangent_of_its_definition(digits, places):
    # rise over run: a per cent of 100, one in n, inches in 12, millimetres in 1000.
    number = f"{digits}" if not places else f"{digits // 10**places}.{digits % 10**places:0{places}d}"
    value = Fraction(number)
    if places != 3 and value >= Fraction(4, 7) + Fraction(1, 1000):
        assert parse_slope(f"1:{number}").tan == 1 / value
    if value < 175:
        assert parse_slope(f"{number} %").tan == value / 100
    if value < 21:
        assert parse_slope(f"{number} in/ft").tan == value / 12
    if value < 1750 and places != 3:
        assert parse_slope(f"{number} mm/m").tan == value / 1000
    if value < 60:
        assert float(parse_slope(f"{number} deg").tan) == pytest.approx(math.tan(math.radians(float(value))), rel=1e-15)


@pytest.mark.parametrize(
    ("text", "design"),
    [("1:48", True), ("2 %", True), ("2.0 %", True), ("2.1 %", False), ("1.2 deg", False), ("1/4 in/ft", False)],
)
def test_a_ratio_or_a_whole_per_cent_is_a_design_figure(text, design):
    # Common practice, no source: drawings give 1:n and whole per cents, a level shows neither.
    assert parse_slope(text).is_design == design


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        ("2.0 %", "1.95 %", "2.05 %"),
        ("1.2 deg", "1.15 deg", "1.25 deg"),
        ("1:48", "1:48.5", "1:47.5"),
        ("20 mm/m", "19.5 mm/m", "20.5 mm/m"),
    ],
)
def test_half_the_last_digit_is_half_of_what_the_neighbouring_figures_are_apart(text, low, high):
    assert parse_slope(text).half_digit_tan == pytest.approx(float(parse_slope(high).tan - parse_slope(low).tan) / 2, rel=1e-5)
