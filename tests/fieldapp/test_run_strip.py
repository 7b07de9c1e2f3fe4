"""The strip of posts and bays: to scale, rises drawn as often as is said, every bay a button where it can be tapped."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.parts.run_strip import RunStrip, StripBay, strip_places
from fieldapp.theme import Look

BAYS = st.lists(
    st.builds(StripBay, st.just("A1"), st.floats(5, 100), rise=st.floats(-5, 5), post=st.floats(1, 6)), min_size=1, max_size=12
)


@settings(deadline=None)
@given(BAYS)
def test_bays_are_drawn_at_one_scale_and_fill_the_width(bays: list[StripBay]):
    places, k, _ = strip_places(bays, 358)
    assert [place.width / k for place in places] == pytest.approx([bay.span for bay in bays])
    assert places[-1].x + places[-1].width + bays[-1].post * k == pytest.approx(358)


@settings(deadline=None)
@given(BAYS)
def test_two_runs_can_share_one_scale(bays: list[StripBay]):
    assert strip_places(bays, 358, scale=1.5)[1] == 1.5


@settings(deadline=None)
@given(BAYS, st.sampled_from([1, 10]))
def test_rises_add_up_drawn_as_often_as_is_said(bays: list[StripBay], factor: int):
    places, k, climb = strip_places(bays, 358, factor)
    feet = [places[0].foot, *(place.foot + place.rise for place in places)]
    steps = [b - a for a, b in zip(feet, feet[1:], strict=False)]
    assert steps == pytest.approx([bay.rise * k * factor for bay in bays], abs=1e-6)
    assert min(feet) == pytest.approx(0, abs=1e-6) and max(feet) == pytest.approx(climb, abs=1e-6)


def test_a_bay_that_can_be_tapped_is_48_high_and_says_its_name():
    heard: list[str] = []
    strip = RunStrip(Look(), [StripBay("A1", 40), StripBay("A2", 40, says="bay A2, query")], 358, 28, on_bay=heard.append)
    buttons = [spot.content for spot in strip.control.controls[1:]]
    assert [button.label for button in buttons] == ["A1", "bay A2, query"]
    assert all(button.button and button.content.height >= 48 for button in buttons)
    for button in buttons:
        button.content.on_click(None)
    assert heard == ["A1", "A2"]


def test_a_bay_that_is_begun_or_where_one_is_looks_different():
    strip = RunStrip(Look(), [StripBay("A1", 40)], 358, 28)
    assert strip.show([StripBay("A1", 40, begun=True)])
    assert strip.show([StripBay("A1", 40, begun=True, at=True)])
    assert not strip.show([StripBay("A1", 40, begun=True, at=True)])
