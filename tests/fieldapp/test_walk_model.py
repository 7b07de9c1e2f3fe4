"""The steps of the walk at one bay, and what a reload finds again."""

import pytest

from fieldapp.screens.taken import RiseTaken, SpanTaken, Taken
from fieldapp.screens.walk_model import (
    Step,
    after,
    asked,
    before,
    lay_words,
    names_offered,
    remembered,
    replaced,
    start_words,
    step_of,
    strip_of,
)
from tests.fieldapp.deck import Deck


def taped():
    return Deck().span("A3", "40 7/16", id="one").rise("A3", "3/8", "right")


@pytest.mark.parametrize(
    ("live", "tag", "draft", "what", "step"),
    [
        (Deck().live(), "A3", "", "", Step("ask", "span")),
        (Deck().span("A3", "40").live(), "A3", "", "", Step("ask", "rise")),
        (Deck(trimmed=("P3",)).span("A3", "40").live(), "A3", "", "", Step("ask", "base-rise")),
        (taped().live(), "A3", "", "", Step("told", "rise")),
        (Deck().span("A3", "40").rise("A3", "2", "left").live(), "A3", "", "", Step("lay")),
        (Deck().live(), "G1", "", "", Step("ask", "span")),
        (Deck().span("G1", "40").live(), "G1", "", "", Step("told", "span")),
        (Deck().live(), "A3", "", "plumb-left", Step("ask", "plumb-left")),
        (taped().live(), "A3", "", "rise", Step("again", "rise")),
    ],
)
def test_a_bay_stands_where_its_readings_say(live, tag, draft, what, step):
    assert step_of(live, tag, draft, what) == step


@pytest.mark.parametrize("step", [Step("told", "span"), Step("again", "span"), Step("ask", "rise"), Step("ask", "plumb-left")])
def test_the_same_step_comes_back_after_a_reload(step):
    live = Deck().span("A3", "40 7/16").live()
    assert step_of(live, "A3", step.draft) == step


@pytest.mark.parametrize(
    ("draft", "step"),
    [
        ("told span", Step("ask", "span")),  # what was told is there no longer: the post was moved
        ("lay", Step("ask", "span")),
        ("told weather", Step("ask", "span")),
        ("again weather", Step("ask", "span")),
    ],
)
def test_a_step_that_makes_no_sense_any_more_gives_way_to_what_is_open(draft, step):
    live = Deck().span("A3", "40 7/16").rise("A3").move("P3").live()
    assert step_of(live, "A3", draft) == step


@pytest.mark.parametrize(
    ("step", "back"),
    [
        (Step("again", "span"), Step("told", "span")),
        (Step("again", "rise"), Step("told", "rise")),
        (Step("again", "second-span"), None),  # never read: there is no answer to come back to
        (Step("ask", "rise"), None),
        (Step("told", "span"), None),
    ],
)
def test_back_from_a_figure_that_is_measured_again_leads_to_its_answer(step, back):
    assert before(taped().live(), "A3", step) == back


def test_after_keeping_the_answer_stands_there():
    assert after(taped().live(), "A3", "rise") == Step("told", "rise")


def test_on_a_slope_it_is_asked_first_which_way_the_tape_lay():
    assert after(Deck().span("A3", "40").rise("A3", "2", "left").live(), "A3", "rise") == Step("lay")


def test_a_reading_taken_again_on_purpose_takes_the_place_of_the_first():
    live = taped().live()
    assert replaced(live, "A3", Step("again", "span")) == "one"
    assert replaced(live, "A3", Step("ask", "span")) is None
    assert asked(live, "A3", "span") == Step("again", "span")


def test_how_the_tape_lay_is_said_in_a_new_reading_that_changes_nothing_else():
    live = Deck().span("A3", "41 7/16", id="one", start="1 in").rise("A3", "2", "left").live()
    assert lay_words(live, "A3", "along") == {
        "bay": "A3", "what": "span", "value": "41 7/16", "start": "1 in", "taped": "along", "replaces": "one",
    }  # fmt: skip


def test_it_was_begun_at_the_one_inch_mark_is_the_same_figure_with_its_start():
    assert start_words(taped().live(), "A3", "1 in", "") == {
        "bay": "A3", "what": "span", "value": "40 7/16", "start": "1 in", "replaces": "one",
    }  # fmt: skip


def test_the_strip_shows_signs_of_what_was_measured():
    assert [(p.tag, p.sign) for p in strip_of(taped().live(), "A3")] == [
        ("A1", "todo"), ("A2", "todo"), ("A3", "clear"), ("A4", "todo"), ("A5", "todo"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("deck", "begun", "says"),
    [
        (Deck(), False, "A3, not taped yet"),
        (Deck().span("A3", "40 7/16"), True, "A3, span kept, rise still to come"),
        (Deck().span("A3", "41 7/16"), False, "A3, not taped yet"),  # its own query shows in the walk
        (taped(), False, "A3, query"),
    ],
)
def test_a_bay_whose_span_is_kept_does_not_look_untouched(deck, begun, says):
    part = strip_of(deck.live(), "A3")[2]
    assert (part.tag, part.begun, part.says) == ("A3", begun, says)


def test_the_bay_where_one_is_is_marked_in_the_strip_whether_asked_or_told():
    assert [p.tag for p in strip_of(taped().live(), "A3") if p.at] == ["A3"]


def test_names_are_the_crews_then_those_of_the_readings_each_once():
    assert names_offered(taped().live(), ["Kit", "mona "]) == ["Kit", "mona "]
    assert names_offered(taped().live(), []) == ["Mona"]


@pytest.mark.parametrize(
    ("what", "key", "expected"),
    [
        ("plumb-left", "level-length", Taken(level="24 in")),
        ("rise", "level-length", Taken(rises={"A": RiseTaken("level", "24 in")})),
        ("diagonal-rising", "mark-height", Taken(mark="24 in")),
        ("case-length", "case-length", Taken(spans={"A": SpanTaken("case", "24 in")})),
    ],
)
def test_the_length_of_a_tool_is_remembered_where_it_belongs(what, key, expected):
    assert remembered(Taken(), "A", what, key, "24 in") == expected
