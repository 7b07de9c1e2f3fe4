"""One reading, answer, moved post or note alone, as it is kept: judged by the same rules as in a file."""

import pytest

from measure.documents import check_note, read_answer, read_job, read_moved, read_reading, read_words
from measure.errors import DocumentError
from measure.length import NM_PER_MM, Length
from measure.places import Places


@pytest.fixture
def places(example_bytes):
    return Places.of(read_job(example_bytes).job())


def refused(read, *arguments):
    with pytest.raises(DocumentError) as caught:
        read(*arguments)
    return {p.place: p.sentence for p in caught.value.problems}


def test_a_reading_alone_is_judged_as_in_a_file(job, places):
    words = job["readings"][1]
    assert read_reading(words, "in", places) == read_words(job).job().readings[1]
    wrong = {**words, "value": "2 %", "high": "up", "bay": "A9", "colour": 1}
    assert set(refused(read_reading, wrong, "in", places)) == {"high", "colour", "over", "bay"}


def test_a_reading_alone_may_not_take_an_id_that_is_there(job):
    job["readings"][0]["id"] = "r1"
    places = Places.of(read_words(job).job())
    again = {**job["readings"][0], "value": "41 3/4 in"}
    assert "there already" in refused(read_reading, again, "in", places)["id"]
    newer = read_reading({**again, "id": "r2", "replaces": "r1"}, "in", places)
    places.take_id(newer)
    assert read_reading({**again, "id": "r3", "replaces": "r2"}, "in", places).replaces == "r2"
    assert "No reading has the id" in refused(read_reading, {**again, "id": "r3", "replaces": "r9"}, "in", places)["replaces"]
    assert "another place" in refused(read_reading, {**again, "bay": "A2", "id": "r3", "replaces": "r1"}, "in", places)["replaces"]


def test_a_reading_alone_takes_the_units_it_is_given(job):
    assert read_reading({**job["readings"][0], "value": 1059}, "mm").value == Length(1059 * NM_PER_MM)


def test_a_moved_post_an_answer_and_a_note_alone(job, places):
    assert read_moved(job["moved"][0], places) == read_words(job).job().moved[0]
    assert read_answer(job["answers"][0], places) == read_words(job).job().answers[0]
    check_note({"bay": "A1", "by": "M", "at": "2026-05-02T09:31:00Z", "text": "mind the cable", "photo": ""}, places)
    assert set(refused(read_moved, {"post": "P9", "at": "x"}, places)) == {"by", "at", "post"}
    wrong = {**job["answers"][0], "check": "x", "reason": " ", "bay": "A7"}
    assert set(refused(read_answer, wrong, places)) == {"check", "reason", "bay"}
    assert list(refused(check_note, {"bay": "A1", "by": "M", "at": "2026-05-02T09:31:00Z"}, places)) == ["file"]


def test_an_entry_alone_may_not_hold_odd_text(job):
    assert "U+D800" in refused(read_reading, {**job["readings"][0], "by": "\ud800"}, "in")["by"]
    assert "float" in refused(read_reading, {**job["readings"][0], "value": 41.5}, "in")["value"]
