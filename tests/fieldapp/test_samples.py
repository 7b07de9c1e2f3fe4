"""The samples that come with the app."""

import json
from pathlib import Path

import pytest

from fieldapp.samples import sample, samples
from fieldapp.screens.samples_model import FRESH, FRESH_OF, chosen, rows
from measure.documents import read_job
from measure.report import evaluate

ALL = samples()


def test_the_apps_samples_are_the_projects_own():
    project = {p.stem: p.read_bytes() for p in Path("sample_jobs").glob("*.json")}
    assert {s.name: s.data for s in ALL} == project


@pytest.mark.parametrize("name", [s.name for s in ALL])
def test_every_sample_can_be_read_and_checked(name):
    assert evaluate(read_job(sample(name).data).job()).findings


def test_the_first_row_is_a_job_with_nothing_taped_under_a_name_of_its_own():
    first, same = rows(ALL)[0], json.loads(sample(FRESH_OF).data)
    fresh = read_job(chosen(ALL, first.key)).job()
    assert first.key == FRESH
    assert (fresh.readings, fresh.moved, fresh.answers) == ((), (), ())
    assert fresh.name != same["job"]["name"]
    assert [b.tag for b in fresh.bays] == [b["tag"] for b in same["bays"]]


@pytest.mark.parametrize("name", [s.name for s in ALL])
def test_a_row_tells_how_many_bays_have_glass_and_whether_there_is_something_to_look_at(name):
    report = evaluate(read_job(sample(name).data).job())
    row = next(r for r in rows(ALL) if r.key == name)
    assert row.sentence.startswith(f"{sum(b.has_glass for b in report.job.bays)} bays in")
    assert (row.sign == "clear") == (not report.in_the_way) == row.sentence.endswith("all clear")


def test_an_unknown_sample_is_an_error():
    with pytest.raises(KeyError):
        chosen(ALL, "no-such-sample")
