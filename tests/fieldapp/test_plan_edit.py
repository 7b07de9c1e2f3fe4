"""Bays, posts and runs of a plan that is there: every change makes a plan that can be read, or is refused with what to do."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.screens import plan_edit as edit
from measure.documents import read_words
from measure.errors import SpanbookError
from measure.length import inches
from tests.fieldapp.deck_file import deck_file

PLAN = deck_file()


def read(words):
    return read_words(words).job()


def posts_of(words):
    return {p["id"]: {k: v for k, v in p.items() if k != "id"} for p in words["posts"]}


def test_the_spacing_of_a_bay_with_a_planned_span_adds_half_of_both_faces():
    bay = edit.bay_of(PLAN, "A2")
    assert edit.spacing_of(PLAN, bay) == inches(43)  # 40 1/2 + (2 1/2 + 2 1/2) / 2
    assert edit.spacing_text(PLAN, bay) == "43 in"
    assert edit.run_length(PLAN, "A") == inches(4 * 43)


def test_a_spacing_takes_the_place_of_the_planned_span_and_of_no_other_bay():
    made = edit.with_spacing(PLAN, ["A2"], "44 in")
    assert [(b.tag, b.spacing) for b in read(made).bays if b.spacing] == [("A2", inches(44))]
    assert edit.bay_of(PLAN, "A2").get("spacing") is None


@pytest.mark.parametrize(("text", "told"), [("51 in", "50 in is the most"), ("2 in", "take up 2 1/2 in already")])
def test_a_spacing_that_cannot_be_is_refused_with_what_to_do(text, told):
    with pytest.raises(SpanbookError, match=told):
        edit.with_spacing(PLAN, ["A2"], text)


def test_a_length_is_shared_out_in_whole_steps_and_comes_out_exactly():
    made = edit.with_length(PLAN, "A", "170 1/8 in")
    spacings = [edit.spacing_of(made, b) for b in edit.run_bays(made, "A")]
    assert sum(s.nm for s in spacings) == inches(170, 8).nm
    assert {s.nm % inches(0, 4).nm for s in spacings} == {0} and max(spacings).nm - min(spacings).nm == inches(0, 4).nm
    assert edit.run_bays(made, "B") == edit.run_bays(PLAN, "B")


def test_a_bay_added_at_a_free_end_gets_new_names_and_the_old_end_is_a_line_post():
    made = edit.with_bay_added(PLAN, "A", "left")
    job = read(made)
    assert [b.tag for b in job.bays] == ["A5", "A1", "A2", "A3", "A4", "G1", "B1"]
    assert (job.bays[0].left, job.bays[0].right) == ("P8", "P1")
    assert posts_of(made)["P1"] == {"kind": "line"} and posts_of(made)["P8"] == {"kind": "wall"}


def test_a_new_bay_never_gets_the_name_of_one_that_readings_wait_for():
    made = edit.with_bay_added(PLAN, "B", "right", taken={"B2", "b3"})
    assert made["bays"][-1]["tag"] == "B4"


def test_a_bay_added_before_a_corner_moves_the_next_run_on_unless_it_was_read_there():
    made = edit.with_bay_added(PLAN, "A", "right")
    assert [(b["tag"], b["left"], b["right"]) for b in made["bays"][3:6]] == [("A4", "P4", "P5"), ("A5", "P5", "P8"), ("G1", "P8", "P6")]
    assert posts_of(made)["P5"] == {"kind": "line"} and posts_of(made)["P8"] == {"kind": "corner"}
    assert read(made).bays[4].spacing == inches(43)
    with pytest.raises(SpanbookError, match="Run B stands at post P5 too, and G1 was read from there"):
        edit.with_bay_added(PLAN, "A", "right", read={"G1"})


def test_a_bay_taken_off_leaves_a_free_end():
    made = edit.with_bay_removed(PLAN, "B", "right")
    assert [b.tag for b in read(made).bays] == ["A1", "A2", "A3", "A4", "G1"]
    assert posts_of(made)["P6"] == {"kind": "end"} and "P7" not in posts_of(made)


def test_a_bay_taken_off_before_a_corner_lets_the_corner_stand_one_bay_earlier():
    made = edit.with_bay_removed(PLAN, "A", "right")
    assert [(b.tag, b.left, b.right) for b in read(made).bays[2:4]] == [("A3", "P3", "P4"), ("G1", "P4", "P6")]
    assert posts_of(made)["P4"] == {"kind": "corner"} and "P5" not in posts_of(made)
    with pytest.raises(SpanbookError, match="choose “no glass” for A4"):
        edit.with_bay_removed(PLAN, "A", "right", read={"G1"})


@pytest.mark.parametrize(("run", "side"), [("A", "left"), ("A", "right"), ("B", "right")])
def test_a_bay_that_was_taken_off_comes_back_as_it_was(run, side):
    off = edit.with_bay_removed(PLAN, run, side)
    back = edit.with_bay_back(PLAN, off, run, side)
    assert read(back).bays == read(PLAN).bays and posts_of(back) == posts_of(PLAN)
    assert edit.with_bay_back(PLAN, PLAN, run, side) is None


def test_the_last_bay_of_a_run_is_not_taken_off_but_the_run_can_be():
    one = edit.with_bay_removed(PLAN, "B", "right")
    with pytest.raises(SpanbookError, match="take the whole run off"):
        edit.with_bay_removed(one, "B", "right")
    made = edit.with_run_removed(one, "B")
    assert [b.tag for b in read(made).bays] == ["A1", "A2", "A3", "A4"] and posts_of(made)["P5"] == {"kind": "end"}
    with pytest.raises(SpanbookError, match="one at least"):
        edit.with_run_removed(made, "A")


@pytest.mark.parametrize(("turn", "kind"), [("135", {"kind": "line", "angle": 135}), ("90", {"kind": "corner", "angle": 90})])
def test_a_run_is_added_round_the_corner(turn, kind):
    made = edit.with_run_added(PLAN, turn)
    last = read(made).bays[-1]
    assert (last.tag, last.run, last.left, last.spacing) == ("C1", "C", "P7", inches(43))
    assert posts_of(made)["P7"] == kind


def test_a_run_that_stands_alone_has_two_posts_of_its_own():
    made = edit.with_run_added(PLAN, "")
    assert (read(made).bays[-1].left, read(made).bays[-1].right) == ("P8", "P9")


def test_what_is_said_of_a_run_stands_in_the_runs_and_can_be_taken_out():
    made = edit.with_run(PLAN, "A", rack_follows="slope")
    assert [(r.name, r.rack_follows) for r in read(made).runs] == [("A", "slope"), ("B", None)]
    assert edit.run_of(edit.with_run(made, "A", rack_follows=None), "A") == {"run": "A"}
    assert edit.with_run(PLAN, "A", rack_follows=None) == PLAN


def test_an_end_post_has_no_angle():
    corner = edit.with_post(PLAN, "P7", kind="corner", angle=120)
    assert edit.post_of(corner, "P7") == {"id": "P7", "kind": "corner", "angle": 120}
    assert edit.post_of(edit.with_post(corner, "P7", kind="end"), "P7") == {"id": "P7", "kind": "end"}


@pytest.mark.parametrize(("post", "place"), [("P1", "alone"), ("P2", "inside"), ("P5", "shared"), ("P7", "alone")])
def test_where_a_post_stands_tells_what_it_can_be(post, place):
    assert edit.place_of(PLAN, post) == place


@pytest.mark.parametrize("change", [edit.with_bay_added, edit.with_bay_removed])
def test_the_left_end_of_a_run_round_the_corner_is_changed_like_the_right_end_of_the_one_before(change):
    made = change(PLAN, "B", "left")
    job = read(made)
    corner = job.bays[3].right
    assert job.bays[4].left == corner and posts_of(made)[corner] == {"kind": "corner"}
    assert sum(p["kind"] == "corner" for p in made["posts"]) == 1 and len(made["posts"]) == len(job.bays) + 1
    with pytest.raises(SpanbookError, match="Run A stands at post P5 too, and A4 was read from there"):
        change(PLAN, "B", "left", read={"A4"})


STEPS = st.tuples(st.sampled_from(["add", "remove", "run", "off", "post", "space", "length"]), st.integers(0, 5), st.sampled_from(["left", "right"]))


@settings(max_examples=60, deadline=None)
@given(st.lists(STEPS, max_size=12))
def test_whatever_is_changed_one_after_the_other_stays_a_plan_that_can_be_read(steps):
    words = PLAN
    for what, number, side in steps:
        runs = edit.run_names(words)
        run = runs[number % len(runs)]
        post = words["posts"][number % len(words["posts"])]["id"]
        changes = {
            "add": lambda: edit.with_bay_added(words, run, side), "remove": lambda: edit.with_bay_removed(words, run, side),  # noqa: B023 - called at once
            "run": lambda: edit.with_run_added(words, ["", "90", "135"][number % 3]), "off": lambda: edit.with_run_removed(words, run),  # noqa: B023
            "post": lambda: edit.with_post(words, post, face="3 in", kind="wall" if edit.place_of(words, post) == "alone" else None),  # noqa: B023
            "space": lambda: edit.with_spacing(words, [edit.run_bays(words, run)[0]["tag"]], f"{30 + number} in"),  # noqa: B023
            "length": lambda: edit.with_length(words, run, f"{40 * len(edit.run_bays(words, run)) + number} in"),  # noqa: B023
        }  # fmt: skip
        if what == "post" and edit.place_of(words, post) != "alone":
            continue
        try:
            words = changes[what]()
        except SpanbookError:
            continue
        read(words)
