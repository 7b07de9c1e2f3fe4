"""Slope, neighbours, the line that the glass follows, leaning posts."""

from __future__ import annotations

import math
from collections.abc import Iterator
from fractions import Fraction

from measure.checks.case import BayCase, mm
from measure.finding import Finding
from measure.geometry import magnitude, mean_faces, rack_by_diagonals
from measure.length import NM_PER_MM
from measure.opening import Opening, lean_angle, plumbs, rise_reading, slope_of
from measure.plan import Bay
from measure.slope import Slope
from measure.uncertainty import diagonals_u_mm

FLAT_TAN = Fraction(1, 200)
"""Up to half a per cent a bay counts as level when high ends are compared."""
DESIGN_TAN = Fraction(3, 100)


def per_cent(tan: float) -> str:
    return f"{abs(tan) * 100:.1f} %"


def slope(case: BayCase) -> Iterator[Finding]:
    """Query: steeper than the job's limit. Hold: a rise between faces as long as the tape that lay along it, or posts
    that would lie along the slope."""
    opening, limit = case.opening, case.job.limits.slope
    if opening is None:
        yield from _impossible(case)
        return
    if limit is None:
        return
    if magnitude(opening.sloped.tan) <= limit:
        yield from case.clear("slope", lambda: f"Slope {per_cent(opening.tan)}, limit {per_cent(float(limit))}.")
        return
    say = f"Slope {per_cent(opening.tan)} is above the job's {per_cent(float(limit))}: read the rise again, or say why it stands."
    yield case.found("slope", "query", say, opening.rests)


def _impossible(case: BayCase) -> Iterator[Finding]:
    span, rise = case.book.counting("bay", case.bay.tag, "span"), rise_reading(case.book, case.bay)
    if span is None or rise is None or span.corrected.nm <= 0:
        return
    faces = mean_faces(case.book.face(case.bay.left).nm, case.book.face(case.bay.right).nm)
    if slope_of(span, rise, faces) is None:
        say = f"The rise {rise.text} cannot be as long as the span {case.read(span)} taped along it: read both again."
        yield case.found("slope", "hold", say, [span, rise])
    else:
        say = f"Posts cannot lean as far as plumb was read at {case.bay.left} and {case.bay.right}, not with a rise of {rise.text}: read plumb again."
        yield case.found("plumb", "hold", say, [span, rise, *(plumbs(case.book, case.bay) or ())])


def design_slope(case: BayCase) -> Iterator[Finding]:
    """Query: a slope as drawings give it (1:n, whole per cent) typed as a reading, above 3 %."""
    rise = rise_reading(case.book, case.bay)
    if rise is None or not isinstance(rise.value, Slope) or not rise.value.is_design or rise.value.tan <= DESIGN_TAN:
        return
    say = f"{rise.text} looks like the drawing's slope, not a reading: read the rise, don't assume it, or say how it was read."
    yield case.found("design-slope", "query", say, [rise])


def neighbour(case: BayCase) -> Iterator[Finding]:
    """Query on both bays: opposite high ends, or slopes further apart than the job's step and both doubts allow."""
    if case.opening is None or _end_unknown(case.opening):
        return
    for other in case.book.neighbours(case.bay):
        if other is None or not other.has_glass:
            continue
        beside = case.solved.of(other)
        if beside is not None and not _end_unknown(beside):
            yield from _compare(case, case.opening, beside, other)


def _end_unknown(opening: Opening) -> bool:
    return opening.rise_reading.high is None and bool(opening.tan)


def _compare(case: BayCase, here: Opening, beside: Opening, other: Bay) -> Iterator[Finding]:
    rests = [*here.rests, *beside.rests]
    one, two = here.sloped.tan, beside.sloped.tan
    if (one > 0) != (two > 0) and min(magnitude(one), magnitude(two)) > FLAT_TAN:
        ends = ("right" if one > 0 else "left", "right" if beside.tan > 0 else "left")
        say = f"{case.bay.tag} is high at the {ends[0]}, its neighbour {other.tag} at the {ends[1]}: is one high end mixed up? Look again, or say why it stands."
        yield case.found("neighbour", "query", say, rests)
        return
    allowed = float(case.job.limits.slope_step) + 2 * math.hypot(here.rise_u_tan, beside.rise_u_tan)
    apart = abs(float(one) - float(two))
    if apart <= allowed:
        yield from case.clear("neighbour", lambda: f"Slope {per_cent(here.tan)}, {other.tag} beside it {per_cent(beside.tan)}.")
        return
    say = f"Slope {per_cent(here.tan)}, its neighbour {other.tag} has {per_cent(beside.tan)}: {per_cent(apart)} apart, allowed is {per_cent(allowed)}."
    yield case.found("neighbour", "query", f"{say} Read the rise again, or say why it stands.", rests)


def rack_line(case: BayCase) -> Iterator[Finding]:
    """Query: the two ways to the rack differ by more than the order step and the job has not said which."""
    opening = case.opening
    if opening is None or case.book.runs[case.bay.run].rack_follows is not None:
        return
    apart = magnitude(opening.rack_nm - opening.other_rack_nm)
    if apart <= case.job.order_step.nm:
        yield from case.clear("rack-line", lambda: f"Post to post or along the slope, the rack differs by {case.apart(apart)} only.")
        return
    say = f"Rack {case.apart(opening.rack_nm)} from post to post, {case.apart(opening.other_rack_nm)} along the slope: say for run {case.bay.run} which one the glass follows."
    yield case.found("rack-line", "query", say, opening.rests)


def plumb(case: BayCase) -> Iterator[Finding]:
    """Query: the rack with and without the lean, or by the opening's diagonals, differs by more than the order step."""
    opening = case.opening
    if opening is None:
        return
    step = case.job.order_step.nm
    posts = [case.book.plumb(p, case.bay.run) for p in (case.bay.left, case.bay.right)]
    if all(posts):
        apart = magnitude(opening.rack_nm - opening.rack_without_lean_nm)
        if apart > step:
            degrees = math.degrees(abs(opening.lean.alpha))
            say = f"The posts lean {'right' if opening.lean.alpha > 0 else 'left'} by {degrees:.1f}°, which changes the rack by {case.apart(apart)}. Shim them plumb, or say that the glass goes to the posts as they stand."
            yield case.found("plumb", "query", say, opening.rests)
        else:
            leans = [lean_angle(p) for p in posts if p is not None]
            yield from case.clear("plumb", lambda: f"The posts lean by {math.degrees(max(leans, key=abs)):+.1f}° at most; the rack stays as it is.")
    yield from _diagonals(case, opening, step)


def _diagonals(case: BayCase, opening: Opening, step: int) -> Iterator[Finding]:
    rising = case.book.counting("bay", case.bay.tag, "diagonal-rising")
    falling = case.book.counting("bay", case.bay.tag, "diagonal-falling")
    if rising is None or falling is None or rising.mark is None or falling.mark is None:
        return
    p, q, up, down = rising.corrected.nm, falling.corrected.nm, rising.mark.nm, falling.mark.nm
    base = opening.width_nm if opening.rack_follows == "slope" else opening.sloped.span + opening.faces_nm
    by_diagonals = rack_by_diagonals(p, up, q, down, base, opening.span_nm)
    doubt = 2 * diagonals_u_mm(mm(p), mm(q), mm(up + down), float(base) / float(opening.span_nm), opening.doubt.repeat)
    apart = abs(float(opening.rack_nm) - by_diagonals)
    if apart <= step + doubt * NM_PER_MM:
        yield from case.clear("plumb", lambda: f"Rack by the two diagonals: {case.apart(apart)} from the rise.")
        return
    say = f"The two diagonals give a rack of {case.apart(by_diagonals)}, rise and plumb give {case.apart(opening.rack_nm)}. Shim the posts plumb, or say that the glass goes to the posts as they stand."
    yield case.found("plumb", "query", say, [rising, falling, *opening.rests])
