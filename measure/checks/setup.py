"""Cautions on the job: its system, its sheet, its tape and the guard. They never stand in the way."""

from __future__ import annotations

import math
from collections.abc import Iterator

from measure import uncertainty
from measure.allowance import AllowanceBudget
from measure.book import Book
from measure.finding import Finding
from measure.length import NM_PER_MM, Length
from measure.opening import Opening
from measure.rounding import apart_text, plain_text


def _caution(check: str, sentence: str) -> Finding:
    return Finding(check, "caution", sentence)


def system(book: Book) -> Iterator[Finding]:
    """An allowance for one edge only, or one that leaves too little on either side. Best A = (3D + b − c)/2."""
    s, units = book.job.system, book.job.units
    budget = AllowanceBudget.of(s.allowance, s.groove_depth, s.least_bite, s.least_play)
    best, shown = apart_text(budget.best, units), plain_text(s.allowance, units)
    if budget.one_edge:
        yield _caution("system", f"An allowance of {shown} is no more than one groove is deep: is it for one edge only? Best is {best}.")
        return
    doubt = uncertainty.span_doubt(book.job.tape, s.greatest_spacing.nm)
    needed = 2 * uncertainty.margin_u_mm(book.job.glass.size_tolerance, doubt.u) * NM_PER_MM
    hold, fit = budget.hold_nm, budget.fit_nm
    if min(hold, fit) < needed:
        side = "to hold" if hold <= fit else "to go in"
        least = min(hold, fit)
        have = f"leaves {apart_text(Length(least), units)}" if least >= 0 else f"falls {apart_text(Length(-least), units)} short"
        say = f"An allowance of {shown} {have} {side}, tape and shop may differ by {apart_text(Length(round(needed)), units)}. Best is {best}."
        yield _caution("system", say)


def sheet(book: Book) -> Iterator[Finding]:
    """The system's figures are not confirmed from a dated sheet by a named person."""
    confirmed = book.job.system.confirmed
    if confirmed is None or not (confirmed.by.strip() and confirmed.at.strip() and confirmed.sheet.strip()):
        yield _caution("sheet", "Nobody confirmed the system's figures from a dated sheet: one wrong figure spoils every panel.")


def tape(book: Book, openings: dict[str, Opening]) -> Iterator[Finding]:
    """A tolerance that this tape cannot decide; an inch tape beyond its last row."""
    limits, units = book.job.limits, book.job.units
    longest = max((o.span_reading.corrected.nm for o in openings.values()), default=book.job.system.greatest_spacing.nm)
    doubt = uncertainty.span_doubt(book.job.tape, longest)
    for name, limit, least in (
        ("plan tolerance", limits.plan_tolerance, doubt.U),
        ("second tape's tolerance", limits.second_tape, doubt.two_tape_difference),
        ("lean limit", limits.lean, doubt.same_tape_difference),
    ):
        if limit is not None and limit.mm < least:
            worth = apart_text(Length(math.ceil(least * NM_PER_MM)), units)
            yield _caution("tape", f"The {name} {plain_text(limit, units)} is finer than this tape can decide ({worth}): take a finer tape, or a wider tolerance.")
    if any(uncertainty.beyond_inch_rows(book.job.tape, length) for length in _taped(book)):
        yield _caution("tape", "A length beyond 30 ft: inch tapes have no row of tolerance there that this job can lean on.")


def _taped(book: Book) -> Iterator[Length]:
    for reading in book.job.readings:
        lasered = reading.how == "laser" and book.job.tape.laser is not None
        if reading.what in ("span", "top-span", "overall") and isinstance(reading.value, Length) and not lasered:
            yield reading.value


def guard(book: Book) -> Iterator[Finding]:
    """Guard height, openings, loads and the glass itself are for the local code and a licensed designer."""
    height = plain_text(book.job.glass.height, book.job.units)
    say = (
        f"Glass height {height}: confirm guard height, openings, loads, fixing and whether this glass and its mark are accepted"
        " in a guard with the local building official. Spanbook does not say that a guard is compliant."
    )
    yield _caution("guard", say)
