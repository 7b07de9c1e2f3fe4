"""One job as it stands now: the values, which readings count, and what the checks make of them, kept up as readings come in.

Pure: no store, no page. A reading costs its own bay, the bays beside it and its run, however large the job is.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal

from measure.book import Book
from measure.finding import Finding
from measure.job import Job
from measure.opening import Opening, rise_reading
from measure.places import Places
from measure.plan import Bay
from measure.reading import Answer, Moved, Reading
from measure.report import Openings, bay_findings, job_findings, run_findings

Sign = Literal["todo", "clear", "query", "hold"]
"""What stands in a strip for a bay: `todo` while its span or rise is not read, else its worst unanswered finding."""
_WORSE: dict[str, int] = {"clear": 0, "query": 1, "hold": 2}


@dataclass(frozen=True, slots=True)
class Progress:
    """kept: bays whose span and rise count. bays: those that need them. onward: the first that does not have them."""

    kept: int
    bays: int
    onward: str | None


class LiveJob:
    """Reading it never touches a disk. The desk writes first and then calls `take…`."""

    def __init__(self, id: str, job: Job) -> None:
        self.id = id
        self.replan(job)

    def replan(self, job: Job) -> None:
        """The whole job anew: another plan, a merged file."""
        self._job = job
        self._grown = False
        self._readings = list(job.readings)
        self._moved = list(job.moved)
        self._answers = list(job.answers)
        self.newest = max((said.at for said in (*job.readings, *job.moved, *job.answers)), default=None)
        """When the newest thing was said; None where nothing was."""
        self.book, self.places = Book(job), Places.of(job)
        self.openings = Openings(self.book)
        self._of_bay: dict[str, tuple[Finding, ...]] = {}
        self._of_run: dict[str, tuple[Finding, ...]] = {}
        self._of_job: tuple[Finding, ...] | None = None

    # ---- what it is ----------------------------------------------------------------------------------------------------
    @property
    def name(self) -> str:
        return self._job.name

    @property
    def units(self) -> str:
        return self._job.units

    @property
    def plan(self) -> Job:
        """The job for its plan, system, glass, tape, limits and head; its readings are in `book` and `job`."""
        return self._job

    @property
    def job(self) -> Job:
        """The whole job with every reading taken so far."""
        if self._grown:
            told = tuple(self._readings), tuple(self._moved), tuple(self._answers)
            self._job = replace(self._job, readings=told[0], moved=told[1], answers=told[2])
            self._grown = False
        return self._job

    @property
    def readings(self) -> Sequence[Reading]:
        """Every reading, in the order of the file."""
        return self._readings

    @property
    def answers(self) -> Sequence[Answer]:
        return self._answers

    @property
    def moved(self) -> Sequence[Moved]:
        return self._moved

    def bay(self, tag: str) -> Bay:
        """KeyError where there is no such bay."""
        return self.book.bays[tag]

    def opening(self, tag: str) -> Opening | None:
        """The solved bay; None while its figures do not suffice, or where it has no glass."""
        return self.openings.of(self.bay(tag))

    # ---- what was found ------------------------------------------------------------------------------------------------
    def findings_of_bay(self, tag: str) -> tuple[Finding, ...]:
        """All findings of a bay, clear ones too."""
        if tag not in self._of_bay:
            self._of_bay[tag] = tuple(bay_findings(self.openings, self.bay(tag)))
        return self._of_bay[tag]

    def findings_of_run(self, run: str) -> tuple[Finding, ...]:
        """All findings of a run as a whole, clear ones too."""
        if run not in self._of_run:
            self._of_run[run] = tuple(run_findings(self.openings, run))
        return self._of_run[run]

    def findings_of_job(self) -> tuple[Finding, ...]:
        """The cautions of the job, and a plan that nobody chose yet."""
        if self._of_job is None:
            self._of_job = tuple(job_findings(self.openings))
        return self._of_job

    def in_the_way(self) -> list[Finding]:
        """Everything that keeps a panel out of the order: of the job, then bays in walking order, then runs.

        Of a bay what was found comes before a read-back or a plumb that is only still to come.
        """
        later = ("read-back", "plumb")
        bays = (f for bay in self.book.job.bays for f in sorted(self.findings_of_bay(bay.tag), key=lambda f: f.unread in later))
        runs = (f for run in self.book.run_bays for f in self.findings_of_run(run))
        return [f for f in (*self.findings_of_job(), *bays, *runs) if f.stands_in_the_way]

    def taped(self, tag: str) -> bool:
        """Whether the bay has all the figures that it needs at the least: span and rise, a way through nothing."""
        bay = self.bay(tag)
        if not bay.has_glass:
            return True
        return self.book.counting("bay", tag, "span") is not None and rise_reading(self.book, bay) is not None

    def sign(self, tag: str) -> Sign:
        """The sign of a bay in every strip and list."""
        if not self.taped(tag):
            return "todo"
        return worst(self.findings_of_bay(tag))

    def progress(self) -> Progress:
        """How far the walk is."""
        glass = [bay.tag for bay in self.book.job.bays if bay.has_glass]
        open_ = [tag for tag in glass if not self.taped(tag)]
        return Progress(len(glass) - len(open_), len(glass), open_[0] if open_ else None)

    # ---- what comes in -------------------------------------------------------------------------------------------------
    def take(self, reading: Reading) -> set[str]:
        """One more reading; the tags of all bays whose findings may have changed."""
        self._readings.append(reading)
        self._said(reading.at)
        self.book.add(reading)
        self.places.take_id(reading)
        if reading.bay is not None:
            return self._stir([reading.bay])
        if reading.post is not None:
            return self._stir(self._bays_at(reading.post))
        return self._stir((), [reading.run or ""])

    def take_moved(self, moved: Moved) -> set[str]:
        """One more moved post; the same."""
        self._moved.append(moved)
        self._said(moved.at)
        self.book.add_moved(moved)
        return self._stir(self._bays_at(moved.post))

    def take_answer(self, answer: Answer) -> set[str]:
        """One more written answer; the same."""
        self._answers.append(answer)
        self._said(answer.at)
        self.book.add_answer(answer)
        if answer.bay is not None:
            return self._stir([answer.bay])
        return self._stir((), [answer.run or ""])

    def _said(self, at: datetime) -> None:
        self._grown = True
        self.newest = at if self.newest is None else max(self.newest, at)

    def _bays_at(self, post: str) -> list[str]:
        return [bay.tag for bay in self.book.job.bays if post in (bay.left, bay.right)]

    def _stir(self, tags: Iterable[str], runs: Iterable[str] = ()) -> set[str]:
        """Forget what was found at these bays, beside them, and in their runs."""
        changed, stirred = set(tags), set(runs)
        for tag in tuple(changed):
            bay = self.bay(tag)
            self.openings.forget(tag)
            stirred.add(bay.run)
            changed |= {other.tag for other in self.book.neighbours(bay) if other is not None}
        for tag in changed:
            self._of_bay.pop(tag, None)
        for run in stirred:
            self._of_run.pop(run, None)
        self._of_job = None
        return changed


def worst(findings: Iterable[Finding]) -> Sign:
    """The worst of some findings that nobody answered; cautions do not count."""
    standing = [f.verdict for f in findings if f.stands_in_the_way]
    return max(standing, key=lambda v: _WORSE[v], default="clear")  # type: ignore[return-value]
