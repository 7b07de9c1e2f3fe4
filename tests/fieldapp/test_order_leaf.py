"""The order's leaf and the review's runs: from where it is seen and how often it is exaggerated always stand there."""

from __future__ import annotations

import flet as ft
import pytest

from fieldapp.parts.order_leaf import OrderLeaf, OrderPanel
from fieldapp.parts.panel_drawing import PanelShape
from fieldapp.parts.panel_drawing import PanelWords as Words
from fieldapp.parts.run_block import run_block, shared_scale
from fieldapp.parts.run_strip import StripBay, strip_places
from fieldapp.theme import Look

SEEN = "Seen from the deck, looking out."


def shown(control: ft.Control) -> list[str]:
    inside = [*(getattr(control, "controls", None) or []), getattr(control, "content", None)]
    own = [control.value] if isinstance(control, ft.Text) and control.value else []
    return own + [word for one in inside if isinstance(one, ft.Control) for word in shown(one)]


def leaf_of(rack: float, high: str, turn: object = None) -> OrderLeaf:
    leaf = OrderLeaf(Look(), turn, "Panel before", "Next panel")
    shape, words = PanelShape(41.75, 38, 38, rack, high), Words("A1", "41 3/4 in", "38 in", "38 in")
    leaf.show(OrderPanel("Panel A1", "1 of 6", shape, words, SEEN, lambda n: f"slope drawn {n} times", [("mass", "26 kg")], "panel A1"))
    return leaf


@pytest.mark.parametrize(("rack", "factor"), [(0.375, 10), (28.0, 1)])
def test_a_panels_leaf_says_from_where_it_is_seen_and_how_often_its_slope_is_drawn(rack: float, factor: int):
    words = shown(leaf_of(rack, "right").control)
    assert SEEN in words
    assert f"slope drawn {factor} times" in words


def test_a_rectangle_says_nothing_of_a_slope():
    assert not [word for word in shown(leaf_of(0, "none").control) if "slope" in word]


def test_the_arrows_turn_the_leaf_one_way_and_the_other():
    turned: list[int] = []
    row = leaf_of(0.375, "right", turned.append).control.content.content.controls[0]
    before, _, after = row.controls
    before.on_click(None)
    after.on_click(None)
    assert turned == [-1, 1]
    assert (before.icon.semantics_label, after.icon.semantics_label) == ("Panel before", "Next panel")


def test_all_runs_of_a_review_stand_at_one_scale_and_the_longest_fills_the_width():
    runs = [[StripBay("A1", 40), StripBay("A2", 40)], [StripBay("B1", 30)]]
    scale = shared_scale(runs, 358)
    places, k, _ = strip_places(runs[0], 358, scale=scale)
    assert k == scale
    assert places[-1].x + places[-1].width + 2.5 * k == pytest.approx(358)


def test_a_run_says_what_would_close_it():
    block = run_block(Look(), "Run A", "level", [StripBay("A1", 40)], 2.0, verdict="query", closing=[("A1", True), " an inch shorter."])
    texts = [c for c in _all(block) if isinstance(c, ft.Text) and c.spans]
    assert "".join(span.text for span in texts[0].spans) == "A1 an inch shorter."


def _all(control: ft.Control) -> list[ft.Control]:
    inside = [*(getattr(control, "controls", None) or []), getattr(control, "content", None)]
    return [control, *(c for one in inside if isinstance(one, ft.Control) for c in _all(one))]
