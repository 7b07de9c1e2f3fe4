"""The whole job checked: its openings, its findings, and which panels may be ordered."""

from __future__ import annotations

from dataclasses import dataclass, field

from measure.book import Book
from measure.checks import BAY_CHECKS, RUN_CHECKS, BayCase, RunCase, setup, sides
from measure.finding import Finding
from measure.job import Job
from measure.opening import Opening, open_bay
from measure.plan import Bay


class Openings:
    """Solved bays, each solved once. `forget` a bay when its readings change."""

    def __init__(self, book: Book) -> None:
        self.book = book
        self._solved: dict[str, Opening | None] = {}

    def of(self, bay: Bay) -> Opening | None:
        """None for a bay without glass, or one whose figures do not suffice."""
        if bay.tag not in self._solved:
            self._solved[bay.tag] = open_bay(self.book, bay) if bay.has_glass else None
        return self._solved[bay.tag]

    def of_run(self, run: str) -> dict[str, Opening]:
        """Tag to opening, in walking order."""
        found = ((b.tag, self.of(b)) for b in self.book.run_bays[run])
        return {tag: o for tag, o in found if o is not None}

    def forget(self, tag: str) -> None:
        self._solved.pop(tag, None)


def bay_findings(openings: Openings, bay: Bay, every: bool = True) -> list[Finding]:
    """The findings of one bay; none where it has no glass. every: the clear ones too."""
    if not bay.has_glass:
        return []
    case = BayCase(openings, bay, openings.of(bay), every)
    return [f for check in BAY_CHECKS for f in check(case)]


def run_findings(openings: Openings, run: str, every: bool = True) -> list[Finding]:
    """The findings of a run as a whole."""
    case = RunCase(openings.book, run, openings.of_run(run), every)
    return [f for check in RUN_CHECKS for f in check(case)]


def job_findings(openings: Openings) -> list[Finding]:
    """What is found of the job as a whole: its cautions, and a plan that nobody chose yet."""
    book = openings.book
    solved = {b.tag: o for b in book.job.bays if (o := openings.of(b)) is not None}
    return [*sides.two_plans(book), *setup.system(book), *setup.sheet(book), *setup.tape(book, solved), *setup.guard(book)]


@dataclass(frozen=True)
class Report:
    """A job and all that was found. findings: the job's, then each bay's in file order, then each run's."""

    book: Book
    openings: dict[str, Opening]
    findings: tuple[Finding, ...]
    in_the_way: dict[str, list[Finding]] = field(default_factory=dict)

    @property
    def job(self) -> Job:
        return self.book.job

    def left_out(self) -> list[tuple[str, list[Finding]]]:
        """Bays to be ordered that cannot be, each with what stands in its way; a run's finding stops all its panels, the job's all."""
        out = []
        of_job = self.in_the_way.get("job", ())
        for bay in self.job.bays:
            if bay.has_glass and bay.status == "to order":
                stops = [*self.in_the_way.get(bay.tag, ()), *self.in_the_way.get(f"run {bay.run}", ()), *of_job]
                if stops:
                    out.append((bay.tag, stops))
        return out

    def to_order(self) -> list[Opening]:
        """The openings whose panels may be ordered now, in file order."""
        stopped = {tag for tag, _ in self.left_out()}
        wanted = (b for b in self.job.bays if b.has_glass and b.status == "to order" and b.tag not in stopped)
        return [self.openings[b.tag] for b in wanted]


def evaluate(job: Job, every: bool = False) -> Report:
    """Check a whole job. every: clear findings too."""
    book = Book(job)
    openings = Openings(book)
    findings = job_findings(openings)
    for bay in job.bays:
        findings += bay_findings(openings, bay, every)
    for run in book.run_bays:
        findings += run_findings(openings, run, every)
    solved = {b.tag: o for b in job.bays if (o := openings.of(b)) is not None}
    return Report(book, solved, tuple(findings), _in_the_way(findings))


def _in_the_way(findings: list[Finding]) -> dict[str, list[Finding]]:
    found: dict[str, list[Finding]] = {}
    for finding in findings:
        if finding.stands_in_the_way:
            found.setdefault(finding.place, []).append(finding)
    return found
