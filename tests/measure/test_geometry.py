"""Spans, racks and widths against published vectors, closed forms and general-purpose libraries."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measure import geometry
from measure.geometry import Sloped
from measure.length import NM_PER_INCH, NM_PER_MM

INCH, MM = NM_PER_INCH, NM_PER_MM


def test_a_one_in_twelve_ramp_racks_five_inches_over_sixty():
    # 2010 ADA 405.2: 1:12; 60 in of run rise 5 in (check value V16, recomputed).
    sloped = geometry.from_tan(60 * INCH, False, Fraction(1, 12), 0)
    assert sloped.over_centres == 5 * INCH


def test_a_quarter_inch_per_foot_racks_one_inch_over_forty_eight():
    # ADA 405.3: 1:48 (check value V15, recomputed).
    sloped = geometry.from_tan(48 * INCH, False, Fraction(1, 48), 0)
    assert sloped.over_centres == 1 * INCH


def test_the_rise_read_over_both_post_tops_is_the_rack_itself():
    # Common practice, no source: the rack ordered is the gap under a levelled straightedge laid over both post tops.
    sloped = geometry.from_rise_over_centres(895 * MM, False, 13 * MM, 65 * MM)
    lean = geometry.leaning(sloped, 895 * MM, False, 0.0)
    assert geometry.rack("posts", sloped, lean, 65 * MM, 930 * MM) == 13 * MM


@given(
    along=st.integers(200 * MM, 4000 * MM),
    rise=st.integers(1, 150 * MM),
    faces=st.integers(20 * MM, 150 * MM),
)
def test_a_span_taped_along_and_a_rise_over_centres_are_solved_together(along, rise, faces):
    sloped = geometry.from_rise_over_centres(along, True, rise, faces)
    # The triangle itself: hypotenuse `along` on the faces, `rise` on the centres (Euclid; no code of ours).
    assert math.hypot(sloped.span, sloped.span * sloped.tan) == pytest.approx(along, rel=1e-12)
    assert sloped.tan * (sloped.span + faces) == pytest.approx(rise, rel=1e-12)
    assert sloped.over_centres == rise


@pytest.mark.parametrize("rise_mm", [1, 100, 900, 2500, 25_000, -2500])
def test_however_steep_the_rise_over_centres_the_solution_fits_the_triangle(rise_mm):
    # A mistyped rise longer than the tape along it: θ solves 1054.1 · sin θ + 63.5 · tan θ = rise (no code of ours).
    sloped = geometry.from_rise_over_centres(1_054_100_000, True, rise_mm * MM, 63_500_000)
    theta = math.atan(sloped.tan)
    assert 1054.1 * math.sin(theta) + 63.5 * math.tan(theta) == pytest.approx(rise_mm, rel=1e-9)
    assert float(sloped.span) == pytest.approx(1_054_100_000 * math.cos(theta), rel=1e-9)


@given(along=st.integers(200 * MM, 4000 * MM), share=st.floats(0.001, 0.9), faces=st.integers(20 * MM, 150 * MM))
def test_a_span_taped_along_and_a_rise_between_faces_are_a_right_triangle(along, share, faces):
    rise = int(along * share)
    sloped = geometry.from_rise_over_faces(along, True, rise, faces)
    assert sloped.span**2 + rise**2 == pytest.approx(along**2, rel=1e-12)


def test_a_rise_between_faces_as_long_as_the_tape_along_it_has_no_solution():
    assert geometry.from_rise_over_faces(900 * MM, True, 900 * MM, 0) is None


def test_below_three_per_cent_the_way_the_tape_lay_makes_under_half_a_millimetre():
    # Common practice, no source (recomputed: 1000·(1 − cos atan 0.03) = 0.45).
    assert 1000 * MM - geometry.level_span(1000 * MM, Fraction(3, 100)) < 0.5 * MM


@pytest.mark.parametrize(
    ("angle", "grooves", "wall", "turn"),
    [
        (135, 90, False, 22.5),
        (90, 90, False, 0),
        (270, 90, False, 0),
        (225, 90, False, 22.5),
        (180, 180, False, 0),
        (170, 180, False, 5),
        (75, None, True, 15),
        (None, None, False, 0),
    ],
)
def test_a_post_that_halves_its_corner_turns_both_panels_by_half_the_rest(angle, grooves, wall, turn):
    angle = None if angle is None else Fraction(angle)
    grooves = None if grooves is None else Fraction(grooves)
    assert geometry.turn_of_panel(angle, grooves, wall) == pytest.approx(turn)


def test_an_edge_turned_by_22_and_a_half_degrees_asks_1_4_mm_more():
    # Trade figure, no source: d = 17.5 mm; 17.5·(1/cos 22.5° − 1) = 1.44 mm.
    assert geometry.turned_edge(22.5, 17_500_000) / MM == pytest.approx(1.4, abs=0.05)


def test_a_round_post_with_a_central_gasket_asks_nothing_more():
    assert geometry.turned_edge(22.5, 0) == 0


def test_posts_set_square_to_a_sloping_deck_take_a_rectangle():
    theta = math.radians(4)
    sloped = geometry.from_tan(1000 * MM, True, math.tan(theta), 65 * MM)
    lean = geometry.leaning(sloped, 1000 * MM, True, -theta)
    for follows in ("posts", "slope"):
        assert geometry.rack(follows, sloped, lean, 65 * MM, 1035 * MM) == pytest.approx(0, abs=1)
    assert lean.square == pytest.approx(1000 * MM)


@given(theta=st.floats(-0.6, 0.6), alpha=st.floats(-0.1, 0.1), feet=st.floats(300, 3000))
def test_lean_is_a_turn_of_the_whole_picture(theta, alpha, feet):
    """Put the feet down as points, turn the picture until the posts are plumb, and read off span and rack there."""
    faces = 65.0
    rise = math.tan(theta) * (feet + faces)
    span_level = feet * (1 - math.tan(theta) * math.tan(alpha))  # taped level from the left post's line to the right's
    sloped = Sloped(span_level * MM, math.tan(theta), rise * MM)
    lean = geometry.leaning(sloped, span_level * MM, False, alpha)
    # Rotation by +alpha (heads to the right come back to plumb), plain trigonometry:
    x, y = feet + faces, rise
    turned_x = x * math.cos(alpha) - y * math.sin(alpha)
    turned_y = x * math.sin(alpha) + y * math.cos(alpha)
    assert lean.feet / MM == pytest.approx(feet)
    assert geometry.rack("posts", sloped, lean, faces * MM, 0) / MM == pytest.approx(turned_y, abs=1e-6)
    inner = feet * math.cos(alpha) - feet * math.tan(theta) * math.sin(alpha)
    assert lean.square / MM == pytest.approx(inner, abs=1e-6)
    assert geometry.rack("slope", sloped, lean, 0, 1000.0) == pytest.approx(1000.0 * turned_y / turned_x, rel=1e-9, abs=1e-9)


@given(rack=st.integers(-300, 300), square=st.integers(300, 2500), up=st.integers(600, 1100), down=st.integers(600, 1100))
def test_two_diagonals_give_back_the_rack_they_were_made_from(rack, square, up, down):
    # p² = S² + (h + R)², q² = S² + (h − R)² (parallelogram law, difference form).
    p, q = math.hypot(square, up + rack), math.hypot(square, down - rack)
    found = geometry.rack_by_diagonals(round(p * MM), up * MM, round(q * MM), down * MM, square * MM, square * MM)
    assert found / MM == pytest.approx(rack, abs=1e-4)


@given(st.integers(100 * MM, 3000 * MM), st.integers(0, 400 * MM), st.integers(10 * MM, 150 * MM), st.floats(-0.05, 0.05))
def test_turning_the_view_round_mirrors_and_changes_no_size(read, rise, faces, alpha):
    for make in (geometry.from_rise_over_centres, geometry.from_rise_over_faces):
        for along in (False, True):
            here, there = make(read, along, rise, faces), make(read, along, -rise, faces)
            if here is None:
                assert there is None
                continue
            one, two = geometry.leaning(here, read, along, alpha), geometry.leaning(there, read, along, -alpha)
            for follows in ("posts", "slope"):
                left = geometry.rack(follows, here, one, faces, read)
                right = geometry.rack(follows, there, two, faces, read)
                assert float(left) == pytest.approx(-float(right), abs=1)
            assert float(one.square) == pytest.approx(float(two.square), rel=1e-12)
