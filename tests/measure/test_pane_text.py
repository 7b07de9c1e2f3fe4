"""A pane's printed figures against published vectors, shapely, and decimals that share no code with the project."""

from decimal import ROUND_HALF_EVEN, Decimal, localcontext

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point, Polygon

from measure.length import NM_PER_INCH, NM_PER_MM, Length
from measure.pane_text import area_text, double_area, length_text, mass_text, near_root, pane_text, quotient_text
from measure.panel import cut_panel

IN = Decimal("25.4")
TEN = Length(10 * NM_PER_MM)


def pane(width, height, rack, unit=NM_PER_MM, shape="racked", thickness=TEN):
    return cut_panel(shape, Length(width * unit), Length(height * unit), Length(rack * unit), thickness)


# Check values V14, V15 and V16: parallelogram law (Euclid), ADA 405.2 1:12 and 405.3 1:48; recomputed in double precision.
# width, rack, height, mm in the unit, sloped edge, rising, falling, smaller angle
VECTORS = [
    pytest.param(1200, 25, 900, Decimal(1), "1200.2604", "1515.1320", "1485.1347", "88.8065", id="V14"),
    pytest.param(48, 1, 36, IN, "48.0104", "60.6053", "59.4054", "88.8065", id="V15 1:48"),
    pytest.param(60, 5, 36, IN, "60.2080", "72.6705", "67.5352", "85.2364", id="V16 1:12"),
    pytest.param(1200, 100, 1000, Decimal(1), "1204.1595", "1627.8821", "1500.0000", "85.2364", id="V16 mm"),
]


@pytest.mark.parametrize(("width", "rack", "height", "unit", "edge", "rising", "falling", "angle"), VECTORS)
def test_edges_diagonals_and_angles_are_the_published_ones(width, rack, height, unit, edge, rising, falling, angle):
    text = pane_text(pane(width, height, rack, int(unit * NM_PER_MM)), "mm")
    seen = (text.sloped_edge, text.diagonal_rising, text.diagonal_falling)
    for figure, published in zip(seen, (edge, rising, falling), strict=True):
        # The published figure stands for half a unit of its fourth place either way; ours for half a hundredth of a millimetre.
        assert abs(Decimal(figure) - Decimal(published) * unit) <= Decimal("0.00005") * unit + Decimal("0.005")
    assert abs(Decimal(text.lower_angle) - Decimal(angle)) <= Decimal("0.00505")


def test_the_falling_diagonal_of_a_hundred_over_twelve_hundred_is_fifteen_hundred_exactly():
    # Check value V16: S 1200, R 100, H 1000 mm gives q = 1500 exactly.
    assert pane_text(pane(1200, 1000, 100), "mm").diagonal_falling == "1500.00"


def test_turning_the_high_end_round_swaps_the_diagonals_and_nothing_else():
    right, left = pane_text(pane(1200, 900, 25), "mm"), pane_text(pane(1200, 900, -25), "mm")
    assert (right.diagonal_rising, right.diagonal_falling) == (left.diagonal_falling, left.diagonal_rising)
    assert (right.sloped_edge, right.lower_angle, right.area) == (left.sloped_edge, left.lower_angle, left.area)


@pytest.mark.parametrize(
    ("width", "height", "area", "mass"),
    [
        (900, 1000, "0.9000", "22.5"),  # V13: density 2500 kg/m³ of EN 572-1, 10 mm
        (1200, 1000, "1.2000", "30.0"),  # V13
        (1200, 900, "1.0800", "27.0"),  # V14
    ],
)
def test_area_and_mass_are_the_published_ones(width, height, area, mass):
    text = pane_text(pane(width, height, 25), "mm")
    assert (text.area, text.mass) == (area, mass)


@pytest.mark.parametrize(
    ("width", "height", "mass"),
    [(890, 1000, "22.2"), (894, 1000, "22.4"), (898, 1000, "22.4"), (890, 600, "13.4"), (1030, 1000, "25.8")],
)
def test_a_mass_of_exactly_half_a_tenth_goes_to_the_even_tenth(width, height, mass):
    # 22.25, 22.35, 22.45, 13.35 and 25.75 kg by 25 kg/m²; binary floats make some of these a shade more or less than half.
    assert pane_text(pane(width, height, 0), "mm").mass == mass


@pytest.mark.parametrize(("eighths", "diagonal"), [((3, 4), "15.88"), ((9, 12), "47.62")])
def test_a_diagonal_of_exactly_half_a_hundredth_goes_to_the_even_one(eighths, diagonal):
    # 3-4-5 in eighths of an inch: 15.875 mm and 47.625 mm.
    width, height = eighths
    assert pane_text(pane(width, height, 0, NM_PER_INCH // 8), "in").diagonal_rising == diagonal


def test_both_units_and_the_reading_text_stand_side_by_side():
    size = length_text(Length(42 * NM_PER_INCH + 3 * NM_PER_INCH // 8), "in")
    assert (size.inch, size.mm, size.text) == ("42.375", "1076.32", "42 3/8 in")


def decimals(value, places):
    return str(value.quantize(Decimal(1).scaleb(-places), ROUND_HALF_EVEN))


sizes = st.builds(
    lambda shape, w, h, r, step: cut_panel(shape, Length(w * step), Length(h * step), Length(min(r, h) * step), TEN),
    st.sampled_from(["racked", "level-top"]),
    st.integers(10, 2000),
    st.integers(10, 2000),
    st.integers(-1500, 1500),
    st.sampled_from([NM_PER_INCH // 16, NM_PER_INCH // 32, NM_PER_MM, NM_PER_MM // 2]),
)


@given(sizes)
def test_every_figure_is_that_of_its_corners_in_forty_digits(made):
    text = pane_text(made, "mm")
    with localcontext() as exact:
        exact.prec = 40
        w, r = Decimal(made.width.nm) / 10**6, Decimal(made.rack.nm) / 10**6
        feet = [r if made.high_end == side else Decimal(0) for side in ("left", "right")]
        heads = [foot + Decimal(edge.nm) / 10**6 for foot, edge in zip(feet, (made.left_edge, made.right_edge), strict=True)]
        assert text.sloped_edge == decimals((w**2 + r**2).sqrt(), 2)
        assert text.diagonal_rising == decimals((w**2 + (heads[1] - feet[0]) ** 2).sqrt(), 2)
        assert text.diagonal_falling == decimals((w**2 + (heads[0] - feet[1]) ** 2).sqrt(), 2)
        assert text.bound_height == decimals(max(heads), 2)
        area = w * (heads[0] - feet[0] + heads[1] - feet[1]) / 2 / 10**6
        assert text.area == decimals(area, 4)
        assert text.mass == decimals(area * 25, 1)


@given(sizes)
def test_area_diagonals_and_bounding_box_agree_with_shapely(made):
    shape = Polygon(made.corners_mm)
    a, b, c, d = (Point(p) for p in made.corners_mm)
    text = pane_text(made, "mm")
    assert shape.is_valid and shape.exterior.is_ccw
    assert shape.area / 1e6 == pytest.approx(float(text.area), abs=5.1e-5)
    assert a.distance(c) == pytest.approx(float(text.diagonal_rising), abs=0.0051)
    assert d.distance(b) == pytest.approx(float(text.diagonal_falling), abs=0.0051)
    low_x, low_y, high_x, high_y = shape.bounds
    assert (low_x, low_y) == (0, 0)
    assert high_x == pytest.approx(float(text.bound_width), abs=0.0051)
    assert high_y == pytest.approx(float(text.bound_height), abs=0.0051)


@given(st.integers(0, 10**24))
def test_a_root_that_is_no_whole_number_never_meets_a_half(square):
    root = near_root(square)
    assert root * root == square or (root % 2 == 1 and (root - 1) ** 2 < square < (root + 1) ** 2)


@given(st.integers(0, 10**30), st.integers(1, 10**12), st.integers(1, 6))
def test_a_quotient_is_rounded_once_half_to_even(top, bottom, places):
    with localcontext() as exact:
        exact.prec = 60
        assert quotient_text(top, bottom, places) == decimals(Decimal(top) / Decimal(bottom), places)


def test_sums_of_panes_are_rounded_once():
    panes = [pane(333, 333, 0)] * 7  # 0.110889 m² each: 0.776223 m², not 7 × 0.1109
    whole = sum(double_area(p) for p in panes)
    assert area_text(whole) == "0.7762"
    assert mass_text(whole * TEN.nm) == "19.4"
