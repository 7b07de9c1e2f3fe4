"""What the contract refuses in a job file beyond its shape, each with its place; and that honest files beside it pass."""

from decimal import Decimal

import pytest

from measure.tag import same_tag, tag_trouble

ZERO = (0, "0", "0 in", "0 mm", Decimal("0.0"))

# Lengths by place; the contract: 0 is a length only for rises, plumb, least_play, tolerances, turn_axis, placing, start, case.
ABOVE_ZERO = [
    ("tape", "division"), ("tape", "laser"),
    *(("system", k) for k in ("post_face", "base_plate", "greatest_spacing", "allowance", "groove_depth", "least_bite", "post_height")),
    *(("glass", k) for k in ("thickness", "height", "least_width", "greatest_width", "least_height", "greatest_height")),
    ("posts", 0, "face"), ("posts", 1, "height"), ("bays", 0, "spacing"), ("bays", 0, "height"), ("readings", 0, "value"),
    ("readings", 3, "value"), ("readings", 1, "over"),
]  # fmt: skip
ZERO_TOO = [
    ("tape", "placing"), ("system", "least_play"), ("system", "turn_axis"), ("glass", "size_tolerance"), ("limits", "plan_tolerance"),
    ("limits", "second_tape"), ("limits", "lean"), ("readings", 0, "start"), ("readings", 0, "case"), ("readings", 1, "value"),
]  # fmt: skip


def put(job, path, value):
    *way, last = path
    for key in way:
        job = job[key]
    job[last] = value


def place(path):
    """The place as the reader writes it, without whose entry it is."""
    return "".join(f"[{p}]" if isinstance(p, int) else f".{p}" for p in path).lstrip(".")


def places(found):
    return [p.split(" (")[0] for p in found]


@pytest.mark.parametrize("path", ABOVE_ZERO, ids=place)
@pytest.mark.parametrize("zero", ZERO, ids=str)
def test_a_length_of_0_is_refused_where_only_more_makes_sense(job, problems, path, zero):
    put(job, path, zero)
    assert places(problems(job)) == [place(path)]


@pytest.mark.parametrize("path", ZERO_TOO, ids=place)
@pytest.mark.parametrize("zero", ZERO, ids=str)
def test_a_length_of_0_is_read_where_it_makes_sense(job, read, path, zero):
    put(job, path, zero)
    assert read(job)


@pytest.mark.parametrize("typed", ["", " ", "-3/8 in", "35 5/4", "35 1/3", "35.5 1/4", "1e3", "nan", "inf", "1,250", "3 ft 2 mm", "101 m", "5."])
def test_a_figure_that_is_no_length_is_refused_with_what_to_type_instead(job, problems, typed):
    job["readings"][0]["value"] = typed
    (sentence,) = problems(job).values()
    assert sentence.endswith((".", "?"))
    assert len(sentence) > 20


@pytest.mark.parametrize(("units", "steps"), [("in", ["1/16 in", "1/32 in", "0.0625", Decimal("0.03125")]), ("mm", ["1 mm", 1, "0.5 mm", "0,5"])])
def test_order_steps_by_units(job, read, problems, units, steps):
    job["job"]["units"] = units
    for step in steps:
        job["job"]["order_step"] = step
        assert read(job).order_step.nm > 0
    for step in ("1/8 in", "2 mm", "1 mm" if units == "in" else "1/16 in", "1/64 in", 0):
        job["job"]["order_step"] = step
        assert places(problems(job)) == ["job.order_step"]


# ---- tags, posts, runs ----------------------------------------------------------------------------------------------------

GOOD_TAGS = ["A12", "a", "A 1", "A.1", "A_1", "A-1", "Gate", "North side 12-b", "ABCDEFGHIJKLMNOP", "MARINA1", "DECK1", "MAY-A1", "T1E5", "MAR", "DE1"]
NO_TAGS = {
    "": "Nothing stands here", "  ": "Nothing stands here", "1A": "a letter A to Z first", "1e5": "a letter A to Z first", "3-4": "a letter",
    "_A": "a letter", "A/1": "is no tag", "A:1": "is no tag", "Ä1": "is no tag", "А1": "is no tag", "A１": "is no tag", "A\n": "is no tag",
    "ABCDEFGHIJKLMNOPQ": "16 at most", "A1 ": "ends in a space", "=A1": "is no tag", "A1,B": "is no tag",
    "MAR1": "as a date", "mar 1": "as a date", "March 2026": "as a date", "DEC-3": "as a date", "Sept.5": "as a date", "OKT1": "as a date",
    "Jan 5 26": "as a date", "AVR12": "as a date", "JAN 1.": "as a date", "MAI 1": "as a date", "TRUE": "truth value", "false": "truth value", "Wahr": "truth value",
}  # fmt: skip


@pytest.mark.parametrize("tag", GOOD_TAGS)
def test_tags_that_can_be(job, read, tag):
    assert tag_trouble(tag) is None
    job["bays"][1]["tag"] = job["answers"][0]["bay"] = tag
    assert read(job)


@pytest.mark.parametrize(("tag", "words"), NO_TAGS.items(), ids=lambda v: ascii(v)[:20])
def test_what_is_no_tag_is_refused_for_a_bay_and_for_a_run(job, problems, tag, words):
    job["bays"][1]["tag"] = job["answers"][0]["bay"] = tag
    assert words in problems(job)[next(p for p in problems(job) if p.startswith("bays[1].tag"))]
    job["bays"][1]["tag"] = job["answers"][0]["bay"] = "A2"
    for part in (job["runs"][0], *job["bays"], job["readings"][3]):
        part["run"] = tag
    assert places(problems(job)) == ["runs[0].run", "bays[0].run"]


def test_a_tag_twice_is_refused_also_where_only_capitals_or_spaces_differ(job, problems):
    for again in ("A1", "a1"):
        job["bays"][1]["tag"] = job["answers"][0]["bay"] = again
        assert "is there already, as bays[0]" in problems(job)[f"bays[1].tag (bay {again})"]
    assert same_tag("Side  2") == same_tag("side 2") != same_tag("Side2")


def test_a_post_twice_is_refused(job, problems):
    job["posts"].append({"id": "P2", "kind": "line"})
    assert "is there already, as posts[1]" in problems(job)["posts[3].id (post P2)"]


def test_a_run_twice_a_run_without_a_bay_and_two_spellings_of_a_run_are_refused(job, problems):
    job["runs"] += [{"run": "A"}, {"run": "B"}]
    found = problems(job)
    assert "is there already" in found["runs[1].run (run A)"]
    assert "has no bay" in found["runs[2].run (run B)"]
    del job["runs"][1:]
    job["bays"][1]["run"] = "a"
    assert "write it one way" in problems(job)["bays[1].run (bay A2)"]


def test_a_bay_without_posts_is_refused(job, problems):
    del job["bays"][0]["left"], job["bays"][0]["right"]
    assert places(problems(job)) == ["bays[0].left", "bays[0].right"]


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_post_that_does_not_exist_is_refused(job, problems, side):
    job["bays"][0 if side == "left" else 1][side] = "P9"
    assert "No post has the id “P9”" in problems(job)[f"bays[{0 if side == 'left' else 1}].{side} (bay A{1 if side == 'left' else 2})"]


def test_a_bay_from_a_post_to_itself_is_refused(job, problems):
    job["bays"][1]["right"] = "P2"
    assert "left and right of this bay" in problems(job)["bays[1].right (bay A2)"]


def test_spacing_or_span_is_planned_not_both_and_not_neither(job, read, problems):
    del job["bays"][0]["spacing"]
    assert "Nothing is planned" in problems(job)["bays[0] (bay A1)"]
    job["bays"][0] |= {"span": "41 1/2 in"}
    assert read(job).bays[0].planned_span is not None
    job["bays"][0] |= {"spacing": "44 in"}
    assert "keep one of them" in problems(job)["bays[0].span (bay A1)"]


def test_a_way_through_needs_no_planned_figure(job, read):
    del job["bays"][0]["spacing"]
    job["bays"][0]["glass"] = "none"
    assert not read(job).bays[0].has_glass


def test_a_spacing_that_leaves_nothing_between_the_faces_is_refused(job, problems):
    job["bays"][0]["spacing"] = "2 1/4 in"  # half of 2 in and half of 2 1/2 in
    assert "nothing is left" in problems(job)["bays[0].spacing (bay A1)"]


# ---- a run is one straight line -------------------------------------------------------------------------------------------


def test_runs_that_meet_at_a_corner_pass(line, read):
    assert [run.name for run in read(line).runs] == ["A", "B"]


def test_bays_of_a_run_that_do_not_follow_each_other_are_refused(line, problems):
    line["bays"] = [line["bays"][i] for i in (0, 2, 3, 1)]
    assert "do not follow each other" in problems(line)["bays[3].run (bay A2)"]


def test_a_right_post_that_is_not_the_next_left_one_is_refused(line, problems):
    line["bays"] = [line["bays"][i] for i in (1, 0, 2, 3)]
    assert "goes on from post “P3”, the right one of bay “A2”, not from “P1”" in problems(line)["bays[1].left (bay A1)"]


@pytest.mark.parametrize(
    ("post", "place"),
    [
        ({"kind": "corner"}, "posts[1].kind (post P2)"),
        ({"kind": "end"}, "posts[1].kind (post P2)"),
        ({"kind": "wall"}, "posts[1].kind (post P2)"),
        ({"kind": "line", "angle": 179}, "posts[1].angle (post P2)"),
        ({"kind": "corner", "angle": Decimal("90.5")}, "posts[1].angle (post P2)"),
        ({"kind": "wall", "angle": 90}, "posts[1].angle (post P2)"),
    ],
)
def test_a_post_inside_a_run_that_is_not_straight_is_refused(line, problems, post, place):
    line["posts"][1] = {"id": "P2", **post}
    assert "inside a run posts are straight" in problems(line)[place]


@pytest.mark.parametrize("post", [{"kind": "line", "angle": 180}, {"kind": "corner", "angle": 180}, {"kind": "line", "angle": Decimal("180.0")}])
def test_a_straight_post_inside_a_run_passes(line, read, post):
    line["posts"][1] = {"id": "P2", **post}
    assert read(line)


@pytest.mark.parametrize("post", [{"kind": "corner", "angle": 135}, {"kind": "line"}, {"kind": "line", "angle": 172}, {"kind": "corner", "angle": 270}])
def test_any_angle_passes_where_one_run_goes_over_into_the_next(line, read, post):
    line["posts"][2] = {"id": "P3", **post}
    assert read(line)


def test_a_run_that_comes_back_to_its_own_post_is_refused(line, problems):
    line["bays"][1]["right"] = "P1"
    assert "one straight line" in problems(line)["bays[1].right (bay A2)"]


def test_a_post_with_three_bays_is_refused(line, problems):
    line["bays"].append({"tag": "C1", "run": "C", "left": "P3", "right": "P9", "spacing": "44 in"})
    line["posts"].append({"id": "P9", "kind": "end"})
    assert "two bays already" in problems(line)["bays[4].left (bay C1)"]


@pytest.mark.parametrize("angle", [0, 90, 180, 360, Decimal("22.5")])
def test_an_angle_is_read_from_0_to_360(line, read, angle):
    line["posts"][4]["angle"] = angle
    assert read(line).posts[4].angle == angle


@pytest.mark.parametrize("angle", [-1, Decimal("360.1"), 1000, Decimal("-0.5")])
def test_an_angle_beyond_0_to_360_is_refused(line, problems, angle):
    line["posts"][4]["angle"] = angle
    assert "0 at least and 360 at most" in problems(line)["posts[4].angle (post P5)"]


def test_an_angle_on_an_end_post_is_refused(line, problems):
    line["posts"][0]["angle"] = 180
    assert "An end post has one panel" in problems(line)["posts[0].angle (post P1)"]


@pytest.mark.parametrize("kind", ["end", "wall"])
def test_an_angle_between_two_grooves_is_refused_where_a_post_has_one(job, problems, kind):
    job["system"]["turning"][kind] = {"each": 20, "grooves": 90}
    assert "has one groove" in problems(job)[f"system.turning.{kind}.grooves"]


@pytest.mark.parametrize("at", ["soon", "2026", "20.4.2026", "2026-02-30", "2026-04-20 morning"])
def test_a_sheet_is_confirmed_on_a_date(job, problems, at):
    job["system"]["confirmed"]["at"] = at
    assert "2026" in problems(job)["system.confirmed.at"]


@pytest.mark.parametrize("at", ["2026-04-20", "2026-04-20T08:00:00Z", ""])
def test_a_date_a_time_or_nothing_at_all_confirms_a_sheet(job, read, at):
    job["system"]["confirmed"]["at"] = at
    assert read(job).system.confirmed.at == at


# ---- answers, moved posts, notes ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("change", "key", "sentence"),
    [
        ({"check": "off plan"}, "check", "“off plan” is no check: say one of missing, read-back"),
        ({"check": "Grip"}, "check", "is no check"),
        ({"bay": "A7"}, "bay", "No bay has the tag"),
        ({"run": "A"}, "run", "keep one of them"),
        ({"reason": " "}, "reason", "why it stands"),
        ({"by": ""}, "by", "who answers"),
        ({"at": "2026-05-02"}, "at", "no date and time"),
    ],
)
def test_answers_that_cannot_be(job, problems, change, key, sentence):
    job["answers"][0] |= change
    assert sentence in problems(job)[f"answers[0].{key} (bay {job['answers'][0]['bay']})"]


def test_an_answer_is_for_a_bay_or_a_run(job, read, problems):
    del job["answers"][0]["bay"]
    assert "say which one" in problems(job)["answers[0].bay"]
    job["answers"][0]["run"] = "A"
    assert read(job).answers[0].run == "A"
    job["answers"][0]["run"] = "Z"
    assert "No bay is in a run called" in problems(job)["answers[0].run (run Z)"]


@pytest.mark.parametrize("check", ["missing", "closing-rise", "slip", "guard", "sheet"])
def test_every_check_of_the_contract_is_known(job, read, check):
    job["answers"][0]["check"] = check
    assert read(job)


def test_a_moved_post_exists(job, problems):
    job["moved"][0] |= {"post": "P9", "by": " "}
    assert places(problems(job)) == ["moved[0].by", "moved[0].post"]


def test_a_note_says_something_of_a_bay(job, read, problems):
    note = {"bay": "A1", "by": "M", "at": "2026-05-02T09:31:00Z"}
    job["notes"] = [note | {"text": "mind the cable"}, note | {"photo": "A1-left.jpg"}]
    assert read(job)
    job["notes"] = [note, note | {"text": "x", "bay": "A7"}]
    assert places(problems(job)) == ["notes[0]", "notes[1].bay"]


def test_another_devices_plan_is_judged_as_this_one_is(job, read, problems):
    plan = {k: v for k, v in job.items() if k not in ("readings", "moved", "answers")}
    version = {"id": "v1", "by": "M", "at": "", "before": []}
    job["history"] = {"job": "j1", "plan": version, "other_plans": [version | {"plan": plan}], "unplaced": {"readings": []}}
    assert read(job)
    job["history"]["other_plans"][0]["plan"] = plan | {"bays": [plan["bays"][0] | {"left": "P9"}], "runs": []}
    job["history"]["unplaced"]["readings"] = [{"bay": "gone", "what": "span", "value": "x", "by": "M", "at": "now"}]
    assert places(problems(job)) == [
        "history.other_plans[0].plan.bays[0].left", "history.unplaced.readings[0].value", "history.unplaced.readings[0].at",
    ]  # fmt: skip
