"""Makes `long-boardwalk.json`: 240 bays in twelve runs, one after the other, from a hidden true geometry with honest reading errors.

    python sample_jobs/make_long_boardwalk.py

The same file every time. Place and people are invented.
"""

from __future__ import annotations

import math
import random
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from measure.documents import dump, read_words

FILE = Path(__file__).with_name("long-boardwalk.json")
RUNS, BAYS_IN_RUN = 12, 20
SPACING, FACE = 1250, 60
"""Planned centre to centre, and a post's face, mm."""
BEND = 172
"""Degrees on the deck side where one run goes over into the next."""
WAY_THROUGH = {(2, 9), (5, 14), (7, 4), (10, 11)}
"""(run, bay) of the ways through to the water, counted from 0."""
PEOPLE = (("Wim", "Rosa"), ("Rosa", "Tess"), ("Tess", "Wim"))
"""Who tapes and who reads back, by day."""


class Survey:
    """Walks the boardwalk once, from its landward end, and writes down what was read."""

    def __init__(self) -> None:
        self._chance = random.Random(240)
        self._at = datetime(2026, 8, 3, 6, 30, tzinfo=UTC)
        self.readings: list[dict[str, Any]] = []

    def off(self, tenths: int) -> float:
        """A bell-shaped error in mm, never beyond ± three times `tenths` tenths of a millimetre."""
        return sum(self._chance.randint(-tenths, tenths) for _ in range(3)) / 10

    def at(self, seconds: int) -> str:
        self._at += timedelta(seconds=seconds)
        return self._at.isoformat().replace("+00:00", "Z")

    def next_day(self) -> None:
        self._at = (self._at + timedelta(days=1)).replace(hour=6, minute=30, second=0)

    def bay(self, tag: str, span: float, rise: float, people: tuple[str, str], has_glass: bool) -> None:
        """The true span and rise (mm, positive: right end high) of a bay, as one and the other person read them."""
        taped_by, read_back_by = people
        read = round(span + self.off(2))
        self.readings.append({"bay": tag, "what": "span", "value": read, "by": taped_by, "at": self.at(45)})
        if not has_glass:
            return
        self.readings.append({"bay": tag, "what": "span", "value": read, "by": read_back_by, "at": self.at(10), "role": "read-back"})
        height = round(abs(rise + self.off(1)))
        words = {"bay": tag, "what": "rise", "value": height}
        if height:
            words["high"] = "right" if rise > 0 else "left"
        self.readings.append(words | {"over": "centres", "by": taped_by, "at": self.at(30)})

    def overall(self, run: str, length: float, by: str) -> None:
        value = f"{round(length + self.off(3)) / 1000:.3f} m"
        self.readings.append({"run": run, "what": "overall", "from": "outside", "value": value, "by": by, "at": self.at(200)})


def boardwalk() -> dict[str, Any]:
    """The job as a dict."""
    survey, posts, bays = Survey(), [{"id": "P1", "kind": "wall", "face": 40}], []
    for run in range(RUNS):
        if run and run % 4 == 0:
            survey.next_day()
        people, name, spans = PEOPLE[run // 4], chr(ord("A") + run), 0.0
        for place in range(BAYS_IN_RUN):
            number = run * BAYS_IN_RUN + place + 1
            last = place == BAYS_IN_RUN - 1
            posts.append(_post(number + 1, bends=last))
            tag, has_glass = f"{name}{place + 1}", (run, place) not in WAY_THROUGH
            bay: dict[str, Any] = {"tag": tag, "run": name, "left": f"P{number}", "right": f"P{number + 1}", "spacing": SPACING}
            bays.append(bay if has_glass else bay | {"glass": "none"})
            spacing = SPACING + survey.off(25)
            span = spacing - (_face(number) + _face(number + 1)) / 2
            slope = 0.012 * math.sin(number / 19)
            survey.bay(tag, span, slope * spacing + survey.off(3), people, has_glass)
            spans += span
        first = run * BAYS_IN_RUN + 1
        faces = sum(_face(first + i) for i in range(BAYS_IN_RUN + 1))
        survey.overall(name, spans + faces, people[0])
    runs = [{"run": chr(ord("A") + run), "rack_follows": "posts", "seen_from": "the boardwalk, looking at the water"} for run in range(RUNS)]
    return {**_head(), "runs": runs, "posts": posts, "bays": bays, "readings": survey.readings}


def _post(number: int, bends: bool) -> dict[str, Any]:
    if number == RUNS * BAYS_IN_RUN + 1:
        return {"id": f"P{number}", "kind": "end"}
    post: dict[str, Any] = {"id": f"P{number}", "kind": "line"}
    return post | {"angle": BEND} if bends else post


def _face(number: int) -> int:
    return 40 if number == 1 else FACE


def _head() -> dict[str, Any]:
    return {
        "format": "spanbook-job/1",
        "job": {
            "name": "Long boardwalk", "site": "Sedge Water, Outer Fenby (invented)", "units": "mm", "order_step": "1 mm",
            "read_back": "required", "plumb": "no", "customer": "Sedge Water trust (invented)", "po": "SW-240",
            "wanted_by": "2026-10-01", "deliver_to": "visitors' car park, in four lots by run", "contact": "Wim", "phone": "",
            "unloading": "fork lift; racks of twenty",
        },
        "tape": {"division": "1 mm", "class": "I", "from_hook": True, "placing": "0.3 mm"},
        "system": {
            "name": "Grooved post 60 (invented)", "post_face": FACE, "base_plate": 120, "greatest_spacing": 1300, "allowance": 32,
            "groove_depth": 20, "least_bite": 6, "least_play": 2, "turn_axis": "17.5 mm", "post_height": 1050,
            "turning": {"line": {"grooves": 180, "each": 30}, "wall": {"each": 30}},
            "confirmed": {"by": "Wim", "at": "2026-07-20", "sheet": "invented sheet 60-b"},
        },
        "glass": {
            "thickness": "10 mm", "kind": "clear toughened", "height": 965,
            "edge": {"top": "polished", "uprights": "ground", "bottom": "ground"}, "corners": "dubbed",
            "stamp": "lower right, shows after fitting", "standard": "", "finish_face": None, "size_tolerance": "2 mm",
            "least_width": 150, "greatest_width": 2400, "least_height": 300, "greatest_height": 1800, "least_corner_angle": 30,
            "greatest_mass_kg": 60,
        },
        "limits": {"plan_tolerance": "12 mm", "second_tape": "3 mm", "lean": "5 mm", "slope": "3 %", "slope_step": "1 %"},
    }  # fmt: skip


def job_file() -> bytes:
    """The file's bytes."""
    return dump(read_words(boardwalk()).as_dict())


if __name__ == "__main__":
    FILE.write_bytes(job_file())
