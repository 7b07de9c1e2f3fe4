"""Rounding to a step and writing lengths out, against published ties and the standard library's exact decimals."""

import csv
import math
from decimal import ROUND_HALF_EVEN, Decimal, localcontext
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measure.length import GREATEST_NM, NM_PER_FOOT, NM_PER_INCH, NM_PER_MM, ZERO, Length, inches, millimetres
from measure.parse import parse_length
from measure.rounding import apart_text, inch_decimal, mm_decimal, order_text, plain_text, round_to_step

with (Path(__file__).parents[1] / "data" / "rounding.csv").open(encoding="utf-8", newline="") as _file:
    PUBLISHED = list(csv.DictReader(_file))

NM = {"in": NM_PER_INCH, "ft": NM_PER_FOOT, "mm": NM_PER_MM}
STEPS = {"1/16 in": inches(0, 4), "1/32 in": inches(0, 2), "1 mm": millimetres(1), "0.5 mm": millimetres(0, 5)}
steps = st.sampled_from(list(STEPS.values()))
nanometres = st.integers(-GREATEST_NM, GREATEST_NM)


@pytest.mark.parametrize("row", PUBLISHED, ids=lambda row: row["id"])
def test_a_value_is_rounded_as_published(row):
    value = Fraction(row["value"]) * NM[row["unit"]]
    step = Fraction(row["step"]) * NM[row["step_unit"]]
    expected = Fraction(row["expected"]) * NM[row["step_unit"]]
    assert round_to_step(value, Length(int(step))) == Length(int(expected))


@pytest.mark.parametrize("step", STEPS.values(), ids=STEPS)
def test_every_half_goes_to_the_even_step(step):
    # NIST Handbook 44 appendix A 10.3: exactly midway is read to the graduation whose value is even.
    for lower in range(-50, 1000):
        even = lower if lower % 2 == 0 else lower + 1
        assert round_to_step(lower * step.nm + Fraction(step.nm, 2), step).nm == even * step.nm


@given(nanometres, steps)
def test_rounding_agrees_with_exact_fractions(nm, step):
    # Python's round() of a Fraction is the second opinion: exact, an exact half to the even number.
    assert round_to_step(nm, step).nm == round(Fraction(nm, step.nm)) * step.nm


@given(st.fractions(-GREATEST_NM, GREATEST_NM, max_denominator=10**9), steps)
def test_a_fraction_of_a_nanometre_is_rounded_once_and_exactly(nm, step):
    assert round_to_step(nm, step).nm == round(nm / step.nm) * step.nm


@given(st.floats(-1e11, 1e11), steps)
def test_a_float_is_rounded_at_the_exact_value_it_holds(nm, step):
    assert round_to_step(nm, step).nm == round(Fraction(nm) / step.nm) * step.nm


@given(nanometres, steps)
def test_rounding_moves_no_more_than_half_a_step_and_only_once(nm, step):
    rounded = round_to_step(nm, step)
    assert abs(rounded.nm - nm) * 2 <= step.nm
    assert round_to_step(rounded.nm, step) == rounded


@given(nanometres, steps)
def test_left_and_right_round_alike(nm, step):
    assert round_to_step(-nm, step) == -round_to_step(nm, step)


@given(nanometres, nanometres, steps)
def test_the_longer_of_two_never_rounds_shorter(a, b, step):
    assert round_to_step(min(a, b), step) <= round_to_step(max(a, b), step)


def test_a_half_is_met_exactly_where_floats_would_miss_it():
    # 41 13/32 in is midway between 41 6/16 and 41 7/16; as millimetres in floats it is not.
    assert round_to_step(inches(41, 26).nm, STEPS["1/16 in"]) == inches(41, 24)
    assert round_to_step(inches(41, 26).nm + 1, STEPS["1/16 in"]) == inches(41, 28)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_no_number_is_never_rounded(value):
    with pytest.raises((ValueError, OverflowError)):
        round_to_step(value, STEPS["1 mm"])
    with pytest.raises((ValueError, OverflowError)):
        mm_decimal(value)


# The contract's own examples of an order's text, and their neighbours.
ORDER_TEXTS = [
    (inches(42, 24), "in", "42 3/8 in"),
    (inches(0, 24), "in", "3/8 in"),
    (ZERO, "in", "0 in"),
    (inches(38), "in", "38 in"),
    (inches(42, 2), "in", "42 1/32 in"),
    (inches(120, 60), "in", "120 15/16 in"),
    (millimetres(920), "mm", "920 mm"),
    (millimetres(920, 5), "mm", "920.5 mm"),
    (ZERO, "mm", "0 mm"),
    (millimetres(1220), "in", "48.0315 in"),
    (inches(0, 1), "mm", "0.396875 mm"),
    (-inches(0, 24), "in", "-3/8 in"),
]


@pytest.mark.parametrize(("length", "units", "text"), ORDER_TEXTS)
def test_an_order_text_is_reduced_and_has_no_feet(length, units, text):
    assert order_text(length, units) == text


@pytest.mark.parametrize(
    ("length", "text"),
    [
        (inches(42, 24), "42.375"),
        (inches(42, 2), "42.03125"),
        (inches(0, 1), "0.015625"),
        (inches(42), "42"),
        (inches(100), "100"),
        (ZERO, "0"),
        (millimetres(920), "36.2205"),
        (millimetres(1, 0), "0.0394"),
        (Length(1), "0.0000"),
        (Length(GREATEST_NM), "3937.0079"),
    ],
)
def test_decimal_inches_are_exact_on_a_sixty_fourth_else_four_decimals(length, text):
    assert inch_decimal(length) == text


@given(st.integers(0, GREATEST_NM))
def test_decimal_inches_agree_with_exact_decimals_and_have_no_exponent(nm):
    text = inch_decimal(Length(nm))
    assert "e" not in text.lower()
    if nm % 396_875 == 0:
        assert Fraction(text) * NM_PER_INCH == nm
    else:
        with localcontext(prec=60):
            assert Decimal(text) == (Decimal(nm) / NM_PER_INCH).quantize(Decimal("0.0001"), ROUND_HALF_EVEN)


@given(nanometres, st.integers(0, 6))
def test_millimetres_agree_with_exact_decimals(nm, places):
    with localcontext(prec=60):
        expected = (Decimal(nm) / NM_PER_MM).quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN)
    text = mm_decimal(nm, places)
    assert Decimal(text) == expected
    assert len(text.partition(".")[2]) == places


@given(st.floats(-1e11, 1e11))
def test_a_float_is_written_as_its_exact_value_rounded_once(nm):
    with localcontext(prec=2000):
        assert Decimal(mm_decimal(nm)) == (Decimal(nm) / NM_PER_MM).quantize(Decimal("0.01"), ROUND_HALF_EVEN)


@pytest.mark.parametrize(
    ("nm", "text"),
    [
        # Exact halves of a hundredth: to the even digit (Handbook 44 appendix A 10.3).
        (15_000, "0.02"), (25_000, "0.02"), (35_000, "0.04"), (-25_000, "-0.02"),
        # Nothing keeps no minus sign.
        (-1, "0.00"), (-5_000, "0.00"), (-0.0, "0.00"), (0, "0.00"), (Fraction(-1, 3), "0.00"),
        (1_500_000_000, "1500.00"),
    ],
)  # fmt: skip
def test_a_half_hundredth_goes_to_the_even_digit_and_nothing_has_no_sign(nm, text):
    assert mm_decimal(nm) == text


PLAIN = [
    (inches(35, 16), "in", "35 1/4 in"),
    (inches(0, 1), "in", "1/64 in"),
    (ZERO, "in", "0 in"),
    (Length(353 * NM_PER_INCH // 10), "in", "35.3 in"),
    (Length(300_000), "in", "0.3 mm"),
    (millimetres(895), "in", "895 mm"),
    (millimetres(895, 5), "mm", "895.5 mm"),
    (inches(35, 16), "mm", "895.35 mm"),
    (Length(1_125_000), "mm", "1.1250 mm"),
    (Length(895_125_000), "mm", "895.1250 mm"),
    (Length(895_125_000), "in", "895.1250 mm"),
    (Length(1), "mm", "0.000001 mm"),
    (Length(1), "in", "0.000001 mm"),
]


@pytest.mark.parametrize(("length", "units", "text"), PLAIN)
def test_a_plain_text_is_short_and_exact(length, units, text):
    assert plain_text(length, units) == text
    assert parse_length(text, units) == length


@given(st.integers(0, GREATEST_NM), st.sampled_from(["in", "mm"]))
def test_a_plain_text_is_read_back_to_the_same_value(nm, units):
    text = plain_text(Length(nm), units)
    assert parse_length(text, "in") == parse_length(text, "mm") == Length(nm)


@given(st.integers(0, 4000), st.sampled_from(list(STEPS)))
def test_an_order_text_of_a_rounded_size_is_read_back_to_the_same_value(count, step):
    units = "in" if step.endswith("in") else "mm"
    size = Length(count * STEPS[step].nm)
    assert parse_length(order_text(size, units), units) == size


@pytest.mark.parametrize(
    ("length", "units", "text"),
    [
        (inches(0, 12), "in", "3/16 in"),
        (Length(4_762_500), "mm", "4.8 mm"),
        (millimetres(3), "in", "1/8 in"),
        (millimetres(3), "mm", "3 mm"),
        (ZERO, "in", "0 in"),
        (ZERO, "mm", "0 mm"),
        (Length(300_000), "in", "under 1/32 in"),
        (Length(1), "mm", "under 0.1 mm"),
        (inches(1, 32), "in", "1 1/2 in"),
    ],
)
def test_a_difference_is_told_to_a_thirty_second_or_a_tenth(length, units, text):
    assert apart_text(length, units) == text
