"""The review of a whole job: what stands in the way, each run as a strip and as a sum, all bays as a table. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from fieldapp.live_job import LiveJob, Sign
from fieldapp.screens.finding_name import finding_name
from fieldapp.screens.foremost import foremost
from fieldapp.screens.strip_model import StripPart, strip
from fieldapp.words import listed, say
from measure.checks import RunCase
from measure.checks.closing import Closing, lengths
from measure.conflict import CHECK
from measure.finding import Finding
from measure.geometry import Exact
from measure.length import NM_PER_INCH, Length
from measure.plan import Bay
from measure.rounding import order_text, round_to_step

PLAN_FALLBACK = 1000.0
FINE = {"in": Length(NM_PER_INCH // 32), "mm": Length(100_000)}
"""How fine a sum is written."""


@dataclass(frozen=True, slots=True)
class Way:
    """Something in the way. bay: where a tap goes; empty where what is in the way is the job's."""

    verdict: Sign
    word: str
    place: str
    sentence: str
    bay: str
    check: str
    run: str = ""


@dataclass(frozen=True, slots=True)
class Sum:
    """One line of a sum as on paper."""

    words: str
    whole: str
    fraction: str
    mark: str = ""


@dataclass(frozen=True, slots=True)
class RunView:
    name: str
    title: str
    under: str
    bays: tuple[StripPart, ...]
    sums: tuple[Sum, ...]
    closing: Sign | None
    sentence: str
    says: str


@dataclass(frozen=True, slots=True)
class PlanBayView:
    tag: str
    spacing: float
    sign: Sign
    glass: bool
    says: str
    here: str = ""


@dataclass(frozen=True, slots=True)
class PlanRunView:
    """turn: degrees on the deck side to the next run; None where none shares its last post."""

    name: str
    bays: tuple[PlanBayView, ...]
    turn: float | None
    left: str
    right: str


@dataclass(frozen=True, slots=True)
class BayRow:
    """A line of the table; cells: bay, span, rise, panel, rack, high end, by. here: letters of those who are on it."""

    tag: str
    cells: tuple[str, ...]
    sign: Sign
    word: str
    here: str = ""


@dataclass(frozen=True, slots=True)
class Review:
    title: str
    under: str
    heading: str
    ways: tuple[Way, ...]
    cautions: tuple[str, ...]
    runs: tuple[RunView, ...]
    plan: tuple[PlanRunView, ...]
    plan_says: str
    tallies: tuple[tuple[Sign, str], ...]
    rows: tuple[BayRow, ...]
    go: Way | None
    go_words: str
    order_words: str
    some_free: bool


def review(live: LiveJob, here: Mapping[str, str] | None = None) -> Review:
    """The whole job as it stands. here: letters of the others who are on a bay, by its tag."""
    here = here or {}
    ways = _ways(live)
    glass = [b for b in live.plan.bays if b.has_glass]
    signs = {b.tag: live.sign(b.tag) for b in glass}
    stopped = {w.bay for w in ways if not w.run} | {b.tag for w in ways if w.run for b in live.book.run_bays[w.run]}
    free = 0 if "" in stopped else sum(b.tag not in stopped and b.status == "to order" for b in glass)
    heading = say("review.some", n=len(ways)) if ways else say("review.none")
    plan = tuple(_plan_run(live, i, bays, here) for i, bays in enumerate(live.book.run_bays.values()))
    told = listed([say(f"app.bay_{signs[b.tag]}", tag=b.tag) for b in glass], 40)
    go = ways[0] if ways else None
    return Review(
        title=live.name,
        under=say("review.under", view=_view(live)),
        heading=heading,
        ways=ways,
        cautions=tuple(f.sentence for f in live.findings_of_job() if f.verdict == "caution"),
        runs=tuple(_run(live, name, bays, here) for name, bays in live.book.run_bays.items()),
        plan=plan,
        plan_says=say("review.plan_says", told=told),
        tallies=_tallies(list(signs.values())),
        rows=tuple(replace(_row(live, b), here=here.get(b.tag, "")) for b in live.plan.bays),
        go=go,
        go_words=_go_words(go) if go else "",
        order_words=say("review.order", n=free) if ways else say("review.order_all"),
        some_free=free > 0,
    )


def _ways(live: LiveJob) -> tuple[Way, ...]:
    """One row a bay or run, or for the job, holds first, with its worst verdict and the finding that is told first."""
    of_place: dict[str, list[Finding]] = {}
    for finding in sorted(live.in_the_way(), key=lambda f: f.verdict != "hold"):
        of_place.setdefault(finding.place, []).append(finding)
    return tuple(_way(live, found) for found in of_place.values())


def _way(live: LiveJob, found: list[Finding]) -> Way:
    finding, worst = foremost(found)[0], found[0]
    bay = finding.bay if finding.bay is not None else _suspect(live, finding) if finding.run is not None else ""
    of_job = say("sides.of_plan") if finding.check == CHECK else live.name
    name = of_job if finding.place == "job" else finding.place
    place = say("review.finding_place", place=name, check=finding_name(finding))
    verdict: Sign = "hold" if worst.verdict == "hold" else "query"
    word = say(f"review.verdict_{verdict}")
    more = len(found) - 1
    sentence = say("review.and_more", sentence=finding.sentence, n=more) if more else finding.sentence
    return Way(verdict, word, place, sentence, bay, finding.check, finding.run or "")


def _go_words(way: Way) -> str:
    return say("review.go_sides") if way.check == CHECK else say("review.go", place=way.bay)


def _suspect(live: LiveJob, finding: Finding) -> str:
    """The first bay that a run's finding names, else the run's first bay."""
    bays = live.book.run_bays[finding.run or ""]
    words = finding.sentence.replace(",", " ").replace(".", " ").split()
    return next((b.tag for b in bays if b.tag in words), bays[0].tag)


def _view(live: LiveJob) -> str:
    views = list(dict.fromkeys(run.seen_from for run in live.book.runs.values()))
    return "; ".join(views)


def _tallies(signs: list[Sign]) -> tuple[tuple[Sign, str], ...]:
    order: tuple[Sign, ...] = ("clear", "query", "hold", "todo")
    return tuple((s, say(f"review.tally_{s}", n=signs.count(s))) for s in order if s in signs)


def _plan_run(live: LiveJob, index: int, bays: list[Bay], here: Mapping[str, str]) -> PlanRunView:
    runs = list(live.book.run_bays.values())
    last, after = live.book.posts[bays[-1].right], runs[index + 1] if index + 1 < len(runs) else None
    shared = after is not None and after[0].left == last.id
    turn = float(last.turned_to) if shared and last.turned_to is not None else None
    shown = tuple(replace(_plan_bay(live, bay), here=here.get(bay.tag, "")) for bay in bays)
    return PlanRunView(bays[0].run, shown, turn, live.book.posts[bays[0].left].kind, "end" if shared else last.kind)


def _plan_bay(live: LiveJob, bay: Bay) -> PlanBayView:
    planned = live.book.planned_span(bay)
    faces = (live.book.face(bay.left).mm + live.book.face(bay.right).mm) / 2
    spacing = bay.spacing.mm if bay.spacing is not None else planned.mm + faces if planned is not None else PLAN_FALLBACK
    sign: Sign = live.sign(bay.tag)
    says = say(f"app.bay_{sign}", tag=bay.tag) if bay.has_glass else say("app.bay_gate", tag=bay.tag)
    return PlanBayView(bay.tag, spacing, sign, bay.has_glass, says)


def _run(live: LiveJob, name: str, bays: list[Bay], here: Mapping[str, str]) -> RunView:
    case = RunCase(live.book, name, live.openings.of_run(name))
    made = lengths(case)
    shown = strip(live, bays, here)
    findings = [f for f in live.findings_of_run(name) if f.check in ("closing", "closing-rise")]
    worst = next((f for f in findings if f.stands_in_the_way), findings[0] if findings else None)
    sign: Sign | None = None if worst is None else "query" if worst.stands_in_the_way else "clear" if worst.verdict == "clear" else None
    under = say("review.run_under", first=bays[0].left, last=bays[-1].right)
    sums = _sums(live, case, made) if isinstance(made, Closing) else ()
    sentence = worst.sentence if worst is not None else say("review.no_overall")
    told = listed([part.says for part in shown], 40)
    return RunView(name, say("review.run", run=name), under, shown, sums, sign, sentence, say("review.run_says", run=name, told=told))


def _sums(live: LiveJob, case: RunCase, made: Closing) -> tuple[Sum, ...]:
    tags = {b.tag for b in case.bays}
    spans = [nm for name, nm in made.parts if name in tags]
    faces = [(name, nm) for name, nm in made.parts if name not in tags]
    alike = len({nm for _, nm in faces}) == 1
    posts = (
        say("review.faces", n=len(faces), face=_figure(live, faces[0][1]))
        if alike
        else say("review.faces_mixed", n=len(faces))
    )
    lines = [_line(live, say("review.spans", n=len(spans)), sum(spans))]
    if faces:
        lines.append(_line(live, posts, sum(nm for _, nm in faces)))
    lines += [_line(live, say("review.together"), made.total, "sum"), _line(live, say("review.overall"), made.overall)]
    words = say("review.closes") if made.closes else say("review.apart")
    return (*lines, _line(live, words, abs(float(made.apart)), "apart"))


def _shown(live: LiveJob, nm: Exact) -> Length:
    return round_to_step(nm, FINE[live.units])


def _figure(live: LiveJob, nm: Exact) -> str:
    return order_text(_shown(live, nm), live.plan.units).removesuffix(" in").removesuffix(" mm")


def _line(live: LiveJob, words: str, nm: Exact, mark: str = "") -> Sum:
    """Wholes and fractions in their own columns; a millimetre job has its decimals behind the point."""
    if live.units == "mm":
        whole, _, part = _figure(live, nm).partition(".")
        return Sum(words, whole, f".{part}" if part else "", mark)
    length = _shown(live, nm)
    whole, rest = divmod(length.nm, NM_PER_INCH)
    fraction = str(Fraction(rest, NM_PER_INCH)) if rest else ""
    return Sum(words, str(whole) if whole or not rest else "", fraction, mark)


def _row(live: LiveJob, bay: Bay) -> BayRow:
    span = live.book.counting("bay", bay.tag, "span")
    if not bay.has_glass:
        return BayRow(bay.tag, (bay.tag, span.text if span else "", "", say("review.gate"), "", "", ""), "todo", "")
    opening, sign = live.opening(bay.tag), live.sign(bay.tag)
    units = live.plan.units
    cells = (bay.tag, span.text if span else "", "", "", "", "", span.by if span else "")
    if opening is not None:
        panel = opening.panel
        size = f"{order_text(panel.width, units)} × {order_text(max(panel.left_edge, panel.right_edge), units)}"
        rack = order_text(panel.rack, units)
        cells = (bay.tag, opening.span_reading.text, opening.rise_reading.text, size, rack, panel.high_end, opening.span_reading.by)
    return BayRow(bay.tag, cells, sign, say(f"review.verdict_{sign}"))
