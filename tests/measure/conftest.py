"""A small deck to build orders from, as domain values. Its figures are those of the contract's sample system, invented."""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from fractions import Fraction

import pytest
from hypothesis import settings

from measure.job import Job, OrderHead, Units
from measure.length import Length
from measure.parse import parse_length, parse_slope
from measure.plan import Bay, Post, Run
from measure.reading import Answer, Reading
from measure.system import Confirmed, Glass, Limits, System, Tape, Turning

settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")
"""No test fails because the machine is busy."""
START = datetime(2026, 5, 2, 9, 30, tzinfo=UTC)


@dataclass
class Deck:
    """Bays in one or more runs, built one after the other; `job()` at the end. Texts are typed as on site."""

    units: Units = "in"
    posts: list[Post] = field(default_factory=lambda: [Post("P0", "end")])
    bays: list[Bay] = field(default_factory=list)
    readings: list[Reading] = field(default_factory=list)
    answers: list[Answer] = field(default_factory=list)
    runs: dict[str, Run] = field(default_factory=lambda: {"A": Run("A", "posts")})
    glass: dict[str, object] = field(default_factory=dict)
    system: dict[str, object] = field(default_factory=dict)
    head: OrderHead = field(default_factory=OrderHead)
    name: str = "Boathouse deck"

    def length(self, text: str) -> Length:
        return parse_length(text, self.units)

    def bay(self, tag: str, span: str, rise: str = "0 in", high: str | None = None, run: str = "A", **said: object) -> "Deck":
        """said: of the bay (shape, height, finish_face, status, taller), its right post (post), or its readings (by, read_back_by,
        over, over_text, taped, start, case, what)."""
        post = said.pop("post", None) or Post(f"P{len(self.posts)}", "line")
        left = self.posts[-1].id
        self.posts.append(post)
        at = START + timedelta(minutes=len(self.bays))
        by, back = said.pop("by", "Mona"), said.pop("read_back_by", "")
        span_said = {key: said.pop(key) for key in ("taped",) if key in said}
        for key in ("start", "case"):
            if key in said:
                span_said |= {key: self.length(said[key]), f"{key}_text": said.pop(key)}
        over, what = said.pop("over", None), said.pop("what", "rise")
        slope = parse_slope(rise)
        rise_said = {"over": self.length(over), "over_text": over} if over and over[0].isdigit() else {"over": over}
        if slope is None and over is None:
            rise_said = {"over": "faces" if what == "base-rise" else "centres"}
        self.bays.append(Bay(tag, run, left, post.id, **said))
        self.readings.append(Reading("span", self.length(span), span, by, at, bay=tag, **span_said))
        value = self.length(rise) if slope is None else slope
        self.readings.append(Reading(what, value, rise, by, at, bay=tag, high=high, **rise_said))
        if back:
            later = at + timedelta(seconds=20)
            self.readings.append(Reading("span", self.length(span), span, back, later, bay=tag, role="read-back"))
        return self

    def gate(self) -> "Deck":
        """A way through: it parts the pattern of slopes, so that the bays beside it are no neighbours."""
        post = Post(f"P{len(self.posts)}", "line")
        self.bays.append(Bay(f"gate {len(self.bays)}", "A", self.posts[-1].id, post.id, has_glass=False))
        self.posts.append(post)
        return self

    def overall(self, run: str, text: str) -> "Deck":
        """The run's overall, hooked inside to inside."""
        said = Reading("overall", self.length(text), text, "Mona", START + timedelta(hours=1), run=run, hooked="inside")
        self.readings.append(said)
        return self

    def answer(self, check: str, reason: str, by: str = "Mona", bay: str | None = None, run: str | None = None) -> "Deck":
        self.answers.append(Answer(check, reason, by, START + timedelta(hours=2, minutes=len(self.answers)), bay=bay, run=run))
        return self

    def job(self, read_back: str = "no", limits: Limits | None = None) -> Job:
        inch = self.units == "in"

        def said(text: str, metric: str) -> Length:
            return self.length(text if inch else metric)

        system = {
            "name": "Grooved post 65", "post_face": said("2 1/2 in", "65 mm"), "greatest_spacing": said("54 in", "1400 mm"),
            "allowance": said("1 5/16 in", "33 mm"), "groove_depth": said("13/16 in", "20 mm"), "least_bite": said("1/4 in", "6 mm"),
            "least_play": said("1/16 in", "2 mm"), "turn_axis": said("1/2 in", "17.5 mm"),
            "turning": {
                "line": Turning(Fraction(40), Fraction(180)), "corner": Turning(Fraction(50), Fraction(90)), "wall": Turning(Fraction(35)),
            },
            "confirmed": Confirmed("Mona", "2026-04-20", "invented sheet 3"),
        } | self.system  # fmt: skip
        glass = {
            "thickness": Length(10_000_000), "height": said("38 in", "965 mm"), "size_tolerance": Length(2_500_000),
            "kind": "clear toughened", "edge_top": "polished", "edge_uprights": "ground", "edge_bottom": "ground",
            "corners": "dubbed", "stamp": "lower right, shows after fitting",
        } | self.glass  # fmt: skip
        return Job(
            self.name, self.units, self.length("1/16 in" if inch else "1 mm"), Tape(said("1/16 in", "1 mm"), "US" if inch else "II"),
            System(**system), Glass(**glass), limits or Limits(), tuple(self.runs.values()), tuple(self.posts), tuple(self.bays),
            tuple(self.readings), (), tuple(self.answers), "invented", read_back, head=self.head,
        )  # fmt: skip


@pytest.fixture
def deck() -> Callable[..., Deck]:
    """A new deck: `deck()` in inches, `deck(units="mm")` in millimetres."""
    return Deck
