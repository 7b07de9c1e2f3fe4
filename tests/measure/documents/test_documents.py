"""Job files in and out: what the contract shows is read; what is wrong is told in one go; what was typed comes out as it was typed."""

import json
from datetime import UTC, datetime, timedelta, timezone
from decimal import Decimal
from fractions import Fraction

import pytest

from measure.documents import dump, read_job, read_words
from measure.errors import DocumentError
from measure.length import NM_PER_INCH, NM_PER_MM, Length, inches
from measure.plan import Bay, Post, Run
from measure.reading import Answer, Moved, Reading

MAY_2 = datetime(2026, 5, 2, 9, 31, tzinfo=UTC)


def test_the_contracts_example_is_read(example_bytes):
    job = read_job(example_bytes).job()
    assert (job.name, job.site, job.units, job.order_step) == ("Boathouse deck", "invented", "in", Length(NM_PER_INCH // 16))
    assert (job.read_back, job.plumb, job.head.wanted_by) == ("asked", "no", "2026-06-12")
    assert (job.tape.division, job.tape.tape_class, job.tape.from_hook) == (inches(0, 4), "US", True)
    assert job.system.greatest_spacing == inches(50)
    assert job.system.turning["corner"].grooves == Fraction(90)
    assert job.system.turning["wall"].grooves is None
    assert job.system.confirmed is not None and job.system.confirmed.sheet == "invented sheet 3"
    assert (job.glass.thickness, job.glass.edge_top, job.glass.holes) == (Length(10 * NM_PER_MM), "polished", "none")
    assert (job.limits.slope, job.limits.slope_step) == (Fraction(8, 100), Fraction(1, 100))
    assert job.runs == (Run("A", "posts", "the deck, looking out"),)
    assert job.posts == (Post("P1", "wall", face=inches(2)), Post("P2", "line"), Post("P3", "corner", Fraction(90)))
    assert job.bays[1] == Bay("A2", "A", "P2", "P3", inches(44), height=inches(38))
    assert job.readings[0] == Reading("span", inches(41, 44), "41 11/16 in", "M", MAY_2, bay="A1")
    assert job.readings[1].high == "right" and job.readings[1].over == "centres"
    assert job.readings[3].hooked == "outside" and job.readings[3].run == "A"
    assert job.moved == (Moved("P3", datetime(2026, 5, 2, 10, 5, tzinfo=UTC), "M"),)
    assert job.answers == (Answer("off-plan", "post set clear of a joist", "M", datetime(2026, 5, 2, 9, 55, tzinfo=UTC), bay="A2"),)


def test_the_contracts_example_comes_out_as_it_came_in(example_bytes):
    document = read_job(example_bytes)
    assert document.as_dict() == json.loads(example_bytes)
    assert read_job(dump(document.as_dict())) == document


@pytest.mark.parametrize("missing", ["limits", "runs", "readings", "moved", "answers"])
def test_parts_that_may_be_left_out(job, read, missing):
    del job[missing]
    assert read(job)


@pytest.mark.parametrize("missing", ["format", "job", "tape", "system", "glass", "posts", "bays"])
def test_parts_that_are_needed(job, problems, missing):
    del job[missing]
    assert "needed" in problems(job)[missing]


# Part, key that is needed (the contract's tables).
NEEDED = [
    ("job", "name"), ("job", "units"), ("tape", "division"),
    *(("system", k) for k in ("name", "post_face", "greatest_spacing", "allowance", "groove_depth", "least_bite", "least_play")),
    *(("glass", k) for k in ("thickness", "height", "size_tolerance")),
]  # fmt: skip


@pytest.mark.parametrize(("part", "key"), NEEDED)
def test_keys_that_are_needed(job, problems, part, key):
    del job[part][key]
    assert list(problems(job)) == [f"{part}.{key}"]


@pytest.mark.parametrize("part", ["job", "tape", "system", "glass", "limits"])
def test_every_other_key_may_be_left_out(job, read, part):
    for key in list(job[part]):
        if (part, key) not in NEEDED:
            del job[part][key]
    assert read(job)


def test_what_is_left_out_has_the_contracts_defaults(job, read):
    for part in ("job", "tape", "system", "glass", "limits"):
        job[part] = {k: v for k, v in job[part].items() if (part, k) in NEEDED}
    del job["runs"], job["answers"]
    made = read(job)
    assert (made.order_step, made.read_back, made.plumb, made.head.po) == (Length(NM_PER_INCH // 16), "asked", "no", "")
    assert (made.tape.tape_class, made.tape.from_hook, made.tape.placing, made.tape.laser) == ("II", True, Length(300_000), None)
    assert (made.system.turn_axis, made.system.turning, made.system.confirmed) == (None, {}, None)
    assert (made.glass.holes, made.glass.finish_face, made.glass.greatest_mass_kg) == ("none", None, None)
    assert (made.limits.slope, made.limits.slope_step) == (None, Fraction(1, 100))
    assert made.runs == (Run("A", None, "the deck, looking out"),)
    bay = made.bays[0]
    assert (bay.shape, bay.status, bay.has_glass, bay.taller, bay.finish_face) == ("racked", "to order", True, False, None)
    assert [p.turned_to for p in made.posts] == [Fraction(90), Fraction(180), Fraction(90)]


def test_a_metric_job_rounds_to_a_millimetre_unless_it_says_half_of_one(job, read):
    job = metric(job)
    assert read(job).order_step == Length(NM_PER_MM)
    job["job"]["order_step"] = "0.5 mm"
    assert read(job).order_step == Length(NM_PER_MM // 2)


def metric(job):
    """The example's plan in millimetres, bare."""
    job["job"] = {"name": "Terrace", "units": "mm"}
    return job


# What is typed for a length, in which job, and its nanometres: a bare number takes the job's unit, by its digits.
LENGTHS = [
    ("in", 44, 44 * NM_PER_INCH), ("in", Decimal("44.25"), 1_123_950_000), ("in", Decimal("44.250"), 1_123_950_000),
    ("in", "44 1/4", 1_123_950_000), ("in", "1124 mm", 1124 * NM_PER_MM), ("mm", 1124, 1124 * NM_PER_MM),
    ("mm", Decimal("1124.1"), 11241 * NM_PER_MM // 10), ("mm", "44 in", 44 * NM_PER_INCH), ("mm", "1124,5", 11245 * NM_PER_MM // 10),
]  # fmt: skip


@pytest.mark.parametrize(("units", "typed", "nm"), LENGTHS)
def test_a_length_is_text_or_a_bare_number_in_the_jobs_units(job, read, units, typed, nm):
    if units == "mm":
        job = metric(job)
    job["bays"][0]["spacing"] = typed
    assert read(job).bays[0].spacing == Length(nm)


def test_a_bare_number_stays_one_and_keeps_its_digits(job):
    job["readings"][0]["value"] = Decimal("41.6250")
    document = read_job(dump(job))
    assert document.job().readings[0].text == "41.6250"
    assert document.as_dict()["readings"][0]["value"] == Decimal("41.6250")
    assert b'"value": 41.6250,' in dump(document.as_dict())


def test_what_was_typed_is_kept_letter_for_letter(job):
    typed = {"value": " 41-11/16\u00a0IN ", "at": "2026-05-02t11:31:00.1234567+02:00", "by": " M. ", "start": "0", "case": '0.5"'}
    job["readings"][0] |= typed
    document = read_job(dump(job))
    again = read_job(dump(document.as_dict()))
    assert {k: again.as_dict()["readings"][0][k] for k in typed} == typed
    reading = again.job().readings[0]
    assert (reading.text, reading.start_text, reading.case_text) == (typed["value"], "0", '0.5"')
    assert reading.at == datetime(2026, 5, 2, 11, 31, 0, 123456, tzinfo=timezone(timedelta(hours=2)))


def test_what_as_dict_gives_is_a_copy_of_its_own(example_bytes):
    document = read_job(example_bytes)
    document.as_dict()["readings"][0]["value"] = "1 in"
    document.as_dict()["job"].clear()
    assert document.as_dict() == json.loads(example_bytes)


def test_a_dict_is_read_by_the_same_rules_and_left_as_it_was(job, example_bytes):
    assert read_words(job) == read_job(example_bytes)
    job["readings"][0]["value"] = 41.6875
    job["bays"][0]["colour"] = "green"
    with pytest.raises(DocumentError) as refused:
        read_words(job)
    assert [p.place for p in refused.value.problems] == ["bays[0].colour (bay A1)", "readings[0].value (bay A1)"]
    assert job["bays"][0]["colour"] == "green"


def test_an_entry_stands_on_a_line_of_its_own(example_bytes):
    lines = dump(read_job(example_bytes).as_dict()).decode().splitlines()
    assert sum('"what": ' in line for line in lines) == 4
    assert all(line.count('"what"') <= 1 for line in lines)


# Change of the example; place; words of the sentence.
def _set(*path):
    def change(job, value):
        *way, last = path
        for key in way:
            job = job[key]
        job[last] = value

    return change


WRONG_TYPES = [
    (("job", "name"), 5, "job.name", "A text in double quotes belongs here, and the number 5 was given."),
    (("job", "name"), None, "job.name", "null says nothing: leave the key out, or give what belongs here."),
    (("job", "units"), "yards", "job.units", '“yards” is not known here: say "in" or "mm".'),
    (("tape", "from_hook"), 1, "tape.from_hook", "True or false belongs here, without quotes, and the number 1 was given."),
    (("tape", "from_hook"), "yes", "tape.from_hook", "True or false belongs here, without quotes, and “yes” was given."),
    (("tape", "division"), True, "tape.division", "and true was given"),
    (("tape", "division"), ["1/16 in"], "tape.division", "and a list was given"),
    (("system", "turning", "line", "each"), "40", "system.turning.line.each", "A bare number belongs here, such as 90, and “40” was given."),
    (("system", "turning", "line", "each"), False, "system.turning.line.each", "and false was given"),
    (("system", "turning", "gate"), {"each": 3}, "system.turning.gate", "Nothing of this name is known here"),
    (("system", "confirmed"), "yes", "system.confirmed", "An object in braces belongs here, and “yes” was given."),
    (("glass", "edge"), 3, "glass.edge", "An object in braces belongs here"),
    (("glass", "edge", "topp"), "polished", "glass.edge.topp", "is top meant?"),
    (("glass", "finish_face"), 0, "glass.finish_face", "A text in double quotes belongs here"),
    (("limits", "slope"), 8, "limits.slope", "“8” is no slope"),
    (("runs",), {}, "runs", "A list in square brackets belongs here, and an object in braces was given."),
    (("bays", 0), "A1", "bays[0]", "An object in braces belongs here, and “A1” was given."),
    (("bays", 0, "shape"), "round", "bays[0].shape (bay A1)", 'say "racked" or "level-top"'),
    (("bays", 0, "glass"), "clear", "bays[0].glass (bay A1)", 'say "none"'),
    (("bays", 0, "taller"), "true", "bays[0].taller (bay A1)", "True or false"),
    (("posts", 1, "kind"), "middle", "posts[1].kind (post P2)", 'say "end", "line", "corner" or "wall"'),
    (("readings", 0, "value"), True, "readings[0].value (bay A1)", "and true was given"),
    (("readings", 0, "value"), None, "readings[0].value (bay A1)", "null says nothing"),
    (("readings", 0, "valeu"), "1 in", "readings[0].valeu (bay A1)", "is value meant?"),
    (("readings", 1, "high"), "both", "readings[1].high (bay A1)", '“both” is not known here: say "left" or "right".'),
    (("readings", 1, "high"), ["left", "right"], "readings[1].high (bay A1)", "a list is not known here"),
    (("readings", 0, "what"), "width", "readings[0].what (bay A1)", "“width” is not known here"),
    (("readings", 0, "role"), "third", "readings[0].role (bay A1)", "“third” is not known here"),
    (("format",), "spanbook-job/2", "format", "“spanbook-job/2” is not known here"),
    (("colour",), "green", "colour", "Nothing of this name is known here"),
]  # fmt: skip


@pytest.mark.parametrize(("path", "value", "place", "words"), WRONG_TYPES)
def test_a_wrong_type_and_an_unknown_key_are_told_with_their_place(job, problems, path, value, place, words):
    _set(*path)(job, value)
    assert words in problems(job)[place]


def test_a_glass_edge_is_one_text_for_all_or_one_by_edge(job, read):
    job["glass"]["edge"] = "ground"
    glass = read(job).glass
    assert (glass.edge_top, glass.edge_uprights, glass.edge_bottom) == ("ground",) * 3
    job["glass"]["edge"] = {"top": "polished"}
    glass = read(job).glass
    assert (glass.edge_top, glass.edge_uprights, glass.edge_bottom) == ("polished", "", "")


def test_a_finish_face_is_taken_from_the_job_taken_off_or_its_own(job, read):
    job["glass"]["finish_face"] = "frosted"
    job["bays"][0]["finish_face"] = ""
    job["bays"][1]["finish_face"] = None
    made = read(job)
    assert (made.glass.finish_face, made.bays[0].finish_face, made.bays[1].finish_face) == ("frosted", "", None)


def test_a_doubled_key_is_told_once_even_where_a_high_end_is_said_twice(example_bytes, problems):
    twice = example_bytes.replace(b'"high": "right"', b'"high": "right", "high": "left"')
    assert problems(twice) == {"readings[1].high (bay A1)": "This key stands here more than once: keep one of them."}


def test_every_problem_is_told_in_one_go_in_the_order_of_the_file(job, problems):
    job["tape"]["division"] = 0
    job["glass"]["thick"] = "10 mm"
    job["posts"][2]["id"] = "P1"
    job["bays"][1]["tag"] = "TRUE"
    job["readings"][0]["value"] = "35 5/4"
    job["readings"][1]["high"] = "up"
    job["readings"][2]["at"] = "yesterday"
    job["readings"][3]["run"] = "Z"
    job["moved"][0]["post"] = "P9"
    job["answers"][0]["check"] = "colour"
    assert list(problems(job)) == [
        "tape.division", "glass.thick", "posts[2].id (post P1)", "bays[1].tag (bay TRUE)", "bays[1].right (bay TRUE)",
        "readings[0].value (bay A1)", "readings[1].high (bay A1)", "readings[2].at (bay A1)", "readings[3].run (run Z)",
        "moved[0].post (post P9)", "answers[0].check (bay A2)", "answers[0].bay (bay A2)",
    ]  # fmt: skip


def test_the_same_wrong_figure_is_told_at_every_place(job, problems):
    for reading in (0, 2):
        job["readings"][reading]["value"] = "1e3"
    assert list(problems(job)) == ["readings[0].value (bay A1)", "readings[2].value (bay A1)"]


def test_more_problems_than_anybody_mends_at_once_are_counted(job, problems):
    job["readings"] = [{**job["readings"][0], "value": "none"} for _ in range(1200)]
    found = problems(job)
    assert len(found) == 1001
    assert found["file"] == "And 200 more problems: mend these first."


@pytest.mark.parametrize("data", [b"[]", b"null", b"7", b'"job"', b"true"])
def test_a_file_that_is_no_object_is_refused(problems, data):
    assert "An object in braces belongs here" in problems(data)["file"]


def test_ten_megabytes_of_junk_inside_good_json_are_refused(problems):
    found = problems(b'{"format": "spanbook-job/1", "junk": [' + b'["x", 1],' * 1_000_000 + b"0]}")
    assert "Nothing of this name is known here" in found["junk"]


def test_a_text_of_a_megabyte_is_refused(job, problems):
    job["readings"][0]["value"] = "4" * 1_000_000
    job["job"]["name"] = "x" * 1_000_000
    found = problems(job)
    assert "shorten it to 2000" in found["job.name"]
    assert len(found["readings[0].value (bay A1)"]) < 200


def test_without_known_units_figures_are_left_alone(job, problems):
    job["job"]["units"] = "yd"
    job["tape"]["division"] = "1/3"
    assert list(problems(job)) == ["job.units"]


def test_a_broken_bay_does_not_make_its_readings_wrong(job, problems):
    job["bays"][0]["tag"] = 1
    assert list(problems(job)) == ["bays[0].tag (run A)"]
