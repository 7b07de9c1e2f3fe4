"""Where two copies of a job, or two people, said different things: each side with its name, and what to do. Pure."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime

from fieldapp.live_job import LiveJob
from fieldapp.screens.more_model import again_words
from fieldapp.words import day, listed, say
from measure.conflict import Conflict, Side

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
    """bay: where to go and tape again; empty where no single bay is meant. plan: of the plan. what: the question to ask again there."""

    place: str
    sentence: str
    sides: tuple[SideView, ...]
    bay: str
    plan: bool
    what: str = ""

    def holds(self, side: SideView) -> str:
        """What a tap says that settles it; empty where only the tape can."""
        if self.plan:
            return say("sides.holds", by=side.by)
        return say("sides.holds_reading", by=side.by, figure=side.figure) if self.bay else ""


def conflict_views(live: LiveJob, conflicts: tuple[Conflict, ...]) -> list[ConflictView]:
    """All of them, the plan first."""
    return [_view(live, one) for one in conflicts]


def _view(live: LiveJob, one: Conflict) -> ConflictView:
    plan = one.kind == "plan"
    sides = tuple(_side(s, plan and s is one.sides[-1]) for s in one.sides)
    sentence = say("sides.plan", places=listed([_named(live, p) for p in one.differs])) if plan else one.sentence
    place = live.name if plan else f"{one.place}, {one.what}"
    return ConflictView(place, sentence, sides, one.place if one.place in live.book.bays else "", plan, one.what)


def settling(live: LiveJob, one: ConflictView, chosen: str) -> list[dict[str, object]]:
    """The readings to keep so that the chosen side of a bay holds: its figure said once more, in the place of each that differs.

    chosen: the id of its reading. Nothing is taken away: the others stay on record as replaced.
    """
    by_id = {r.id: r for r in live.readings}
    said = again_words(live, by_id[chosen])
    return [{**said, "replaces": side.id} for side in one.sides if side.id != chosen and side.id in by_id]


def _named(live: LiveJob, place: str) -> str:
    """`A1 span` for `bays[0].span`, as far as the shown plan has such a place; others as they are."""
    found = _IN_LIST.fullmatch(place)
    names = [b.tag for b in live.plan.bays] if found and found[1] == "bays" else [p.id for p in live.plan.posts]
    if found is None or int(found[2]) >= len(names):
        return place.replace("_", " ").replace(".", " ")
    return f"{names[int(found[2])]} {found[3].replace('_', ' ')}".strip()


def _side(side: Side, shown: bool) -> SideView:
    by = side.by or say("sides.of_file")
    under = say("sides.of", by=by, day=day(datetime.fromisoformat(side.at))) if side.at else by
    return SideView(side.id, by, under, side.said, shown)


def two_firsts(live: LiveJob, tag: str) -> bool:
    """Whether something was read first more than once at a bay: only then is it worth asking who knew of whom. Cheap."""
    kinds = {r.what for r in live.readings if r.bay == tag and r.role == "first"}
    return any(len(live.book.standing("bay", tag, what, "first")) > 1 for what in kinds)
