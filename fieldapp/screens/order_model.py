"""The order, panel by panel: what would go out now, what went out, and what has changed since. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from fieldapp.live_job import Sign
from fieldapp.screens.foremost import foremost
from fieldapp.words import day, hour, say
from measure.changes import OrderedPanel, PanelChange, changes
from measure.conflict import CHECK
from measure.finding import Finding
from measure.length import Length
from measure.opening import Opening
from measure.order import Order, OrderLine
from measure.order_rows import IssuedOrder
from measure.pane_text import area_text, mass_text, pane_text
from measure.panel import Panel
from measure.rounding import apart_text, order_text
from measure.system import Glass
from measure.units import JobUnits

HEAVY_KG = 30.0
Facts = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class PanelView:
    """One panel as a leaf. width, left, right, rack: in mm, for the drawing alone."""

    tag: str
    title: str
    under: str
    width: float
    left: float
    right: float
    rack: float
    high: str
    figures: tuple[str, str, str, str]
    seen: str
    says: str
    facts: Facts


@dataclass(frozen=True, slots=True)
class OutLine:
    """Why a panel stays out. tag: empty for what is in the way of the whole job. sides: two sides have to be decided first."""

    tag: str
    sign: Sign
    sentence: str
    sides: bool


@dataclass(frozen=True, slots=True)
class OrderView:
    panels: tuple[PanelView, ...]
    count: str
    totals: str
    left_out: tuple[OutLine, ...]
    cautions: tuple[str, ...]
    issue: str


@dataclass(frozen=True, slots=True)
class IssueView:
    """What is looked at once more before an order goes out. action: empty where there is no panel to order."""

    title: str
    facts: Facts
    cautions: tuple[str, ...]
    action: str


@dataclass(frozen=True, slots=True)
class ChangeView:
    """One ordered panel that differs. rows: (what, ordered, now, apart)."""

    tag: str
    sentence: str
    sign: Sign
    rows: tuple[tuple[str, str, str, str], ...]


@dataclass(frozen=True, slots=True)
class IssuedView:
    number: str
    order_no: int
    revision: int
    title: str
    under: str
    mark: str
    heading: str
    changed: tuple[ChangeView, ...]
    change: str
    tags: tuple[str, ...]

    @property
    def differs(self) -> tuple[str, ...]:
        """Panels that their bays ask otherwise now."""
        return tuple(change.tag for change in self.changed)


def order_view(order: Order) -> OrderView:
    """What would go out now."""
    n = len(order.lines)
    lines = dict.fromkeys(line for tag, found in order.left_out for line in _out_lines(tag, found))
    left_out = tuple(sorted(lines, key=lambda line: bool(line.tag)))
    return OrderView(
        panels=tuple(_panel(order, line, i) for i, line in enumerate(order.lines)),
        count=say("order.panels", n=n),
        totals=say("order.totals", area=area_text(order.double_area), kg=mass_text(order.double_volume)),
        left_out=left_out,
        cautions=tuple(dict.fromkeys(f.sentence for f in order.cautions)),
        issue=say("order.issue_what", n=n),
    )


def _out_lines(tag: str, found: Sequence[Finding]) -> Iterator[OutLine]:
    """What is in the way of the whole job is one line for all panels; what else stops a panel is a line of its own."""
    of_job = [f for f in found if f.place == "job"]
    if of_job:
        yield OutLine("", _worst(of_job), of_job[0].sentence, of_job[0].check == CHECK)
    own = foremost(f for f in found if f.place != "job")
    if own:
        yield OutLine(tag, _worst(own), say("order.out_line", tag=tag, sentence=own[0].sentence), own[0].check == CHECK)


def _worst(found: Sequence[Finding]) -> Sign:
    return "hold" if any(f.verdict == "hold" for f in found) else "query"


def issue_view(order: Order, last: IssuedView | None) -> IssueView:
    """last: the order that is changed by this one; None for a first one."""
    found, n = order_view(order), len(order.lines)
    glass = order.job.glass
    differs = " ".join(last.differs) if last else ""
    rows = (
        (say("order.fact_differs"), differs),
        (say("order.fact_panels"), " ".join(line.panel for line in order.lines)),
        (say("order.fact_glass"), f"{order_text(glass.thickness, 'mm')} {glass.kind}".strip()),
        (say("order.fact_totals"), found.totals),
        (say("order.fact_out"), " ".join(dict.fromkeys(line.tag for line in found.left_out if line.tag))),
    )
    rows = tuple((words, figure) for words, figure in rows if figure)
    title = last.change if last else say("order.issue")
    goes = " ".join(line.panel for line in order.lines if last and (line.panel in last.differs or line.panel not in last.tags))
    action = "" if not n else found.issue if last is None else say("order.change_of", change=last.change, tags=goes) if goes else last.change
    return IssueView(title, rows if n else (), found.cautions, action)


def _panel(order: Order, line: OrderLine, at: int) -> PanelView:
    pane, units = line.pane, order.job.units
    width, left, right, rack = (order_text(x, units) for x in (pane.width, pane.left_edge, pane.right_edge, pane.rack))
    high = say("order.none_high") if pane.high_end == "none" else pane.high_end
    return PanelView(
        tag=line.panel,
        title=say("order.panel", tag=line.panel),
        under=say("order.panel_under", at=at + 1, n=len(order.lines), run=line.run),
        width=pane.width.mm, left=pane.left_edge.mm, right=pane.right_edge.mm, rack=pane.rack.mm, high=pane.high_end,
        figures=(width, left, right, rack),
        seen=say("order.seen", view=line.seen_from),
        says=say("order.says", tag=line.panel, width=width, left=left, right=right, rack=rack, high=high),
        facts=_facts(order, line, pane, units),
    )  # fmt: skip


def _facts(order: Order, line: OrderLine, pane: Panel, units: JobUnits) -> Facts:
    glass = order.job.glass
    width, left, right, rack = (order_text(x, units) for x in (pane.width, pane.left_edge, pane.right_edge, pane.rack))
    racked = say("order.fact_level") if pane.high_end == "none" else say("order.fact_rack", high=pane.high_end)
    edges = " · ".join(dict.fromkeys(e for e in (glass.edge_top, glass.edge_uprights, glass.edge_bottom) if e))
    printed = pane_text(pane, units)
    rows = [
        (say("order.fact_width"), width),
        (say("order.fact_left"), left),
        (say("order.fact_right"), right),
        (racked, rack),
        (say("order.fact_glass"), f"{order_text(glass.thickness, 'mm')} {glass.kind}".strip()),
        (say("order.fact_edges"), edges),
        (say("order.fact_face"), line.finish_face),
        (say("order.fact_diagonals"), f"{printed.diagonal_rising} · {printed.diagonal_falling} mm"),
        (say("order.fact_mass"), say("order.mass_heavy" if pane.mass_kg > HEAVY_KG else "order.mass", kg=printed.mass)),
        (say("order.fact_spare"), apart_text(Length(round(line.margin_nm)), units)),
        (say("order.fact_read"), f"{line.span_as_read}, {line.read_by}"),
    ]
    return tuple((words, figure) for words, figure in rows if figure)


def number_of(issued: IssuedOrder) -> str:
    """`1`, and `1.1` for its first change: the number with the changes made of it."""
    return str(issued.order_no) if issued.revision == 1 else f"{issued.order_no}.{issued.revision - 1}"


def issued_view(issued: IssuedOrder, openings: dict[str, Opening], units: JobUnits, glass: Glass | None = None) -> IssuedView:
    """An issued order, and which of its panels differ from what their bays ask for now. glass: of the job now."""
    changed = tuple(_change(c, units) for c in changes(issued.panels, openings, glass))
    when = datetime.fromisoformat(issued.at)
    heading = say("order.changed", n=len(changed)) if changed else say("order.same")
    follow = f"{issued.order_no}.{issued.revision}"
    return IssuedView(
        number=number_of(issued), order_no=issued.order_no, revision=issued.revision,
        title=say("order.title_issued", number=number_of(issued)),
        under=say("order.under_issued", when=f"{day(when)} {hour(when)}", by=issued.by),
        mark=say("order.mark", mark=f"{issued.content_hash[:4]} {issued.content_hash[4:8]}"),
        heading=heading, changed=changed, tags=tuple(str(p["panel"]) for p in issued.panels), change=say("order.change", number=follow),
    )  # fmt: skip


def _change(change: PanelChange, units: JobUnits) -> ChangeView:
    was, now = change.was, change.now
    if now is None or change.margin_nm is None:
        return ChangeView(was.tag, say("order.unread", tag=was.tag), "query", ())
    if change.other_glass:
        glass = (say("order.fact_glass"), was.glass, now.glass, "")
        return ChangeView(was.tag, say("order.other_glass", tag=was.tag), "hold", (glass, *_rows(was, now, units)))
    apart = change.width_apart
    key = "order.other" if not apart else "order.narrow" if apart.nm < 0 else "order.wide"
    margin = apart_text(Length(round(abs(float(change.margin_nm)))), units)
    holds = change.margin_nm >= 0
    second = say(f"order.{'still' if holds else 'fails'}_{change.side}", margin=margin)
    sentence = f"{say(key, tag=was.tag, apart=apart_text(abs(apart), units))} {second}"
    return ChangeView(was.tag, sentence, "query" if holds else "hold", _rows(was, now, units))


def _rows(was: OrderedPanel, now: OrderedPanel, units: JobUnits) -> tuple[tuple[str, str, str, str], ...]:
    def row(name: str, a: Length, b: Length) -> tuple[str, str, str, str]:
        apart = b - a
        sign = "+" if apart.nm > 0 else "−" if apart.nm < 0 else ""
        return (say(f"order.{name}"), order_text(a, units), order_text(b, units), f"{sign}{order_text(abs(apart), units)}" if apart else "0")

    high = (say("order.high_row"), was.high_end, now.high_end, "")
    return (
        row("width", was.width, now.width), row("left", was.left_edge, now.left_edge), row("right", was.right_edge, now.right_edge),
        row("rack_row", was.rack, now.rack), high,
    )  # fmt: skip


def file_name(job: str, name: str) -> str:
    """A download's name: the order's own file name, or the job's name made plain for a job file."""
    if name != "job.json":
        return name
    plain = "".join(c if c.isalnum() or c in "-_" else "-" for c in job.strip()).strip("-").lower()
    return f"{plain or 'job'}.json"


