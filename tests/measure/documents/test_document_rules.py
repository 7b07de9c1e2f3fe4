"""What the contract refuses in a job file beyond its shape, each with its place; and that honest files beside it pass."""

from decimal import Decimal

import pytest

from measure.length import Length
from measure.reading import Reading
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


@pytest.fixture
def line(job):
    """Four bays in two runs that meet at P3; no readings."""
    for key in ("readings", "moved", "answers"):
        del job[key]
    job["runs"] = [{"run": "A"}, {"run": "B"}]
    job["posts"] = [
        {"id": "P1", "kind": "end"}, {"id": "P2", "kind": "line"}, {"id": "P3", "kind": "corner"}, {"id": "P4", "kind": "line"},
        {"id": "P5", "kind": "wall"},
    ]  # fmt: skip
    job["bays"] = [
        {"tag": f"{run}{i}", "run": run, "left": f"P{i}", "right": f"P{i + 1}", "spacing": "44 in"} for run, i in ("A1", "A2", "B3", "B4") for i in [int(i)]
    ]  # fmt: skip
    return job


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


# ---- readings -------------------------------------------------------------------------------------------------------------

STAMP = {"by": "M", "at": "2026-05-02T11:00:00Z"}
READS = {
    "span along": {"bay": "A1", "what": "span", "value": "41 3/4", "taped": "along"},
    "top span": {"bay": "A1", "what": "top-span", "value": "41 3/4", "how": "marks", "role": "second"},
    "rise of 0": {"bay": "A1", "what": "rise", "value": 0},
    "rise without a high end": {"bay": "A1", "what": "rise", "value": "3/8"},
    "rise over faces": {"bay": "A1", "what": "rise", "value": "3/8", "high": "left", "over": "faces"},
    "rise over a level": {"bay": "A1", "what": "rise", "value": "3/8", "high": "left", "over": "24 in"},
    "base rise": {"bay": "A1", "what": "base-rise", "value": "3/8", "high": "right"},
    "degrees": {"bay": "A1", "what": "rise", "value": "1.2 deg", "high": "right"},
    "per cent": {"bay": "A1", "what": "base-rise", "value": "2 %", "high": "right"},
    "a ratio": {"bay": "A1", "what": "rise", "value": "1:48", "high": "right"},
    "in per ft": {"bay": "A1", "what": "rise", "value": "1/4 in/ft", "high": "right"},
    "mm per m": {"bay": "A1", "what": "rise", "value": "20 mm/m", "high": "right"},
    "diagonal": {"bay": "A1", "what": "diagonal-rising", "value": "55 in", "mark": "36 in"},
    "plumb": {"post": "P2", "what": "plumb", "value": "1/8 in", "over": "40 in", "toward": "left", "run": "A"},
    "plumb, upright": {"post": "P2", "what": "plumb", "value": 0, "over": "40 in"},
    "overall": {"run": "A", "what": "overall", "value": "90 5/8 in", "taped": "along", "case": "3 in"},
    "overall rise": {"run": "A", "what": "overall-rise", "value": "3/4 in", "high": "right"},
    "overall slope": {"run": "A", "what": "overall-rise", "value": "0.8 %", "high": "right"},
    "span with a case": {"bay": "A1", "what": "span", "value": "38 3/4", "case": "3 in", "how": "case", "start": "1 in"},
}


@pytest.mark.parametrize("words", READS.values(), ids=READS)
def test_readings_that_can_be(job, read, words):
    job["readings"].append(words | STAMP)
    assert isinstance(read(job).readings[-1], Reading)


# What is wrong with it: the reading, the key, words of the sentence.
REFUSED = [
    ({"what": "span", "value": "41 in"}, "bay", "of a bay: say which one"),
    ({"what": "plumb", "value": 0, "over": "40 in"}, "post", "of a post: say which one"),
    ({"what": "overall", "value": "90 in"}, "run", "of a run: say which one"),
    ({"bay": "A9", "what": "span", "value": "41 in"}, "bay", "No bay has the tag “A9”"),
    ({"post": "P9", "what": "plumb", "value": 0, "over": "40 in"}, "post", "No post has the id “P9”"),
    ({"run": "Z", "what": "overall", "value": "90 in"}, "run", "No bay is in a run called “Z”"),
    ({"bay": "A1", "run": "A", "what": "span", "value": "41 in"}, "run", "not of a run"),
    ({"bay": "A1", "post": "P1", "what": "rise", "value": 0}, "post", "not of a post"),
    ({"bay": "A1", "what": "span", "value": "41 in", "high": "left"}, "high", "Only a rise has a high end"),
    ({"bay": "A1", "what": "diagonal-rising", "value": "55 in", "mark": "36 in", "high": "left"}, "high", "Only a rise has a high end"),
    ({"bay": "A1", "what": "span", "value": "41 in", "over": "faces"}, "over", "Only a rise or a plumb reading"),
    ({"bay": "A1", "what": "rise", "value": "2 %", "high": "left", "over": "centres"}, "over", "A slope is no length over something"),
    ({"bay": "A1", "what": "rise", "value": "2 %", "high": "left", "start": "1 in"}, "start", "A slope has no start"),
    ({"bay": "A1", "what": "rise", "value": "2 %", "high": "left", "case": "3 in"}, "case", "A slope has no tape case"),
    ({"bay": "A1", "what": "rise", "value": "60 deg", "high": "left"}, "value", "60 deg"),
    ({"bay": "A1", "what": "rise", "value": "175 %", "high": "left"}, "value", "175 %"),
    ({"bay": "A1", "what": "rise", "value": "3/8", "over": "middle"}, "over", "middle"),
    ({"bay": "A1", "what": "rise", "value": "3/8", "over": 0}, "over", "more than 0"),
    ({"bay": "A1", "what": "rise", "value": "3/8", "taped": "along"}, "taped", "Only a span or an overall"),
    ({"bay": "A1", "what": "span", "value": "2 %"}, "value", "2 %"),
    ({"bay": "A1", "what": "span", "value": "-41 in"}, "value", "sign"),
    ({"bay": "A1", "what": "span", "value": "41 in", "start": "42 in"}, "start", "leaves nothing"),
    ({"bay": "A1", "what": "span", "value": "41 in", "start": "41 in"}, "start", "leaves nothing"),
    ({"bay": "A1", "what": "rise", "value": "1/2 in", "high": "left", "start": "1 in"}, "start", "leaves nothing"),
    ({"bay": "A1", "what": "span", "value": "41 in", "toward": "left"}, "toward", "Only a plumb reading"),
    ({"bay": "A1", "what": "span", "value": "41 in", "mark": "36 in"}, "mark", "Only a diagonal"),
    ({"bay": "A1", "what": "span", "value": "41 in", "from": "inside"}, "from", "Only an overall"),
    ({"bay": "A1", "what": "diagonal-falling", "value": "55 in"}, "mark", "how high the mark is"),
    ({"post": "P2", "what": "plumb", "value": "1/8 in", "toward": "left"}, "over", "how long it is"),
    ({"post": "P2", "what": "plumb", "value": "1/8 in", "over": "40 in"}, "toward", "to which side"),
    ({"post": "P2", "what": "plumb", "value": "1/8 in", "over": "centres", "toward": "left"}, "over", "length of a level"),
    ({"post": "P2", "what": "plumb", "value": "1 deg", "over": "40 in", "toward": "left"}, "value", "1 deg"),
    ({"post": "P2", "what": "plumb", "value": 0, "over": "40 in", "run": "Z"}, "run", "“Z”"),
    ({"bay": "A1", "what": "span", "value": "41 in", "replaces": "r9"}, "replaces", "No reading has the id “r9”"),
    ({"bay": "A1", "what": "span", "value": "41 in", "by": "  "}, "by", "say who read it"),
    ({"bay": "A1", "what": "span", "value": "41 in", "at": "2026-05-02T09:31:00"}, "at", "no date and time with a zone"),
    ({"bay": "A1", "what": "span", "value": "41 in", "at": "2026-05-02T09:31Z"}, "at", "no date and time with a zone"),
    ({"bay": "A1", "what": "span", "value": "41 in", "at": "2026-02-30T09:31:00Z"}, "at", "no such date"),
    ({"bay": "A1", "what": "span", "value": "41 in", "at": "2026-05-02T09:31:00+25:00"}, "at", "no such date"),
    ({"bay": "A1", "what": "span", "value": "41 in", "at": "0001-05-02T09:31:00Z"}, "at", "year 1"),
    ({"bay": "A1", "what": "span", "value": "41 in", "at": "20260502T093100Z"}, "at", "no date and time with a zone"),
]  # fmt: skip


@pytest.mark.parametrize(("words", "key", "sentence"), REFUSED, ids=lambda v: v if isinstance(v, str) else "")
def test_readings_that_cannot_be(job, problems, words, key, sentence):
    job["readings"].append(STAMP | words)
    found = problems(job)
    assert places(found) == [f"readings[4].{key}"]
    assert sentence in next(iter(found.values()))


def test_an_id_twice_is_refused(job, problems):
    job["readings"][0]["id"] = job["readings"][2]["id"] = "r1"
    assert "there already" in problems(job)["readings[2].id (bay A1)"]


def test_replacing_another_places_reading_is_refused(job, read, problems):
    job["readings"][0]["id"] = "r1"
    job["readings"].append({"bay": "A2", "what": "span", "value": "41 in", "replaces": "r1"} | STAMP)
    assert "another place (bay “A1”)" in problems(job)["readings[4].replaces (bay A2)"]
    job["readings"][4] |= {"bay": "A1"}
    assert read(job).readings[4].replaces == "r1"


def test_a_reading_may_stand_before_the_one_that_it_replaces(job, read):
    job["readings"][0] |= {"id": "r2", "replaces": "r1"}
    job["readings"].append({"bay": "A1", "what": "span", "value": "41 in", "id": "r1"} | STAMP)
    assert read(job)


def test_readings_that_replace_one_another_in_a_circle_are_refused(job, problems):
    job["readings"][0] |= {"id": "r1", "replaces": "r2"}
    job["readings"][2] |= {"id": "r2", "replaces": "r1"}
    assert all("in a circle" in sentence for sentence in problems(job).values())
    job["readings"][2] |= {"id": "r2", "replaces": "r2"}
    assert "in a circle" in problems(job)["readings[2].replaces (bay A1)"]


def test_plumb_of_another_run_is_another_place(line, read, problems):
    plumb = {"post": "P3", "what": "plumb", "value": 0, "over": "40 in"} | STAMP
    line["readings"] = [plumb | {"run": "A", "id": "p1"}, plumb | {"run": "B", "replaces": "p1"}]
    assert "another place" in problems(line)["readings[1].replaces (post P3)"]
    del line["readings"][1]["run"]
    assert read(line)
    line["readings"] = [plumb | {"post": "P1", "run": "B"}]
    assert "no post of run" in problems(line)["readings[0].run (post P1)"]


def test_a_length_that_was_taken_over_is_kept_as_typed(job, read):
    job["readings"][1]["over"] = "48 in"
    reading = read(job).readings[1]
    assert (reading.over, reading.over_text) == (Length(48 * 25_400_000), "48 in")


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
