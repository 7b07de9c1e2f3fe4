"""JSON is read by its digits; what cannot be taken is told with its place, all of it at once."""

import json
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from measure.errors import DocumentError
from measure.strict_json import LONGEST_NUMBER, odd_places, read, scan, write

# Written, read as.
NUMBERS = [
    ("0", 0), ("895", 895), ("-3", -3), ("9007199254740993", 9007199254740993), ("35.250", Decimal("35.250")), ("0.1", Decimal("0.1")),
    ("-0", Decimal("-0")), ("-0.0", Decimal("-0.0")), ("0.00000001", Decimal("0.00000001")), ("9" * LONGEST_NUMBER, 10**LONGEST_NUMBER - 1),
]  # fmt: skip


def told(data):
    with pytest.raises(DocumentError) as refused:
        read(data)
    return {p.place: p.sentence for p in refused.value.problems}


@pytest.mark.parametrize(("written", "value"), NUMBERS)
def test_a_number_is_read_by_its_digits_and_written_with_them(written, value):
    got = read(written)
    assert (type(got), got) == (type(value), value)
    assert write(got) == written


def test_no_number_becomes_a_float():
    def floats(value):
        if isinstance(value, dict):
            return any(map(floats, value.values()))
        return any(map(floats, value)) if isinstance(value, list) else isinstance(value, float)

    assert not floats(read('{"a": [1, 2.5, {"b": -0.125}], "c": 1234567890.0987654321}'))


@pytest.mark.parametrize(
    ("data", "place", "words"),
    [
        ('{"a": 1, "b": {"c": 2, "d": 3, "c": 4}}', "b.c", "more than once"),
        ('{"a": 1, "a": 1}', "a", "more than once"),
        ('{"a": [1, NaN]}', "a[1]", "NaN is no figure"),
        ('{"a": Infinity}', "a", "Infinity is no figure"),
        ('{"a": [[-Infinity]]}', "a[0][0]", "-Infinity is no figure"),
        ('{"a": 1e3}', "a", "exponent"),
        ('{"a": 5E-1}', "a", "exponent"),
        ('{"a": ' + "9" * 1000 + "}", "a", "1000 characters"),
        ('{"a": 0.' + "0" * 5000 + "1}", "a", "5003 characters"),
        ('{"a": "\\ud800"}', "a", "U+D800"),
        ('{"a": ["x\\udc00y"]}', "a[0]", "U+DC00"),
        ('{"a": "\\u0000"}', "a", "control character (U+0000)"),
        ('{"a": "\\b"}', "a", "control character (U+0008)"),
        ('{"a": "\uffff"}', "a", "U+FFFF"),
        ('{"a": "\ud83d"}', "a", "U+D83D"),
        ('{"\\ud800": 1}', '"\\ud800"', "U+D800"),
    ],
)
def test_what_cannot_be_taken_is_told_with_its_place(data, place, words):
    assert words in told(data)[place]


def test_everything_odd_is_told_at_once_in_the_order_of_the_file():
    data = '{"a": NaN, "b": [1e9, {"c": 1, "c": 2}], "d": "\\ud800", "e": ' + "1" * 99 + "}"
    assert list(told(data)) == ["a", "b[0]", "b[1].c", "d", "e"]


def test_a_pair_of_surrogates_is_one_character_and_fine():
    assert read('"\\ud83d\\ude00"') == "\U0001f600"


def test_a_tab_and_a_new_line_inside_a_text_are_fine():
    assert read('"a\\tb\\nc\\rd"') == "a\tb\nc\rd"


# Not JSON: written, place, words of the sentence. The wording is ours on every Python.
BROKEN = [
    ("", "file", "nothing in it"),
    (" \n\t ", "file", "nothing in it"),
    ("{", "line 1, column 2", "name in double quotes"),
    ('{"a": 1', "line 1, column 8", "comma belongs here"),
    ('{"a": 1\n "b": 2}', "line 2, column 2", "comma belongs here"),
    ('{"a" 1}', "line 1, column 6", "colon belongs here"),
    ("{'a': 1}", "line 1, column 2", "double quotes"),
    ('{"a": }', "line 1, column 7", "a brace belongs here"),
    ('{"a": tru}', "line 1, column 7", "a brace belongs here"),
    ('{"a": "x', "line 1, column 7", "no closing double quote"),
    ('{"a": "x\ny"}', "line 1, column 9", "end of its line"),
    ('{"a": "\\x"}', "line 1, column 8", "backslash"),
    ('{"a": "\\u12"}', "line 1, column 9", "hexadecimal"),
    ("{} {}", "line 1, column 4", "goes on after"),
    ("\x00\x01", "line 1, column 1", "Is it a job file?"),
]


@pytest.mark.parametrize(("written", "place", "words"), BROKEN)
def test_broken_json_is_told_with_line_and_column(written, place, words):
    found = told(written)
    assert list(found) == [place]
    assert words in found[place]


def test_a_comma_too_many_is_told_on_every_python():
    (place,) = told('{"a": 1,}')
    assert place in ("line 1, column 8", "line 1, column 9")


@pytest.mark.parametrize("data", [b"\xff\xfe{\x00}\x00", b'{"a": "\xed\xa0\x80"}', b"\x80", b'{"name": "caf\xe9"}'])
def test_what_is_no_utf_8_is_told_with_its_byte(data):
    assert "UTF-8" in told(data)["file"]


def test_a_byte_order_mark_is_no_trouble():
    assert read(b"\xef\xbb\xbf{}") == {}


@pytest.mark.parametrize("open_", ["[", '{"a":', '[{"a":', "[1,["])
@pytest.mark.parametrize("deep", [3_000, 200_000])
def test_deep_nesting_is_refused_with_its_place(open_, deep):
    (place,) = told(open_ * deep)
    assert place.startswith("line 1, column ")


def test_brackets_inside_a_text_do_not_count_as_deep():
    assert "brackets" in told('{"a": "' + "[" * 500 + '", "b": ' + "[" * 200_000)["line 1, column 615"]


def test_ten_megabytes_of_junk_are_refused():
    assert list(told(b"\xaa\x00junk" * 1_700_000)) == ["file"]
    assert list(told("junk " * 2_000_000)) == ["line 1, column 1"]


def test_too_large_a_file_is_refused_before_it_is_read(monkeypatch):
    monkeypatch.setattr("measure.strict_json.GREATEST_BYTES", 10)
    assert "larger than" in told(b'{"abcdefgh": 1}')["file"]


def test_floats_that_came_another_way_are_told():
    assert odd_places({"a": [1, 0.5]}) == ((("a", 1), "0.5 came as a float: give its digits as text or as a Decimal."),)


def test_a_float_is_not_written():
    with pytest.raises(TypeError):
        write({"a": 0.5})


trees = st.recursive(
    st.none() | st.booleans() | st.integers(-(10**30), 10**30) | st.decimals(allow_nan=False, allow_infinity=False, places=3)
    | st.text(st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="\ufffe\uffff")),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(st.characters(categories=["L", "N"])), inner, max_size=4),
    max_leaves=12,
)  # fmt: skip


@settings(deadline=None)
@given(trees)
def test_what_is_written_is_read_back_the_same(tree):
    text = write(tree)
    assert write(read(text)) == text
    assert json.loads(text, parse_float=Decimal) == tree


@settings(deadline=None)
@given(st.text() | st.binary())
def test_any_text_is_read_or_refused(data):
    try:
        scanned = scan(data)
    except DocumentError as refused:
        assert str(refused).encode()
    else:
        assert scanned.odd or write(scanned.tree)
