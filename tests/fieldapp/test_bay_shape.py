"""The bay's drawing: widths to scale, the slope true to the factor that is printed."""

from __future__ import annotations

import math

import flet.canvas as cv
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.parts.bay_picture import BayNames, BayPicture, panel_corners
from fieldapp.parts.bay_shape import FACTORS, BayLines, BayShape, bay_lines, choose_factor
from fieldapp.parts.tape_piece import PAST, laid
from fieldapp.theme import Look

W, H = 390, 186
DECK = BayShape(40.4375, 2.5, 2.5, 0.375 / 42.9375, 5)
SPANS = st.floats(5, 120)
FACES = st.floats(1, 6)
SLOPES = st.floats(-1.0, 1.0)
HOOK = 4
"""Pixels: the stroke of a hook, the heaviest there is."""


def drawn_slope(lines: BayLines) -> float:
    a, b = lines.middles
    return (lines.foot_l - lines.foot_r) / (b - a)


@settings(deadline=None)
@given(SPANS, FACES, FACES, SLOPES)
def test_span_and_faces_share_one_scale(span: float, left: float, right: float, tan: float):
    lines = bay_lines(BayShape(span, left, right, tan), W, H)
    assert (lines.xr - lines.xl) / span == pytest.approx(lines.k)
    assert (lines.left_wide / left, lines.right_wide / right) == pytest.approx((lines.k, lines.k))


@settings(deadline=None)
@given(SPANS, FACES, FACES, SLOPES)
def test_the_slope_is_drawn_exactly_as_many_times_as_is_printed(span: float, left: float, right: float, tan: float):
    lines = bay_lines(BayShape(span, left, right, tan), W, H)
    assert lines.factor in FACTORS
    assert drawn_slope(lines) == pytest.approx(lines.factor * tan, abs=1e-9)


@settings(deadline=None)
@given(SPANS, FACES, FACES, SLOPES)
def test_equal_posts_tell_the_slope_of_their_feet(span: float, left: float, right: float, tan: float):
    lines = bay_lines(BayShape(span, left, right, tan), W, H)
    assert lines.foot_l - lines.top_l == pytest.approx(lines.foot_r - lines.top_r)


@settings(deadline=None)
@given(SPANS, FACES, FACES, SLOPES)
def test_everything_stays_inside_the_picture(span: float, left: float, right: float, tan: float):
    lines = bay_lines(BayShape(span, left, right, tan), W, H)
    assert lines.xl - lines.left_wide >= 0 and lines.xr + lines.right_wide <= W
    assert min(lines.top_l, lines.top_r) >= 0 and max(lines.foot_l, lines.foot_r) <= H


@pytest.mark.parametrize(
    ("name", "tan", "factor"),
    [("drainage fall 1 %", 0.01, 5), ("ramp 1:12", 1 / 12, 2), ("stair 35 degrees", math.tan(math.radians(35)), 1)],
)
def test_the_steeper_the_less_it_is_exaggerated(name: str, tan: float, factor: int):
    assert bay_lines(BayShape(40, 2.5, 2.5, tan), W, H).factor == factor


def test_the_higher_foot_stands_on_the_side_that_is_higher():
    right, left = bay_lines(DECK, W, H), bay_lines(BayShape(40.4375, 2.5, 2.5, -DECK.tan, 5), W, H)
    assert right.foot_r < right.foot_l and left.foot_l < left.foot_r


def test_an_unknown_slope_is_drawn_level():
    lines = bay_lines(BayShape(40, 2.5, 2.5), W, H)
    assert (lines.foot_l, lines.top_l) == (lines.foot_r, lines.top_r)


@pytest.mark.parametrize("ask", ["span", "top-span", "rise", "base-rise", "diagonal-rising", "kept"])
def test_a_racked_panel_is_a_parallelogram_with_plumb_uprights(ask: str):
    lines = bay_lines(DECK, W, H)
    low_l, low_r, high_r, high_l = panel_corners(lines, ask)
    assert (low_l[0], low_r[0]) == (high_l[0], high_r[0]) == (lines.xl, lines.xr)
    assert low_l[1] - high_l[1] == pytest.approx(low_r[1] - high_r[1])


def test_a_level_top_panel_has_a_level_top_and_a_sloping_bottom():
    lines = bay_lines(BayShape(40, 2.5, 2.5, 0.02, level_top=True), W, H)
    low_l, low_r, high_r, high_l = panel_corners(lines, "kept")
    assert high_l[1] == high_r[1]
    assert low_l[1] - low_r[1] == pytest.approx(lines.factor * 0.02 * (lines.xr - lines.xl))


@pytest.mark.parametrize(
    ("tan", "run", "room", "factor"), [(0.01, 300, 20, 5), (0.02, 300, 20, 2), (0.05, 300, 20, 1), (1, 300, 20, 1), (0, 1, 0, 5)]
)
def test_the_largest_factor_that_fits_is_taken(tan: float, run: float, room: float, factor: int):
    assert choose_factor(tan, run, room) == factor


@pytest.mark.parametrize("tan", [0.0, 0.01, 0.7, -1.0])
@pytest.mark.parametrize(("width", "height"), [(390, 186), (390, 150), (304, 230)])
def test_the_figure_in_the_glass_always_has_its_whole_height(tan: float, width: float, height: float):
    picture = BayPicture(Look(), width, height)
    picture.show(BayShape(40, 2.5, 2.5, tan), "span", BayNames("P1", "P2"), "bay")
    _, top, _, high = picture.glass_box
    assert high >= 72 * 1.1
    assert top >= 0 and top + high <= height


def drawn_tape(how: str) -> tuple[list[float], list[float]]:
    """x of the blade's corners, and widths of the straight strokes, of a span taped from x = 100 to x = 300."""
    shapes = laid(Look(), (100, 50), (300, 50), 11, how)
    blades = [s for s in shapes if isinstance(s, cv.Path) and s.paint.color == Look().tape]
    return [step.x for one in blades for step in one.elements if hasattr(step, "x")], [s.paint.stroke_width for s in shapes if isinstance(s, cv.Line)]


def test_a_tape_begun_at_its_mark_lies_on_past_the_face_and_has_no_hook():
    corners, strokes = drawn_tape("start")
    assert (min(corners), max(corners)) == (100 - PAST, 300)
    assert HOOK not in strokes and strokes.count(3) == 1  # the mark at the face
    corners, strokes = drawn_tape("hook")
    assert (min(corners), max(corners)) == (100, 300)
    assert strokes.count(HOOK) == 1


def test_a_case_stands_within_the_opening_and_a_laser_shows_no_blade():
    corners, _ = drawn_tape("case")
    assert min(corners) == 100 and max(corners) < 300
    assert drawn_tape("laser")[0] == []
