"""What a card of the list of jobs says, and the strip on it."""

from datetime import UTC, datetime

import pytest

from fieldapp.live_job import LiveJob
from fieldapp.samples import sample
from fieldapp.screens.jobs_model import MOST_IN_STRIP, MOST_PROBLEMS, counted, job_card, refusal
from fieldapp.screens.strip_model import around, strip
from measure.documents import read_job, read_reading, read_words
from measure.errors import DocumentError, PlaceError
from tests.fieldapp.deck_file import deck_file

AT = datetime(2026, 5, 2, 9, 0, tzinfo=UTC).isoformat()


def live(*tags: str, **deck) -> LiveJob:
    """A deck with these bays taped level."""
    found = LiveJob("7", read_words(deck_file(**deck)).job())
    for tag in tags:
        for what, value in (("span", "40 1/2 in" if found.units == "in" else "1028"), ("rise", "0")):
            found.take(read_reading({"bay": tag, "what": what, "value": value, "by": "M", "at": AT}, found.units))
    return found


@pytest.mark.parametrize(
    ("taped", "kept", "onward", "run", "now"),
    [
        ([], "0 of 5 bays kept", "begin at A1", "run A of 2", "A1"),
        (["A1"], "1 of 5 bays kept", "go on at A2", "run A of 2", "A2"),
        (["A1", "A2", "A3", "A4"], "4 of 5 bays kept", "go on at B1", "run B of 2", "B1"),
        (["A1", "A2", "A3", "A4", "B1"], "5 of 5 bays kept", "review", "run A of 2", None),
    ],
)
def test_a_card_says_how_far_a_job_is_and_where_it_goes_on(taped, kept, onward, run, now):
    card = job_card(live(*taped))
    assert (card.kept, card.onward, card.run, card.now) == (kept, onward, run, now)
    assert card.says == f"Boathouse deck, inches, {kept}, {onward}"


def test_an_issued_order_stands_in_the_place_of_the_progress():
    assert job_card(live("A1"), "order 1 issued 2 May").kept == "order 1 issued 2 May"


def test_a_card_shows_the_run_where_the_work_goes_on_with_its_signs():
    card = job_card(live("A1"))
    assert [(b.tag, b.sign, b.glass) for b in card.bays] == [("A1", "query", True), ("A2", "todo", True), ("A3", "todo", True), ("A4", "todo", True)]
    assert [(b.tag, b.glass) for b in job_card(live("A1", "A2", "A3", "A4")).bays] == [("G1", False), ("B1", True)]


def test_when_all_is_taped_a_card_shows_the_first_run_with_something_to_look_at():
    told = live("A1", "A2", "A3", "A4", "B1", read_back="no")
    assert {b.sign for b in job_card(told).bays} == {"clear"} and job_card(told).run == "run A of 2"
    told.take(read_reading({"bay": "B1", "what": "span", "value": "42 in", "by": "M", "at": AT}, "in"))
    assert job_card(told).run == "run B of 2"


def test_a_millimetre_job_says_so():
    assert job_card(live(units="mm")).units == "mm"


@pytest.mark.parametrize(("count", "expected"), [(0, "No job in this book yet"), (1, "1 job in this book"), (7, "7 jobs in this book")])
def test_the_list_counts_its_jobs(count, expected):
    assert counted(count, "served") == expected


@pytest.mark.parametrize(
    ("tag", "most", "expected"),
    [("b0", 3, "b0 b1 b2"), ("b5", 3, "b4 b5 b6"), ("b9", 3, "b7 b8 b9"), (None, 4, "b0 b1 b2 b3"), ("b2", 99, "b0 b1 b2 b3 b4 b5 b6 b7 b8 b9")],
)
def test_a_long_run_shows_the_bays_around_the_one_that_is_meant(tag, most, expected):
    class Bay:
        def __init__(self, tag):
            self.tag = tag

    assert " ".join(b.tag for b in around([Bay(f"b{i}") for i in range(10)], tag, most)) == expected


def test_a_card_never_draws_more_bays_than_fit():
    boardwalk = LiveJob("7", read_job(sample("long-boardwalk").data).job())
    assert len(job_card(boardwalk).bays) == MOST_IN_STRIP < len(boardwalk.book.run_bays["A"])


def test_a_strip_is_to_scale_as_read_else_as_planned():
    told = live("A1")
    told.take(read_reading({"bay": "A2", "what": "span", "value": "20 in", "by": "M", "at": AT}, "in"))
    told.take(read_reading({"bay": "A2", "what": "rise", "value": "1/2 in", "high": "left", "by": "M", "at": AT}, "in"))
    a1, a2, a3, _ = strip(told, told.book.run_bays["A"])
    assert (a1.span, a2.span, a3.span, a1.post) == (40.5, 20.0, 40.5, 2.5)
    assert a1.rise == 0 and -0.5 < a2.rise < -0.4  # over the span only, of a rise over the posts' middles
    assert a3.says == "A3, not taped yet"


def test_a_refused_file_is_told_with_its_first_problems_and_how_many_more():
    problems = DocumentError([PlaceError(f"bays[{i}]", "No post.") for i in range(MOST_PROBLEMS + 3)])
    told = refusal("job.json", problems).splitlines()
    assert told[0].startswith("job.json is no job file") and len(told) == MOST_PROBLEMS + 2
    assert (told[1], told[-1]) == ("bays[0]: No post.", "and 3 more problems")
