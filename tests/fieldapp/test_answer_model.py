"""What stands in the place of the keys after Keep."""

from fractions import Fraction

import pytest

from fieldapp.screens.answer_model import answer, it_was, walk_sign
from fieldapp.screens.taken import Taken
from tests.fieldapp.deck import Deck


def names(found):
    return [act.name for act in found.acts]


def facts(found):
    return dict(found.facts)


def test_a_span_within_its_plan_is_clear_and_leads_to_the_rise():
    found = answer(Deck().span("A3", "40 7/16").live(), "A3", "span", Taken())
    assert (found.sign, found.word, found.title) == ("clear", "clear", "span kept")
    assert found.acts[0].label == "Next: A3, rise"
    assert found.acts[0].says == "Next"
    assert facts(found)["plan 40 1/2 in"] == "1/16 in under"


def test_a_clear_bay_says_its_panel_and_leads_to_the_next_bay():
    found = answer(Deck().span("A3", "40 7/16").rise("A3", "3/8", "right").live(), "A3", "rise", Taken())
    assert found.title == "span and rise kept"
    assert found.sentence == "Panel 41 3/4 in wide, 38 in high, rack 3/8 in, right end high."
    assert (found.acts[0].label, found.acts[0].to) == ("Next: A4, span", "A4")
    assert facts(found)["rise 3/8 in, right higher"] == "0.9 % slope"
    assert (found.whole, found.fraction, found.unit, found.beside) == ("40", Fraction(7, 16), "in", "1027.1 mm")


def test_a_read_back_that_is_still_to_come_is_a_line_and_no_query():
    live = Deck().span("A3", "40 7/16").rise("A3").live()
    assert facts(answer(live, "A3", "rise", Taken()))["read-back"] == "still to come"
    assert walk_sign(live, "A3") == "clear"
    assert live.sign("A3") == "query"


def test_a_read_back_is_no_line_where_the_job_asks_for_none():
    live = Deck(read_back="no").span("A3", "40 7/16").rise("A3").live()
    assert "read-back" not in facts(answer(live, "A3", "rise", Taken()))


def test_posts_to_be_read_for_plumb_are_named_where_the_job_asks_for_it():
    live = Deck(plumb="asked").span("A3", "40 7/16").rise("A3").live()
    assert facts(answer(live, "A3", "rise", Taken()))["plumb of P3 P4"] == "still to come"


@pytest.mark.parametrize("told", ["span", "rise"])
def test_where_span_and_rise_stand_it_is_said_which_of_them_is_measured_again(told: str):
    found = answer(Deck().span("A3", "40 7/16").rise("A3").live(), "A3", told, Taken())
    assert [(a.label, a.to) for a in found.acts if a.name == "again"] == [("Span again", "span"), ("Rise again", "rise")]


def test_a_span_alone_is_measured_again():
    found = answer(Deck().span("A3", "40 7/16").live(), "A3", "span", Taken())
    assert [(a.label, a.to) for a in found.acts if a.name == "again"] == [("Measure again", "span")]


def test_a_slip_at_the_one_inch_mark_is_drawn_and_can_be_said_in_one_tap():
    live = Deck().span("A3", "41 7/16").live()
    found = answer(live, "A3", "span", Taken())
    assert (found.sign, found.word) == ("query", "query")
    assert "1 in mark" in found.sentence
    assert found.slip.kind == "start" and found.slip.start == 1
    assert names(found) == ["again", "it-was", "stands", "next"]
    assert found.acts[1].label == "It was 40 7/16 in"
    assert facts(found) == {"41 7/16 in against the plan": "15/16 in over", "40 7/16 in against the plan": "1/16 in under"}
    assert it_was(found).start == "1 in"


def test_a_case_that_was_left_out_can_be_said_in_one_tap():
    found = answer(Deck().span("A3", "37 7/16").live(), "A3", "span", Taken())
    assert (it_was(found).name, it_was(found).case, it_was(found).start) == ("case", "3 in", "")
    assert [a.label for a in found.acts if a.name == "it-was"] == ["It was 40 7/16 in"]


def test_a_slip_that_the_tape_cannot_say_has_to_be_measured_again():
    live = Deck().span("A3", "39 1/2").live()  # an inch short: the tape cannot have begun before its hook
    found = answer(live, "A3", "span", Taken())
    assert found.sign == "query"
    assert it_was(found) is None
    assert names(found) == ["again", "stands", "next"]
    assert found.slip.kind == "marks"
    assert (found.slip.read, found.slip.was) == (Fraction(79, 2), Fraction(81, 2))


def test_a_hold_says_what_is_too_much_and_goes_on_with_the_next_bay():
    found = answer(Deck().span("A3", "48 3/8").rise("A3").live(), "A3", "rise", Taken())
    assert found.sign == "hold"
    assert found.finding.check == "spacing"
    assert "50 in" in found.sentence
    assert found.acts[0].label == "Measure again"
    assert found.acts[0].to == "span"
    assert [a.label for a in found.acts if a.name == "next"] == ["Go on with A4; this stays on hold"]
    assert "stands" not in names(found)


def test_a_query_that_was_answered_is_a_line_and_no_query():
    live = Deck().span("A3", "41").rise("A3").answer("A3", "off-plan").live()
    found = answer(live, "A3", "rise", Taken())
    assert found.sign == "clear"
    assert facts(found)["off plan"] == "post set clear of a joist (Mona)"


def test_a_rise_that_is_queried_is_measured_again_as_a_rise():
    live = Deck().span("A3", "40 7/16").rise("A3", "4", "right").live()
    found = answer(live, "A3", "rise", Taken())
    assert found.finding.check == "slope"
    assert (found.acts[0].name, found.acts[0].to) == ("again", "rise")


def test_what_the_glass_follows_is_asked_where_it_matters_and_nobody_said():
    live = Deck(follows=None).span("A3", "40 7/16", taped="level").rise("A3", "3", "right").live()
    found = answer(live, "A3", "rise", Taken())
    assert found.finding.check == "rack-line"
    assert (found.acts[0].name, found.acts[0].label) == ("taken", "Say what the glass follows")


def test_a_second_tape_that_differs_asks_for_one_more():
    live = Deck().span("A3", "40 7/16").rise("A3").span("A3", "40 3/4", role="second").live()
    found = answer(live, "A3", "rise", Taken())
    assert found.finding.check == "second-tape"
    assert (found.acts[0].name, found.acts[0].to) == ("ask", "second-span")
    assert answer(live, "A3", "second-span", Taken()).acts[0].name == "again"


def leaning():
    both = Deck().span("A3", "40 7/16").rise("A3")
    return both.read("P3", "plumb", "1/2", over="24 in", toward="right").read("P4", "plumb", "1/2", over="24 in", toward="right")


@pytest.mark.parametrize(
    ("told", "label", "to"),
    [
        ("plumb-left", "Measure again", "plumb-left"),
        ("plumb-right", "Measure again", "plumb-right"),
        ("rise", "Read the plumb of P3 again", "plumb-left"),
    ],
)
def test_posts_that_were_both_read_for_plumb_are_not_asked_for_it_as_if_they_were_not(told, label, to):
    found = answer(leaning().live(), "A3", told, Taken())
    assert found.finding.check == "plumb"
    assert (found.acts[0].label, found.acts[0].to) == (label, to)


def test_less_than_a_sentence_tells_off_the_plan_is_as_planned():
    live = Deck(units="mm").span("A3", "1028.04").live()
    assert facts(answer(live, "A3", "span", Taken()))["plan 1028 mm"] == "as planned"


def test_a_second_tape_that_agrees_says_so():
    live = Deck().span("A3", "40 7/16").rise("A3").span("A3", "40 7/16", role="second").live()
    found = answer(live, "A3", "second-span", Taken())
    assert (found.sign, found.title) == ("clear", "second tape kept")
    assert found.sentence.startswith("Second tape of the span")


def test_a_way_through_is_kept_without_a_panel():
    found = answer(Deck(plumb="asked").span("G1", "40 7/16").live(), "G1", "span", Taken())
    assert (found.sign, found.finding) == ("clear", None)
    assert found.sentence.startswith("Kept. No glass here")
    assert dict(found.facts) == {"plan 40 1/2 in": "1/16 in under"}


@pytest.mark.parametrize(
    ("toward", "words"), [("right", "head to the right"), ("left", "head to the left"), (None, "plumb")]
)
def test_a_plumb_is_drawn_as_its_post_with_its_side_in_words(toward, words):
    live = Deck().span("A3", "40 7/16").rise("A3").read("P3", "plumb", "1/16" if toward else "0", over="24 in", toward=toward).live()
    found = answer(live, "A3", "plumb-left", Taken())
    assert (found.pictured.kind, found.pictured.side, found.pictured.words) == ("plumb", toward or "", words)
    assert found.pictured.level == "24 in"
    assert found.beside == ("1.59 mm" if toward else "")


def test_a_whole_run_and_a_rise_without_its_span_are_not_drawn_as_a_span():
    whole = Deck().span("A1", "40 7/16").read("run A", "overall", "217 5/16", hooked="outside").live()
    found = answer(whole, "A1", "overall-outside", Taken()).pictured
    assert (found.kind, found.posts, found.hooked) == ("overall", 6, "outside")
    alone = answer(Deck().rise("A3", "3/8", "right").live(), "A3", "rise", Taken()).pictured
    assert (alone.kind, alone.words) == ("rise", "right higher")


@pytest.mark.parametrize("told", ["span", "rise", "second-span"])
def test_the_bay_itself_is_drawn_with_its_span(told):
    live = Deck().span("A3", "40 7/16").rise("A3").span("A3", "40 7/16", role="second").live()
    assert answer(live, "A3", told, Taken()).pictured is None


def test_one_diagonal_leads_to_the_other():
    d = Deck().span("A3", "40 7/16").rise("A3").read("A3", "diagonal-rising", "54 3/16", mark="36 in")
    first = answer(d.live(), "A3", "diagonal-rising", Taken())
    assert (first.sign, first.word, first.acts[0].to) == ("todo", "kept", "diagonal-falling")
    d.read("A3", "diagonal-falling", "54 3/16", mark="36 in")
    assert answer(d.live(), "A3", "diagonal-falling", Taken()).sign == "clear"


def test_a_whole_run_that_cannot_be_compared_yet_is_kept_and_not_called_clear():
    live = Deck().span("A1", "40 7/16").rise("A1").read("run A", "overall", "217 5/16", hooked="outside").live()
    found = answer(live, "A1", "overall-outside", Taken())
    assert (found.tag, found.sign, found.word) == ("run A", "todo", "kept")
    assert "A2" in found.sentence


def test_a_figure_begun_at_the_one_inch_mark_shows_what_it_counts_as():
    live = Deck().span("A3", "41 7/16", start="1 in").rise("A3").live()
    found = answer(live, "A3", "rise", Taken())
    assert (found.whole, found.beside) == ("41", "counts as 40 7/16 in")
    assert found.sign == "clear"


def test_when_all_is_taped_the_walk_ends_at_the_review():
    d = Deck(read_back="no")
    for tag in ("A1", "A2", "A3", "A4", "A5", "B1"):
        d.span(tag, "40 7/16").rise(tag)
    assert answer(d.live(), "A2", "rise", Taken()).acts[0].name == "review"


@pytest.mark.parametrize(("span", "sign"), [("40 7/16", "clear"), ("41 7/16", "query"), ("48 3/8", "hold")])
def test_the_walks_own_strip_shows_what_was_measured(span, sign):
    live = Deck().span("A3", span).rise("A3").live()
    assert walk_sign(live, "A3") == sign
    assert walk_sign(live, "A4") == "todo"


@pytest.mark.parametrize(("span", "sign"), [("40 7/16", "todo"), ("41 7/16", "query")])
def test_a_span_that_is_queried_shows_before_the_rise_is_read(span, sign):
    assert walk_sign(Deck().span("A3", span).live(), "A3") == sign


def test_one_who_stands_outside_sees_the_kept_bay_mirrored():
    live = Deck().span("A1", "40 7/16").rise("A1", "3/8", "right").live()
    inside, outside = (answer(live, "A1", "rise", Taken(outside=o)) for o in (False, True))
    assert (inside.left, outside.left) == ("P1", "P2")
    assert inside.shape.tan == -outside.shape.tan > 0
    assert inside.sentence == outside.sentence
