"""A second opinion that shares no code with the order: each ordered pane of the samples is put between its two posts as a polygon.

Reads the job files and order.csv by itself (own reader of figures, shapely for the polygons), and shows that the pane goes in
between the groove floors, still holds when it is pushed fully home, stands at both feet (`posts`) or parallel to the deck
(`slope`), and that its margin is the one that the order states.
"""

import csv
import io
import json
import math
import re
from fractions import Fraction
from pathlib import Path

import pytest
from shapely import Polygon, box

from measure.documents import read_job
from measure.order import make_order
from measure.order_files import order_bytes
from measure.report import evaluate

SAMPLES = sorted(p for p in (Path(__file__).parents[2] / "sample_jobs").glob("*.json"))
FACTOR = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4}
BIG = 10_000.0


def figure(said, units):
    """A figure of a sample as float millimetres: the plain spellings that the samples use."""
    text = str(said).replace(",", ".").replace("-", " ")
    unit = re.search(r"(mm|cm|in|m)$", text)
    number = text[: unit.start()] if unit else text
    return float(sum(Fraction(part) for part in number.split())) * FACTOR[unit[1] if unit else units]


def counting(job, key, place, what):
    """The newest first reading that nothing replaces; samples keep their times in one zone."""
    replaced = {r.get("replaces") for r in job["readings"]}
    moved = {}
    for m in job.get("moved", []):
        moved[m["post"]] = max(m["at"], moved.get(m["post"], ""))
    bay = next((b for b in job["bays"] if b["tag"] == place), None)
    touched = [bay["left"], bay["right"]] if key == "bay" else [place]
    found = [
        r
        for r in job["readings"]
        if r.get(key) == place
        and r["what"] == what
        and r.get("role", "first") == "first"
        and (r.get("id") is None or r["id"] not in replaced)
        and all(r["at"] >= moved.get(p, "") for p in touched)
    ]
    return max(found, key=lambda r: r["at"]) if found else None


def slope_tan(rise, units, span, faces):
    """Signed tan θ of a rise as the trade reads it; span level."""
    text = str(rise["value"]).strip()
    sign = -1.0 if rise.get("high") == "left" else 1.0
    if text.endswith("%"):
        return sign * float(text[:-1]) / 100
    if text.endswith(("deg", "°")):
        return sign * math.tan(math.radians(float(text.removesuffix("deg").removesuffix("°"))))
    if text.startswith("1:"):
        return sign / float(text[2:])
    if text.endswith("in/ft"):
        return sign * figure(text[:-5], "in") / 25.4 / 12
    if text.endswith("mm/m"):
        return sign * float(text[:-4]) / 1000
    over = rise.get("over", "faces" if rise["what"] == "base-rise" else "centres")
    base = {"centres": span + faces, "faces": span}.get(over) or figure(over, units)
    return sign * figure(rise["value"], units) / base


def bay_as_built(job, row):
    """Span level, tan θ, mean face and the turned edges' extra of an ordered bay, in mm."""
    units = job["job"]["units"]
    bay = next(b for b in job["bays"] if b["tag"] == row["panel"])
    posts = {p["id"]: p for p in job["posts"]}
    face = [figure(posts[bay[s]].get("face", job["system"]["post_face"]), units) for s in ("left", "right")]
    span = counting(job, "bay", bay["tag"], "span")
    rise = counting(job, "bay", bay["tag"], "base-rise") or counting(job, "bay", bay["tag"], "rise")
    read = figure(span["value"], units) - figure(span.get("start", "0"), units) + figure(span.get("case", "0"), units)
    level = read
    for _ in range(60):  # taped along, span and slope hang together: settle them by turns
        tan = slope_tan(rise, units, level, sum(face) / 2)
        level = read / math.hypot(1, tan) if span.get("taped") == "along" else read
    lean = [counting(job, "post", bay[s], "plumb") for s in ("left", "right")]
    return bay, level, tan, face, all(lean)


CASES = [pytest.param(p, id=p.stem) for p in SAMPLES]


def test_there_are_samples_to_look_at():
    assert len(SAMPLES) >= 4


@pytest.mark.parametrize("path", CASES)
def test_every_ordered_pane_goes_in_holds_and_stands_as_the_run_says(path):
    data = path.read_bytes()
    job = json.loads(data)
    order = make_order(evaluate(read_job(data).job()))
    rows = list(csv.DictReader(io.StringIO(order_bytes(order)["order.csv"].decode("utf-8-sig"))))
    assert rows
    units, system = job["job"]["units"], job["system"]
    depth, bite, play = (figure(system[k], units) for k in ("groove_depth", "least_bite", "least_play"))
    step = figure(job["job"].get("order_step", "1/16 in" if units == "in" else "1 mm"), units)
    follows = {r["run"]: r.get("rack_follows", "posts") for r in job.get("runs", [])}
    seen = 0
    for row in rows:
        bay, span, tan, face, leaning = bay_as_built(job, row)
        if leaning:
            continue
        seen += 1
        extra = float(row["allowance_mm"]) - figure(system["allowance"], units)
        width, rack = float(row["width_mm"]), float(row["rack_mm"]) * {"left": -1, "right": 1, "none": 0}[row["high_end"]]
        left, right = float(row["left_edge_mm"]), float(row["right_edge_mm"])
        low = max(0.0, -rack)
        pane = Polygon([(0, low), (width, low + rack), (width, low + rack + right), (0, low + left)])
        assert pane.is_valid and pane.area / 1e6 == pytest.approx(float(row["area_m2"]), abs=1e-4)
        # The clear way between the two groove floors, and the right groove; turned edges need their extra beyond the face.
        clear, groove = box(-depth, -BIG, span + extra + depth, BIG), box(span + extra, -BIG, span + extra + depth, BIG)

        def at(x, pane=pane):
            return Polygon([(px + x, py) for px, py in pane.exterior.coords])

        home = at(-depth)  # fully home in the left groove
        assert clear.buffer(1e-6).contains(home)
        held = home.intersection(groove).bounds
        bitten = held[2] - held[0]
        free = (span + extra + depth) - home.bounds[2]
        margin = min(bitten - bite, free - play)
        assert margin == pytest.approx(float(row["margin_mm"]), abs=0.02)
        assert margin >= 0
        # Where it stands: the feet of both posts at their middles, or the line of the deck.
        rise_over_centres = tan * (span + sum(face) / 2)
        wanted = rise_over_centres if follows.get(bay["run"], "posts") == "posts" else tan * (span + extra + figure(system["allowance"], units))
        assert rack == pytest.approx(wanted, abs=step / 2 + 0.01)
    assert seen >= len(rows) / 2
