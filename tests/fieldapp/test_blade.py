"""The tape echo: the figure stands at the mark, ticks and numerals where a tape has them, at any length."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from fieldapp.parts.blade import Blade, mark_note
from fieldapp.parts.blade_tiles import ASSETS, HEIGHT, SCALES, ZOOM, tile_name
from fieldapp.theme import SHADE, SUN, Look

AT, WIDTH = 342.0, 390.0
PALETTES = {"sun": SUN, "shade": SHADE}


def rgb(color: str) -> tuple[int, ...]:
    return tuple(int(color[i : i + 2], 16) for i in (1, 3, 5))


def is_dark(pixel: tuple[int, ...]) -> bool:
    return sum(pixel) < 200


@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize("theme", ["sun", "shade"])
def test_a_tile_holds_whole_marks_in_the_themes_yellow_and_stays_small(unit: str, theme: str):
    scale, path = SCALES[unit], ASSETS / tile_name(unit, theme)
    with Image.open(path) as picture:
        assert picture.size == (scale.tile * scale.px * ZOOM, HEIGHT * ZOOM)
        assert max(picture.size) < 4096  # the least that a texture may be on a phone
        ground = picture.convert("RGB").getpixel((round(scale.px / scale.steps * ZOOM / 2), round(HEIGHT * ZOOM * 0.7)))
    assert max(abs(a - b) for a, b in zip(ground, rgb(PALETTES[theme].tape), strict=True)) <= 3
    assert scale.tile % scale.mark == 0
    assert path.stat().st_size < 4000


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_every_tick_of_the_picture_is_as_long_as_on_a_tape(unit: str):
    scale = SCALES[unit]
    with Image.open(ASSETS / tile_name(unit, "sun")) as opened:
        picture = opened.convert("RGB")
    for n in range(1, scale.tile * scale.steps):
        share, _ = scale.tick(n)
        x = round(n * scale.px / scale.steps * ZOOM)
        above, below = round(HEIGHT * ZOOM * share * 0.9), round(HEIGHT * ZOOM * min(share * 1.1, 0.97))
        assert is_dark(picture.getpixel((x, above)))
        assert share == 1 or not is_dark(picture.getpixel((x, below)))


def test_a_half_is_longer_than_a_quarter_and_so_on():
    shares = [SCALES["in"].tick(n)[0] for n in (16, 8, 4, 2, 1)]
    assert shares == sorted(shares, reverse=True)
    assert len(set(shares)) == 5


def numerals(blade: Blade) -> dict[str, float]:
    """Each numeral and the x of its line."""
    slots = blade._numerals.controls[::2]
    return {slot.content.value: blade._numerals.left + slot.left + slot.width + 5 for slot in slots if slot.content.value}


@settings(deadline=None)
@given(st.fractions(0, 400, max_denominator=64))
def test_the_figure_stands_at_the_mark(value: Fraction):
    blade = Blade(Look(), "in", WIDTH, AT)
    blade.show(value)
    for name, x in numerals(blade).items():
        inch = int(name)
        assert x == pytest.approx(AT + (inch - float(value)) * SCALES["in"].px)


@settings(deadline=None)
@given(st.fractions(0, 20_000, max_denominator=10))
def test_millimetres_are_numbered_in_centimetres_as_on_a_tape(value: Fraction):
    blade = Blade(Look(), "mm", WIDTH, AT)
    blade.show(value)
    shown = numerals(blade)
    for name, x in shown.items():
        cm = int(name.removesuffix(" m")) * 100 if name.endswith(" m") else int(name)
        assert x == pytest.approx(AT + (cm * 10 - float(value)) * SCALES["mm"].px)


@settings(deadline=None)
@given(st.fractions(0, 400, max_denominator=64))
def test_ticks_and_numerals_cover_what_is_seen_of_the_blade(value: Fraction):
    blade, scale = Blade(Look(), "in", WIDTH, AT), SCALES["in"]
    blade.show(value)
    begin = max(0.0, AT - float(value) * scale.px)
    assert blade._ticks.left <= begin + 1e-6 and blade._ticks.left + blade._ticks.width >= WIDTH
    assert (blade._ticks.left - (AT - float(value) * scale.px)) % (scale.tile * scale.px) == pytest.approx(0, abs=1e-6) or (
        (blade._ticks.left - (AT - float(value) * scale.px)) % (scale.tile * scale.px) == pytest.approx(scale.tile * scale.px)
    )
    seen = [i for i in range(1, 402) if begin <= AT + (i - float(value)) * scale.px <= WIDTH]
    assert {str(i) for i in seen} <= set(numerals(blade))


def test_the_blade_begins_at_its_hook():
    blade = Blade(Look(), "in", WIDTH, AT)
    blade.show(Fraction(1))
    assert blade._ticks.left == AT - 140 == blade._hook.left + 2
    blade.show(Fraction(40))
    assert blade._hook.left < 0


def test_an_empty_blade_shows_no_figure():
    blade = Blade(Look(), "in", WIDTH, AT, empty="your figure will lie here")
    assert (blade._blank.visible, blade._filled.visible) == (True, False)
    blade.show(Fraction(40))
    assert (blade._blank.visible, blade._filled.visible) == (False, True)
    blade.show(None)
    assert (blade._blank.visible, blade._filled.visible) == (True, False)


def test_a_press_moves_layers_and_makes_nothing():
    blade = Blade(Look(), "in", WIDTH, AT)
    blade.show(Fraction(40))
    before = [id(c) for c in blade._numerals.controls]
    assert blade.show(Fraction(647, 16)) == [blade._filled]
    assert [id(c) for c in blade._numerals.controls] == before
    assert blade.show(Fraction(647, 16)) == []


def test_the_posts_face_gives_way_to_the_numeral_that_it_would_cross():
    blade = Blade(Look(), "in", WIDTH, AT)
    blade.show(Fraction(653, 16))  # 40 13/16: the face would stand in the 41
    grounds = {text.value: text.bgcolor for text, _, _ in blade._labels}
    assert grounds["41"] == Look().tape and grounds["40"] is None


@pytest.mark.parametrize(
    ("unit", "mark", "note"),
    [
        ("in", 11, ("", False)),
        ("in", 12, ("1 ft", True)),
        ("in", 40, ("3′ 4″", False)),
        ("in", 36, ("3 ft", True)),
        ("mm", 100, ("1 m", True)),
        ("mm", 4, ("cm", False)),
        ("mm", 101, ("", False)),
    ],
)
def test_feet_and_metres_stand_where_a_tape_has_them(unit: str, mark: int, note: tuple[str, bool]):
    assert mark_note(unit, mark) == note
