"""Where two copies of a job, or two people, said different things: each side with its name, and what to do. Pure."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from datetime import datetime

from fieldapp.live_job import LiveJob
from fieldapp.screens.more_model import again_words
from fieldapp.words import day, hour, say
from measure.conflict import WORDS_FOR, Conflict, Side
from measure.plan_told import names_in, places_told
from measure.reading import Reading


@dataclass(frozen=True, slots=True)
class SideView:
    """id: of the reading or of the plan's version. by: whose it is. when: day and time, and whether it is the plan that is shown now.

    said: the figure as typed, or what the plan says. holds: what a tap says that settles it.
    """

    id: str
    by: str
    when: str
    said: str
    holds: str


@dataclass(frozen=True, slots=True)
class ConflictView:
    """bay, what: where to go and tape again, and the question to ask there; empty for a plan. plan: of the plan."""

    place: str
    sentence: str
    sides: tuple[SideView, ...]
    bay: str
    plan: bool
    what: str = ""


def conflict_views(live: LiveJob, conflicts: tuple[Conflict, ...]) -> list[ConflictView]:
    """All of them, the plan first."""
    return [_view(live, one) for one in conflicts]


def _view(live: LiveJob, one: Conflict) -> ConflictView:
    if one.kind == "plan":
        sentence = say("sides.plan", places=places_told(one.differs, names_in(live.plan)))
        return ConflictView(say("sides.of_plan"), sentence, _sides(one), "", True)
    read = next(r for r in live.readings if r.id == one.sides[0].id)
    return ConflictView(f"{one.place}, {WORDS_FOR[read.what]}", one.sentence, _sides(one), *_asked_at(live, read))


def _asked_at(live: LiveJob, read: Reading) -> tuple[str, bool, str]:
    """Bay, no plan, question: where this figure is asked for again."""
    if read.bay is not None:
        return read.bay, False, read.what
    if read.post is not None:
        bays = [b for b in live.plan.bays if read.post in (b.left, b.right) and read.run in (None, b.run)]
        bay = next((b for b in bays if b.has_glass), bays[0])
        return bay.tag, False, "plumb-left" if bay.left == read.post else "plumb-right"
    what = f"overall-{read.hooked or 'inside'}" if read.what == "overall" else read.what
    return live.book.run_bays[read.run or ""][0].tag, False, what


def settling(live: LiveJob, chosen: str) -> dict[str, object]:
    """The reading to keep so that the chosen side holds: its figure said once more, in its place; the store settles the others by it.

    chosen: the id of its reading. Nothing is taken away: all sides stay on record as replaced.
    """
    read = next(r for r in live.readings if r.id == chosen)
    where = {"post": read.post, "run": read.run, "toward": read.toward, "from": read.hooked if read.what == "overall" else None}
    return {**again_words(live, read), **{k: v for k, v in where.items() if v is not None}, "replaces": chosen}


def _sides(one: Conflict) -> tuple[SideView, ...]:
    """Each side with its name once; two of one name are told apart by their time."""
    words = [_holds(one, side) for side in one.sides]
    often = Counter(words)
    return tuple(
        SideView(
            side.id, side.by or say("sides.of_file"), _when(side, one.kind == "plan" and side is one.sides[-1]), side.said,
            say("sides.holds_at", holds=said, when=_moment(side)) if often[said] > 1 and side.at else said,
        )
        for side, said in zip(one.sides, words, strict=True)
    )  # fmt: skip


def _holds(one: Conflict, side: Side) -> str:
    if one.kind == "reading":
        return say("sides.holds_reading", by=side.by, figure=side.said)
    return say("sides.holds", by=side.by) if side.by else say("sides.holds_file")


def _moment(side: Side) -> str:
    at = datetime.fromisoformat(side.at)
    return f"{day(at)} {hour(at)}"


def _when(side: Side, shown: bool) -> str:
    told = _moment(side) if side.at else ""
    return f"{told}, {say('sides.shown')}".removeprefix(", ") if shown else told
