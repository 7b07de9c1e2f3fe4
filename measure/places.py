"""The places that a job has: its bays, posts and runs, and the ids of its readings; what is said must be of one of them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from measure.job import Job
from measure.json_path import shown
from measure.plan import Bay
from measure.reading import Reading

PlaceKind = Literal["bay", "post", "run"]
_NAMED = {"bay": "No bay has the tag", "post": "No post has the id", "run": "No bay is in a run called"}


class Places:
    """complete: False where part of the plan could not be read; then nobody is told that a place does not exist."""

    def __init__(self, bays: Iterable[Bay], posts: Iterable[str], complete: bool = True) -> None:
        self.complete = complete
        self._posts_of_run: dict[str, set[str]] = {}
        tags: set[str] = set()
        for bay in bays:
            tags.add(bay.tag)
            self._posts_of_run.setdefault(bay.run, set()).update((bay.left, bay.right))
        self._known: dict[str, set[str]] = {"bay": tags, "post": set(posts), "run": set(self._posts_of_run)}
        self._by_id: dict[str, Reading] = {}

    @classmethod
    def of(cls, job: Job) -> Places:
        """The places of a job, its readings' ids taken."""
        places = cls(job.bays, (post.id for post in job.posts))
        for reading in job.readings:
            places.take_id(reading)
        return places

    def take_id(self, reading: Reading) -> None:
        """Keeps the reading's id, if it has one; the first reading keeps a doubled id."""
        if reading.id is not None:
            self._by_id.setdefault(reading.id, reading)

    def id_trouble(self, reading: Reading) -> str | None:
        """What to say where another reading has this one's id; None where none has."""
        if reading.id is None or self._by_id.get(reading.id, reading) is reading:
            return None
        return f"The id {shown(reading.id)} is there already: each reading has its own."

    def unknown(self, kind: PlaceKind, name: str) -> str | None:
        """What to say of a place that does not exist; None where it does."""
        if name in self._known[kind] or not self.complete or not name:
            return None
        return f"{_NAMED[kind]} {shown(name)}: add it to the plan, or name one that is there."

    def trouble(self, reading: Reading) -> tuple[PlaceKind, str] | None:
        """The key and the sentence where a reading's place does not exist; None where it does."""
        if reading.bay is not None and reading.bay not in self._known["bay"]:
            return _with_key("bay", self.unknown("bay", reading.bay))
        if reading.post is not None and reading.post not in self._known["post"]:
            return _with_key("post", self.unknown("post", reading.post))
        if reading.run is None or not self.complete:
            return None
        if reading.run not in self._posts_of_run:
            return _with_key("run", self.unknown("run", reading.run))
        if reading.post is not None and reading.post not in self._posts_of_run[reading.run]:
            return "run", f"Post {shown(reading.post)} is no post of run {shown(reading.run)}: name a run that it ends."
        return None

    def replaces_trouble(self, reading: Reading) -> str | None:
        """Why a reading cannot replace what it says it replaces; None where it can."""
        if reading.replaces is None:
            return None
        old = self._by_id.get(reading.replaces)
        if old is None:
            return f"No reading has the id {shown(reading.replaces)}: name the one that is replaced, or take this out."
        if not _same_place(old, reading):
            return f"{shown(reading.replaces)} is a reading of another place ({_place(old)}): replace one of {_place(reading)}."
        return self._circle(reading)

    def _circle(self, reading: Reading) -> str | None:
        seen = {reading.id}
        step = reading.replaces
        while step is not None and step not in seen:
            seen.add(step)
            old = self._by_id.get(step)
            step = None if old is None else old.replaces
        if step is None or step != reading.id:
            return None
        return "These readings replace one another in a circle, so none would count: let the newest one stand."


def _with_key(key: PlaceKind, sentence: str | None) -> tuple[PlaceKind, str] | None:
    return None if sentence is None else (key, sentence)


def _same_place(one: Reading, other: Reading) -> bool:
    """A post's two runs are two places; a plumb reading that names no run is for both."""
    if (one.bay, one.post) != (other.bay, other.post):
        return False
    return one.run == other.run or (one.post is not None and (one.run is None or other.run is None))


def _place(reading: Reading) -> str:
    kind, name = next(((k, n) for k, n in (("bay", reading.bay), ("post", reading.post), ("run", reading.run)) if n is not None), ("", ""))
    return f"{kind} {shown(name)}"
