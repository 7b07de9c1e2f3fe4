"""The runs of a new job: spacings, posts, gates, turns, and what is said of them."""

from dataclasses import replace

import pytest

from fieldapp.screens import runs_model as model
from fieldapp.screens.new_form import NewForm, RunForm
from measure.errors import SpanbookError
from measure.length import inches, millimetres

IN = NewForm.fresh("in").say("system", post_face="2 1/2 in", greatest_spacing="50 in")
MM = NewForm.fresh("mm").say("system", post_face="60 mm", greatest_spacing="1300 mm")


def with_runs(form, *runs):
    return replace(form, runs=runs)


def test_bays_and_spacing_are_laid_as_said():
    assert model.laid(IN, RunForm(bays=5, spacing="44 in")) == (inches(44),) * 5


def test_a_whole_length_is_laid_in_as_few_equal_bays_as_the_system_allows():
    # ceil(4000 / 1300) = 4 bays of 1000 mm.
    assert model.laid(MM, RunForm(by="length", length="4000 mm")) == (millimetres(1000),) * 4


@pytest.mark.parametrize(
    ("run", "told"),
    [
        (RunForm(bays=2, spacing="51 in"), "50 in is the most"),
        (RunForm(bays=2, spacing="2 1/2 in"), "Nothing is left"),
        (RunForm(bays=0, spacing="44 in"), "From one bay"),
        (RunForm(by="length", length="0 in"), "longer than nothing"),
    ],
)
def test_a_run_that_cannot_be_is_refused_with_what_to_do(run, told):
    with pytest.raises(SpanbookError, match=told):
        model.laid(IN, run)
    assert not model.told(IN, run).ok


@pytest.mark.parametrize(
    ("run", "sentence"),
    [
        (RunForm(bays=5, spacing="44 in"), "222 1/2 in from outside to outside"),
        (RunForm(bays=5), "Spacing: middle of one post to the next."),
        (RunForm(bays=5, spacing="4/ in"), "Spacing: middle of one post to the next."),
        (RunForm(by="length", length="100 in"), "2 × 50 in, overall 102 1/2 in"),
        (RunForm(by="length", length="100 1/16 in"), "3 bays, spaced 33 5/16 in to 33 3/8 in"),
    ],
)
def test_a_run_says_what_it_comes_to_while_it_is_typed(run, sentence):
    assert model.told(IN, run) == model.Told(sentence)


def test_a_corner_is_shared_by_its_two_runs():
    form = with_runs(IN, RunForm(2, "44 in", right="corner"), RunForm(1, "40 in", turn="90", right="wall", face="2 in"))
    words = model.plan_words(form)
    assert [p["kind"] for p in words["posts"]] == ["end", "line", "corner", "wall"]
    assert words["posts"][2]["angle"] == 90 and words["posts"][3]["face"] == "2 in"
    assert [(b["tag"], b["left"], b["right"]) for b in words["bays"]] == [
        ("A1", "P1", "P2"),
        ("A2", "P2", "P3"),
        ("B1", "P3", "P4"),
    ]


def test_a_run_that_stands_alone_has_its_own_first_post():
    words = model.plan_words(with_runs(IN, RunForm(1, "44 in", right="wall"), RunForm(1, "44 in", left="wall")))
    assert [p["kind"] for p in words["posts"]] == ["end", "wall", "wall", "end"]


def test_a_corner_that_no_run_follows_is_an_end_post():
    assert model.plan_words(with_runs(IN, RunForm(1, "44 in", right="corner")))["posts"][-1]["kind"] == "end"


def test_a_gate_has_no_glass_and_a_panel_takes_it_back():
    form = model.with_bay(with_runs(IN, RunForm(3, "44 in")), "A2", "none")
    assert [b.get("glass") for b in model.plan_words(form)["bays"]] == [None, "none", None]
    assert model.what_stands(form, "A2") == "none" and model.what_stands(form, "A1") == "panel"
    assert model.what_stands(model.with_bay(form, "A2", "panel"), "A2") == "panel"


def test_a_gate_beyond_a_run_that_was_made_shorter_is_forgotten():
    form = model.with_bay(with_runs(IN, RunForm(3, "44 in")), "A3", "none").with_run(0, bays=2)
    assert [b.get("glass") for b in model.plan_words(form)["bays"]] == [None, None]


def test_the_planned_span_takes_half_of_each_of_its_two_faces():
    # 44 − 2 1/2 = 41 1/2; at a wall post of 2 in: 44 − (2 1/2 + 2)/2 = 41 3/4 (by hand).
    form = with_runs(IN, RunForm(2, "44 in", right="wall", face="2 in"))
    assert model.bay_line(form, "A1") == ("44 in", "Planned span 41 1/2 in between the posts.")
    assert model.bay_line(form, "A2") == ("44 in", "Planned span 41 3/4 in between the posts.")


def test_the_sum_line_counts_bays_panels_and_posts_by_kind():
    form = model.with_bay(
        with_runs(IN, RunForm(3, "44 in", right="corner"), RunForm(2, "44 in", turn="90", right="wall")), "A1", "way"
    )
    assert model.sums(form) == model.Sums("5 bays", "4 panels", "6 posts", "1 end, 3 line, 1 corner, 1 wall")


def test_the_drawing_has_every_run_and_the_one_being_said():
    form = with_runs(IN, RunForm(2, "44 in", right="corner"), RunForm(1, turn="135"))
    drawn = model.drawn(form, 1, RunForm(4, "40 in", turn="135"))
    assert [len(run.bays) for run in drawn] == [2, 4] and drawn[0].turn == 135.0 and drawn[1].turn is None


def test_adding_and_taking_off_turn_an_end_into_a_corner_and_back():
    form = model.next_run(with_runs(IN, RunForm(2, "44 in")), "90")
    assert (form.runs[0].right, form.runs[1].turn) == ("corner", "90")
    assert model.without_last(form).runs == (RunForm(2, "44 in"),)
    assert model.next_run(form, "").runs[1].right == "end"


@pytest.mark.parametrize(
    ("angle", "told"),
    [
        ("90", "no panel turns"), ("270", "no panel turns"), ("135", "22.5°"), ("180", "In one line"), ("100", "5°"),
        ("0", "Whole degrees"), ("360", "Whole degrees"), ("x", "Whole degrees"), ("", ""),
    ],
)  # fmt: skip
def test_an_angle_says_how_far_the_panels_turn(angle, told):
    assert told in model.turned(angle)
