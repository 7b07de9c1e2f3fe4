"""Keys: what they say, how large they are, where they stand, and that a press touches no more than it must."""

from __future__ import annotations

import flet as ft
import pytest

from fieldapp.parts.key import Key
from fieldapp.parts.keypad import Keypad
from fieldapp.theme import EDGE, GRID, Look

INCH = [*"1234567890", *(f"{n}/16" for n in range(1, 16)), "erase", "ft", "keep"]
LOOKS = [Look(), Look(hand="left"), Look(theme="shade", text=2.0), Look(large_keys=True), Look(width=375, height=667)]


def nothing(_: str) -> None:
    """A press that does nothing."""


def rows(pad: Keypad) -> list[list[Key]]:
    return [[key for key in row.controls if isinstance(key, Key)] for row in pad.control.content.controls]


def names(pad: Keypad) -> list[list[str]]:
    return [[key.name for key in row] for row in rows(pad)]


def said(control: ft.Control) -> list[str]:
    """What is heard of a key: the labels of its texts and signs, in order."""
    if isinstance(control, ft.Text):
        return [control.value if control.semantics_label is None else control.semantics_label]
    if isinstance(control, ft.Icon):
        return [control.semantics_label or ""]
    inside = [*(getattr(control, "controls", None) or []), getattr(control, "content", None)]
    return [word for one in inside if one is not None for word in said(one)]


def all_controls(control: ft.Control) -> list[ft.Control]:
    inside = [*(getattr(control, "controls", None) or []), getattr(control, "content", None)]
    return [control, *(c for one in inside if isinstance(one, ft.Control) for c in all_controls(one))]


def test_all_fifteen_sixteenths_are_in_view_with_the_half_in_the_very_middle():
    assert names(Keypad(Look(), "inch", nothing)) == [
        ["1", "2", "3", "4", "5"],
        ["6", "7", "8", "9", "0"],
        ["1/16", "2/16", "3/16", "4/16", "5/16"],
        ["6/16", "7/16", "8/16", "9/16", "10/16"],
        ["11/16", "12/16", "13/16", "14/16", "15/16"],
        ["erase", "ft", "keep"],
    ]


@pytest.mark.parametrize(("pad", "large"), [("inch", False), ("decimal", False), ("inch", True), ("decimal", True)])
@pytest.mark.parametrize("height", [667, 640, 600, 553])
def test_on_a_very_low_screen_the_keys_give_way_so_that_keep_stays_whole(pad, large, height):
    """What stands above them on such a screen: head 56, sides 56, figure 60, blade 56, the page's own edges."""
    made = Keypad(Look(width=375, height=height, large_keys=large), pad, nothing)
    least = min(key.height for row in rows(made) for key in row)
    assert least >= 48  # the least that a finger hits: WCAG 2.2 2.5.5 asks for 44
    assert round(made.height, 3) <= height - 242 or least == 48


@pytest.mark.parametrize(("look", "high", "apart"), [(Look(), 64, 8), (Look(width=360, height=740), 64, 8), (Look(width=375, height=667), 59.7, 4)])
def test_a_key_is_64_high_and_gives_4_of_that_for_a_picture_of_the_bay(look, high, apart):
    pad = Keypad(look, "inch", nothing)
    assert {round(key.height, 1) for row in rows(pad) for key in row} == {high}
    assert pad.control.content.spacing == apart


def test_a_millimetre_pad_has_no_fractions():
    assert names(Keypad(Look(), "decimal", nothing)) == [
        ["1", "2", "3"], ["4", "5", "6"], ["7", "8", "9"], ["erase", "0", "point"], ["keep"],
    ]  # fmt: skip


def test_the_left_hand_mirrors_the_last_row_only():
    right, left = names(Keypad(Look(), "inch", nothing)), names(Keypad(Look(hand="left"), "inch", nothing))
    assert left[:-1] == right[:-1]
    assert left[-1] == right[-1][::-1]


def test_large_keys_end_every_row_of_sixteenths_on_a_quarter():
    large = names(Keypad(Look(large_keys=True), "inch", nothing))
    assert [row[-1] for row in large[3:6]] == ["4/16", "8/16", "12/16"]
    assert sorted(key for row in large for key in row) == sorted(INCH)


@pytest.mark.parametrize("look", LOOKS)
def test_erase_never_stands_beside_keep(look: Look):
    for pad in ("inch", "decimal"):
        for row in names(Keypad(look, pad, nothing)):
            pairs = [set(pair) for pair in zip(row, row[1:], strict=False)]
            assert {"erase", "keep"} not in pairs


@pytest.mark.parametrize("look", LOOKS[:4])
@pytest.mark.parametrize("pad", ["inch", "decimal"])
def test_keys_are_at_least_64_high_and_10_mm_wide_and_8_apart(look: Look, pad: str):
    made = Keypad(look, pad, nothing)
    assert {row.spacing for row in made.control.content.controls} == {GRID} == {8} == {made.control.content.spacing}
    for row in rows(made):
        assert min(key.height for key in row) >= 64
        shares = sum(key.expand for key in row)
        one = (look.width - 2 * EDGE - GRID * (len(row) - 1)) / shares
        assert one >= 10 * 160 / 25.4  # a logical pixel is 1/160 in: Android's density-independent pixel


@pytest.mark.parametrize(
    ("key", "spoken"),
    [
        ("7", "7"),
        ("0", "0"),
        ("1/16", "1/16"),
        ("7/16", "7/16"),
        ("8/16", "8/16"),
        ("15/16", "15/16"),
        ("erase", "Erase"),
        ("keep", "Keep"),
    ],
)
def test_keys_are_spoken_as_the_contract_says(key: str, spoken: str):
    assert "".join(said(Keypad(Look(), "inch", nothing).keys[key])) == spoken


@pytest.mark.parametrize(("key", "shown"), [("7/16", "7 16"), ("8/16", "1 2"), ("6/16", "3 8"), ("12/16", "3 4")])
def test_a_sixteenth_is_shown_in_lowest_terms(key: str, shown: str):
    texts = [c.value for c in all_controls(Keypad(Look(), "inch", nothing).keys[key]) if isinstance(c, ft.Text)]
    assert " ".join(texts).split() == shown.split()


@pytest.mark.parametrize("pad", ["inch", "decimal"])
def test_no_key_is_a_button_or_has_ink(pad: str):
    controls = all_controls(Keypad(Look(), pad, nothing).control)
    assert not [c for c in controls if isinstance(c, ft.Button | ft.TextButton | ft.IconButton)]
    assert not [c for c in controls if isinstance(c, ft.Container) and c.ink]


def test_a_key_presses_its_own_name():
    heard: list[str] = []
    pad = Keypad(Look(), "inch", heard.append)
    for key in pad.keys.values():
        key.on_click(None)
    assert sorted(heard) == sorted(INCH)


def test_lighting_another_sixteenth_changes_two_keys_and_no_more():
    pad = Keypad(Look(), "inch", nothing)
    assert pad.light("7/16") == [pad.keys["7/16"]]
    assert pad.light("7/16") == []
    assert pad.light("3/16") == [pad.keys["7/16"], pad.keys["3/16"]]
    assert pad.light(None) == [pad.keys["3/16"]]
    assert pad.light("no such key") == []


def test_a_lit_key_is_tape_with_the_tapes_own_ink_in_the_shade_too():
    look = Look("shade")
    pad = Keypad(look, "inch", nothing)
    key = pad.keys["7/16"]
    pad.light("7/16")
    assert key.bgcolor == look.tape
    assert {c.color for c in all_controls(key) if isinstance(c, ft.Text)} == {look.on_tape}
    pad.light(None)
    assert key.bgcolor == look.tape2
    assert {c.color for c in all_controls(key) if isinstance(c, ft.Text)} == {look.ink}
