"""A small job, clear in every check, as a job file's dict; tests change one thing and see what the checks say."""

import copy
import json
from types import SimpleNamespace

import pytest

from measure.documents import read_job
from measure.report import evaluate

SYSTEM = {
    "name": "Invented post 65", "post_face": "2 1/2 in", "base_plate": "5 in", "greatest_spacing": "50 in",
    "allowance": "1 5/16 in", "groove_depth": "13/16 in", "least_bite": "1/4 in", "least_play": "1/16 in", "turn_axis": "1/2 in",
    "post_height": "42 in",
    "turning": {"line": {"grooves": 180, "each": 40}, "corner": {"grooves": 90, "each": 50}, "wall": {"each": 35}},
    "confirmed": {"by": "M", "at": "2026-04-20", "sheet": "invented sheet 3"},
}  # fmt: skip
GLASS = {
    "thickness": "10 mm", "height": "38 in", "size_tolerance": "2.5 mm", "least_width": "6 in", "greatest_width": "96 in",
    "least_height": "12 in", "greatest_height": "72 in", "least_corner_angle": 30, "greatest_mass_kg": 60,
}  # fmt: skip


def span(bay, value, at="2026-05-02T09:31:00Z", by="M", **more):
    return {"bay": bay, "what": "span", "value": value, "by": by, "at": at, **more}


def rise(bay, value, high=None, at="2026-05-02T09:32:00Z", by="M", **more):
    side = {} if high is None else {"high": high}
    return {"bay": bay, "what": "rise", "value": value, "by": by, "at": at, **side, **more}


def plumb(post, value, toward, at="2026-05-02T09:34:00Z", over="40 in", **more):
    return {"post": post, "what": "plumb", "value": value, "toward": toward, "over": over, "by": "M", "at": at, **more}


def base_job():
    """Three bays of 41 1/2 in between faces of 2 1/2 in, 44 in centre to centre, each 3/8 in higher at the right."""
    return {
        "format": "spanbook-job/1",
        "job": {"name": "Three bays", "units": "in", "read_back": "no"},
        "tape": {"division": "1/16 in", "class": "US"},
        "system": copy.deepcopy(SYSTEM),
        "glass": copy.deepcopy(GLASS),
        "limits": {"plan_tolerance": "1/4 in", "second_tape": "1/8 in", "lean": "3/16 in", "slope": "8 %", "slope_step": "1 %"},
        "runs": [{"run": "A"}],
        "posts": [{"id": f"P{i}", "kind": "end" if i in (1, 4) else "line"} for i in range(1, 5)],
        "bays": [{"tag": f"A{i}", "run": "A", "left": f"P{i}", "right": f"P{i + 1}", "spacing": "44 in"} for i in range(1, 4)],
        "readings": [r for i in range(1, 4) for r in (span(f"A{i}", "41 1/2"), rise(f"A{i}", "3/8", "right"))],
    }


@pytest.fixture
def deck():
    """base: the job's dict; check(): findings of one check as (place, word), sentences too."""
    job = base_job()

    def readings_of(bay, what):
        return [r for r in job["readings"] if r.get("bay") == bay and r["what"] == what]

    def change(bay, what, **new):
        for reading in readings_of(bay, what):
            reading.update(new)

    def report(every=False):
        return evaluate(read_job(json.dumps(job)).job(), every)

    def found(check, every=False):
        return [(f.place, f.word) for f in report(every).findings if f.check == check]

    def sentence(check):
        return " ".join(f.sentence for f in report().findings if f.check == check)

    def add(*readings):
        job["readings"].extend(readings)

    def drop(bay, what):
        job["readings"] = [r for r in job["readings"] if not (r.get("bay") == bay and r["what"] == what)]

    return SimpleNamespace(job=job, change=change, report=report, found=found, sentence=sentence, add=add, drop=drop)
