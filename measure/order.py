"""An order: one line a panel, equal panes under one letter, and everything its files say, as values.

Sizes are those of the panes (panel.py), already rounded. Figures named _nm are exact where they can be.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from measure.as_read import rise_as_read, span_as_read
from measure.finding import Finding
from measure.geometry import Exact
from measure.job import Job, Units
from measure.opening import Opening
from measure.pane_text import double_area, double_volume
from measure.panel import Panel
from measure.plan import SEEN_FROM
from measure.reading import Answer
from measure.report import Report

NOTE = "no cutting before the shop's drawing is signed"


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One panel. panel: its mark, the bay's tag. span_nm: S that the width was made from. allowance_nm: all that was added.

    margin_nm: the smaller grip margin M, margin_side `hold` or `fit`. answered: answers that let a query stand, the bay's
    first, then its run's.
    """

    panel: str
    run: str
    pane: Panel
    seen_from: str
    finish_face: str
    group: str
    span_nm: Exact
    span_as_read: str
    rise_as_read: str
    allowance_nm: Exact
    margin_nm: Exact
    margin_side: str
    read_by: str
    read_back_by: str
    answered: tuple[Answer, ...] = ()
    qty: int = 1


@dataclass(frozen=True, slots=True)
class PaneGroup:
    """Panels that are the same pane. pane: as its first panel is ordered."""

    letters: str
    pane: Panel
    panels: tuple[str, ...]

    @property
    def qty(self) -> int:
        return len(self.panels)


@dataclass(frozen=True)
class Order:
    """left_out: panels that may not be ordered yet, each with the findings in its way.

    order_no empty, revision 0, date and issued_by empty until the order is issued.
    """

    job: Job
    lines: tuple[OrderLine, ...]
    groups: tuple[PaneGroup, ...]
    left_out: tuple[tuple[str, tuple[Finding, ...]], ...] = ()
    cautions: tuple[Finding, ...] = ()
    order_no: str = ""
    revision: int = 0
    date: str = ""
    issued_by: str = ""

    @property
    def governs(self) -> Units:
        """The unit that binds."""
        return self.job.units

    @cached_property
    def in_the_way(self) -> tuple[tuple[str, Finding], ...]:
        """What keeps panels out of this order, and where: `A2`, or `run A (A1, A2)`; a run's finding is told once."""
        panels: dict[Finding, list[str]] = {}
        for tag, findings in self.left_out:
            for finding in findings:
                panels.setdefault(finding, []).append(tag)
        return tuple(
            (tags[0] if finding.bay is not None else f"{finding.place} ({', '.join(tags)})", finding)
            for finding, tags in panels.items()
        )

    @cached_property
    def double_area(self) -> int:
        """Twice the area of all panes, nm²."""
        return sum(double_area(line.pane) for line in self.lines)

    @cached_property
    def double_volume(self) -> int:
        """Twice the volume of all panes, nm³."""
        return sum(double_volume(line.pane) for line in self.lines)

    @cached_property
    def heaviest(self) -> OrderLine:
        """The first of the heaviest panels."""
        return max(self.lines, key=lambda line: double_volume(line.pane))

    @cached_property
    def seen_from(self) -> str:
        """Where every panel is seen from; run by run where the runs differ."""
        views: dict[str, list[str]] = {}
        for line in self.lines:
            runs = views.setdefault(line.seen_from, [])
            if line.run not in runs:
                runs.append(line.run)
        if len(views) == 1:
            return next(iter(views))
        return "; ".join(f"run {', '.join(runs)}: {view}" for view, runs in views.items())

    @cached_property
    def taped_by(self) -> tuple[str, ...]:
        return _names(line.read_by for line in self.lines)

    @cached_property
    def read_back_by(self) -> tuple[str, ...]:
        return _names(line.read_back_by for line in self.lines)

    def issued(self, order_no: str, revision: int, date: str, by: str) -> Order:
        """The same order with its number, date and the name of who issued it."""
        return replace(self, order_no=order_no, revision=revision, date=date, issued_by=by)


def make_order(report: Report) -> Order:
    """The order of every panel of a job that nothing stands in the way of; the others are left out, with the reasons."""
    job = report.job
    openings = report.to_order()
    letters = _letters_of(openings, report)
    answered = _answered(report)
    lines = tuple(_line(o, report, letters[o.bay.tag], answered) for o in openings)
    left_out = tuple((tag, tuple(findings)) for tag, findings in report.left_out())
    return Order(job, lines, _groups(lines), left_out, _cautions(report, lines))


def group_letters(place: int) -> str:
    """A, B … Z, AA, AB … for 0, 1 … 25, 26, 27 …"""
    letters = ""
    place += 1
    while place:
        place, letter = divmod(place - 1, 26)
        letters = chr(ord("A") + letter) + letters
    return letters


def same_pane_key(pane: Panel, finish_face: str, holes: str, seen_from: str) -> tuple[object, ...]:
    """Equal for panels that are the same pane.

    A plain racked pane turned round fits the other slope. One with a finish face or a hole does not: its high end and the side
    that it is seen from tell it apart. A stamp does not hand a pane.
    """
    handed = bool(finish_face) or holes.strip().casefold() not in ("", "none")
    return (*pane.pane_key, finish_face, *((pane.high_end, seen_from) if handed else ()))


def _letters_of(openings: Sequence[Opening], report: Report) -> dict[str, str]:
    letters: dict[tuple[object, ...], str] = {}
    found = {}
    holes = report.job.glass.holes
    for opening in openings:
        key = same_pane_key(opening.panel, opening.finish_face or "", holes, _seen_from(report, opening))
        if key not in letters:
            letters[key] = group_letters(len(letters))
        found[opening.bay.tag] = letters[key]
    return found


def _seen_from(report: Report, opening: Opening) -> str:
    return report.book.runs[opening.bay.run].seen_from or SEEN_FROM


def _line(opening: Opening, report: Report, group: str, answered: dict[str, list[Answer]]) -> OrderLine:
    bay, units, read_back = opening.bay, report.job.units, opening.read_back
    return OrderLine(
        panel=bay.tag,
        run=bay.run,
        pane=opening.panel,
        seen_from=_seen_from(report, opening),
        finish_face=opening.finish_face or "",
        group=group,
        span_nm=opening.span_nm,
        span_as_read=span_as_read(opening.span_reading, units),
        rise_as_read=rise_as_read(opening.rise_reading, units),
        allowance_nm=opening.allowance_nm,
        margin_nm=opening.margin_nm,
        margin_side=opening.margin_side,
        read_by=opening.span_reading.by,
        read_back_by="" if read_back is None else read_back.by,
        answered=(*answered.get(bay.tag, ()), *answered.get(f"run {bay.run}", ())),
    )


def _groups(lines: Iterable[OrderLine]) -> tuple[PaneGroup, ...]:
    panes: dict[str, tuple[Panel, list[str]]] = {}
    for line in lines:
        panes.setdefault(line.group, (line.pane, []))[1].append(line.panel)
    return tuple(PaneGroup(letters, pane, tuple(panels)) for letters, (pane, panels) in panes.items())


def _answered(report: Report) -> dict[str, list[Answer]]:
    """By place, the answers that let a query stand, in the order of the job's file."""
    by_place: dict[str, list[Answer]] = {}
    for finding in report.findings:
        if finding.verdict == "query" and finding.answer is not None:
            found = by_place.setdefault(finding.place, [])
            if finding.answer not in found:
                found.append(finding.answer)
    if by_place:
        order = {id(answer): at for at, answer in enumerate(report.job.answers)}
        for found in by_place.values():
            found.sort(key=lambda answer: order.get(id(answer), len(order)))
    return by_place


def _cautions(report: Report, lines: Iterable[OrderLine]) -> tuple[Finding, ...]:
    """The cautions of the job, of the ordered panels and of their runs."""
    ordered = {line.panel for line in lines}
    runs = {line.run for line in lines}
    return tuple(
        f
        for f in report.findings
        if f.verdict == "caution" and (f.bay in ordered if f.bay is not None else f.run is None or f.run in runs)
    )


def _names(names: Iterable[str]) -> tuple[str, ...]:
    """Each name once, in the order of the panels; a name typed in two ways counts once."""
    found: dict[str, str] = {}
    for name in names:
        key = " ".join(name.split()).casefold()
        if key:
            found.setdefault(key, name)
    return tuple(found.values())
