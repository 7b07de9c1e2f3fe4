"""A question as the stage draws it: what stands at either end of the tape."""

import pytest

from fieldapp.screens.asking import asking
from fieldapp.screens.question_view import question, tape_ends
from fieldapp.screens.taken import SpanTaken, Taken
from fieldapp.screens.typing_state import Typing
from fieldapp.theme import Look
from tests.fieldapp.deck import Deck


def asked(how, what="span", units="in"):
    return asking(Deck(units=units).live(), "A3", what, Taken(spans={"A": SpanTaken(how, "3 in" if how == "case" else "")}))


@pytest.mark.parametrize("what", ["span", "second-span", "top-span", "overall-outside"])
@pytest.mark.parametrize(
    ("how", "units", "ends"),
    [
        ("hook", "in", ("hook here", "read here")),
        ("start", "in", ("1 in here", "read here")),
        ("start", "mm", ("100 mm here", "read here")),
        ("case", "in", ("hook here", "case here")),
        ("laser", "in", ("laser here", "its dot here")),
    ],
)
def test_what_is_held_to_a_face_is_what_this_tape_is_begun_with(how, units, ends, what):
    assert tape_ends(asked(how, what, units)) == ends


@pytest.mark.parametrize("how", ["start", "case", "laser"])
def test_no_sentence_tells_to_hook_a_tape_that_is_begun_otherwise_or_to_read_it_elsewhere(how):
    told = asked(how)
    assert told.says != asked("hook").says and told.where != asked("hook").where
    assert len(told.where) <= 42


def test_a_level_whose_length_is_asked_for_plumb_says_so_and_at_which_post():
    told = asking(Deck().live(), "A3", "plumb-right", Taken())
    assert (told.tag, told.key, told.draw) == ("P4", "level-length", "plumb-level")
    assert "plumb at P4" in told.where and "P4" in told.says
    assert question(Look(), Typing.begin(told)).picture is not None


@pytest.mark.parametrize(("how", "own_line"), [("hook", False), ("start", True), ("case", True), ("laser", False)])
def test_what_a_figure_counts_as_stands_in_a_line_of_its_own(how, own_line):
    assert question(Look(), Typing.begin(asked(how))).counts is own_line
