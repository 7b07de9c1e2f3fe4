"""The figure being typed: keys and a real keyboard end in the same text."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.parts.entry import Entry
from measure.errors import EntryError
from measure.length import Length, inches, millimetres
from measure.slope import Slope

DIGITS, SIXTEENTHS = [str(d) for d in range(10)], [f"{n}/16" for n in range(1, 16)]


def pressed(entry: Entry, *keys: str) -> Entry:
    for key in keys:
        entry = entry.press(key)
    return entry


@pytest.mark.parametrize(
    ("keys", "text"),
    [
        (("4", "0", "7/16"), "40 7/16"),
        (("4", "0", "8/16"), "40 1/2"),
        (("6/16",), "3/8"),
        (("4", "0", "7/16", "11/16"), "40 11/16"),
        (("4", "7/16", "0"), "40 7/16"),
        (("0",), "0"),
        (("0", "4"), "4"),
        (("3", "ft", "4", "7/16"), "3 ft 4 7/16 in"),
        (("3", "ft"), "3 ft"),
        (("ft",), ""),
        (("4", "0", "7/16", "erase"), "40"),
        (("4", "0", "erase"), "4"),
        (("3", "ft", "4", "erase", "erase"), "3"),
        (("erase",), ""),
        (("1", "2", "3", "4", "5"), "1234"),
        (("4", "point"), "4"),
    ],
)
def test_an_inch_pad_writes_what_a_person_would_write(keys: tuple[str, ...], text: str):
    assert pressed(Entry("in"), *keys).text == text


@pytest.mark.parametrize(
    ("keys", "text"),
    [
        (("1", "0", "2", "7"), "1027"),
        (("1", "0", "2", "7", "point", "5"), "1027.5"),
        (("1", "point", "5", "5"), "1.5"),
        (("1", "point", "point"), "1."),
        (("1", "point", "5", "erase", "erase"), "1"),
    ],
)
def test_a_millimetre_pad_writes_to_a_tenth(keys: tuple[str, ...], text: str):
    assert pressed(Entry("mm"), *keys).text == text


@pytest.mark.parametrize(
    ("form", "keys", "text"),
    [
        ("deg", ("1", "point", "2"), "1.2 deg"),
        ("%", ("2",), "2 %"),
        ("1:n", ("4", "8"), "1:48"),
        ("in/ft", ("1/16",), "1/16 in/ft"),
        ("mm/m", ("2", "0"), "20 mm/m"),
        ("%", ("2", "point", "2", "5", "5"), "2.25 %"),
    ],
)
def test_a_slope_is_written_in_the_form_that_was_asked(form: str, keys: tuple[str, ...], text: str):
    entry = pressed(Entry("in", form=form), *keys)
    assert entry.text == text
    assert isinstance(entry.read(), Slope)


@pytest.mark.parametrize(
    ("units", "form", "pad"),
    [("in", "", "inch"), ("mm", "", "decimal"), ("in", "%", "decimal"), ("mm", "in/ft", "inch"), ("mm", "mm/m", "decimal")],
)
def test_the_pad_follows_what_is_asked(units: str, form: str, pad: str):
    assert Entry(units, form=form).pad == pad


@pytest.mark.parametrize(
    ("units", "written", "text", "value"),
    [
        ("in", "40 7/16", "40 7/16", inches(40, 28)),
        ("in", "40-7/16", "40-7/16", inches(40, 28)),
        ("in", "40½", "40½", inches(40, 32)),
        ("in", "3' 4 7/16\"", "3' 4 7/16\"", inches(40, 28)),
        ("in", "40.4375", "40.4375", inches(40, 28)),
        ("mm", "1027.5", "1027.5", millimetres(1027, 5)),
        ("mm", "1027,5", "1027,5", millimetres(1027, 5)),
        ("mm", "102.75 cm", "102.75 cm", millimetres(1027, 5)),
        ("in", "  40", "40", inches(40)),
    ],
)
def test_a_real_keyboard_may_write_any_spelling_and_it_is_kept_letter_for_letter(
    units: str, written: str, text: str, value: Length
):
    entry = Entry(units).type(written)
    assert (entry.text, entry.value()) == (text, value)


def test_digits_from_a_real_keyboard_are_the_same_as_keys():
    assert Entry("in").type("40") == pressed(Entry("in"), "4", "0")


def test_a_fraction_typed_on_a_real_keyboard_is_shown_as_one():
    assert Entry("in").type("40 7/16").shown == ("40", Fraction(7, 16))
    assert Entry("in").type("3' 4").shown == ("3' 4", None)


def test_erasing_what_was_written_freely_comes_back_to_keys():
    entry = Entry("in").type("40 7")
    assert pressed(entry, "erase") == pressed(Entry("in"), "4", "0")


@pytest.mark.parametrize("written", ["", "40 5/4", "1e3", "-4", "nan", "40 1/3"])
def test_what_cannot_be_read_has_no_place_on_the_blade_and_says_why(written: str):
    entry = Entry("in").type(written)
    assert entry.on_blade is None and entry.value() is None
    with pytest.raises(EntryError):
        entry.read()


@pytest.mark.parametrize(
    ("entry", "place"),
    [
        (Entry("in", whole="40", sixteenth=7), Fraction(647, 16)),
        (Entry("mm", whole="1027", tail=".5"), Fraction(2055, 2)),
        (Entry("in", feet="3", whole="4"), Fraction(40)),
        (Entry("in", form="%", whole="2"), None),
    ],
)
def test_a_length_lies_on_the_blade_in_its_own_unit_and_a_slope_nowhere(entry: Entry, place: Fraction | None):
    assert entry.on_blade == place


def test_the_key_of_the_chosen_sixteenth_stays_lit():
    assert Entry("in").press("8/16").lit == "8/16"
    assert Entry("in").press("4").lit is None
    assert Entry("in").type("40 1/2").lit is None


@settings(deadline=None)
@given(st.lists(st.sampled_from([*DIGITS, *SIXTEENTHS, "ft", "point", "erase"]), max_size=12), st.sampled_from(["in", "mm"]))
def test_a_draft_comes_back_as_it_was_left(keys: list[str], units: str):
    entry = pressed(Entry(units), *(key for key in keys if units == "in" or "/" not in key and key != "ft"))
    assert Entry.from_text(entry.text, units) == entry


@settings(deadline=None)
@given(st.text(max_size=60))
def test_nothing_that_is_typed_breaks_the_entry(written: str):
    entry = Entry("in").type(written)
    assert len(entry.text) <= 40
    entry.value()


@settings(deadline=None)
@given(st.lists(st.sampled_from([*DIGITS, *SIXTEENTHS, "ft"]), min_size=1, max_size=8))
def test_erase_always_takes_something_back_until_nothing_is_left(keys: list[str]):
    entry = pressed(Entry("in"), *keys)
    for _ in range(20):
        if entry.empty:
            break
        shorter = entry.press("erase")
        assert shorter != entry
        entry = shorter
    assert entry.empty


@pytest.mark.parametrize(
    ("form", "written", "text"), [("%", "2.255", "2.255 %"), ("%", "1.2 deg", "1.2 deg"), ("1:n", "12.125", "1:12.125")]
)
def test_a_slopes_form_is_added_to_a_bare_figure_and_gives_way_to_one_that_is_written(form: str, written: str, text: str):
    assert Entry("mm", form=form).type(written).text == text


@settings(deadline=None)
@given(st.text(alphabet="0123456789 /.,½'", max_size=12).map(str.strip), st.sampled_from(["in", "mm"]))
def test_what_a_real_keyboard_writes_is_never_changed(written: str, units: str):
    assert Entry(units).type(written).text == written
