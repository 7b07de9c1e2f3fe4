"""An order does not depend on the order of entry, and turning the view round mirrors it and changes no size."""

import csv
import io
import json
import random
from pathlib import Path

import pytest

from measure.documents import read_job
from measure.order import make_order
from measure.order_files import order_bytes
from measure.report import evaluate

SAMPLES = sorted((Path(__file__).parents[2] / "sample_jobs").glob("*.json"))
OTHER = {"left": "right", "right": "left"}


def ordered(job):
    files = order_bytes(make_order(evaluate(read_job(json.dumps(job)).job())))
    return files["order.csv"]


def rows(data):
    return {r["panel"]: r for r in csv.DictReader(io.StringIO(data.decode("utf-8-sig")))}


@pytest.mark.parametrize("path", SAMPLES, ids=lambda p: p.stem)
def test_the_order_does_not_depend_on_the_order_of_the_readings(path):
    job = json.loads(path.read_text(encoding="utf-8"))
    before = ordered(job)
    random.Random(7).shuffle(job["readings"])
    random.Random(8).shuffle(job.get("moved", []))
    assert ordered(job) == before


def turned_round(job):
    """The same job seen from the other side: bays in reverse, left and right changed over."""
    turned = json.loads(json.dumps(job))
    turned["bays"] = [{**b, "left": b["right"], "right": b["left"]} for b in reversed(turned["bays"])]
    for reading in turned["readings"]:
        for key in ("high", "toward"):
            if key in reading:
                reading[key] = OTHER[reading[key]]
        if reading["what"].startswith("diagonal-"):
            reading["what"] = {"diagonal-rising": "diagonal-falling", "diagonal-falling": "diagonal-rising"}[reading["what"]]
    for post in turned["posts"]:
        if "angle" in post and post["kind"] != "wall":
            post["angle"] = 360 - post["angle"]
    return turned


@pytest.mark.parametrize("path", SAMPLES, ids=lambda p: p.stem)
def test_turning_the_view_round_mirrors_the_order_and_changes_no_size(path):
    job = json.loads(path.read_text(encoding="utf-8"))
    here, there = rows(ordered(job)), rows(ordered(turned_round(job)))
    assert here.keys() == there.keys() and here
    for panel, row in here.items():
        other = there[panel]
        for key in ("width_mm", "rack_mm", "area_m2", "mass_kg", "margin_mm", "span_mm", "sloped_edge_mm", "lower_angle_deg", "shape"):
            assert row[key] == other[key], (panel, key)
        assert (row["left_edge_mm"], row["right_edge_mm"]) == (other["right_edge_mm"], other["left_edge_mm"])
        assert (row["diagonal_rising_mm"], row["diagonal_falling_mm"]) == (other["diagonal_falling_mm"], other["diagonal_rising_mm"])
        assert OTHER.get(row["high_end"], "none") == other["high_end"]
