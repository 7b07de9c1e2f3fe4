"""The figure: never wider than its room, its unit always there."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given, settings
from hypothesis import strategies as st

import fieldapp
from fieldapp.parts.figure import Figure, raised, still_figure, width_em
from fieldapp.theme import Look

BOLD = TTFont(Path(fieldapp.__file__).parent / "assets" / "assets" / "fonts" / "Spanbook-Bold.ttf")
FRACTIONS = st.one_of(st.none(), st.integers(1, 15).map(lambda n: Fraction(n, 16)))


def em(text: str) -> float:
    """Width of a text in our bold face, from the font itself."""
    names, widths = BOLD.getBestCmap(), BOLD["hmtx"]
    return sum(widths[names[ord(c)]][0] for c in text) / BOLD["head"].unitsPerEm


@settings(deadline=None)
@given(st.text("0123456789", max_size=6), FRACTIONS)
def test_the_room_that_is_reckoned_is_enough_for_the_font(whole: str, fraction: Fraction | None):
    assert em(whole + (raised(fraction) if fraction else "")) <= width_em(whole, fraction) + 1e-9


@pytest.mark.parametrize("whole", ["3 ft 4", "1027.5", "1:48"])
def test_feet_and_points_are_reckoned_too(whole: str):
    assert em(whole) <= width_em(whole, None)


@settings(deadline=None)
@given(st.text("0123456789", min_size=1, max_size=6), FRACTIONS, st.sampled_from([("in", 292.0), ("mm", 292.0), ("in", 200.0)]))
def test_a_long_figure_is_set_smaller_until_it_fits_its_room(whole: str, fraction: Fraction | None, place: tuple[str, float]):
    unit, room = place
    figure = Figure(Look(), room)
    figure.show(whole, fraction, unit, "")
    size = figure._whole.size
    assert size <= 72
    assert size * em(whole + (raised(fraction) if fraction else "")) + figure._unit_size * em(unit) <= room


def test_a_usual_figure_stands_at_its_full_size():
    figure = Figure(Look(), 290)
    figure.show("40", Fraction(7, 16), "in", "40 7/16 in")
    assert figure._whole.size == 72
    assert figure._unit.value == "in"


def test_the_figure_is_spoken_as_the_entry_with_its_unit():
    figure = Figure(Look(), 290)
    figure.show("40", Fraction(7, 16), "in", "40 7/16 in, 1027.1 mm")
    assert (figure.control.identifier, figure.control.label, figure.control.live_region) == (
        "entry",
        "40 7/16 in, 1027.1 mm",
        True,
    )


def test_a_kept_figure_is_not_the_entry_and_waits_for_nothing():
    kept = still_figure(Look(), "40", Fraction(1, 2), "in", "40 1/2 in", 290)
    assert kept.identifier is None
    assert [c.visible for c in kept.content.controls][2:4] == [True, False]


@pytest.mark.parametrize(("fraction", "shown"), [(Fraction(7, 16), "⁷⁄₁₆"), (Fraction(1, 2), "¹⁄₂"), (Fraction(15, 16), "¹⁵⁄₁₆")])
def test_a_large_fraction_is_raised_and_lowered(fraction: Fraction, shown: str):
    assert raised(fraction) == shown
