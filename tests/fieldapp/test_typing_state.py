"""What has been typed to a question: keys, sides, refusals, and the reading that it makes."""

import pytest

from fieldapp.screens.asking import ASKED, asking
from fieldapp.screens.taken import RiseTaken, SpanTaken, Taken
from fieldapp.screens.typing_state import Typing
from measure.errors import EntryError
from tests.fieldapp.deck import Deck

TOOLS = Taken(level="24 in", mark="36 in")


def begin(live, what, taken=TOOLS, tag="A3"):
    return Typing.begin(asking(live, tag, what, taken))


def pressed(state, *keys):
    for key in keys:
        state = state.press(key)
    return state


@pytest.mark.parametrize(
    ("units", "keys", "text", "spoken", "echo"),
    [
        ("in", ("4", "0", "7/16"), "40 7/16", "40 7/16 in", "1027.1 mm"),
        ("in", ("4", "0", "7/16", "3/16"), "40 3/16", "40 3/16 in", "1020.8 mm"),
        ("in", ("8/16",), "1/2", "1/2 in", "12.70 mm"),
        ("in", ("3", "ft", "4", "7/16"), "3 ft 4 7/16 in", "3 ft 4 7/16 in", "1027.1 mm"),
        ("in", ("4", "0", "7/16", "erase", "erase", "1"), "41", "41 in", "1041.4 mm"),
        ("mm", ("1", "0", "2", "7", "point", "5"), "1027,5", "1027,5 mm", "~ 40 7/16 in"),
        ("mm", ("point", "5"), "0,5", "0,5 mm", "~ 1/32 in"),
    ],
)  # fmt: skip
def test_keys_write_what_a_person_would_write(units, keys, text, spoken, echo):
    state = pressed(begin(Deck(units=units).live(), "span"), *keys)
    assert (state.entry.text, state.spoken, state.shown().echo) == (text, spoken, echo)


@pytest.mark.parametrize(
    ("written", "text", "unit"),
    [
        ("40", "40", "in"), ("2 ft 11 1/4", "2 ft 11 1/4", ""), ("35 1/4", "35 1/4", "in"), ("35.25", "35.25", "in"),
        ("895 mm", "895 mm", ""), ("2' 11 1/4\"", "2' 11 1/4\"", ""),
    ],
)  # fmt: skip
def test_a_real_keyboard_writes_letter_for_letter_and_its_own_unit_stands_alone(written, text, unit):
    state = begin(Deck().live(), "span")
    for letter in written:
        state = state.type(letter)
    assert (state.entry.text, state.shown().unit) == (text, unit)
    assert state.reading()["value"] == text


def test_the_echo_in_the_other_unit_can_be_left_out():
    assert pressed(begin(Deck().live(), "span"), "4", "0").shown(other_unit=False).echo == ""


def test_an_empty_inch_question_says_what_to_type_first():
    shown = begin(Deck().live(), "span").shown()
    assert (shown.echo, shown.value, shown.says) == ("inches first", None, "nothing typed yet, in")


@pytest.mark.parametrize("what", [k for k in ASKED if k != "lay"])
@pytest.mark.parametrize("units", ["in", "mm"])
def test_what_was_left_half_typed_comes_back_as_it_was(what, units):
    live = Deck(units=units).live()
    question = asking(live, "A3", what, TOOLS)
    state = pressed(Typing.begin(question), "1", "2")
    state = state.pick("left") if question.sides else state
    back = Typing.begin(question, state.entry.text, state.side or "")
    assert back == state


@pytest.mark.parametrize(
    ("what", "keys", "words"),
    [
        ("span", "40", {"bay": "A3", "what": "span", "value": "40"}),
        ("second-span", "40", {"bay": "A3", "what": "span", "role": "second", "value": "40"}),
        ("top-span", "40", {"bay": "A3", "what": "top-span", "value": "40"}),
        ("diagonal-rising", "54", {"bay": "A3", "what": "diagonal-rising", "mark": "36 in", "value": "54"}),
        ("overall-outside", "217", {"run": "A", "what": "overall", "from": "outside", "value": "217"}),
        ("overall-inside", "212", {"run": "A", "what": "overall", "from": "inside", "value": "212"}),
    ],
)
def test_a_length_makes_its_reading(what, keys, words):
    assert pressed(begin(Deck().live(), what), *keys).reading() == words


@pytest.mark.parametrize(
    ("taken", "keys", "side", "words"),
    [
        (RiseTaken(), ("6/16",), "right", {"value": "3/8", "over": "centres", "high": "right"}),
        (RiseTaken("faces"), ("6/16",), "left", {"value": "3/8", "over": "faces", "high": "left"}),
        (RiseTaken("level", "24 in"), ("1",), "left", {"value": "1", "over": "24 in", "high": "left"}),
        (RiseTaken("slope", form="deg"), ("1", "point", "2"), "right", {"value": "1.2 deg", "high": "right"}),
        (RiseTaken("slope", form="%"), ("2",), "right", {"value": "2 %", "high": "right"}),
        (RiseTaken("slope", form="1:n"), ("4", "8"), "left", {"value": "1:48", "high": "left"}),
        (RiseTaken("slope", form="in/ft"), ("4/16",), "left", {"value": "1/4 in/ft", "high": "left"}),
        (RiseTaken(), ("0",), "right", {"value": "0", "over": "centres"}),
    ],
)
def test_a_rise_says_its_base_and_its_high_end(taken, keys, side, words):
    state = pressed(begin(Deck().live(), "rise", Taken(rises={"A": taken})), *keys).pick(side)
    assert state.reading() == {"bay": "A3", "what": "rise", **words}


def test_a_slope_typed_for_a_rise_says_no_base():
    state = begin(Deck().live(), "rise").type("1.2 deg").pick("right")
    assert state.reading() == {"bay": "A3", "what": "rise", "value": "1.2 deg", "high": "right"}


def test_level_is_one_tap_and_keeps_nothing_higher():
    state = begin(Deck().live(), "rise").pick("level")
    assert state.reading() == {"bay": "A3", "what": "rise", "over": "centres", "value": "0"}


def test_a_figure_typed_after_level_is_level_no_longer():
    state = begin(Deck().live(), "rise").pick("level").press("3")
    assert (state.side, state.entry.text) == (None, "3")


def test_another_side_takes_the_nought_of_level_away():
    state = begin(Deck().live(), "rise").pick("level").pick("left")
    assert (state.side, state.entry.text) == ("left", "")


def test_a_side_chosen_first_stays_while_the_figure_is_typed():
    state = pressed(begin(Deck().live(), "rise").pick("left"), "1", "4/16")
    assert state.reading()["high"] == "left"


@pytest.mark.parametrize(
    ("taken", "said", "echo"),
    [
        (SpanTaken("start"), {"start": "1 in"}, "counts as 40 7/16 in"),
        (SpanTaken("case", "3 in"), {"case": "3 in"}, "counts as 44 7/16 in"),
        (SpanTaken("laser"), {"how": "laser"}, "1052.5 mm"),
        (SpanTaken("hook", lay="along"), {"taped": "along"}, "1052.5 mm"),
        (SpanTaken("start", lay="level"), {"start": "1 in", "taped": "level"}, "counts as 40 7/16 in"),
    ],
)
def test_how_the_span_was_taken_goes_into_its_reading_and_is_seen_at_once(taken, said, echo):
    state = pressed(begin(Deck().live(), "span", Taken(spans={"A": taken})), "4", "1", "7/16")
    assert state.reading() == {"bay": "A3", "what": "span", "value": "41 7/16", **said}
    assert state.shown().echo == echo


def test_a_tape_begun_at_its_hundred_is_said_so_in_a_millimetre_job():
    state = pressed(begin(Deck(units="mm").live(), "span", Taken(spans={"A": SpanTaken("start")})), *"1127")
    assert (state.reading()["start"], state.shown().echo) == ("100 mm", "counts as 1027 mm")


def test_plumb_says_over_what_and_to_which_side_the_head_leans():
    state = pressed(begin(Deck().live(), "plumb-right"), "3/16").pick("left")
    assert state.reading() == {"post": "P4", "what": "plumb", "over": "24 in", "value": "3/16", "toward": "left"}


def test_the_plumb_of_a_post_between_two_runs_names_its_run():
    state = begin(Deck().live(), "plumb-right", tag="A5").pick("level")
    assert state.reading() == {"post": "P6", "run": "A", "what": "plumb", "over": "24 in", "value": "0"}


@pytest.mark.parametrize(("what", "first"), [("plumb-left", "level-length"), ("diagonal-rising", "mark-height")])
def test_the_length_of_a_tool_is_asked_before_it_is_needed(what, first):
    assert asking(Deck().live(), "A3", what, Taken()).key == first


def test_a_rise_over_a_level_asks_for_the_level_first():
    assert asking(Deck().live(), "A3", "rise", Taken(rises={"A": RiseTaken("level")})).key == "level-length"


@pytest.mark.parametrize(
    ("what", "taken", "typed", "side", "sentence"),
    [
        ("span", Taken(), "", None, "Nothing is typed"),
        ("span", Taken(), "0", None, "nothing is no length"),
        ("span", Taken(), "35 5/4", None, "35 5/4"),
        ("span", Taken(), "nan", None, "nan"),
        ("span", Taken(spans={"A": SpanTaken("start")}), "1/2", None, "less than where the tape began"),
        ("span", Taken(spans={"A": SpanTaken("case")}), "37", None, "the case's length is not said"),
        ("rise", Taken(), "3/8", None, "which end is higher"),
        ("rise", Taken(rises={"A": RiseTaken("slope")}), "3/8 in", "left", "a slope is asked"),
        ("plumb-left", TOOLS, "3/16", None, "where the head leans"),
    ],
)
def test_what_cannot_be_kept_is_refused_with_what_to_do_and_stays_typed(what, taken, typed, side, sentence):
    state = begin(Deck().live(), what, taken).type(typed)
    state = state.pick(side) if side else state
    with pytest.raises(EntryError) as refusal:
        state.reading()
    refused = state.refused(str(refusal.value))
    assert sentence.lower() in refused.problem.lower()
    assert refused.entry.text == state.entry.text
    assert refused.shown().value is None and refused.shown().says.endswith(refused.problem)
    assert refused.press("1").problem == ""


def test_one_who_stands_outside_sees_the_picture_mirrored_and_the_names_stay():
    live = Deck().live()
    inside, outside = (asking(live, "A1", "rise", Taken(outside=o)) for o in (False, True))
    assert (inside.left, inside.right) == ("P1", "P2")
    assert (outside.left, outside.right) == ("P2", "P1")
    assert inside.sided("right").shape.tan == -outside.sided("right").shape.tan > 0


def test_the_drawing_knows_neither_plan_nor_neighbours():
    planned, other = Deck().live(), Deck().span("A2", "39").rise("A2").live()
    assert asking(planned, "A3", "span", Taken()) == asking(other, "A3", "span", Taken())
    assert asking(planned, "A3", "span", Taken()).shape.span == 40
