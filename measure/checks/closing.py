"""Closing of a run: the sum of its bays against the run taped as a whole, lengths and rises."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace

from measure import uncertainty
from measure.as_read import counted
from measure.book import Book
from measure.checks.presence import difference
from measure.finding import Finding, Verdict
from measure.geometry import Exact, level_span, magnitude, mean_faces
from measure.length import NM_PER_MM, Length
from measure.opening import Opening, open_bay, rise_base_mm, rise_u_tan, signed
from measure.plan import Bay
from measure.reading import Reading, What
from measure.rounding import apart_text, plain_text
from measure.slope import Slope

SHOWS = 1.8
"""A slip of 1.8 times the allowed misclosure is what a run can show."""


@dataclass(frozen=True, slots=True)
class Closing:
    """A run's sum as on paper. All in nm; parts: (name, figure) in walking order, spans and faces."""

    parts: tuple[tuple[str, Exact], ...]
    total: Exact
    overall: Exact
    allowed: float

    @property
    def apart(self) -> Exact:
        return self.total - self.overall

    @property
    def closes(self) -> bool:
        return magnitude(self.apart) <= self.allowed


@dataclass(slots=True)
class RunCase:
    """One run. openings: of its bays with glass that are solved. every: clear findings are wanted too."""

    book: Book
    run: str
    openings: dict[str, Opening]
    every: bool = True
    _ways: dict[str, Opening | None] = field(default_factory=dict)

    @property
    def bays(self) -> list[Bay]:
        return self.book.run_bays[self.run]

    def opening(self, bay: Bay) -> Opening | None:
        """The solved bay; a way through too, where its span and rise were read."""
        if bay.has_glass:
            return self.openings.get(bay.tag)
        if bay.tag not in self._ways:
            self._ways[bay.tag] = open_bay(self.book, bay)
        return self._ways[bay.tag]

    def apart(self, nm: Exact) -> str:
        return apart_text(Length(round(magnitude(nm))), self.book.job.units)

    def read(self, reading: Reading) -> str:
        """A reading as typed, with what it counts as where that differs."""
        return counted(reading, self.book.job.units)

    def found(self, check: str, verdict: Verdict, sentence: str, rests: list[Reading]) -> Finding:
        at = max((r.at for r in rests), default=None)
        answer = self.book.answer(f"run {self.run}", check, at) if verdict == "query" else None
        stops = any(b.status == "to order" and b.has_glass for b in self.bays)
        return Finding(check, verdict, sentence, None, self.run, at, answer, (), (), stops)


def span_of(case: RunCase, bay: Bay) -> Reading | None:
    opening = case.opening(bay)
    return opening.span_reading if opening is not None else case.book.counting("bay", bay.tag, "span")


def lengths(case: RunCase) -> Closing | str | None:
    """The run's lengths; a sentence where they cannot be compared, None where the run was not taped as a whole."""
    overall = case.book.counting("run", case.run, "overall")
    if overall is None:
        stale = case.book.stale("run", case.run, "overall")
        return None if stale is None else f"{stale.post} was moved after the run was taped as a whole: not compared until it is taped again."
    spans = [span_of(case, b) for b in case.bays]
    unread = [b.tag for b, s in zip(case.bays, spans, strict=True) if s is None]
    if unread:
        return f"Not compared with the run taped as a whole: no span at {', '.join(unread)}."
    along = overall.taped == "along"
    parts = list(_parts(case, overall.hooked == "outside", along))
    allowed = _allowed_mm(case, overall, [s for s in spans if s is not None]) * NM_PER_MM
    return Closing(tuple(parts), sum(nm for _, nm in parts), overall.corrected.nm, allowed)


def _parts(case: RunCase, outside: bool, along: bool) -> Iterator[tuple[str, Exact]]:
    def laid(nm: Exact, tan: float) -> Exact:
        return nm * math.sqrt(1 + tan * tan) if along and tan else nm

    tan = 0.0
    for i, bay in enumerate(case.bays):
        opening = case.opening(bay)
        span = span_of(case, bay)
        if opening is not None:
            tan = opening.tan
        level: Exact = opening.level_nm if opening is not None else span.corrected.nm if span is not None else 0
        if opening is None and span is not None and span.taped == "along":
            level = level_span(level, tan)
        if outside or i:
            yield bay.left, laid(case.book.face(bay.left).nm, tan)
        yield bay.tag, laid(level, tan)
    if outside:
        yield case.bays[-1].right, laid(case.book.face(case.bays[-1].right).nm, tan)


def _allowed_mm(case: RunCase, overall: Reading, spans: list[Reading]) -> float:
    """2·√(Σ(u_read² + u_place²) + ((n−1)·c/√3)² + (m·u_P)²), over the bays and the overall."""
    tape, n = case.book.job.tape, len(spans)
    faces = n + 1 if overall.hooked == "outside" else n - 1
    doubts = [
        uncertainty.span_doubt(tape, r.corrected.nm, r.how, r.case is not None, r.start is not None) for r in (*spans, overall)
    ]
    hook = (n - 1) * uncertainty.hook_mm(tape) / uncertainty.SQRT3
    return 2 * math.sqrt(sum(d.repeat**2 for d in doubts) + hook**2 + (faces * uncertainty.FACE_MM) ** 2)


def closing(case: RunCase) -> Iterator[Finding]:
    """Query: the bays do not add up to the run taped as a whole. Names the bays that one slip of that size would explain."""
    overall = case.book.counting("run", case.run, "overall")
    made = lengths(case)
    if made is None:
        return
    if isinstance(made, str):
        yield case.found("closing", "caution", made, [])
        return
    shows = f"A slip of {case.apart(made.allowed * SHOWS)} or more in one bay would show."
    if made.closes:
        if case.every:
            yield case.found("closing", "clear", f"Closes within {case.apart(made.apart)}, allowed is {case.apart(made.allowed)}. {shows}", [])
        return
    along = overall is not None and overall.taped == "along"
    rests = [overall, *(r for b in case.bays for r in _behind(case, b, along))] if overall is not None else []
    say = f"The bays add up to {case.apart(made.total)}, taped as a whole it is {case.apart(made.overall)}: {case.apart(made.apart)} {'too much' if made.apart > 0 else 'too little'}, allowed is {case.apart(made.allowed)}."
    suspects = suspect_bays(case, made.apart)
    hint = f" Look first at {' or '.join(suspects)}." if suspects else ""
    yield case.found("closing", "query", f"{say}{hint} {shows}", rests)


def _behind(case: RunCase, bay: Bay, along: bool) -> list[Reading]:
    """What a bay's part of the sum rests on. along: the run was taped along the slope, so the rises count too."""
    opening, span = case.opening(bay), span_of(case, bay)
    if opening is not None and (along or opening.span_reading.taped == "along" or opening.lean.alpha):
        return list(opening.rests)
    return [] if span is None else [span]


def suspect_bays(case: RunCase, apart: Exact) -> list[str]:
    """Bays whose span, mended by the misclosure, comes back to plan (to within half of it, and nearer than it lies)."""
    close = []
    for bay in case.bays:
        planned, opening, span = case.book.planned_span(bay), case.opening(bay), span_of(case, bay)
        if planned is None or span is None:
            continue
        off = (opening.level_nm if opening is not None else span.corrected.nm) - planned.nm
        rest = magnitude(off - apart)
        if rest <= magnitude(apart) / 2 and rest < magnitude(off):
            close.append((rest, bay.tag))
    return [tag for _, tag in sorted(close)[:3]]


def rises(case: RunCase) -> Closing | str | None:
    """The run's rises at the post centres, with their signs (positive: right end high)."""
    total = case.book.counting("run", case.run, "overall-rise")
    if total is None:
        stale = case.book.stale("run", case.run, "overall-rise")
        return None if stale is None else f"{stale.post} was moved after the whole rise was read: not compared until it is read again."
    parts: list[tuple[str, Exact]] = []
    unread: list[str] = []
    for bay in case.bays:
        opening = case.opening(bay)
        if opening is None or (opening.tan and opening.rise_reading.high is None):
            unread.append(bay.tag)
        else:
            parts.append((bay.tag, opening.sloped.over_centres))
    if _end_unsaid(total):
        return "Not compared with the rise of the whole run: it does not say which end is high."
    if unread:
        return f"Not compared with the rise of the whole run: no rise at {', '.join(unread)}."
    made, u = _overall_rise(case, total)
    doubts = [_rise_u_mm(case, o) for o in _solved(case)]
    allowed = 2 * math.sqrt(sum(d**2 for d in doubts) + u**2) * NM_PER_MM
    return Closing(tuple(parts), sum(nm for _, nm in parts), made, allowed)


def _solved(case: RunCase) -> list[Opening]:
    """Every bay of the run that is solved, ways through too, in walking order."""
    return [o for o in map(case.opening, case.bays) if o is not None]


def _rise_u_mm(case: RunCase, opening: Opening) -> float:
    """u_r of a bay's rise at the post centres, mm."""
    if isinstance(opening.rise_reading.value, Slope):
        tan_u = rise_u_tan(case.book, opening.rise_reading, opening.sloped, opening.faces_nm)
        return tan_u * float(opening.sloped.span + opening.faces_nm) / NM_PER_MM
    base = rise_base_mm(opening.rise_reading, opening.sloped, opening.faces_nm)
    centres = float(opening.sloped.span + opening.faces_nm) / NM_PER_MM
    return uncertainty.rise_u_mm(case.book.job.tape.division, base) * centres / base


def _overall_rise(case: RunCase, total: Reading) -> tuple[Exact, float]:
    """The rise of the whole run with sign, nm at the first and last centres, and its u in mm."""
    centres = sum(float(o.sloped.span + o.faces_nm) for o in _solved(case))
    first, last = case.bays[0].left, case.bays[-1].right
    between = centres - float(mean_faces(case.book.face(first).nm, case.book.face(last).nm))
    division = case.book.job.tape.division
    if isinstance(total.value, Slope):
        tan = total.value.tan
        return signed(total, tan * centres), uncertainty.slope_u_tan(total.value.half_digit_tan, float(tan)) * centres / NM_PER_MM
    base = total.over.nm if isinstance(total.over, Length) else between if total.over == "faces" else centres
    scale = 1 if base == centres else centres / base
    return signed(total, total.corrected.nm * scale), uncertainty.rise_u_mm(division, base / NM_PER_MM) * float(scale)


def closing_rise(case: RunCase) -> Iterator[Finding]:
    """Query: the rises do not add up to the rise of the whole run."""
    total = case.book.counting("run", case.run, "overall-rise")
    made = rises(case)
    if made is None:
        return
    if isinstance(made, str):
        yield case.found("closing-rise", "caution", made, [])
        return
    if made.closes:
        if case.every:
            yield case.found("closing-rise", "clear", f"The rises close within {case.apart(made.apart)}, allowed is {case.apart(made.allowed)}.", [])
        return
    rests = [r for r in (total, *(r for o in _solved(case) for r in o.rests)) if r is not None]
    say = f"The rises add up to {_signed_text(case, made.total)}, the whole run rises {_signed_text(case, made.overall)}: {case.apart(made.apart)} apart, allowed is {case.apart(made.allowed)}."
    swapped = [tag for tag, nm in made.parts if magnitude(made.apart - 2 * nm) <= made.allowed and nm]
    hint = f" Is the high end of {' or '.join(swapped[:3])} mixed up?" if swapped else " Read the rises again."
    yield case.found("closing-rise", "query", say + hint, rests)


def _signed_text(case: RunCase, nm: Exact) -> str:
    return f"{case.apart(nm)} {'to the right' if nm > 0 else 'to the left' if nm < 0 else ''}".strip()


def _end_unsaid(total: Reading) -> bool:
    return total.high is None and bool(total.value.value if isinstance(total.value, Slope) else total.value.nm)


def run_high_end(case: RunCase) -> Iterator[Finding]:
    """Hold: the rise of the whole run is above 0 and does not say its high end."""
    total = case.book.counting("run", case.run, "overall-rise")
    if total is not None and _end_unsaid(total):
        view = case.book.runs[case.run].seen_from
        say = f"The rise {total.text} of the whole run does not say which end is high: say left or right, as seen from {view}."
        yield case.found("high-end", "hold", say, [total])


def run_read_backs(case: RunCase) -> Iterator[Finding]:
    """Hold: a run's overall figure and its read-back differ."""
    for what in ("overall", "overall-rise"):
        first = case.book.counting("run", case.run, what)
        back = None if first is None else case.book.read_back(first)
        if first is None or back is None:
            continue
        apart = difference(first, back)
        if apart:
            say = f"{first.by} read {case.read(first)} for the whole run, {back.by} read back {case.read(back)}: {apart}. Read it again, or tape it anew."
            yield case.found("read-back", "hold", say, [first, back])


def run_second_tape(case: RunCase) -> Iterator[Finding]:
    """Hold: the whole run taped a second time lies beyond the second tape's tolerance."""
    limit = case.book.job.limits.second_tape
    kinds: tuple[tuple[What, str, Callable[[RunCase, Reading, Reading], Exact]], ...] = (
        ("overall", "The whole run", _taped_apart), ("overall-rise", "The rise of the whole run", _rises_apart),
    )  # fmt: skip
    for what, name, compare in kinds:
        first = case.book.counting("run", case.run, what)
        second = case.book.counting("run", case.run, what, "second")
        if limit is None or first is None or second is None:
            continue
        apart = compare(case, first, second)
        if magnitude(apart) > limit.nm:
            say = f"{name} taped a second time reads {case.read(second)}, first {case.read(first)}: {case.apart(apart)} apart, allowed is {plain_text(limit, case.book.job.units)}. Tape it once more."
            yield case.found("second-tape", "hold", say, [first, second])


def _taped_apart(case: RunCase, first: Reading, second: Reading) -> Exact:
    return _taped_outside(case, second) - _taped_outside(case, first)


def _rises_apart(case: RunCase, first: Reading, second: Reading) -> Exact:
    """Nothing while a bay is unread, since a run's slope goes over all of them. A second rise without a high end takes the first's."""
    if len(_solved(case)) < len(case.bays):
        return 0
    second = second if second.high is not None else replace(second, high=first.high)
    return _overall_rise(case, second)[0] - _overall_rise(case, first)[0]


def _taped_outside(case: RunCase, overall: Reading) -> Exact:
    """The run level and outside to outside in nm, whichever way it was taped; its slope is that of its bays where all are read."""
    solved = _solved(case)
    level: Exact = overall.corrected.nm
    if overall.taped == "along" and len(solved) == len(case.bays):
        outside = overall.hooked == "outside"
        laid = sum(nm for _, nm in _parts(case, outside, True))
        level = level * sum(nm for _, nm in _parts(case, outside, False)) / laid
    ends = case.book.face(case.bays[0].left).nm + case.book.face(case.bays[-1].right).nm
    return level if overall.hooked == "outside" else level + ends
