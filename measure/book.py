"""Which readings count: of a kind the one that nothing replaces, newest by its time, and no older than a post that moved.

A `Book` is the job with its readings sorted by place; it can grow by one reading, answer or move at a time.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from measure.entry_id import mark_of, settled_by
from measure.job import Job
from measure.length import Length
from measure.plan import Bay, Post, Run
from measure.reading import Answer, Moved, Reading, Role, What

Key = tuple[str, str, str]
"""Kind of place (`bay`, `post`, `run`), its name, what was read."""


def same_person(one: str, other: str) -> bool:
    return " ".join(one.split()).casefold() == " ".join(other.split()).casefold()


@dataclass(frozen=True, slots=True)
class Stale:
    """A reading that a moved post made stale."""

    reading: Reading
    post: str


class Book:
    """A job's readings by place. Unknown places are refused by the documents, before a book is made."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self.bays: dict[str, Bay] = {b.tag: b for b in job.bays}
        self.posts: dict[str, Post] = {p.id: p for p in job.posts}
        self.runs: dict[str, Run] = {r.name: r for r in job.runs}
        self.run_bays: dict[str, list[Bay]] = defaultdict(list)
        for bay in job.bays:
            self.run_bays[bay.run].append(bay)
            if bay.run not in self.runs:
                self.runs[bay.run] = Run(bay.run)
        self._readings: dict[Key, list[Reading]] = defaultdict(list)
        self._replaced: set[str] = set()
        self._settled: dict[Key, set[str]] = defaultdict(set)
        self._moved: dict[str, datetime] = {}
        self._answers: dict[tuple[str, str], list[Answer]] = defaultdict(list)
        # What counts is asked for by nearly every check; each answer is kept until something new is said.
        self._counted: dict[tuple[str, str, str, str], Reading | None] = {}
        self._backs: dict[int, tuple[Reading, Reading | None]] = {}
        for reading in job.readings:
            self.add(reading)
        for moved in job.moved:
            self.add_moved(moved)
        for answer in job.answers:
            self.add_answer(answer)

    def add(self, reading: Reading) -> None:
        """Take one more reading."""
        self._forget()
        self._readings[_key(reading)].append(reading)
        if reading.replaces is not None:
            self._replaced.add(reading.replaces)
            self._settled[_key(reading)].update(settled_by(reading.id))

    def add_moved(self, moved: Moved) -> None:
        """Take one more moved post."""
        self._forget()
        before = self._moved.get(moved.post)
        if before is None or moved.at > before:
            self._moved[moved.post] = moved.at

    def _forget(self) -> None:
        self._counted.clear()
        self._backs.clear()

    def add_answer(self, answer: Answer) -> None:
        """Take one more written answer."""
        place = answer.bay if answer.bay is not None else f"run {answer.run}"
        self._answers[place, answer.check].append(answer)

    def face(self, post_id: str) -> Length:
        """The width of a post along the run: its own, else the system's."""
        own = self.posts[post_id].face
        return self.job.system.post_face if own is None else own

    def planned_span(self, bay: Bay) -> Length | None:
        """As planned, else spacing less half of both faces (to the nanometre below)."""
        if bay.planned_span is not None or bay.spacing is None:
            return bay.planned_span
        return Length(bay.spacing.nm - (self.face(bay.left).nm + self.face(bay.right).nm) // 2)

    def touched(self, reading: Reading) -> Iterable[str]:
        """The posts that a reading rests on."""
        if reading.bay is not None:
            bay = self.bays[reading.bay]
            return (bay.left, bay.right)
        if reading.post is not None:
            return (reading.post,)
        bays = self.run_bays[reading.run or ""]
        return [bays[0].left, *(b.right for b in bays)] if bays else ()

    def moved_since(self, reading: Reading) -> str | None:
        """The post that was moved after this reading, if any."""
        if not self._moved:
            return None
        return next((p for p in self.touched(reading) if p in self._moved and reading.at < self._moved[p]), None)

    def replaced(self, reading: Reading) -> bool:
        """Whether another reading took its place: by naming it, or, of several that stood beside each other, in its id."""
        if reading.id is None or reading.id in self._replaced:
            return reading.id is not None
        marks = self._settled.get(_key(reading), ())
        return bool(marks) and reading.role == "first" and mark_of(reading.id) in marks

    def standing(self, kind: str, place: str, what: What, role: Role) -> list[Reading]:
        """The readings of a kind that nothing replaces, in file order, stale ones included."""
        found = self._readings.get((kind, place, what))
        return [r for r in found if r.role == role and not self.replaced(r)] if found else []

    def counting(self, kind: str, place: str, what: What, role: Role = "first") -> Reading | None:
        """The one that counts; None where there is none or all are stale. Newest by time, on a tie the later in the file."""
        key = (kind, place, what, role)
        if key not in self._counted:
            self._counted[key] = self._count(self._readings.get((kind, place, what), ()), role)
        return self._counted[key]

    def _count(self, readings: Iterable[Reading], role: Role) -> Reading | None:
        best: Reading | None = None
        for reading in readings:
            if reading.role != role or (best is not None and reading.at < best.at):
                continue
            if not self.replaced(reading) and self.moved_since(reading) is None:
                best = reading
        return best

    def stale(self, kind: str, place: str, what: What) -> Stale | None:
        """The newest first reading of a kind, where a post moved since."""
        newest = _newest(self.standing(kind, place, what, "first"))
        post = None if newest is None else self.moved_since(newest)
        return None if newest is None or post is None else Stale(newest, post)

    def read_back(self, first: Reading) -> Reading | None:
        """The read-back that counts: by another person and not older than what it repeats."""
        kept = self._backs.get(id(first))
        if kept is None or kept[0] is not first:
            kept = self._backs[id(first)] = (first, self._newest_back(first))
        return kept[1]

    def _newest_back(self, first: Reading) -> Reading | None:
        kind, place, _ = _key(first)
        return _newest(
            r
            for r in self.standing(kind, place, first.what, "read-back")
            if r.run == first.run and r.at >= first.at and not same_person(r.by, first.by) and self.moved_since(r) is None
        )

    def plumb(self, post: str, run: str) -> Reading | None:
        """A post's plumb reading in the line of a run; one that names no run serves every run."""
        if ("post", post, "plumb") not in self._readings:
            return None
        return _newest(
            r
            for r in self.standing("post", post, "plumb", "first")
            if r.run in (None, run) and self.moved_since(r) is None
        )

    def answer(self, place: str, check: str, rests_on: datetime | None) -> Answer | None:
        """The newest answer to a check at a place (`A2`, `run A`), newer than all that the query rests on."""
        found = self._answers.get((place, check))
        if not found:
            return None
        counting = [a for a in found if rests_on is None or a.at > rests_on]
        return max(counting, key=lambda a: a.at) if counting else None

    def neighbours(self, bay: Bay) -> tuple[Bay | None, Bay | None]:
        """The bays to the left and right in the same run."""
        bays = self.run_bays[bay.run]
        at = next(i for i, b in enumerate(bays) if b.tag == bay.tag)
        return (bays[at - 1] if at else None, bays[at + 1] if at + 1 < len(bays) else None)


def _key(reading: Reading) -> Key:
    if reading.bay is not None:
        return ("bay", reading.bay, reading.what)
    if reading.post is not None:
        return ("post", reading.post, reading.what)
    return ("run", reading.run or "", reading.what)


def _newest(readings: Iterable[Reading]) -> Reading | None:
    """Newest by time; on a tie the later in the file."""
    best = None
    for reading in readings:
        if best is None or reading.at >= best.at:
            best = reading
    return best
