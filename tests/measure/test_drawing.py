"""A panel's drawing: to scale, its enlarged rack said, every figure on it, and nothing in it that acts."""

import re
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon
from shapely.affinity import scale as scaled

from measure.drawing import HIGH, MARK, WIDE, drawing_file, drawn_corners, enlargement
from measure.length import NM_PER_MM, Length
from measure.order import make_order
from measure.panel import cut_panel
from measure.plan import Run
from measure.report import evaluate

SVG = "{http://www.w3.org/2000/svg}"


def mm(value):
    return Length(value * NM_PER_MM)


def drawing(deck, **said):
    """The parsed drawing of the only panel of a deck."""
    order = make_order(evaluate(deck.job(**said)))
    (line,) = order.lines
    return ElementTree.fromstring(drawing_file(line, order.governs))


def words(root):
    return [text.text for text in root.iter(f"{SVG}text")]


panes = st.builds(
    lambda shape, w, h, r: cut_panel(shape, mm(w), mm(h), mm(r), mm(10)),
    st.sampled_from(["racked", "level-top"]),
    st.integers(150, 2400),
    st.integers(300, 1800),
    st.integers(-900, 900),
)


@given(panes)
def test_the_glass_is_drawn_to_one_scale_but_for_the_rack(pane):
    corners = drawn_corners(pane)
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = corners
    per_mm = (x1 - x0) / pane.width.mm
    times = enlargement(pane)
    foot = 1 if pane.high_end == "left" else -1
    assert (x3, x2) == (x0, x1)
    assert (y1 - y0) * foot == pytest.approx(times * pane.rack.mm * per_mm, abs=1e-6)
    if pane.shape == "level-top":
        assert y2 == pytest.approx(y3, abs=1e-6)
    else:
        assert y0 - y3 == pytest.approx(pane.left_edge.mm * per_mm, abs=1e-6)
        assert y1 - y2 == pytest.approx(pane.right_edge.mm * per_mm, abs=1e-6)
    high = max(y0, y1) - min(y2, y3)
    assert high == pytest.approx((pane.bound_height.mm + (times - 1) * pane.rack.mm) * per_mm, abs=1e-6)


@given(panes)
def test_a_rack_drawn_at_its_own_size_gives_the_pane_itself(pane):
    if enlargement(pane) == 1:
        drawn = scaled(Polygon(drawn_corners(pane)), 1, -1, origin=(0, 0))
        per_mm = (drawn.bounds[2] - drawn.bounds[0]) / pane.width.mm
        assert drawn.area == pytest.approx(Polygon(pane.corners_mm).area * per_mm**2, rel=1e-9)


@given(panes)
def test_the_glass_stays_on_its_sheet_with_room_for_the_figures(pane):
    xs, ys = zip(*drawn_corners(pane), strict=True)
    assert min(xs) >= 18 and max(xs) <= WIDE - 18
    assert min(ys) >= 13 and max(ys) <= HIGH - 18


@pytest.mark.parametrize(("rack", "times"), [(0, 1), (1, 50), (2, 50), (4, 20), (8, 10), (15, 5), (40, 2), (70, 1), (700, 1)])
def test_a_small_rack_is_enlarged_until_it_is_seen_and_a_steep_one_is_not(rack, times):
    assert enlargement(cut_panel("racked", mm(1000), mm(965), mm(rack), mm(10))) == times


def test_the_enlargement_is_printed(deck):
    assert "To scale; the rack is drawn 10 times its size." in words(drawing(deck().bay("A1", "41 in", "3/8 in", "right")))
    assert "To scale." in words(drawing(deck().bay("A1", "41 in")))


@pytest.mark.parametrize(("high", "named"), [("right", ["left", "right, high end"]), ("left", ["left, high end", "right"])])
def test_view_sides_high_end_and_every_size_are_written_on_it(deck, high, named):
    told = words(drawing(deck().bay("A1", "41 11/16 in", "3/8 in", high)))
    assert told[0] == "Seen from the deck, looking out."
    assert [name for name in told if name.startswith(("left", "right"))] == named
    for figure in ("A1", "43 in", "1092.20 mm", "38 in", "965.20 mm", "rack 3/8 in", "1463.90 mm", "1451.28 mm"):
        assert figure in told
    assert told.count("38 in") == 2


def test_a_metric_panel_gives_millimetres_first_and_inches_beside(deck):
    told = words(drawing(deck(units="mm").bay("A1", "1000", "10", "left", shape="level-top")))
    assert {"1033 mm", "40.6693 in", "965 mm", "975 mm", "rack 10 mm"} <= set(told)


def test_the_rising_diagonal_carries_its_own_figure(deck):
    root = drawing(deck().bay("A1", "41 11/16 in", "3/8 in", "right"))
    turned = {
        group.find(f"{SVG}text").text: float(re.match(r"rotate\(([-\d.]+)", group.get("transform"))[1])
        for group in root.iter(f"{SVG}g")
        if len(group) == 1
    }
    assert turned["1463.90 mm"] < 0 < turned["1451.28 mm"]  # up to the right on a sheet whose y runs down


def test_a_view_of_its_own_is_said_on_the_drawing(deck):
    root = drawing(deck(runs={"A": Run("A", "posts", "the garden <path>")}).bay("A1", "41 in"))
    assert words(root)[0] == "Seen from the garden <path>."
    assert root.find(f"{SVG}title").text == "Panel A1, seen from the garden <path>"


def test_nothing_is_loaded_from_outside_and_nothing_acts(deck):
    made = deck(runs={"A": Run("A", "posts", '"><script>alert(1)</script><image href="http://x/y"/>')}).bay(
        "A1", "41 in", "1", "left"
    )
    root = drawing(made)
    assert {node.tag for node in root.iter()} <= {SVG + name for name in ("svg", "title", "rect", "text", "line", "polygon", "g")}
    names = {name for node in root.iter() for name in node.attrib}
    assert not [name for name in names if "href" in name or name.startswith("on") or name == "style"]


def test_a_drawing_file_is_known_as_ours_by_its_second_line(deck):
    order = make_order(evaluate(deck().bay("A1", "41 in").job()))
    assert drawing_file(order.lines[0], "in").decode().split("\n")[1] == MARK
