"""The walk: a press patches figure, echo, blade and the lit key, and nothing that holds the other keys."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import flet as ft
import pytest

from fieldapp.parts.bay_shape import BayShape
from fieldapp.parts.key import Key
from fieldapp.parts.question import Question, Typed
from fieldapp.parts.reading_pictures import run_overall
from fieldapp.parts.walk_stage import WalkStage
from fieldapp.theme import Look

SIDES = (("left", "left higher", "left higher"), ("level", "level", "level"), ("right", "right higher", "right higher"))
SPAN = Question(
    "A3", "span", "Tape tight, just above the base plates.", "bay A3", shape=BayShape(40, 2.5, 2.5, 0.01, 5), empty="lies here"
)
RISE = replace(SPAN, what="rise", ask="rise", sides=SIDES)
QUESTIONS = {
    "span": SPAN,
    "top span": replace(SPAN, ask="top-span"),
    "rise": RISE,
    "base rise": replace(RISE, ask="base-rise"),
    "diagonal": replace(SPAN, ask="diagonal-rising"),
    "overall": replace(SPAN, picture=run_overall(5, "outside")),
    "mm": replace(SPAN, units="mm", pad="decimal", shape=BayShape(1000, 65, 65)),
}
LOOKS = [Look(), Look("shade", 2.0), Look(width=375, height=667), Look(large_keys=True), Look(width=1280, height=800)]
EMPTY = Typed(unit="in", says="nothing typed")
FORTY = Typed("40", None, "in", "1016 mm", "40 in", Fraction(40))
FORTY_7 = Typed("40", Fraction(7, 16), "in", "1027.1 mm", "40 7/16 in", Fraction(647, 16), "7/16")


def below(control: ft.Control) -> list[ft.Control]:
    inside = [*(getattr(control, "controls", None) or []), getattr(control, "content", None)]
    return [control, *(c for one in inside if isinstance(one, ft.Control) for c in below(one))]


def seen(control: ft.Control) -> list[ft.Control]:
    inside = [*(getattr(control, "controls", None) or []), getattr(control, "content", None)]
    return [control, *(c for one in inside if isinstance(one, ft.Control) for c in seen(one))] if control.visible else []


def stage(look: Look, question: Question) -> WalkStage:
    made = WalkStage(look, ft.Container(height=56), lambda _: None, pick=lambda _: None)
    made.ask(question, "right" if question.sides else None)
    made.show(EMPTY)
    return made


def named(made: WalkStage) -> dict[str, ft.Semantics]:
    return {c.identifier: c for c in below(made.control) if isinstance(c, ft.Semantics) and c.identifier}


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("question", QUESTIONS.values(), ids=QUESTIONS)
def test_a_press_updates_only_the_lit_key_and_what_holds_no_key(look: Look, question: Question):
    made = stage(look, question)
    made.show(FORTY)
    changed = made.show(FORTY_7)
    assert changed
    for control in changed:
        keys = [c for c in below(control) if isinstance(c, Key)]
        assert keys in ([], [control])
        assert not [c for c in below(control) if isinstance(c, ft.Button)]


def test_a_press_touches_few_controls():
    made = stage(Look(), SPAN)
    made.show(FORTY)
    assert sum(len(below(control)) for control in made.show(FORTY_7)) < 60


@pytest.mark.parametrize("look", [Look(), Look("shade"), Look(hand="left")])
@pytest.mark.parametrize("question", QUESTIONS.values(), ids=QUESTIONS)
def test_place_question_and_entry_can_be_found_from_outside(look: Look, question: Question):
    made = stage(look, question)
    made.show(FORTY_7)
    found = named(made)
    assert found["entry"].label == "40 7/16 in"
    assert found["place"].content.value == "A3"
    assert found["question"].label == f"{question.what}. {question.where}"


def test_the_lit_sixteenth_follows_what_is_typed():
    made = stage(Look(), SPAN)
    keys = {c.name: c for c in below(made.control) if isinstance(c, Key)}
    made.show(FORTY_7)
    assert keys["7/16"].bgcolor == Look().tape
    made.show(FORTY)
    assert keys["7/16"].bgcolor == Look().tape2


def test_keys_are_built_once_for_all_questions_of_a_walk():
    made = stage(Look(), SPAN)
    first = [id(c) for c in below(made.control) if isinstance(c, Key)]
    made.ask(RISE, None)
    made.ask(replace(SPAN, tag="A4"))
    assert [id(c) for c in below(made.control) if isinstance(c, Key)] == first


def test_a_new_question_shows_no_figure_of_the_old_one():
    made = stage(Look(), SPAN)
    made.show(FORTY_7)
    made.ask(replace(SPAN, tag="A4"))
    made.show(EMPTY)
    words = [c.value for c in seen(made.control) if isinstance(c, ft.Text)]
    assert "40" not in words and "lies here" in words


def test_why_a_figure_is_not_kept_stands_where_its_blade_would_lie():
    made = stage(Look(), SPAN)
    made.show(replace(EMPTY, problem="40 5/4 is more than a whole inch."))
    assert "40 5/4 is more than a whole inch." in [c.value for c in below(made.control) if isinstance(c, ft.Text)]
    made.show(EMPTY)
    assert "lies here" in [c.value for c in below(made.control) if isinstance(c, ft.Text)]


def test_choosing_the_higher_end_turns_the_drawing_and_no_key():
    made = stage(Look(), RISE)
    lines = made._stage.picture.lines
    changed = made.show_side("left", replace(RISE, shape=replace(RISE.shape, tan=-0.01)))
    turned = made._stage.picture.lines
    assert (lines.foot_l > lines.foot_r, turned.foot_l > turned.foot_r) == (True, False)
    assert not [c for control in changed for c in below(control) if isinstance(c, Key)]


def test_the_posts_face_in_the_drawing_runs_into_the_blade_at_the_figure():
    made = stage(Look(), SPAN)
    assert made._stage.blade._at == made._stage.picture.lines.xr


@pytest.mark.parametrize(("look", "scrolls"), [(Look(width=844, height=390), True), (Look(width=375, height=553), False), (Look(), False)])
def test_on_a_phone_that_lies_on_its_side_the_page_scrolls_to_keep(look: Look, scrolls: bool):
    made = stage(look, SPAN)
    assert (getattr(made.control.content, "scroll", None) is not None) == scrolls
    assert {"keep"} <= {c.name for c in seen(made.control) if isinstance(c, Key)}


def test_showing_before_asking_is_refused():
    made = WalkStage(Look(), ft.Container(), lambda _: None)
    with pytest.raises(RuntimeError):
        made.show(EMPTY)


@pytest.mark.parametrize("look", LOOKS[1:4])
def test_on_a_tight_screen_the_head_says_the_bay_and_the_picture_stands_low_above_the_keys(look: Look):
    made = stage(look, SPAN)
    made.show(FORTY_7)
    found = named(made)
    assert made._stage.flat and "place" not in found
    assert found["question"].label == f"span. {SPAN.where}"
    assert made._stage.blade._at == made._stage.picture.lines.xr
    assert made._stage.picture.height >= 100


def test_where_a_low_picture_has_no_room_either_it_scrolls_with_the_words():
    made = stage(Look("sun", 2.0, width=375, height=667), SPAN)
    assert not made._stage.flat and made._stage.scrolled is not None


@pytest.mark.parametrize("look", LOOKS[:4])
@pytest.mark.parametrize("question", QUESTIONS.values(), ids=QUESTIONS)
def test_what_must_stay_in_sight_fits_above_the_keys(look: Look, question: Question):
    made = stage(look, question)
    head = 56 if look.tight else 56 + 58
    sides = 56 if question.sides else 0
    drawn = made._stage.blade.height + 34 if question.layout != "upright" else made._stage.blade.width
    if made._stage.flat:
        drawn = made._stage.picture.height + (0 if question.layout == "upright" else made._stage.blade.height + 28)
        drawn += made._stage._below_h
    elif look.tight and question.layout != "upright":
        drawn += 60 if not look.big else 96
    gap, foot = (8, 16 if look.height > 700 else 8) if look.tight else (0, 16)
    assert head + sides + drawn + gap + made._pad.height + foot <= look.height
