"""Lengths as whole nanometres, against the definition of the inch and pint's units."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measure.length import GREATEST_NM, NM_PER_FOOT, NM_PER_INCH, NM_PER_METRE, NM_PER_MM, ZERO, Length, inches, millimetres
from measure.parse import parse_length
from measure.spelling import NM_PER_UNIT
from measure.units import convert, registry

DATA = Path(__file__).parents[1] / "data"
with (DATA / "lengths.csv").open(encoding="utf-8", newline="") as _file:
    PUBLISHED = list(csv.DictReader(_file))

any_nm = st.integers(-GREATEST_NM, GREATEST_NM)


def test_an_inch_is_25_4_millimetres_exactly():
    # NIST SP 811 (2008) B.8: 1 in = 25.4 mm exactly, 1 ft = 0.3048 m exactly.
    assert Fraction(NM_PER_INCH, NM_PER_MM) == Fraction(254, 10)
    assert Fraction(NM_PER_FOOT, NM_PER_METRE) == Fraction(3048, 10000)


def test_a_sixty_fourth_and_a_tenth_are_whole_nanometres():
    # From the definition: 25 400 000 / 64 = 396 875 and 1 000 000 / 10 = 100 000, no rest.
    assert inches(0, 1) == Length(396_875)
    assert millimetres(0, 1) == Length(100_000)
    assert NM_PER_INCH % 64 == 0


@pytest.mark.parametrize("row", PUBLISHED, ids=lambda row: row["id"])
def test_a_typed_length_has_the_published_value(row):
    assert Fraction(parse_length(row["typed"], row["units"]).nm, NM_PER_MM) == Fraction(row["expected_mm"])


@pytest.mark.parametrize("row", PUBLISHED, ids=lambda row: row["id"])
def test_pint_gives_the_published_value_too(row):
    number, *unit = row["typed"].split(" ") if "ft" in row["typed"] or row["typed"].endswith("in") else (row["typed"],)
    value = sum((Fraction(part) for part in number.split()), Fraction(0))
    assert convert(value, unit[0] if unit else "in", "mm") == Fraction(row["expected_mm"])


PINT_NAMES = {"in": "inch", "inch": "inch", "inches": "inch", '"': "inch", "ft": "foot", "foot": "foot", "feet": "foot",
              "'": "foot", "mm": "millimeter", "cm": "centimeter", "m": "meter"}  # fmt: skip


@pytest.mark.parametrize("unit", NM_PER_UNIT)
def test_every_unit_that_is_read_is_as_long_as_pint_says(unit):
    one = registry().Quantity(Fraction(1), PINT_NAMES[unit.lower()])
    assert parse_length(f"1 {unit}", "in").nm == one.to("nanometer").magnitude
    assert parse_length(f"3.5 {unit}", "mm").nm == (one * Fraction(7, 2)).to("nanometer").magnitude


@pytest.mark.parametrize(("units", "name"), [("in", "inch"), ("mm", "millimeter")])
def test_a_bare_number_is_in_the_unit_of_the_job(units, name):
    assert parse_length("35", units).nm == registry().Quantity(Fraction(35), name).to("nanometer").magnitude


@given(any_nm, any_nm)
def test_lengths_add_subtract_and_order_as_their_nanometres_do(a, b):
    one, two = Length(a), Length(b)
    assert (one + two).nm == a + b
    assert (one - two).nm == a - b
    assert (one < two) == (a < b)
    assert (-one).nm == -a
    assert abs(one).nm == abs(a)


def test_only_nothing_is_false():
    assert not ZERO
    assert Length(1)
    assert Length(-1)


# Exact by definition: the yard of 1959 (0.9144 m) and the pound of 1959 (0.453 592 37 kg), NIST SP 811 (2008) B.8.
FURTHER = [
    (1, "yd", "m", Fraction("0.9144")),
    (1, "lb", "kg", Fraction("0.45359237")),
    (1, "ft2", "m2", Fraction("0.09290304")),
    (1, "in2", "m2", Fraction("0.00064516")),
    (Fraction("0.9144"), "m", "ft", Fraction(3)),
    (25_400_000, "nm", "in", Fraction(1)),
]


@pytest.mark.parametrize(("value", "unit", "to", "expected"), FURTHER)
def test_further_units_are_exact(value, unit, to, expected):
    assert convert(value, unit, to) == expected


def test_ten_millimetres_of_glass_weigh_5_12_pounds_a_square_foot():
    # 25 kg/m2 (EN 572-1, 2500 kg/m3), recomputed: 5.12 lb/ft2.
    assert round(float(convert(25, "kg/m2", "lb/ft2")), 2) == 5.12


@pytest.mark.parametrize(("unit", "to"), [("in", "kg"), ("kg", "m2"), ("in + 1", "mm"), ("Mm", "mm"), ("mm", "")])
def test_what_is_no_listed_unit_or_of_another_kind_is_refused(unit, to):
    with pytest.raises(ValueError):
        convert(1, unit, to)
