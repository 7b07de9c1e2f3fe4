"""What a reading may say, by its kind, and what is refused, with its place."""

import pytest

from measure.length import Length
from measure.reading import Reading


def places(found):
    return [p.split(" (")[0] for p in found]


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
