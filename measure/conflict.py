"""Where two sides said different things and neither knew of the other: shown, never decided silently.

A reading that replaces what it repeats is no conflict, nor is one after a moved post, nor one in a file that was written by
hand, where the newest counts. Two devices, or two people on one, that each took a first reading are.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from measure.as_read import rise_as_read, span_as_read
from measure.book import Book, same_person
from measure.entry_id import device_of
from measure.job import Units
from measure.plan_told import Names, names_of, places_told, plan_says
from measure.plan_version import PlanVersion, differing
from measure.reading import Reading, What
from measure.slope import Slope

CHECK = "two-sides"
"""What the checks call it."""
WORDS_FOR = {
    "span": "span", "top-span": "top span", "rise": "rise", "base-rise": "rise at the feet", "diagonal-rising": "rising diagonal",
    "diagonal-falling": "falling diagonal", "plumb": "plumb reading", "overall": "overall length", "overall-rise": "overall rise",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a conflict. id: the reading's or the plan version's. said: the figure as typed; of a plan what it says where they differ."""

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
    sides = tuple(Side(v.id, v.by, v.at, plan_says(v.plan, places)) for v in newest)
    return Conflict("plan", "job", "plan", sides, plan_sentence(places, names_of(shown.plan)), tuple(places))


def plan_sentence(places: Sequence[str], names: Names) -> str:
    """places: at which two plans differ, `glass.height`. names: of the bays, posts and runs in the plan that is shown."""
    return f"The plan was changed on two sides. {places_told(places, names)} Choose in Spanbook which one holds."


def reading_conflicts(book: Book, readings: Iterable[Reading]) -> list[Conflict]:
    """Things that two sides read first and otherwise, in the order of the readings, as long as nobody settled or answered them."""
    met = dict.fromkeys((*_place(r), r.what, _line(r)) for r in readings if r.role == "first")
    conflicts = []
    for kind, place, what, line in met:
        sides = undecided(book, kind, place, what, line)
        if sides and not _answered(book, kind, place, line, sides):
            where = place if kind == "bay" else f"{kind} {place}"
            told = tuple(Side(r.id or "", r.by, r.at.isoformat(), said(r, book.job.units)) for r in sides)
            conflicts.append(Conflict("reading", where, what, told, sentence_of(book, where, sides)))
    return conflicts


def undecided(book: Book, kind: str, place: str, what: What, line: str = "") -> list[Reading]:
    """The first readings of one thing that stand beside each other, where two sides took them and differ; else none.

    kind: `bay`, `post` or `run`. line: the run in whose line a post was read, where that was said.
    """
    several = book.standing(kind, place, what, "first")
    if len(several) < 2:
        return []
    sides = [r for r in several if _line(r) == line and device_of(r.id) is not None and book.moved_since(r) is None]
    return _once(sides) if _apart(sides) else []


def sentence_of(book: Book, where: str, sides: list[Reading]) -> str:
    """Who read what, which one counts as long as nobody decides, and what to do. where: `A2`, `post P3`, `run A`."""
    units = book.job.units
    told = ", ".join(f"{said(r, units)} ({r.by})" for r in sides)
    counts = max(reversed(sides), key=lambda r: r.at)
    what = WORDS_FOR[counts.what]
    return (
        f"Two sides took the {what} of {where} and neither knew of the other: {told}. {said(counts, units)} counts now."
        " Tape it again, or say which one holds."
    )


def said(reading: Reading, units: Units) -> str:
    """A figure as it was read, with the side that it names: `41 1/2 in`, `3/8 in, left high`."""
    if isinstance(reading.value, Slope):
        figure = reading.text.strip()
    elif reading.over is not None and reading.what != "plumb":
        figure = rise_as_read(reading, units)
    else:
        figure = span_as_read(reading, units)
    sides = (f"{reading.high} high" if reading.high else "", f"heads {reading.toward}" if reading.toward else "", reading.hooked or "")
    return ", ".join(part for part in (figure, *sides) if part)


def _place(reading: Reading) -> tuple[str, str]:
    if reading.bay is not None:
        return ("bay", reading.bay)
    return ("post", reading.post) if reading.post is not None else ("run", reading.run or "")


def _line(reading: Reading) -> str:
    return reading.run or "" if reading.post is not None else ""


def _answered(book: Book, kind: str, place: str, line: str, sides: list[Reading]) -> bool:
    """Whether somebody wrote why the newest may count; of a post at each of its bays, where the query stands."""
    if kind == "post":
        bays = (b for b in book.job.bays if b.has_glass and place in (b.left, b.right) and line in ("", b.run))
        places = [b.tag for b in bays]
    else:
        places = [place if kind == "bay" else f"run {place}"]
    newest = max(r.at for r in sides)
    return bool(places) and all(book.answer(p, CHECK, newest) is not None for p in places)


def _once(readings: list[Reading]) -> list[Reading]:
    """What one person said twice on one device is one side: the newest of it."""
    newest: dict[tuple[object, ...], Reading] = {}
    for r in sorted(readings, key=lambda r: r.at):
        newest[_figure(r), device_of(r.id), " ".join(r.by.split()).casefold()] = r
    kept = {id(r) for r in newest.values()}
    return [r for r in readings if id(r) in kept]


def _apart(readings: list[Reading]) -> bool:
    """Whether two of them come from two sides and say different things."""
    return any(
        _figure(one) != _figure(other) and (device_of(one.id) != device_of(other.id) or not same_person(one.by, other.by))
        for place, one in enumerate(readings)
        for other in readings[place + 1 :]
    )


def _figure(r: Reading) -> tuple[object, ...]:
    return (r.value, r.start, r.case, r.high, r.over, r.taped, r.hooked, r.toward, r.mark)
