"""A job's content in the store: taken in from a file, grown by what people say, given out as a file, merged with another copy."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal
from uuid import uuid4

from measure.book import Book
from measure.conflict import Conflict, plan_conflict, reading_conflicts
from measure.database import Row, time_text
from measure.documents import JobDocument, read_words
from measure.errors import StoreError
from measure.job import Job
from measure.job_shelf import NO_JOB, JobShelf
from measure.judged_rows import JudgedRows, judged
from measure.merge import UID_LENGTH, Copy, Document, uid_of
from measure.plan_version import next_version, plan_of
from measure.said import SECTIONS, Words, digest, from_text, to_text
from measure.said_rows import note_words

ALREADY_HERE = "This job is here already, as “{name}”. Merge the file into it; nothing there is lost."
OTHER_UNITS = "A job keeps its units, since its figures were typed in them. Start a new job in the other ones."
PlanNews = Literal["same", "theirs", "ours", "both"]


@dataclass(frozen=True, slots=True)
class MergeResult:
    """What came new from another copy of a job.

    added: the job was not here before. plan: `same`; `theirs` is newer and shown now; `ours` is newer; `both` were changed.
    only_here: how many things said here the other copy does not have. conflicts: all that the job now has, told before or not.
    """

    job: str
    added: bool
    readings: int
    moved: int
    answers: int
    notes: int
    plan: PlanNews
    only_here: int
    conflicts: tuple[Conflict, ...] = ()

    @property
    def news(self) -> bool:
        """Whether anything changed here."""
        return self.added or self.plan in ("theirs", "both") or any((self.readings, self.moved, self.answers, self.notes))


class JobRows(JobShelf, JudgedRows):
    """Jobs by id. A document is a job file as `documents` reads it, or its words; DocumentError is raised for what cannot be read."""

    def add_job(self, document: Document | JobDocument, *, by: str = "") -> str:
        """Take in a job file as a new job; its id. by: who put it there.

        Raises StoreError when a file with this id in it is here already.
        """
        words = judged(document)
        told = (words.get("history") or {}).get("job")
        with self.action():
            here = self.row("SELECT name FROM job WHERE id = ?", told or uid_of(words))
            if here and told:
                raise StoreError(ALREADY_HERE.format(name=here["name"]))
            # The same file once more, as a job of its own: from now on it is another one.
            copy = Copy.of(words, uuid4().hex if here else None)
            self._insert_job(copy, words, by, grown=bool(here) or "history" in words)
        return copy.uid

    def take_sample(self, document: Document | JobDocument) -> str:
        """A sample as a job of this store alone, or the one that it is already: two people who try the same never meet. Its id."""
        words = judged(document)
        with self.action():
            uid = digest([uid_of(words), self.device()])[:UID_LENGTH]
            if self.row("SELECT 1 FROM job WHERE id = ?", uid) is None:
                self._insert_job(Copy.of(words, uid), words, "", grown=True)
            self.write("UPDATE job SET binned_at = NULL WHERE id = ?", uid)
        return uid

    def document(self, job_id: str) -> Document:
        """The job file, letter for letter as it came in, and all that was added. Raises StoreError where there is no such job."""
        row = self._job(job_id)
        copy = self._copy(job_id)
        document = copy.document(by_time=bool(row["by_time"] and row["grown"]))
        layout: list[str] = from_text(row["layout"])
        if row["grown"]:
            layout += [name for name in document if name not in layout]
        # A plan may have lost a part since; a list that stood there empty stays there.
        return {name: document.get(name, []) for name in layout if name in document or name in SECTIONS}

    def job(self, job_id: str) -> Job:
        """The job as a value. Raises StoreError where there is no such job."""
        return read_words(self.document(job_id)).job()

    def add_reading(self, job_id: str, reading: Words) -> Words:
        """Keep one reading; as kept, with the id that it was given. The same one again changes nothing."""
        return self._add_to(job_id, "readings", self._with_id(job_id, reading))

    def add_answer(self, job_id: str, answer: Words) -> Words:
        """Keep why a query stands. The same one again changes nothing."""
        return self._add_to(job_id, "answers", answer)

    def add_moved(self, job_id: str, moved: Words) -> Words:
        """Keep that a post was moved. The same again changes nothing."""
        return self._add_to(job_id, "moved", moved)

    def add_note(self, job_id: str, bay: str, text: str, photo_name: str, by: str, at: str | datetime) -> Words:
        """Keep a note on a bay, and the name of its photo. The same one again changes nothing."""
        return self._add_to(job_id, "notes", note_words(bay, text, photo_name, by, time_text(at)))

    def save_plan(self, job_id: str, document: Document | JobDocument, by: str, at: str | datetime) -> str:
        """A changed plan, system, glass, limits or head as a new version; its id. Lists in the document are not looked at.

        Settles a plan that was changed on two sides. What was said of a place that is gone is kept aside until the place returns.
        Raises StoreError when the units differ.
        """
        plan = plan_of(document.as_dict() if isinstance(document, JobDocument) else document)
        read_words(plan)
        with self.action():
            self._lock(job_id)
            now = self._newest_plans(job_id)
            if len(now) == 1 and now[0].plan == plan:
                return now[0].id
            if plan["job"]["units"] != now[-1].plan["job"]["units"]:
                raise StoreError(OTHER_UNITS)
            version = next_version(now, plan, by, time_text(at))
            self._keep_plans(job_id, [version])
            self._show(job_id, plan)
            self._touch(job_id)
            read_words(self.document(job_id))
        return version.id

    def merge(self, job_id: str | None, document: Document | JobDocument) -> MergeResult:
        """Take in all that another copy holds. job_id: None finds the job by the file's own id, and adds it where it is new.

        A job in the bin comes out of it. Raises DocumentError when the two are no copies of one job.
        """
        words = judged(document)
        with self.action():
            incoming = Copy.of(words, job_id)
            uid = incoming.uid if job_id is None else job_id
            if job_id is None and self.row("SELECT 1 FROM job WHERE id = ?", uid) is None:
                self._insert_job(incoming, words, "", grown="history" in words)
                result = _result(uid, True, {name: len(incoming.said[name]) for name in SECTIONS}, "theirs", 0)
            else:
                result = self._merge(uid, incoming, met="history" in words)
            return replace(result, conflicts=self.conflicts(uid))

    def conflicts(self, job_id: str) -> tuple[Conflict, ...]:
        """Where two sides said different things and neither knew of the other: the plan first, then readings."""
        plans = plan_conflict(self._newest_plans(job_id))
        job = self.job(job_id)
        return (*((plans,) if plans else ()), *reading_conflicts(Book(job), job.readings))

    def _merge(self, uid: str, incoming: Copy, met: bool) -> MergeResult:
        self._lock(uid)
        here = self._copy(uid)
        both = here | incoming
        came = {}
        for name in SECTIONS:
            new = [s for key, s in both.said[name].items() if key not in here.said[name]]
            later = [s for key, s in both.said[name].items() if key in here.said[name] and s.tie != here.said[name][key].tie]
            self._keep_said(uid, name, new)
            self._keep_later_ties(uid, name, later)
            came[name] = len(new)
        only_here = sum(key not in incoming.said[name] for name in SECTIONS for key in here.said[name])
        result = _result(uid, False, came, _plan_news(here, incoming, both), only_here)
        if both.plans != here.plans:
            self._keep_plans(uid, both.plans)
            self._show(uid, both.plan.plan)
        if result.news:
            self._touch(uid)
        self.write("UPDATE job SET binned_at = NULL, by_time = max(by_time, ?) WHERE id = ?", int(met or result.news), uid)
        return result

    def _insert_job(self, copy: Copy, document: Document, by: str, grown: bool) -> None:
        head = copy.plan.plan["job"]
        now = self.now_text()
        self.write(
            """INSERT INTO job (id, name, site, units, layout, grown, by_time, added_by, added_at, changed_at, changes)
               VALUES (?, ?, ?, ?, ?, ?, 0, ?, ?, ?, 1)""",
            copy.uid,
            head["name"],
            head.get("site") or "",
            head["units"],
            to_text(list(document)),
            int(grown),
            by,
            now,
            now,
        )
        self._keep_plans(copy.uid, copy.plans)
        for name in SECTIONS:
            self._keep_said(copy.uid, name, copy.said[name].values())

    def _copy(self, job_id: str) -> Copy:
        return Copy(job_id, self._newest_plans(job_id), {name: self._said(job_id, name) for name in SECTIONS})

    def _job(self, job_id: str) -> Row:
        row = self.row("SELECT * FROM job WHERE id = ?", job_id)
        if row is None:
            raise StoreError(NO_JOB)
        return row

    def _add_to(self, job_id: str, section: str, words: Words) -> Words:
        with self.action():
            self._lock(job_id)
            if not self._has(job_id, section, words):
                self._judge(job_id, section, words)
                self._add(job_id, section, words)
                self._touch(job_id)
        return words

    def _lock(self, job_id: str) -> None:
        """Writing first keeps every other writer out until the action ends."""
        if not self.write("UPDATE job SET changes = changes WHERE id = ?", job_id):
            raise StoreError(NO_JOB)

    def _touch(self, job_id: str) -> None:
        self.write("UPDATE job SET changed_at = ?, changes = changes + 1, grown = 1 WHERE id = ?", self.now_text(), job_id)

    def _show(self, job_id: str, plan: Document) -> None:
        head = plan["job"]
        self.write("UPDATE job SET name = ?, site = ? WHERE id = ?", head["name"], head.get("site") or "", job_id)


def _result(uid: str, added: bool, came: Mapping[str, int], plan: PlanNews, only_here: int) -> MergeResult:
    return MergeResult(uid, added, came["readings"], came["moved"], came["answers"], came["notes"], plan, only_here)


def _plan_news(here: Copy, incoming: Copy, both: Copy) -> PlanNews:
    ids = {v.id for v in both.plans}
    if ids == {v.id for v in here.plans}:
        return "same" if ids == {v.id for v in incoming.plans} else "ours"
    return "theirs" if ids == {v.id for v in incoming.plans} else "both"
