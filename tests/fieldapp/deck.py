"""A deck to walk, invented: five bays in run A, a gate and one bay in run B. Figures as on site, nothing of it is a check value."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from fractions import Fraction

from fieldapp.live_job import LiveJob
from measure.job import Job, Units
from measure.parse import parse_length, parse_rise
from measure.plan import Bay, Post, Run
from measure.reading import Answer, Moved, Reading
from measure.system import Glass, Limits, System, Tape

START = datetime(2026, 5, 2, 9, 0, tzinfo=UTC)
FIGURES = {
    "in": {
        "face": "2 1/2 in", "greatest": "50 in", "allowance": "1 5/16 in", "depth": "13/16 in", "bite": "1/4 in", "play": "1/16 in",
        "height": "38 in", "tolerance": "1/4 in", "second": "1/8 in", "lean": "3/16 in", "step": "1/16 in", "planned": "40 1/2 in",
        "division": "1/16 in", "plate": "5 in",
    },
    "mm": {
        "face": "65", "greatest": "1270", "allowance": "33", "depth": "20.5", "bite": "6", "play": "1.5", "height": "965",
        "tolerance": "6", "second": "3", "lean": "5", "step": "1", "planned": "1028", "division": "1", "plate": "127",
    },
}  # fmt: skip


@dataclass
class Deck:
    """Readings are added one after the other, a minute apart; `live()` is the job as it then stands."""

    units: Units = "in"
    read_back: str = "asked"
    plumb: str = "no"
    trimmed: tuple[str, ...] = ()
    follows: str | None = "posts"
    readings: list[Reading] = field(default_factory=list)
    moved: list[Moved] = field(default_factory=list)
    answers: list[Answer] = field(default_factory=list)
    limits: dict[str, object] = field(default_factory=dict)

    def length(self, name: str):
        return parse_length(FIGURES[self.units][name], self.units)

    def at(self) -> datetime:
        return START + timedelta(minutes=len(self.readings) + len(self.moved) + len(self.answers))

    def read(self, place: str, what: str, text: str, **said: object) -> Deck:
        """One reading at a bay (`A1`), a post (`P1`) or a run (`run A`)."""
        kind = "run" if place.startswith("run ") else "post" if place.startswith("P") else "bay"
        for key in ("start", "case", "mark"):
            if isinstance(said.get(key), str):
                texts = {} if key == "mark" else {f"{key}_text": said[key]}
                said |= {key: parse_length(str(said[key]), self.units), **texts}
        if isinstance(said.get("over"), str) and said["over"] not in ("centres", "faces"):
            said |= {"over": parse_length(str(said["over"]), self.units), "over_text": said["over"]}
        value = parse_rise(text, self.units) if "rise" in what else parse_length(text, self.units)
        said = {"by": "Mona", "at": self.at(), kind: place.removeprefix("run "), **said}
        self.readings.append(Reading(what, value, text, **said))  # type: ignore[arg-type]
        return self

    def span(self, tag: str, text: str, **said: object) -> Deck:
        return self.read(tag, "span", text, **said)

    def rise(self, tag: str, text: str = "0", high: str | None = None, **said: object) -> Deck:
        return self.read(tag, "rise", text, high=high, **said)

    def move(self, post: str) -> Deck:
        self.moved.append(Moved(post, self.at(), "Mona"))
        return self

    def answer(self, tag: str, check: str, reason: str = "post set clear of a joist") -> Deck:
        self.answers.append(Answer(check, reason, "Mona", self.at(), bay=tag))
        return self

    def job(self) -> Job:
        f = self.length
        posts = [Post(f"P{i}", "wall" if i == 1 else "line", trimmed=f"P{i}" in self.trimmed) for i in range(1, 9)]
        bays = [Bay(f"A{i}", "A", f"P{i}", f"P{i + 1}", planned_span=f("planned")) for i in range(1, 6)]
        bays += [Bay("G1", "B", "P6", "P7", planned_span=f("planned"), has_glass=False)]
        bays += [Bay("B1", "B", "P7", "P8", planned_span=f("planned"))]
        system = System(
            "Grooved post", f("face"), f("greatest"), f("allowance"), f("depth"), f("bite"), f("play"), base_plate=f("plate")
        )
        limits = replace(Limits(f("tolerance"), f("second"), f("lean"), Fraction(8, 100)), **self.limits)  # type: ignore[arg-type]
        return Job(
            "Boathouse deck", self.units, f("step"), Tape(f("division"), "US" if self.units == "in" else "II"), system,
            Glass(parse_length("10 mm", "mm"), f("height"), parse_length("2.5 mm", "mm")), limits,
            (Run("A", self.follows), Run("B", self.follows)), tuple(posts), tuple(bays), tuple(self.readings),  # type: ignore[arg-type]
            tuple(self.moved), tuple(self.answers), read_back=self.read_back, plumb=self.plumb,  # type: ignore[arg-type]
        )  # fmt: skip

    def live(self) -> LiveJob:
        return LiveJob("7", self.job())
