"""What people type for a length: what is read, what is refused, and that every refusal says what to type."""

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measure.errors import EntryError
from measure.length import GREATEST_NM, NM_PER_INCH, NM_PER_MM, Length
from measure.parse import parse_length, parse_rise, parse_slope
from measure.rounding import plain_text
from measure.spelling import MOST_LETTERS

INCH, MM = NM_PER_INCH, NM_PER_MM
IN_35_1_4 = Fraction(141, 4)

# Spelling, value in inches: read alike in both kinds of job, since the unit or the feet are said.
INCHES = [
    ('35 1/4"', IN_35_1_4),
    ("35 1/4 in", IN_35_1_4),
    ("35 1/4in", IN_35_1_4),
    ("35-1/4 in", IN_35_1_4),
    ("35 1/4 IN", IN_35_1_4),
    ("35 1/4 inches", IN_35_1_4),
    ("35¼ in", IN_35_1_4),
    ("35 ¼ in", IN_35_1_4),
    ("35-¼ in", IN_35_1_4),
    ("35 1⁄4 in", IN_35_1_4),
    ("35 1/4”", IN_35_1_4),
    ("35 1/4“", IN_35_1_4),
    ("35 1/4″", IN_35_1_4),
    ("35 1/4''", IN_35_1_4),
    ("35 1/4’’", IN_35_1_4),
    ("35 1/4′′", IN_35_1_4),
    ("35.25 in", IN_35_1_4),
    ("35.250 in", IN_35_1_4),
    ('35.125"', Fraction("35.125")),
    ("35\u00a01/4\u00a0in", IN_35_1_4),
    ("35\u202f1/4\u2007in", IN_35_1_4),
    ("  35  1/4  in  ", IN_35_1_4),
    ("\t35 1/4 in\r\n", IN_35_1_4),
    ("2' 11 1/4\"", IN_35_1_4),
    ("2'11 1/4\"", IN_35_1_4),
    ("2'-11 1/4\"", IN_35_1_4),
    ("2'-11-1/4\"", IN_35_1_4),
    ("2' - 11 1/4\"", IN_35_1_4),
    ("2' 11¼", IN_35_1_4),
    ("2' 11.25\"", IN_35_1_4),
    ("2’ 11 1/4”", IN_35_1_4),
    ("2‘ 11 1/4’’", IN_35_1_4),
    ("2′ 11 1/4″", IN_35_1_4),
    ("2′11 1/4′′", IN_35_1_4),
    ("2 ft 11 1/4 in", IN_35_1_4),
    ("2ft11 1/4in", IN_35_1_4),
    ("2 FT 11 1/4 IN", IN_35_1_4),
    ("2 feet 11 1/4 inches", IN_35_1_4),
    ("2 ft 11 1/4", IN_35_1_4),
    ("2' 11", Fraction(35)),
    ("2'", Fraction(24)),
    ("2 ft", Fraction(24)),
    ("2.5 ft", Fraction(30)),
    ("0' 11\"", Fraction(11)),
    ("2' 0\"", Fraction(24)),
    ("2' 1/4\"", Fraction(97, 4)),
    ("2' .5\"", Fraction(49, 2)),
    ("1/64 in", Fraction(1, 64)),
    ("63/64 in", Fraction(63, 64)),
    ("8/16 in", Fraction(1, 2)),
    ("½\"", Fraction(1, 2)),
    ("¼ in", Fraction(1, 4)),
    ("¾ in", Fraction(3, 4)),
    ("⅛ in", Fraction(1, 8)),
    ("⅜ in", Fraction(3, 8)),
    ("⅝ in", Fraction(5, 8)),
    ("⅞ in", Fraction(7, 8)),
    (".5 in", Fraction(1, 2)),
    ("0 in", Fraction(0)),
    ("0.015625 in", Fraction(1, 64)),
    ("0.000005 in", Fraction(1, 200_000)),
]  # fmt: skip

# Spelling, value in millimetres: read alike in both kinds of job.
MILLIMETRES = [
    ("895 mm", Fraction(895)),
    ("895mm", Fraction(895)),
    ("895 MM", Fraction(895)),
    ("895.5 mm", Fraction("895.5")),
    ("895,5 mm", Fraction("895.5")),
    ("89.5 cm", Fraction(895)),
    ("89,5 CM", Fraction(895)),
    ("0.895 m", Fraction(895)),
    ("0,895 m", Fraction(895)),
    ("0,895 M", Fraction(895)),
    ("1.250 m", Fraction(1250)),
    ("1,250 m", Fraction(1250)),
    (".895 m", Fraction(895)),
    (",5 mm", Fraction("0.5")),
    ("1.2500 mm", Fraction("1.25")),
    ("1,25 mm", Fraction("1.25")),
    ("0.794 mm", Fraction("0.794")),
    ("1250.125 mm", Fraction("1250.125")),
    ("0.000001 mm", Fraction("0.000001")),
    ("0 mm", Fraction(0)),
    ("100 m", Fraction(100_000)),
    ("100000 mm", Fraction(100_000)),
    ("100.000000000 m", Fraction(100_000)),
    ("895\u00a0mm", Fraction(895)),
]

# Spelling without a unit: what it is in an inch job (inches) and in a millimetre job (millimetres); None is refused there.
BARE = [
    ("35 1/4", IN_35_1_4, None),
    ("35-1/4", IN_35_1_4, None),
    ("35¼", IN_35_1_4, None),
    ("¼", Fraction(1, 4), None),
    ("1/4", Fraction(1, 4), None),
    ("8/16", Fraction(1, 2), None),
    ("35.25", IN_35_1_4, Fraction("35.25")),
    ("35.125", Fraction("35.125"), None),
    ("1.250", Fraction("1.25"), None),
    ("1.000", Fraction(1), None),
    ("999.999", Fraction("999.999"), None),
    ("1000.000", Fraction(1000), Fraction(1000)),
    ("1,250", None, None),
    ("12,500", None, None),
    ("895.125", Fraction("895.125"), None),
    ("895,125", None, None),
    ("0.895", Fraction("0.895"), Fraction("0.895")),
    ("0,895", None, Fraction("0.895")),
    ("1,25", None, Fraction("1.25")),
    ("1,2500", None, Fraction("1.25")),
    ("1250.125", Fraction("1250.125"), Fraction("1250.125")),
    ("895", Fraction(895), Fraction(895)),
    ("0895", Fraction(895), Fraction(895)),
    ("895,5", None, Fraction("895.5")),
    ("12,5", None, Fraction("12.5")),
    (".5", Fraction(1, 2), Fraction(1, 2)),
    ("0", Fraction(0), Fraction(0)),
    ("0.0", Fraction(0), Fraction(0)),
    ("3937", Fraction(3937), Fraction(3937)),
    ("3938", None, Fraction(3938)),
    ("100000", None, Fraction(100_000)),
    ("100001", None, None),
]

# Spelling, a part of the reason. Refused in both kinds of job.
REFUSED = [
    ("", "nothing is typed"),
    ("   ", "nothing is typed"),
    ("\u00a0\t\n", "nothing is typed"),
    ("-35", "high"),
    ("- 35 1/4 in", "high"),
    ("-1/4", "high"),
    ("−35 mm", "high"),
    ("–35", "high"),
    ("-0", "high"),
    ("-", "high"),
    ("+35", "no sign"),
    ("35 5/4", "one or more"),
    ("4/4", "one or more"),
    ("35 16/16 in", "one or more"),
    ("351/4", "one or more"),
    ("0/4", "is nothing"),
    ("35 0/16 in", "is nothing"),
    ("35 1/0", "halves to sixty-fourths"),
    ("35 1/3", "halves to sixty-fourths"),
    ("35 1/1", "halves to sixty-fourths"),
    ("35 1/128 in", "halves to sixty-fourths"),
    ("35 3/10", "halves to sixty-fourths"),
    ("35⅓", "halves to sixty-fourths"),
    ("⅕ in", "halves to sixty-fourths"),
    ("35 01/4 in", "begins with a zero"),
    ("35.5 1/4", "decimal and a fraction"),
    ("35.5-1/4 in", "decimal and a fraction"),
    ("35.5¼", "decimal and a fraction"),
    ("35,5 1/4", "decimal and a fraction"),
    ("1e3", "power of ten"),
    ("1E3 mm", "power of ten"),
    ("1.5e+3", "power of ten"),
    ("nan", "no number"),
    ("NaN mm", "no number"),
    ("inf", "no number"),
    ("Infinity", "no number"),
    ("1,250 mm", "1250 or 1.25"),
    ("1.250 mm", "1250 or 1.25"),
    ("1,250 cm", "1250 or 1.25"),
    ("895.125 mm", "between thousands"),
    ("1,250,000", "more than one"),
    ("1,250.5", "more than one"),
    ("1.250,5 mm", "more than one"),
    ("1..5", "more than one"),
    ("12,5 in", "no comma"),
    ("1,250 in", "no comma"),
    ("12,5\"", "no comma"),
    ("2,5 ft", "no comma"),
    ("2' 11,5\"", "no comma"),
    ("5.", "after the point"),
    ("5. mm", "after the point"),
    ("5,", "after the point"),
    (".", "no length"),
    ("2' 14\"", "less than 12"),
    ("2' 12\"", "less than 12"),
    ("2 ft 12 in", "less than 12"),
    ("1'250", "less than 12"),
    ("2.5' 3\"", "whole"),
    ("2 1/2' 3\"", "whole"),
    ("2 1/2 ft", "of inches only"),
    ("35 1/4'", "of inches only"),
    ("35 1/4 mm", "of inches only"),
    ("1/2 m", "of inches only"),
    ("2 ft 300 mm", "mixes"),
    ("2' 11 mm", "mixes"),
    ("35 in 4 mm", "mixes"),
    ("35\" 9 mm", "mixes"),
    ("1 m 20 cm", "follow each other"),
    ("11\" 2'", "follow each other"),
    ("2' 3' 4\"", "follow each other"),
    ("2''' ", "follow each other"),
    ("5 Mm", "small or all in capitals"),
    ("5 mM", "small or all in capitals"),
    ("5 Cm", "small or all in capitals"),
    ("5 In", "small or all in capitals"),
    ("2 Ft 11 in", "small or all in capitals"),
    ("3 yd", "unit is not read"),
    ("3 km", "unit is not read"),
    ("3 µm", "unit is not read"),
    ("3 x", "unit is not read"),
    ("abc", "unit is not read"),
    ("1 in 12", "two figures"),
    ("1 250", "two figures"),
    ("1\u00a0250 mm", "two figures"),
    ("35 in.", "no length"),
    ("1/2/4", "no fraction"),
    ("35 1 / 4", "no length"),
    ("35 -1/4", "no length"),
    ("¼¼", "no length"),
    ("1¼4", "two figures"),
    ("1¼/4", "no length"),
    ("2'-", "no length"),
    ("100.1 m", "over 100 m"),
    ("100000.1 mm", "over 100 m"),
    ("100.0000000001 m", "over 100 m"),
    ("3937.1 in", "over 100 m"),
    ("329 ft", "over 100 m"),
    ("9" * 60, "over 100 m"),
    ("0.0000001 mm", "nanometres"),
    ("0.000001 in", "nanometres"),
    ("35.1234567 mm", "nanometres"),
    ("٣٥", "digits 0 to 9"),
    ("३५ mm", "digits 0 to 9"),
    ("３５", "digits 0 to 9"),
    ("35 ١/4", "digits 0 to 9"),
    ("35²", "digits 0 to 9"),
    ("Ⅳ", "unit is not read"),
    ("35\0", "cannot be seen"),
    ("\0", "cannot be seen"),
    ("35\t1/4", "cannot be seen"),
    ("35\n895", "cannot be seen"),
    ("\ud835", "cannot be seen"),
    ("35\udfff mm", "cannot be seen"),
    ("35\u200bmm", "cannot be seen"),
    ("\u202e35", "cannot be seen"),
    ("\x1b[31m35", "cannot be seen"),
    ("2 %", "slope"),
    ("1.2 deg", "slope"),
    ("1:48", "slope"),
    ("1/4 in/ft", "slope"),
    ("20 mm/m", "slope"),
    ("x" * 65, "65 letters"),
    ("9" * 10_000_000, "10000000 letters"),
]  # fmt: skip


def name(row):
    return ascii(row[0][:30])


@pytest.mark.parametrize(("text", "inches"), INCHES, ids=map(name, INCHES))
def test_inches_and_feet_are_read_in_any_job(text, inches):
    assert parse_length(text, "in").nm == parse_length(text, "mm").nm == inches * INCH


@pytest.mark.parametrize(("text", "millimetres"), MILLIMETRES, ids=map(name, MILLIMETRES))
def test_metric_lengths_are_read_in_any_job(text, millimetres):
    assert parse_length(text, "in").nm == parse_length(text, "mm").nm == millimetres * MM


@pytest.mark.parametrize(("text", "inches", "millimetres"), BARE, ids=map(name, BARE))
def test_a_bare_figure_takes_the_unit_of_the_job_or_is_asked_about(text, inches, millimetres):
    for units, value, nm in (("in", inches, INCH), ("mm", millimetres, MM)):
        if value is None:
            with pytest.raises(EntryError):
                parse_length(text, units)
        else:
            assert parse_length(text, units).nm == value * nm


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize(("text", "why"), REFUSED, ids=map(name, REFUSED))
def test_a_refusal_says_why_and_ends_in_what_to_type(text, why, units):
    with pytest.raises(EntryError) as refused:
        parse_length(text, units)
    assert why in f"{refused.value.why}. {refused.value.do}"
    assert refused.value.text == text
    assert_helps(refused.value, units)


def assert_helps(error, units):
    """The sentence can be printed, is short, and every example in it is read."""
    sentence = str(error)
    assert sentence.encode("utf-8").decode("utf-8").isprintable()
    assert len(sentence) < 250
    assert error.do.endswith(".")
    examples = re.findall("“(.+?)”", error.do)
    assert examples
    for example in examples:
        parse_rise(example, units)


def test_a_fraction_without_a_unit_in_a_millimetre_job_is_asked_about_with_inches():
    with pytest.raises(EntryError, match="“35 1/4 in” if inches are meant"):
        parse_length("35 1/4", "mm")


@pytest.mark.parametrize(("text", "units", "answers"), [
    ("1,250", "in", ["1250", "1.25"]),
    ("1,250", "mm", ["1250", "1.25"]),
    ("1.250", "mm", ["1250", "1.25"]),
    ("1.250 mm", "in", ["1250 mm", "1.25 mm"]),
    ("2,000", "mm", ["2000", "2"]),
    ("1,125 MM", "mm", ["1125 MM", "1.1250 MM"]),
    ("12,500", "in", ["12.5"]),
    ("895.125", "mm", ["895.1250"]),
])  # fmt: skip
def test_a_thousand_or_a_decimal_is_asked_with_both_answers_that_a_tape_can_show(text, units, answers):
    with pytest.raises(EntryError) as refused:
        parse_length(text, units)
    assert re.findall("“(.+?)”", refused.value.do) == answers


def test_every_sixty_fourth_to_fifty_feet_goes_through_text_and_back():
    for count in range(50 * 12 * 64 + 1):
        value = Length(count * 396_875)
        whole, rest = divmod(count, 64)
        as_marked = f"{whole} {rest}/64" if rest else f"{whole}"
        assert parse_length(as_marked, "in") == value
        assert parse_length(plain_text(value, "in"), "in") == value
        feet, inches = divmod(whole, 12)
        assert parse_length(f"{feet}' {inches} {rest}/64\"" if rest else f"{feet}' {inches}\"", "in") == value


def test_the_text_of_every_reduced_sixty_fourth_comes_back_letter_for_letter():
    for count in range(50 * 12 * 64 + 1):
        part = Fraction(count % 64, 64)
        text = " ".join(str(word) for word in (count // 64, part) if word) or "0"
        assert plain_text(parse_length(text, "in"), "in") == f"{text} in"


def test_every_tenth_of_a_millimetre_to_fifteen_metres_goes_through_text_and_back():
    for tenths in range(150_001):
        text = f"{tenths // 10}.{tenths % 10}" if tenths % 10 else f"{tenths // 10}"
        value = parse_length(text, "mm")
        assert value.nm == tenths * 100_000
        assert plain_text(value, "mm") == f"{text} mm"


@given(st.integers(0, GREATEST_NM), st.sampled_from(["in", "mm"]))
def test_millimetres_to_the_last_nanometre_are_exact(nm, units):
    assert parse_length(f"{nm // MM}.{nm % MM:06d} mm", units).nm == nm


@given(st.text(max_size=MOST_LETTERS + 2), st.sampled_from(["in", "mm"]))
def test_any_text_is_a_length_or_a_sentence(text, units):
    for read in (parse_length, parse_rise, lambda text, _: parse_slope(text)):
        try:
            read(text, units)
        except EntryError as error:
            assert_helps(error, units)


@given(st.text("0123456789 ./,-'\"incmft¼½⅞°%:per", max_size=16), st.sampled_from(["in", "mm"]))
def test_what_is_read_is_between_nothing_and_a_hundred_metres(text, units):
    try:
        length = parse_length(text, units)
    except EntryError as error:
        assert_helps(error, units)
    else:
        assert 0 <= length.nm <= GREATEST_NM
