"""Where two sides said different things and neither knew of the other: shown, never decided silently.

A reading that replaces what it repeats is no conflict, nor is one after a moved post, nor one in a file that was written by
hand, where the newest counts. Two devices, or two people on one, that each took a first reading are.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from measure.book import Book, same_person
from measure.entry_id import device_of
from measure.plan_version import PlanVersion, differing
from measure.reading import Reading

WORDS_FOR = {
    "span": "span", "top-span": "top span", "rise": "rise", "base-rise": "rise at the feet", "diagonal-rising": "rising diagonal",
    "diagonal-falling": "falling diagonal", "plumb": "plumb reading", "overall": "overall length", "overall-rise": "overall rise",
}  # fmt: skip
PLACES_NAMED = 4


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a conflict. id: the reading's or the plan version's. said: the figure as typed; empty for a plan."""

    id: str
    by: str
    at: str
    said: str = ""


@dataclass(frozen=True, slots=True)
class Conflict:
    """place: `A2`, `post P3`, `run A` or `job`. what: what was read, or `plan`. differs: the places at which plans differ."""

    kind: Literal["reading", "plan"]
    place: str
    what: str
    sides: tuple[Side, ...]
    sentence: str
    differs: tuple[str, ...] = ()


def plan_conflict(newest: tuple[PlanVersion, ...]) -> Conflict | None:
    """Plans changed on two sides, the shown one last. Equal changes are no conflict."""
    shown = newest[-1]
    places = sorted({p for other in newest[:-1] for p in differing(other.plan, shown.plan)})
    if not places:
        return None
    sides = tuple(Side(v.id, v.by, v.at) for v in newest)
    few = ", ".join(places[:PLACES_NAMED]) + (" and more" if len(places) > PLACES_NAMED else "")
    return Conflict(
        "plan", "job", "plan", sides, f"The plan was changed on two sides: {few}. Choose which one holds.", tuple(places)
    )


def reading_conflicts(book: Book, readings: Iterable[Reading]) -> list[Conflict]:
    """Places where two sides took a first reading of the same thing and the figures differ, in the order of the readings."""
    by_place: dict[tuple[str, str, str, str], list[Reading]] = defaultdict(list)
    for reading in readings:
        if reading.role == "first" and device_of(reading.id) is not None:
            by_place[(*_place(reading), reading.run or "" if reading.post else "", reading.what)].append(reading)
    conflicts = []
    for (kind, place, run, what), several in by_place.items():
        if len(several) > 1:
            standing = [
                r for r in book.standing(kind, place, several[0].what, "first")
                if r in several and (r.run or "" if r.post else "") == run and book.moved_since(r) is None
            ]  # fmt: skip
            if _apart(standing):
                conflicts.append(_conflict(kind, place, what, standing))
    return conflicts


def _place(reading: Reading) -> tuple[str, str]:
    if reading.bay is not None:
        return ("bay", reading.bay)
    return ("post", reading.post) if reading.post is not None else ("run", reading.run or "")


def _apart(readings: list[Reading]) -> bool:
    """Whether two of them come from two sides and say different things."""
    return any(
        _figure(one) != _figure(other) and (device_of(one.id) != device_of(other.id) or not same_person(one.by, other.by))
        for place, one in enumerate(readings)
        for other in readings[place + 1 :]
    )


def _figure(r: Reading) -> tuple[object, ...]:
    return (r.value, r.start, r.case, r.high, r.over, r.taped, r.hooked, r.toward, r.mark)


def _conflict(kind: str, place: str, what: str, readings: list[Reading]) -> Conflict:
    where = place if kind == "bay" else f"{kind} {place}"
    sides = tuple(Side(r.id or "", r.by, r.at.isoformat(), r.text) for r in readings)
    said = ", ".join(f"{s.said} ({s.by})" for s in sides)
    sentence = f"Two sides took the {WORDS_FOR[what]} of {where} and neither knew of the other: {said}. Tape it again."
    return Conflict("reading", where, what, sides, sentence)
