"""What is added to a job is judged before it is kept, so that a job which was kept can always be read again."""

from __future__ import annotations

from dataclasses import dataclass

from sqlite_utils import Database

from measure.database import Clock
from measure.documents import JobDocument, check_note, read_answer, read_moved, read_reading, read_words
from measure.job import Units
from measure.merge import Document
from measure.places import Places
from measure.plan import Bay
from measure.plan_rows import PlanRows
from measure.plan_version import PlanWords
from measure.said import Words
from measure.said_rows import SaidRows


@dataclass(frozen=True, slots=True)
class Ground:
    """What the entries of a job are judged against: its places and units, of these plans."""

    plans: frozenset[str]
    places: Places
    units: Units


class JudgedRows(SaidRows, PlanRows):
    """Raises DocumentError, with every problem, for what a job file could not hold."""

    def __init__(self, db: Database, path: str, clock: Clock) -> None:
        super().__init__(db, path, clock)
        self._grounds: dict[str, Ground] = {}

    def _judge(self, job_id: str, section: str, words: Words) -> None:
        ground = self._ground(job_id)
        if section == "readings":
            self._take_replaced(job_id, words, ground)
            read_reading(words, ground.units, ground.places)
        elif section == "moved":
            read_moved(words, ground.places)
        elif section == "answers":
            read_answer(words, ground.places)
        else:
            check_note(words, ground.places)

    def _ground(self, job_id: str) -> Ground:
        """Kept from one entry to the next: a plan of many bays takes long to read."""
        plans = frozenset(r["plan"] for r in self.rows("SELECT plan FROM newest_plan WHERE job = ?", job_id))
        ground = self._grounds.get(job_id)
        if ground is None or ground.plans != plans:
            plan = self._newest_plans(job_id)[-1].plan
            ground = self._grounds[job_id] = Ground(plans, places_of(plan), plan["job"]["units"])
        return ground

    def _take_replaced(self, job_id: str, words: Words, ground: Ground) -> None:
        for old in self._with_own_id(job_id, words["replaces"])[:1] if "replaces" in words else ():
            ground.places.take_id(read_reading(old, ground.units))


def places_of(plan: PlanWords) -> Places:
    """The places of a plan that was read before; no reading's id is taken yet."""
    bays = (Bay(b["tag"], b["run"], b["left"], b["right"]) for b in plan["bays"])
    return Places(bays, (post["id"] for post in plan["posts"]))


def judged(document: Document | JobDocument) -> Document:
    """The words of a job file, judged if nobody did yet. Raises DocumentError."""
    if isinstance(document, JobDocument):
        return document.as_dict()
    read_words(document)
    return document
