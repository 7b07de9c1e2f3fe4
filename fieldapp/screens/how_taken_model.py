"""How a figure was taken, as it is chosen: what each choice means, and what the figure then counts as. Pure."""

from __future__ import annotations

import json
from dataclasses import asdict, dataclass, replace
from typing import Any

from fieldapp.live_job import LiveJob
from fieldapp.screens.taken import FORMS, RISE_OVERS, SPAN_HOWS, START, RiseTaken, SpanTaken, Taken
from fieldapp.screens.typing_state import Typing
from fieldapp.words import say
from measure.as_read import with_unit
from measure.errors import EntryError
from measure.parse import parse_length
from measure.rounding import plain_text

Option = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Choosing:
    """What is chosen so far for a run. follows: what the glass follows, None while nobody said."""

    span: SpanTaken
    rise: RiseTaken
    follows: str | None

    @classmethod
    def begin(cls, live: LiveJob, run: str, taken: Taken, draft: str = "") -> Choosing:
        """As this device remembers it and the plan says it, or as it was left half-chosen."""
        if draft:
            kept = json.loads(draft)
            return cls(SpanTaken(**kept["span"]), RiseTaken(**kept["rise"]), kept["follows"])
        return cls(taken.span(run), taken.rise(run), live.book.runs[run].rack_follows)

    @property
    def draft(self) -> str:
        return json.dumps({"span": asdict(self.span), "rise": asdict(self.rise), "follows": self.follows})

    def missing(self, what: str) -> str:
        """The length of a tool that has to be typed before this is said; empty where nothing is missing."""
        if is_rise(what):
            return "level-length" if self.rise.over == "level" and not self.rise.level else ""
        return "case-length" if self.span.how == "case" and not self.span.case else ""


def is_rise(what: str) -> bool:
    """Whether the question is of a rise."""
    return what in ("rise", "base-rise")


def span_options(live: LiveJob) -> list[Option]:
    """The ways to take a span."""
    start = START[live.plan.units]
    return [(how, say(f"taken.{how}", start=start)) for how in SPAN_HOWS]


def span_told(live: LiveJob, span: SpanTaken) -> str:
    """What the chosen way means for the figure."""
    if span.how == "case":
        return say("taken.case_told", case=with_unit(span.case, live.plan.units)) if span.case else say("taken.case_unsaid")
    if span.how == "laser":
        laser = live.plan.tape.laser
        return say("taken.laser_told", doubt=plain_text(laser, live.plan.units)) if laser else say("taken.laser_unsaid")
    return say(f"taken.{span.how}_told", start=START[live.plan.units])


def counts(live: LiveJob, typed: str, span: SpanTaken) -> str:
    """What the figure counts as, with its unit; empty where nothing can be read yet."""
    try:
        made = span.counts_as(parse_length(typed, live.plan.units), live.plan.units)
    except EntryError:
        return ""
    return plain_text(made, live.plan.units) if made.nm > 0 else say("taken.nothing_left")


def rise_options(what: str) -> list[Option]:
    """The ways to read a rise; at the feet the tops tell nothing."""
    overs = RISE_OVERS if what == "rise" else RISE_OVERS[1:]
    return [(over, say(f"taken.{over}")) for over in overs]


def rise_told(live: LiveJob, rise: RiseTaken) -> str:
    """What the chosen base means."""
    if rise.over == "level":
        return say("taken.level_told", level=with_unit(rise.level, live.plan.units)) if rise.level else say("taken.level_unsaid")
    return say(f"taken.{rise.over}_told")


def form_options(live: LiveJob) -> list[Option]:
    """The spellings of a slope that instruments show."""
    return [(form, say(f"taken.form_{form}")) for form in FORMS[live.plan.units]]


def follow_options() -> list[Option]:
    return [("posts", say("taken.posts")), ("slope", say("taken.along_slope"))]


def plan_following(words: dict[str, Any], run: str, follows: str) -> dict[str, Any]:
    """The job file with what the glass of a run follows."""
    runs = [dict(one) for one in words.get("runs", [])]
    mine = next((one for one in runs if one["run"] == run), None)
    if mine is None:
        runs.append({"run": run, "rack_follows": follows})
    else:
        mine["rack_follows"] = follows
    return {**words, "runs": runs}


def with_choice(taken: Taken, run: str, what: str, choosing: Choosing) -> Taken:
    """What this device remembers once it was so. At the feet a rise is read between the faces; that changes no other rise."""
    if not is_rise(what):
        return taken.with_span(run, choosing.span)
    return taken.with_rise(run, choosing.rise)


def shown_rise(what: str, rise: RiseTaken) -> RiseTaken:
    """At the feet, over the tops means between the faces."""
    return replace(rise, over="faces") if what == "base-rise" and rise.over == "centres" else rise


def typed_rise(typing: Typing) -> str:
    """The rise typed so far, for the line above: `3/8 in, right higher`."""
    if typing.entry.empty:
        return ""
    side = f", {say(f'walk.{typing.side}_higher')}" if typing.side in ("left", "right") else ""
    return f"{typing.spoken}{side}"

