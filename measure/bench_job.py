"""A job of any size for the benchmarks, from a fixed rule: runs of forty bays, honest figures, nothing in the way."""

from __future__ import annotations

import json

BAYS_IN_RUN = 40


def bench_job(bays: int) -> bytes:
    """A job file with so many bays in an inch job, each with a span, a rise and a read-back."""
    runs = -(-bays // BAYS_IN_RUN)
    posts, places, readings = [], [], []
    for number in range(bays):
        run, at = divmod(number, BAYS_IN_RUN)
        if at == 0:
            posts.append({"id": f"P{run}-0", "kind": "end"})
        last = at == BAYS_IN_RUN - 1 or number == bays - 1
        posts.append({"id": f"P{run}-{at + 1}", "kind": "end" if last else "line"})
        tag = f"B{run}-{at + 1}"
        places.append({"tag": tag, "run": f"R{run}", "left": f"P{run}-{at}", "right": f"P{run}-{at + 1}", "spacing": "44 in"})
        value = f"41 {(7, 9, 5, 11)[number % 4]}/16 in"
        minute = f"2026-05-02T{9 + number // 3600 % 10:02d}:{number // 60 % 60:02d}:{number % 60:02d}"
        readings.append({"bay": tag, "what": "span", "value": value, "by": "M", "at": minute + "Z"})
        readings.append({"bay": tag, "what": "rise", "value": "3/8 in", "high": "right", "over": "centres", "by": "M", "at": minute + "Z"})
        readings.append({"bay": tag, "what": "span", "value": value, "by": "K", "at": minute + "Z", "role": "read-back"})
    job = {
        "format": "spanbook-job/1",
        "job": {"name": f"{bays} bays", "site": "invented", "units": "in", "order_step": "1/16 in", "read_back": "asked"},
        "tape": {"division": "1/16 in", "class": "US"},
        "system": {
            "name": "Invented post 65", "post_face": "2 1/2 in", "greatest_spacing": "50 in", "allowance": "1 5/16 in",
            "groove_depth": "13/16 in", "least_bite": "1/4 in", "least_play": "1/16 in",
            "confirmed": {"by": "M", "at": "2026-04-20", "sheet": "invented sheet 3"},
        },
        "glass": {"thickness": "10 mm", "height": "38 in", "size_tolerance": "2.5 mm"},
        "limits": {"plan_tolerance": "1/4 in", "slope": "8 %"},
        "runs": [{"run": f"R{run}"} for run in range(runs)],
        "posts": posts,
        "bays": places,
        "readings": readings,
    }  # fmt: skip
    return json.dumps(job).encode()
