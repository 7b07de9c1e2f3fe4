"""Two posts cut through: bite, play and allowance drawn to what was typed."""

from __future__ import annotations

import pytest

from fieldapp.parts.post_section import SectionWords as Words
from fieldapp.parts.post_section import SystemFigures, section_lines, section_shapes
from fieldapp.theme import Look

W = 390.0
FIGURES = SystemFigures()
ASKED = (None, "face", "groove", "allowance", "bite", "play", "spacing")


@pytest.mark.parametrize("ask", ASKED)
def test_faces_and_grooves_share_one_scale(ask: str | None):
    s = section_lines(FIGURES, ask, W)
    assert s.post / FIGURES.face == pytest.approx(s.k)
    assert (s.left_face - s.left_floor) / FIGURES.groove == pytest.approx(s.k)
    assert (s.right_floor - s.right_face) / FIGURES.groove == pytest.approx(s.k)


@pytest.mark.parametrize("allowance", [0.5, 1.3125, 1.6])
def test_the_allowance_is_shared_by_both_edges(allowance: float):
    s = section_lines(SystemFigures(allowance=allowance), "allowance", W)
    assert s.left_face - s.left_edge == pytest.approx(s.right_edge - s.right_face)
    assert (s.left_face - s.left_edge + s.right_edge - s.right_face) / s.k == pytest.approx(allowance)


def test_least_bite_is_what_the_right_edge_still_holds_when_the_panel_is_home_at_the_left():
    s = section_lines(FIGURES, "bite", W)
    assert s.left_edge == s.left_floor
    assert (s.right_edge - s.right_face) / s.k == pytest.approx(FIGURES.bite)


def test_least_play_is_what_is_still_free_at_the_right_when_the_panel_is_home_at_the_left():
    s = section_lines(FIGURES, "play", W)
    assert s.left_edge == s.left_floor
    assert (s.right_floor - s.right_edge) / s.k == pytest.approx(FIGURES.play)


@pytest.mark.parametrize("ask", [a for a in ASKED if a])
def test_only_the_figure_that_is_asked_is_tape_yellow(ask: str):
    look = Look()
    yellow = lambda asked: [  # noqa: E731
        s for s in section_shapes(look, FIGURES, asked, Words(), W) if hasattr(s, "paint") and s.paint.color == look.tape
    ]
    assert yellow(ask) and not yellow(None)


def test_a_wide_post_is_drawn_smaller_and_stays_in_the_picture():
    s = section_lines(SystemFigures(face=8), "face", W)
    assert s.left_face - s.post >= 0


@pytest.mark.parametrize("ask", ["groove", "allowance", "bite", "play"])
def test_however_deep_a_groove_is_it_ends_within_the_picture(ask: str):
    for depth in (0.8125, 3.5, 12.0):
        s = section_lines(SystemFigures(groove=depth, allowance=2 * depth, bite=depth), ask, W)
        assert 0 < s.left_floor <= s.left_face < s.right_face <= s.right_floor < W
        assert 0 < s.left_edge < s.right_edge < W
