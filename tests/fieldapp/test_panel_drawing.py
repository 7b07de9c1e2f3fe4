"""The panel's drawing: the rack true to its factor, at the corner it belongs to."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.parts.bay_shape import RUN_FACTORS
from fieldapp.parts.panel_drawing import PanelShape, panel_drawing, panel_lines
from fieldapp.parts.panel_drawing import PanelWords as Words
from fieldapp.theme import Look

BOX = (62.0, 300.0, 16.0, 164.0)


@settings(deadline=None)
@given(st.floats(6, 96), st.floats(0, 30), st.sampled_from(["left", "right"]))
def test_a_racked_panels_bottom_slopes_as_many_times_as_is_said(width: float, rack: float, high: str):
    lines = panel_lines(PanelShape(width, 38, 38, rack, high), *BOX)
    (ax, ay), (bx, by), _, _ = lines.corners
    assert lines.factor in RUN_FACTORS
    assert abs(ay - by) / (bx - ax) == pytest.approx(lines.factor * rack / width, abs=1e-9)


@settings(deadline=None)
@given(st.floats(6, 96), st.floats(0.01, 30), st.sampled_from(["left", "right"]))
def test_a_racked_panel_is_a_parallelogram_inside_its_box(width: float, rack: float, high: str):
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = panel_lines(PanelShape(width, 38, 38, rack, high), *BOX).corners
    assert (ax, bx) == (dx, cx)
    assert ay - dy == pytest.approx(by - cy)
    assert min(cy, dy) >= BOX[2] - 1e-6 and max(ay, by) <= BOX[3] + 1e-6 and BOX[0] - 1e-6 <= ax < bx <= BOX[1] + 1e-6


@pytest.mark.parametrize(("high", "higher"), [("left", 0), ("right", 1)])
def test_the_high_end_stands_higher(high: str, higher: int):
    corners = panel_lines(PanelShape(41.75, 38, 38, 0.375, high), *BOX).corners
    assert corners[higher][1] < corners[1 - higher][1]


def test_a_rectangle_has_no_slope():
    (_, ay), (_, by), (_, cy), (_, dy) = panel_lines(PanelShape(41.75, 38, 38, 0), *BOX).corners
    assert (ay, dy) == (by, cy)


def test_a_level_tops_upper_edge_is_level():
    (_, ay), (_, by), (_, cy), (_, dy) = panel_lines(PanelShape(40, 38.5, 38, 0.5, "right"), *BOX).corners
    assert cy == pytest.approx(dy)
    assert ay > by


def test_the_drawing_says_how_often_its_slope_is_drawn():
    words = Words("A1", "41 3/4 in", "38 in", "38 in", "rack 3/8 in", "high end")
    _, shallow = panel_drawing(Look(), PanelShape(41.75, 38, 38, 0.375, "right"), words, 356, 236)
    _, steep = panel_drawing(Look(), PanelShape(41.75, 38, 38, 28, "right"), words, 356, 236)
    assert (shallow, steep) == (10, 1)
