"""What the list of jobs shows: a card a job, with how far it is and where it goes on. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from fieldapp.live_job import LiveJob
from fieldapp.screens.strip_model import StripPart, around, strip
from fieldapp.words import day, say
from measure.errors import DocumentError
from measure.job_shelf import JobCard as StoredCard

MOST_PROBLEMS = 4
MOST_IN_STRIP = 10
"""Bays drawn on a card; a longer run shows those around the next one."""


@dataclass(frozen=True, slots=True)
class JobCard:
    """bays: of the run where the work goes on. now: the bay that is next. says: the whole card, spoken."""

    id: str
    name: str
    units: str
    kept: str
    onward: str
    run: str
    bays: tuple[StripPart, ...]
    now: str | None
    says: str


def job_card(live: LiveJob, issued: str = "") -> JobCard:
    """issued: when an order was issued, already worded; empty where none was."""
    progress = live.progress()
    kept = issued or (say("jobs.kept", kept=progress.kept, bays=progress.bays) if progress.bays else say("jobs.no_bays"))
    begun = "jobs.go_on" if progress.kept else "jobs.begin"
    onward = say(begun, tag=progress.onward) if progress.onward else say("jobs.review")
    run = _run(live, progress.onward)
    bays = live.book.run_bays.get(run, [])
    shown = strip(live, around(bays, progress.onward, MOST_IN_STRIP))
    units = say(f"jobs.units_{live.units}")
    part = say("jobs.run_of", run=run, runs=len(live.book.run_bays)) if len(live.book.run_bays) > 1 else ""
    says = ", ".join(w for w in (live.name, units, kept, onward) if w)
    return JobCard(live.id, live.name, units, kept, onward, part, shown, progress.onward, says)


def _run(live: LiveJob, tag: str | None) -> str:
    """The run of a bay; where all is taped, the first run that is not clear, else the first."""
    if tag is not None:
        return live.bay(tag).run
    runs = list(live.book.run_bays)
    unclear = (r for r in runs if any(live.sign(b.tag) != "clear" for b in live.book.run_bays[r] if b.has_glass))
    return next(unclear, runs[0] if runs else "")


def counted(jobs: int, host: str) -> str:
    """How many jobs there are, and where."""
    return say(f"jobs.count_{host}", n=jobs) if jobs else say(f"jobs.none_{host}")


def job_facts(card: StoredCard) -> tuple[tuple[str, str], ...]:
    """A job as a whole, words and figures: where it stands, how far it is, when it was copied out."""
    copied = day(datetime.fromisoformat(card.copied_at)) if card.copied_at else say("jobs.never")
    rows = (
        (say("jobs.fact_site"), card.site),
        (say("jobs.fact_kept"), say("jobs.kept", kept=card.measured, bays=card.bays)),
        (say("jobs.fact_changed"), day(datetime.fromisoformat(card.changed_at))),
        (say("jobs.fact_copied"), say("jobs.copy_is_old", day=copied) if card.copied_at and card.copy_is_old else copied),
    )
    return tuple(row for row in rows if row[1])


def binned_told(card: StoredCard) -> str:
    """What lies in the bin with a job."""
    kept = say("jobs.kept", kept=card.measured, bays=card.bays) if card.bays else say("jobs.no_bays")
    return f"{kept}, {say('jobs.changed_on', day=day(datetime.fromisoformat(card.changed_at)))}"


def refusal(name: str, problem: DocumentError) -> str:
    """Why a file was not taken: its first problems with their places, and how many more there are."""
    told = [str(p) for p in problem.problems[:MOST_PROBLEMS]]
    more = len(problem.problems) - len(told)
    if more:
        told.append(say("jobs.and_more_problems", n=more))
    return say("jobs.cannot_read", name=name, problems="\n".join(told))
