"""Where two copies of a job, or two people, said different things: each side with its name, and what to do. Pure."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime

from fieldapp.live_job import LiveJob
from fieldapp.screens.more_model import again_words
from fieldapp.words import day, listed, say
from measure.conflict import WORDS_FOR, Conflict, Side
from measure.reading import Reading

_IN_LIST = re.compile(r"(bays|posts)\[(\d+)\]\.?(.*)")


@dataclass(frozen=True, slots=True)
class SideView:
    """id: of the reading or of the plan's version. figure: as typed; empty for a plan. shown: the plan that is shown now."""

    id: str
    by: str
    under: str
    figure: str
    shown: bool


@dataclass(frozen=True, slots=True)
class ConflictView:
    """bay, what: where to go and tape again, and the question to ask there; empty for a plan. plan: of the plan."""

    place: str
    sentence: str
    sides: tuple[SideView, ...]
    bay: str
    plan: bool
    what: str = ""

    def holds(self, side: SideView) -> str:
        """What a tap says that settles it."""
        if self.plan:
            return say("sides.holds_file") if side.by == say("sides.of_file") else say("sides.holds", by=side.by)
        return say("sides.holds_reading", by=side.by, figure=side.figure)


def conflict_views(live: LiveJob, conflicts: tuple[Conflict, ...]) -> list[ConflictView]:
    """All of them, the plan first."""
    return [_view(live, one) for one in conflicts]


def _view(live: LiveJob, one: Conflict) -> ConflictView:
    plan = one.kind == "plan"
    sides = tuple(_side(s, plan and s is one.sides[-1]) for s in one.sides)
    sentence = say("sides.plan", places=listed([_named(live, p) for p in one.differs])) if plan else one.sentence
    if plan:
        return ConflictView(live.name, sentence, sides, "", True)
    read = next(r for r in live.readings if r.id == one.sides[0].id)
    return ConflictView(f"{one.place}, {WORDS_FOR[read.what]}", sentence, sides, *_asked_at(live, read))


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


def _named(live: LiveJob, place: str) -> str:
    """`A1 span` for `bays[0].span`, as far as the shown plan has such a place; others as they are."""
    found = _IN_LIST.fullmatch(place)
    names = [b.tag for b in live.plan.bays] if found and found[1] == "bays" else [p.id for p in live.plan.posts]
    if found is None or int(found[2]) >= len(names):
        return place.replace("_", " ").replace(".", " ")
    return f"{names[int(found[2])]} {found[3].replace('_', ' ')}".strip()


def _side(side: Side, shown: bool) -> SideView:
    by = side.by or say("sides.of_file")
    under = day(datetime.fromisoformat(side.at)) if side.at else ""
    return SideView(side.id, by, under, side.said, shown)

