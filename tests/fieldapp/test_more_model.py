"""Further readings, what was read, answers in writing, and how things were taken."""

import pytest

from fieldapp.screens import how_taken_model as taken_model
from fieldapp.screens import stands_model as stands
from fieldapp.screens.asking import ASKED
from fieldapp.screens.more_model import again_words, grown_old, more_rows, onward_words, read_rows
from fieldapp.screens.taken import RiseTaken, SpanTaken, Taken
from measure.finding import CHECKS
from tests.fieldapp.deck import START, Deck


def rows(live, tag="A3", notes=0):
    return {row.to: row for row in more_rows(live, tag, notes)}


def test_every_row_leads_to_a_question_or_a_page():
    assert set(rows(Deck().live())) - {"moved", "note", "history"} <= set(ASKED)


def test_a_row_shows_its_figure_if_read():
    d = Deck().span("A3", "40 7/16").rise("A3", "3/8", "right").span("A3", "40 1/2", role="second")
    d.read("P3", "plumb", "3/16", over="24 in", toward="left").read("run A", "overall", "217 5/16", hooked="outside")
    found = rows(d.live(), notes=2)
    figures = {to: row.value for to, row in found.items() if row.value}
    assert figures == {
        "second-span": "40 1/2 in", "plumb-left": "3/16 in, left", "overall-outside": "217 5/16 in", "span": "40 7/16 in",
        "rise": "3/8 in, right", "note": "2 notes", "history": "3 readings",
    }  # fmt: skip


def test_a_bay_at_a_trimmed_post_has_its_rise_at_the_feet_once():
    assert [row.to for row in more_rows(Deck(trimmed=("P3",)).live(), "A3", 0)].count("base-rise") == 1


def test_a_way_through_is_asked_its_span_only():
    assert {"rise", "second-span", "top-span"}.isdisjoint(rows(Deck().live(), "G1"))


def test_the_way_on_names_the_next_question():
    assert onward_words(Deck().span("A3", "40").live(), "A3", False) == ("A3", "Go on: A3, rise")


def test_what_was_read_says_whose_it_is_and_which_counts():
    d = Deck().span("A3", "41 7/16", id="one").span("A3", "40 7/16", replaces="one").rise("A3", "3/8", "right", by="Kit").move("P4")
    d.span("A3", "40 1/2", by="Kit")
    found = [(row.name, row.value, row.said.split(". ")[1]) for row in read_rows(d.live(), "A3", START)]
    assert found == [
        ("span", "40 1/2 in", "This one counts."), ("rise", "3/8 in over centres", "P4 was moved since."),
        ("span", "40 7/16 in", "P4 was moved since."), ("span", "41 7/16 in", "P4 was moved since."),
    ]  # fmt: skip


def test_an_older_reading_counts_again_by_a_new_one_that_says_the_same():
    d = Deck().span("A3", "41 7/16", start="1 in", taped="level", id="one").span("A3", "40 7/16", id="two", replaces="one")
    live = d.live()
    old = next(row for row in read_rows(live, "A3", START) if row.again)
    assert again_words(live, old.reading) == {
        "bay": "A3", "what": "span", "value": "41 7/16", "start": "1 in", "taped": "level", "replaces": "two",
    }  # fmt: skip


def test_the_rise_that_counts_again_keeps_its_base_and_its_high_end():
    live = Deck().rise("A3", "1/4", "left", over="24 in").rise("A3", "3/8", "right", over="centres").live()
    old = read_rows(live, "A3", START)[1]
    assert old.again
    assert again_words(live, old.reading) == {"bay": "A3", "what": "rise", "value": "1/4", "high": "left", "over": "24 in"}


def test_a_moved_post_makes_its_two_bays_old():
    assert grown_old(Deck().live(), "P3") == ["A2", "A3"]


# ---- it stands, because ------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("check", CHECKS)
def test_every_check_has_reasons_ready(check):
    found = stands.reasons(check)
    assert len(found) == len(set(found)) >= 2
    assert all(0 < len(reason) <= 48 for reason in found)


def test_the_order_prints_nothing_until_reason_and_name_are_there():
    assert stands.on_the_order("off-plan", "", "Mona") == stands.on_the_order("off-plan", "joist", "") == ""
    assert stands.on_the_order("off-plan", "post set clear of a joist", "Mona") == "off-plan: post set clear of a joist (Mona)"


@pytest.mark.parametrize(("reason", "refused"), [("", True), ("  ", True), ("x" * 121, True), ("joist", False)])
def test_a_reason_is_some_words_and_not_a_page(reason, refused):
    assert bool(stands.refused_reason(reason)) is refused


def test_the_query_is_found_at_its_bay_or_run():
    live = Deck().span("A3", "41").rise("A3").live()
    assert stands.query_at(live, "A3", "off-plan").check == "off-plan"
    assert stands.query_at(live, "A2", "off-plan") is None
    assert stands.place_of(live, "run A") == {"run": "A"}
    assert stands.place_of(live, "run Z") is None


# ---- how it was taken --------------------------------------------------------------------------------------------------
def test_what_is_half_chosen_comes_back():
    live = Deck().live()
    chosen = taken_model.Choosing(SpanTaken("case", "3 in", "along"), RiseTaken("slope", form="%"), "slope")
    assert taken_model.Choosing.begin(live, "A", Taken(), chosen.draft) == chosen


def test_what_the_glass_follows_is_not_chosen_while_the_plan_does_not_say_it():
    assert taken_model.Choosing.begin(Deck(follows=None).live(), "A", Taken()).follows is None
    assert taken_model.Choosing.begin(Deck().live(), "A", Taken()).follows == "posts"


@pytest.mark.parametrize(
    ("span", "expected"),
    [(SpanTaken("start"), "40 7/16 in"), (SpanTaken("case", "3 in"), "44 7/16 in"), (SpanTaken(), "41 7/16 in"), (SpanTaken("laser"), "41 7/16 in")],
)
def test_each_way_shows_at_once_what_the_figure_counts_as(span, expected):
    assert taken_model.counts(Deck().live(), "41 7/16", span) == expected


@pytest.mark.parametrize(
    ("what", "span", "rise", "missing"),
    [
        ("span", SpanTaken("case"), RiseTaken(), "case-length"), ("span", SpanTaken("case", "3 in"), RiseTaken(), ""),
        ("rise", SpanTaken("case"), RiseTaken("level"), "level-length"), ("rise", SpanTaken(), RiseTaken("level", "24 in"), ""),
    ],
)  # fmt: skip
def test_the_length_of_a_case_or_level_is_asked_before_it_is_used(what, span, rise, missing):
    assert taken_model.Choosing(span, rise, None).missing(what) == missing


def test_what_the_glass_follows_goes_into_the_plan_of_its_run_only():
    words = {"runs": [{"run": "B", "seen_from": "the path"}]}
    assert taken_model.plan_following(words, "A", "slope") == {
        "runs": [{"run": "B", "seen_from": "the path"}, {"run": "A", "rack_follows": "slope"}]
    }
    assert taken_model.plan_following(words, "B", "posts")["runs"] == [{"run": "B", "seen_from": "the path", "rack_follows": "posts"}]


def test_at_the_feet_the_post_tops_are_no_choice():
    assert "centres" not in dict(taken_model.rise_options("base-rise"))
    assert taken_model.shown_rise("base-rise", RiseTaken()).over == "faces"
