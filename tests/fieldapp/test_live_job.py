"""A job as it stands now: whatever comes in, it says the same as the whole job looked into anew."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import count

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fieldapp.live_job import LiveJob, worst
from measure.documents import read_answer, read_moved, read_reading, read_words
from measure.finding import Finding
from measure.report import evaluate
from tests.fieldapp.deck_file import deck_file

START = datetime(2026, 5, 2, 9, 0, tzinfo=UTC)
TAGS = ["A1", "A2", "A3", "A4", "B1"]
LIVE_DECK = read_words(deck_file()).job()


def at(minute: int) -> str:
    return (START + timedelta(minutes=minute)).isoformat().replace("+00:00", "Z")


def fresh() -> LiveJob:
    return LiveJob("7", LIVE_DECK)


def span(tag: str, value: str = "40 1/2 in", minute: int = 0, **more):
    return read_reading({"bay": tag, "what": "span", "value": value, "by": "M", "at": at(minute), **more}, "in")


def rise(tag: str, value: str = "0", minute: int = 0, **more):
    return read_reading({"bay": tag, "what": "rise", "value": value, "by": "M", "at": at(minute), **more}, "in")


def found(live: LiveJob) -> set[Finding]:
    """Everything that it says now."""
    bays = {f for bay in live.job.bays for f in live.findings_of_bay(bay.tag)}
    return bays | {f for run in live.book.run_bays for f in live.findings_of_run(run)} | set(live.findings_of_job())


@st.composite
def things_said(draw):
    """One reading, moved post or answer after the other, as people say them."""
    minutes = count(1)
    said = []
    for _ in range(draw(st.integers(1, 12))):
        minute, tag = next(minutes), draw(st.sampled_from(TAGS))
        kind = draw(st.sampled_from(["span", "rise", "plumb", "overall", "read-back", "moved", "answer"]))
        if kind == "span":
            said.append(span(tag, draw(st.sampled_from(["40 1/2 in", "40 7/16 in", "41 1/2 in", "51 in"])), minute))
        elif kind == "read-back":
            said.append(span(tag, draw(st.sampled_from(["40 1/2 in", "40 3/8 in"])), minute, role="read-back", by="K"))
        elif kind == "rise":
            value = draw(st.sampled_from(["0", "3/8 in", "4 in"]))
            said.append(rise(tag, value, minute, **({} if value == "0" else {"high": draw(st.sampled_from(["left", "right"]))})))
        elif kind == "plumb":
            words = {"post": draw(st.sampled_from(["P1", "P2", "P5", "P6"])), "what": "plumb", "value": "1/4 in", "over": "42 in", "toward": "left"}
            said.append(read_reading({**words, "by": "M", "at": at(minute)}, "in"))
        elif kind == "overall":
            words = {"run": "A", "what": "overall", "from": "outside", "value": "174 1/2 in"}
            said.append(read_reading({**words, "by": "M", "at": at(minute)}, "in"))
        elif kind == "moved":
            said.append(read_moved({"post": draw(st.sampled_from(["P2", "P3", "P5"])), "by": "M", "at": at(minute)}))
        else:
            words = {"bay": tag, "check": draw(st.sampled_from(["off-plan", "missing", "slope"])), "reason": "seen", "by": "M", "at": at(minute)}
            said.append(read_answer(words))
    return said


def take(live: LiveJob, thing) -> set[str]:
    kind = type(thing).__name__
    return {"Reading": live.take, "Moved": live.take_moved, "Answer": live.take_answer}[kind](thing)


@settings(max_examples=60, deadline=None)
@given(things_said())
def test_what_it_says_after_each_thing_is_what_the_whole_job_says(said):
    live = fresh()
    for thing in said:
        before = {bay.tag: live.findings_of_bay(bay.tag) for bay in live.job.bays}
        told = take(live, thing)
        assert found(live) == set(evaluate(live.job, every=True).findings)
        changed = {tag for tag, findings in before.items() if live.findings_of_bay(tag) != findings}
        assert changed <= told, "a bay changed and nobody was told"


def test_the_job_holds_what_was_taken_in_the_order_of_taking():
    live = fresh()
    things = [span("A1", minute=1), rise("A1", minute=2), span("A1", "40 5/8 in", minute=3)]
    for thing in things:
        live.take(thing)
    assert live.job == replace(LIVE_DECK, readings=tuple(things))
    assert live.newest == START + timedelta(minutes=3)


def test_a_reading_costs_its_bay_those_beside_it_and_its_run_only():
    live = fresh()
    found(live)
    assert live.take(span("A2")) == {"A1", "A2", "A3"}
    assert "A4" in live._of_bay and "B1" in live._of_bay and "A2" not in live._of_bay
    assert "B" in live._of_run and "A" not in live._of_run


@pytest.mark.parametrize(
    ("taken", "expected"),
    [
        ([], (0, 5, "A1")),
        ([span("A1")], (0, 5, "A1")),
        ([span("A1"), rise("A1")], (1, 5, "A2")),
        ([span("A2"), rise("A2")], (1, 5, "A1")),
        ([f(tag) for tag in TAGS for f in (span, rise)], (5, 5, None)),
    ],
)
def test_progress_counts_bays_with_span_and_rise_and_names_the_next_one(taken, expected):
    live = fresh()
    for reading in taken:
        live.take(reading)
    progress = live.progress()
    assert (progress.kept, progress.bays, progress.onward) == expected


def test_a_moved_post_opens_its_bays_again():
    live = fresh()
    for reading in (span("A1"), rise("A1"), span("A2"), rise("A2")):
        live.take(reading)
    assert live.take_moved(read_moved({"post": "P2", "by": "M", "at": at(5)})) == {"A1", "A2", "A3"}
    assert live.progress().onward == "A1" and live.sign("A2") == "todo"


def test_a_bay_wears_its_worst_unanswered_finding():
    live = fresh()
    for reading in (span("A1"), rise("A1")):
        live.take(reading)
    assert live.sign("A1") == "query"  # nobody read it back
    live.take(span("A1", minute=1, role="read-back", by="K"))
    assert live.sign("A1") == "clear"
    live.take(span("A1", "40 3/8 in", minute=2, role="read-back", by="K"))
    assert live.sign("A1") == "hold"
    assert live.sign("A2") == "todo" and live.sign("G1") == "clear"


def test_cautions_and_answered_queries_stand_in_nobodys_way():
    finding = Finding("off-plan", "query", "…", "A1")
    answer = read_answer({"bay": "A1", "check": "off-plan", "reason": "seen", "by": "M", "at": at(1)})
    assert worst([Finding("lift", "caution", "…", "A1"), replace(finding, answer=answer)]) == "clear"
    assert worst([finding, Finding("grip", "hold", "…", "A1")]) == "hold"


def test_a_new_plan_forgets_what_was_found():
    live = fresh()
    live.take(span("A1"))
    live.replan(LIVE_DECK)
    assert (live.readings, live.progress().kept, live.newest) == ([], 0, None)


def test_an_unknown_bay_is_an_error():
    with pytest.raises(KeyError):
        fresh().findings_of_bay("Z9")
