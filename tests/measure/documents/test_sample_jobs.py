"""The sample jobs: what each is there to show, as the job file says it. What check and order make of them is tested elsewhere."""

import importlib.util
import json
from pathlib import Path

import pytest

from measure.documents import dump, read_job
from measure.finding import Finding
from measure.report import evaluate

SAMPLES = Path(__file__).parents[3] / "sample_jobs"
NAMES = ("boathouse-deck", "harbour-terrace", "long-boardwalk", "mill-stair-and-ramp")


def sample(name):
    return (SAMPLES / f"{name}.json").read_bytes()


def findings(name) -> list[Finding]:
    return list(evaluate(read_job(sample(name)).job()).findings)


def words(name):
    """Place, word and check of every finding that is no caution."""
    return {(f.place, f.word, f.check) for f in findings(name) if f.verdict != "caution"}


def test_these_are_the_samples():
    assert sorted(p.stem for p in SAMPLES.glob("*.json")) == sorted(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_a_sample_comes_out_as_it_went_in(name):
    document = read_job(sample(name))
    assert document.as_dict() == json.loads(sample(name))
    assert dump(document.as_dict()) == sample(name)


@pytest.mark.parametrize("name", NAMES)
def test_a_samples_system_is_confirmed_and_its_place_invented(name):
    job = read_job(sample(name)).job()
    assert "(invented)" in job.site
    assert "(invented)" in job.system.name
    assert job.system.confirmed is not None


def test_the_boathouse_deck_can_be_ordered_with_its_answers():
    assert words("boathouse-deck") == {("C2", "answered", "off-plan"), ("C3", "answered", "off-plan"), ("C4", "answered", "missing")}
    assert [b.tag for b in read_job(sample("boathouse-deck")).job().bays if not b.has_glass] == ["Gate"]


def test_the_harbour_terrace_has_a_mistake_of_each_of_these_kinds():
    assert words("harbour-terrace") >= {
        ("A4", "query", "neighbour"), ("run A", "query", "closing-rise"),  # a swapped high end
        ("A6", "hold", "read-back"), ("A6", "answered", "post-height"),
        ("run B", "query", "closing"),  # one slip of a centimetre, inside the plan tolerance
        ("C3", "hold", "missing"),  # stale: a post was moved
    }  # fmt: skip
    closing = next(f for f in findings("harbour-terrace") if f.check == "closing" and f.run == "B")
    assert "B1" in closing.sentence
    job = read_job(sample("harbour-terrace")).job()
    assert {b.shape for b in job.bays} == {"racked", "level-top"}
    assert any(b.finish_face for b in job.bays)
    assert any(p.kind == "corner" and p.turned_to != 90 for p in job.posts)


def test_the_mill_stair_and_ramp_have_a_mistake_of_each_of_these_kinds():
    assert words("mill-stair-and-ramp") >= {
        ("R2", "query", "off-plan"),  # the tape was begun at its 1 in mark
        ("R3", "query", "design-slope"),
        ("R5", "hold", "second-tape"),  # one wrong graduation
        ("S1", "query", "grip"),
        ("S2", "hold", "high-end"),
        ("S4", "hold", "missing"),  # a trimmed post without a base rise
    }
    job = read_job(sample("mill-stair-and-ramp")).job()
    assert all(run.rack_follows is not None for run in job.runs)


def test_the_long_boardwalk_has_240_bays_and_nothing_in_the_way():
    assert len(read_job(sample("long-boardwalk")).job().bays) == 240
    assert words("long-boardwalk") == set()


def test_the_long_boardwalk_is_what_its_script_makes():
    spec = importlib.util.spec_from_file_location("make_long_boardwalk", SAMPLES / "make_long_boardwalk.py")
    assert spec is not None and spec.loader is not None
    script = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(script)
    assert script.job_file() == sample("long-boardwalk")
