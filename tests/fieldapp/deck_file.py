"""The same kind of deck as a job file, to be walked on a phone. Invented; nothing of it is a check value."""

from __future__ import annotations

from typing import Any

SYSTEMS: dict[str, dict[str, Any]] = {
    "in": {
        "post_face": "2 1/2 in", "base_plate": "5 in", "greatest_spacing": "50 in", "allowance": "1 5/16 in", "groove_depth": "13/16 in",
        "least_bite": "1/4 in", "least_play": "1/16 in", "post_height": "42 in",
    },
    "mm": {
        "post_face": 65, "base_plate": 127, "greatest_spacing": 1270, "allowance": 33, "groove_depth": "20.5", "least_bite": 6,
        "least_play": "1.5", "post_height": 1067,
    },
}  # fmt: skip
LIMITS: dict[str, dict[str, Any]] = {
    "in": {"plan_tolerance": "1/4 in", "second_tape": "1/8 in", "lean": "3/16 in", "slope": "8 %"},
    "mm": {"plan_tolerance": 6, "second_tape": 3, "lean": 5, "slope": "8 %"},
}


def deck_file(units: str = "in", name: str = "Boathouse deck", read_back: str = "asked") -> dict[str, Any]:
    """Four bays in run A and, round the corner, a gate and a bay in run B. Nothing read yet."""
    planned = "40 1/2 in" if units == "in" else 1028
    posts = [{"id": f"P{i}", "kind": "line"} for i in range(1, 8)]
    posts[0]["kind"], posts[4]["kind"], posts[6]["kind"] = "wall", "corner", "end"
    runs = [("A", "A1", 1), ("A", "A2", 2), ("A", "A3", 3), ("A", "A4", 4), ("B", "G1", 5), ("B", "B1", 6)]
    bays = [{"tag": tag, "run": run, "left": f"P{i}", "right": f"P{i + 1}", "span": planned} for run, tag, i in runs]
    bays[4]["glass"] = "none"
    return {
        "format": "spanbook-job/1",
        "job": {"name": name, "units": units, "read_back": read_back},
        "tape": {"division": "1/16 in" if units == "in" else 1, "class": "US" if units == "in" else "II"},
        "system": {"name": "Grooved post", **SYSTEMS[units]},
        "glass": {"thickness": "10 mm", "height": "38 in" if units == "in" else 965, "size_tolerance": "2.5 mm"},
        "limits": LIMITS[units],
        "posts": posts,
        "bays": bays,
    }
