"""A span against its plan, the greatest spacing, a second tape and the top of the posts."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from measure.checks.case import BayCase, mm
from measure.checks.slips import between, likely_slips
from measure.finding import Finding
from measure.geometry import Exact, leaning, level_span, magnitude, mean_faces
from measure.length import NM_PER_MM, Length
from measure.opening import lean_angle, mean_lean, plumbs, rise_reading, slope_of
from measure.reading import Reading, What
from measure.rounding import told_as_nothing

Facts = tuple[tuple[str, str], ...]


RISES: tuple[What, ...] = ("rise", "base-rise")
GROSS_SHARE = Fraction(1, 5)
"""A span a fifth of its plan away is taken for a slip (judgement, no source)."""


def level_of(case: BayCase, span: Reading) -> Exact:
    """S level between the feet of a span; before its rise is known it is taken as it stands."""
    if case.opening is not None and span is case.opening.span_reading:
        return case.opening.level_nm
    rise = rise_reading(case.book, case.bay)
    sloped = None if rise is None else slope_of(span, rise, _faces(case))
    if sloped is None:
        return span.corrected.nm
    lean = mean_lean(case.book, case.bay) if case.opening is not None else 0.0
    return leaning(sloped, span.corrected.nm, span.taped == "along", lean).feet


def _faces(case: BayCase) -> Exact:
    return mean_faces(case.book.face(case.bay.left).nm, case.book.face(case.bay.right).nm)


def off_plan(case: BayCase) -> Iterator[Finding]:
    """Query: the span is off its plan by more than the plan tolerance. The likely slip is named."""
    span, planned = case.book.counting("bay", case.bay.tag, "span"), case.book.planned_span(case.bay)
    limit = case.job.limits.plan_tolerance
    if span is None or planned is None or limit is None:
        return
    apart = level_of(case, span) - planned.nm

    def facts() -> Facts:
        return (("Planned", case.text(planned)), ("Read", case.read(span)), ("Apart", case.apart(apart)), ("Allowed", case.text(limit)))

    if magnitude(apart) <= limit.nm:
        yield from case.clear("off-plan", lambda: f"{_by_how_much(case, apart)} planned.", facts)
        return
    slips = likely_slips(case.book, case.bay, span, _as_taped(case, span, planned), limit)
    hint = f" {slips[0].sentence}" if slips else ""
    say = f"{case.apart(apart)} {'longer' if apart > 0 else 'shorter'} than planned ({case.text(planned)}), allowed is {case.text(limit)}.{hint}"
    yield case.found("off-plan", "query", f"{say} Measure again, or say why it stands.", _behind(case, span), slips, facts())


def _behind(case: BayCase, span: Reading) -> list[Reading | None]:
    """What a level span rests on: the rise too where the tape lay along the slope, rise and plumb where the posts lean."""
    rise, leans = rise_reading(case.book, case.bay), plumbs(case.book, case.bay)
    if leans is not None and mean_lean(case.book, case.bay):
        return [span, rise, *leans]
    return [span, rise] if span.taped == "along" else [span]


def _as_taped(case: BayCase, span: Reading, planned: Length) -> Length:
    """What the tape would have shown for the planned span, laid as it was (level, or along the slope)."""
    level = level_of(case, span)
    return planned if not level else Length(round(planned.nm * span.corrected.nm / level))


def _by_how_much(case: BayCase, apart: Exact) -> str:
    return "As" if told_as_nothing(Length(round(apart)), case.job.units) else f"{case.apart(apart)} {'longer' if apart > 0 else 'shorter'} than"


def slip(case: BayCase) -> Iterator[Finding]:
    """Query, where the job sets no plan tolerance: so far off its plan that only a slip explains it."""
    span, planned = case.book.counting("bay", case.bay.tag, "span"), case.book.planned_span(case.bay)
    if span is None or planned is None or case.job.limits.plan_tolerance is not None:
        return
    apart = level_of(case, span) - planned.nm
    if magnitude(apart) <= planned.nm * GROSS_SHARE:
        yield from case.clear("slip", lambda: "Nothing looks like a slip.")
        return
    slips = likely_slips(case.book, case.bay, span, _as_taped(case, span, planned), Length(int(planned.nm * GROSS_SHARE)))
    hint = f" {slips[0].sentence}" if slips else ""
    say = f"{case.read(span)} is {case.apart(apart)} {'longer' if apart > 0 else 'shorter'} than planned ({case.text(planned)}).{hint}"
    yield case.found("slip", "query", f"{say} Measure again, or say why it stands.", _behind(case, span), slips)


def spacing(case: BayCase) -> Iterator[Finding]:
    """Post centres above the greatest spacing: a query within U, a hold beyond it. This one carries load."""
    opening = case.opening
    if opening is None:
        return
    greatest = case.job.system.greatest_spacing
    level = opening.level_nm + opening.faces_nm
    over = level - greatest.nm

    def facts() -> Facts:
        return (("Centre to centre", case.apart(level)), ("Greatest", case.text(greatest)))

    if over <= 0:
        yield from case.clear("spacing", lambda: f"Posts {case.apart(level)} centre to centre, greatest is {case.text(greatest)}.", facts)
        return
    within = mm(over) <= opening.doubt.U
    say = f"Posts stand {case.apart(level)} centre to centre, {case.apart(over)} above the greatest spacing {case.text(greatest)}."
    do = "That is within what the tape can tell: tape it again, or say why it stands." if within else "This carries load: move a post or add one."
    rests = opening.rests
    yield case.found("spacing", "query" if within else "hold", f"{say} {do}", rests, (), facts())


def second_tape(case: BayCase) -> Iterator[Finding]:
    """Hold: a second tape, started anew, lies beyond its tolerance, until a newer one agrees."""
    limit = case.job.limits.second_tape
    if limit is None:
        return
    kinds: tuple[What, ...] = ("span", "top-span", "rise", "base-rise", "diagonal-rising", "diagonal-falling")
    for what in kinds:
        first = case.book.counting("bay", case.bay.tag, what)
        second = case.book.counting("bay", case.bay.tag, what, "second")
        if first is None or second is None or (what in RISES and first is not rise_reading(case.book, case.bay)):
            continue
        apart = _tape_apart(case, first, second)
        name = what.replace("-", " ")
        if magnitude(apart) <= limit.nm:
            yield from case.clear("second-tape", lambda n=name, a=apart: f"Second tape of the {n}: {case.apart(a)} apart.")  # type: ignore[misc]
            continue
        say = f"Second tape of the {name} reads {case.read(second)}, the first {case.read(first)}: {case.apart(apart)} apart, allowed is {case.text(limit)}."
        hint = "" if what.endswith("rise") else between(first.corrected, second.corrected, case.job.tape.division)
        yield case.found("second-tape", "hold", f"{say} {hint} Tape it once more, started anew.".replace("  ", " "), [first, second])


def _tape_apart(case: BayCase, first: Reading, second: Reading) -> Exact:
    """How far a second tape lies from the first, in nm: rises over the centres, spans level. A second rise that says no
    high end takes the first's."""
    if first.what in RISES:
        span = case.book.counting("bay", case.bay.tag, "span")
        second = second if second.high is not None else replace(second, high=first.high)
        both = [None if span is None else slope_of(span, r, _faces(case)) for r in (first, second)]
        if both[0] is None or both[1] is None:
            return 0
        return both[1].over_centres - both[0].over_centres
    if first.what == "span":
        return level_of(case, second) - level_of(case, first)
    return _laid_level(case, second) - _laid_level(case, first)


def _laid_level(case: BayCase, reading: Reading) -> Exact:
    """A top span taped along the slope as it would be level, by the foot's slope; nm."""
    nm = reading.corrected.nm
    return nm if reading.taped != "along" or case.opening is None else level_span(nm, case.opening.sloped.tan)


def lean(case: BayCase) -> Iterator[Finding]:
    """Query: the top span differs from the base span, or the two posts lean apart, by more than the lean limit."""
    opening, limit = case.opening, case.job.limits.lean
    if opening is None or limit is None:
        return
    if opening.top_nm is not None:
        yield from _top_against_base(case, limit)
    left, right = (case.book.plumb(p, case.bay.run) for p in (case.bay.left, case.bay.right))
    if left is None or right is None:
        return
    height = (case.bay.height or case.job.glass.height).nm
    apart = height * (math.tan(lean_angle(right)) - math.tan(lean_angle(left)))
    if magnitude(apart) <= limit.nm:
        yield from case.clear("lean", lambda: f"The posts lean apart by {case.apart(apart)} over the glass height.")
        return
    way = "apart" if apart > 0 else "together"
    say = f"The posts lean {way} by {case.apart(apart)} over the glass height, allowed is {case.text(limit)}: shim a post, or say why it stands."
    yield case.found("lean", "query", say, [left, right])


def _top_against_base(case: BayCase, limit: Length) -> Iterator[Finding]:
    opening = case.opening
    top = case.book.counting("bay", case.bay.tag, "top-span")
    if opening is None or opening.top_nm is None:
        return
    apart = opening.top_nm - opening.span_nm
    if magnitude(apart) <= limit.nm:
        yield from case.clear("lean", lambda: f"Top and base span {case.apart(apart)} apart.")
        return
    say = f"The top span is {case.apart(apart)} {'longer' if apart > 0 else 'shorter'} than the base span, allowed is {case.text(limit)}."
    yield case.found("lean", "query", f"{say} Plumb the posts, or say why it stands.", [*opening.rests, top])


def grip(case: BayCase) -> Iterator[Finding]:
    """Will it hold, will it fit: M below 0 a hold, below 2·u_M a query."""
    opening = case.opening
    if opening is None:
        return
    margin, doubt = opening.margin_nm, 2 * opening.margin_u_mm
    if opening.margin_side == "hold":
        what, short = "the other edge still holds", "the other edge would hold"
    else:
        what, short = "the panel still goes in", "the panel would go in"

    def facts() -> Facts:
        return (("To spare", case.apart(margin)), ("Doubt", case.apart(doubt * NM_PER_MM)))

    if mm(margin) >= doubt:
        yield from case.clear("grip", lambda: f"Fully home in one groove, {what} with {case.apart(margin)} to spare.", facts)
        return
    top = case.book.counting("bay", case.bay.tag, "top-span")
    rests = [*opening.rests, top]
    if margin < 0:
        say = f"Fully home in one groove, {short} {case.apart(margin)} short of what is needed. Tape again, or move a post."
        yield case.found("grip", "hold", say, rests, (), facts())
        return
    say = f"Fully home in one groove, {what} with {case.apart(margin)} to spare, less than the {case.apart(doubt * NM_PER_MM)} that tape and shop may differ."
    yield case.found("grip", "query", f"{say} Tape again with two marks, or say why it stands.", rests, (), facts())
