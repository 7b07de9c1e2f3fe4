"""Which panels an order holds, which of them are the same pane, and whose names stand on it."""

import itertools

import pytest

from measure.length import Length, inches
from measure.order import group_letters, make_order, same_pane_key
from measure.panel import cut_panel
from measure.plan import Run
from measure.report import evaluate
from measure.system import Limits


def order_of(deck, **said):
    return make_order(evaluate(deck.job(**said)))


def letters(order):
    return [line.group for line in order.lines]


@pytest.mark.parametrize(
    ("place", "name"), [(0, "A"), (1, "B"), (25, "Z"), (26, "AA"), (27, "AB"), (51, "AZ"), (52, "BA"), (702, "AAA")]
)
def test_groups_are_lettered_as_spreadsheet_columns_are(place, name):
    assert group_letters(place) == name


def test_no_two_groups_share_letters():
    assert len({group_letters(n) for n in range(20000)}) == 20000


def test_panels_stand_in_the_order_of_the_bays_whatever_the_order_of_the_readings(deck):
    made = deck().bay("A3", "40 in").bay("A1", "41 in").bay("A2", "42 in")
    first = order_of(made)
    made.readings.reverse()
    again = order_of(made)
    assert [line.panel for line in first.lines] == ["A3", "A1", "A2"]
    assert (again.lines, again.groups) == (first.lines, first.groups)


def test_a_plain_racked_pane_turned_round_is_the_same_pane(deck):
    order = order_of(
        deck().bay("A1", "41 in", "3/8 in", "right").gate().bay("A2", "41 in", "3/8 in", "left").gate().bay("A3", "41 in", "1/4 in", "left")
    )
    assert letters(order) == ["A", "A", "B"]
    assert [(g.letters, g.panels, g.qty) for g in order.groups] == [("A", ("A1", "A2"), 2), ("B", ("A3",), 1)]


def test_a_plain_level_top_pane_turned_round_is_the_same_pane(deck):
    made = deck().bay("A1", "41 in", "3/8 in", "right", shape="level-top").gate().bay("A2", "41 in", "3/8 in", "left", shape="level-top")
    assert letters(order_of(made.bay("A3", "41 in", "3/8 in", "left"))) == ["A", "A", "B"]


@pytest.mark.parametrize("handing", [{"finish_face": "frosted, outside"}, {"holes": "one 20 mm, upper left"}])
def test_a_finish_face_or_a_hole_hands_a_racked_pane(deck, handing):
    made = (
        deck(glass=handing)
        .bay("A1", "41 in", "3/8 in", "right")
        .gate()
        .bay("A2", "41 in", "3/8 in", "left")
        .gate()
        .bay("A3", "41 in", "3/8 in", "right")
    )
    assert letters(order_of(made)) == ["A", "B", "A"]


def test_a_stamp_does_not_hand_a_pane(deck):
    made = deck(glass={"stamp": "lower left"}).bay("A1", "41 in", "3/8 in", "right").gate().bay("A2", "41 in", "3/8 in", "left")
    assert letters(order_of(made)) == ["A", "A"]


def test_a_finish_face_of_one_bay_makes_another_pane_and_an_empty_one_takes_the_jobs_off(deck):
    made = (
        deck(glass={"finish_face": "frosted, outside"}).bay("A1", "41 in").bay("A2", "41 in", finish_face="").bay("A3", "41 in")
    )
    order = order_of(made)
    assert letters(order) == ["A", "B", "A"]
    assert [line.finish_face for line in order.lines] == ["frosted, outside", "", "frosted, outside"]


def test_handed_panes_seen_from_two_sides_are_not_taken_for_the_same(deck):
    made = deck(
        glass={"finish_face": "frosted, outside"}, runs={"A": Run("A", "posts"), "B": Run("B", "posts", "the garden, looking in")}
    )
    made.bay("A1", "41 in", "3/8 in", "right").gate().bay("B1", "41 in", "3/8 in", "right", run="B")
    order = order_of(made)
    assert letters(order) == ["A", "B"]
    assert order.seen_from == "run A: the deck, looking out; run B: the garden, looking in"


def test_a_turned_pane_has_one_key_and_a_handed_one_two():
    size, height, rack, ten = inches(42), inches(38), inches(1), Length(10_000_000)
    for shape, holes in itertools.product(("racked", "level-top"), ("none", "None", "", "one")):
        keys = {same_pane_key(cut_panel(shape, size, height, r, ten), "", holes, "the deck") for r in (rack, -rack)}
        assert len(keys) == (2 if holes == "one" else 1)


def test_bays_that_are_ordered_or_without_glass_have_no_line(deck):
    made = (
        deck()
        .bay("A1", "41 in")
        .bay("A2", "41 in", status="ordered")
        .bay("A3", "41 in", status="on site")
        .bay("A4", "36 in", has_glass=False)
    )
    order = order_of(made)
    assert [line.panel for line in order.lines] == ["A1"]
    assert order.left_out == ()


def test_a_panel_with_an_open_query_is_left_out_with_its_findings(deck):
    made = deck().bay("A1", "41 in").gate().bay("A2", "41 in", "12 in", "right")
    order = order_of(made, limits=Limits(slope=inches(1).nm / inches(12).nm))
    assert [line.panel for line in order.lines] == ["A1"]
    ((tag, findings),) = order.left_out
    assert tag == "A2" and [f.check for f in findings] == ["slope"]


def test_an_answered_query_is_ordered_and_its_answer_stands_on_the_line(deck):
    made = deck().bay("A1", "41 in").gate().bay("A2", "41 in", "12 in", "right").answer("slope", "stair", "Mona", bay="A2")
    made.answer("off-plan", "no such query", bay="A2")
    order = order_of(made, limits=Limits(slope=inches(1).nm / inches(12).nm))
    assert [[(a.check, a.reason, a.by) for a in line.answered] for line in order.lines] == [[], [("slope", "stair", "Mona")]]


def test_names_are_told_once_each_in_the_order_of_the_panels(deck):
    made = (
        deck()
        .bay("A1", "41 in", by="Mona", read_back_by="Kai")
        .bay("A2", "41 in", by="mona ", read_back_by="Lea")
        .bay("A3", "41 in", by="Kai")
    )
    order = order_of(made)
    assert (order.taped_by, order.read_back_by) == (("Mona", "Kai"), ("Kai", "Lea"))


def test_an_issued_order_differs_in_number_revision_date_and_name_alone(deck):
    order = order_of(deck().bay("A1", "41 in"))
    issued = order.issued("2026-7", 1, "2026-05-03", "Mona")
    assert (issued.order_no, issued.revision, issued.date, issued.issued_by) == ("2026-7", 1, "2026-05-03", "Mona")
    assert (issued.lines, issued.groups) == (order.lines, order.groups)
    assert (order.order_no, order.revision) == ("", 0)
