"""The order as CSV: a line a panel, the summary by identical pane, and the head.

RFC 4180: CRLF, quotes doubled; UTF-8 with a byte order mark, so that a spreadsheet program reads it as UTF-8.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache

from measure.job import Units
from measure.order import NOTE, Order, OrderLine
from measure.pane_text import area_text, double_area, double_volume, length_text, mass_text, pane_text
from measure.panel import Panel
from measure.reading import Answer
from measure.rounding import mm_decimal
from measure.spreadsheet import safe_text

COLUMNS = (
    "panel", "qty", "run", "shape", "width_in", "width_mm", "left_edge_in", "left_edge_mm", "right_edge_in", "right_edge_mm",
    "rack_in", "rack_mm", "high_end", "width_text", "left_edge_text", "right_edge_text", "rack_text", "governs", "seen_from",
    "thickness_mm", "glass", "edge_top", "edge_uprights", "edge_bottom", "corners", "holes", "finish_face", "stamp", "standard",
    "sloped_edge_mm", "lower_angle_deg", "diagonal_rising_mm", "diagonal_falling_mm", "bound_width_mm", "bound_height_mm",
    "area_m2", "mass_kg", "size_tolerance_mm", "group", "span_mm", "span_as_read", "rise_as_read", "allowance_mm", "margin_mm",
    "read_by", "read_back_by", "answered", "order_no", "revision",
)  # fmt: skip
SUMMARY_COLUMNS = (
    "group", "qty", "panels", "shape", "width_text", "left_edge_text", "right_edge_text", "rack_text", "area_m2", "mass_kg",
)  # fmt: skip
HEAD_FIGURES = frozenset(("revision", "size_tolerance_mm", "panels", "area_m2", "mass_kg", "heaviest_kg"))
_exact_mm = lru_cache(maxsize=16384)(mm_decimal)


def order_csv(order: Order) -> bytes:
    """`order.csv`: a line a panel, in the order of the bays."""
    return _file(COLUMNS, _lines(order))


def summary_csv(order: Order) -> bytes:
    """`order-summary.csv`: a line a pane; area and mass are those of all its panes."""
    return _file(SUMMARY_COLUMNS, _summary(order))


def head_csv(order: Order) -> bytes:
    """`order-head.csv`: key and value."""
    told = head_values(order).items()
    return _file(("key", "value"), ((key, value if key in HEAD_FIGURES else safe_text(value)) for key, value in told))


def thickness_text(nm: int) -> str:
    """Millimetres as short as they are: `10`, `8.76`."""
    return mm_decimal(nm, 6).rstrip("0").rstrip(".")


def answer_text(answer: Answer) -> str:
    return f"{answer.check}: {answer.reason} ({answer.by})"


def head_values(order: Order) -> dict[str, str]:
    """The order's head, as printed; figures as text."""
    job, head, confirmed = order.job, order.job.head, order.job.system.confirmed
    return {
        "order_no": order.order_no,
        "revision": str(order.revision),
        "date": order.date,
        "job": job.name,
        "site": job.site,
        "customer": head.customer,
        "po": head.po,
        "wanted_by": head.wanted_by,
        "deliver_to": head.deliver_to,
        "contact": head.contact,
        "phone": head.phone,
        "unloading": head.unloading,
        "system": job.system.name,
        "glass": f"{thickness_text(job.glass.thickness.nm)} mm {job.glass.kind}".strip(),
        "governs": order.governs,
        "seen_from": order.seen_from,
        "size_tolerance_mm": mm_decimal(job.glass.size_tolerance.nm),
        "panels": str(len(order.lines)),
        "area_m2": area_text(order.double_area),
        "mass_kg": mass_text(order.double_volume),
        "heaviest_kg": mass_text(double_volume(order.heaviest.pane)),
        "taped_by": ", ".join(order.taped_by),
        "read_back_by": ", ".join(order.read_back_by),
        "confirmed_by": confirmed.by if confirmed is not None else "",
        "issued_by": order.issued_by,
        "note": NOTE,
    }


def _lines(order: Order) -> Iterator[Sequence[str]]:
    glass, governs = order.job.glass, order.governs
    words = (glass.kind, glass.edge_top, glass.edge_uprights, glass.edge_bottom, glass.corners, glass.holes)
    before = (thickness_text(glass.thickness.nm), *map(safe_text, words))
    after = (safe_text(glass.stamp), safe_text(glass.standard))
    tolerance, issue = mm_decimal(glass.size_tolerance.nm), (safe_text(order.order_no), str(order.revision))
    panes: dict[tuple[str, str], tuple[tuple[str, ...], tuple[str, ...]]] = {}
    for line in order.lines:
        known = (line.group, line.pane.high_end)
        if known not in panes:
            panes[known] = _pane_cells(line.pane, governs)
        sizes, figures = panes[known]
        yield (
            line.panel, str(line.qty), line.run, *sizes, governs, safe_text(line.seen_from),
            *before, safe_text(line.finish_face), *after, *figures, tolerance, line.group,
            _exact_mm(line.span_nm), line.span_as_read, line.rise_as_read,
            _exact_mm(line.allowance_nm), _exact_mm(line.margin_nm), safe_text(line.read_by),
            safe_text(line.read_back_by), _answered(line), *issue,
        )  # fmt: skip


def _pane_cells(pane: Panel, governs: Units) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The cells of `shape` to `rack_text`, and those of `sloped_edge_mm` to `mass_kg`."""
    text = pane_text(pane, governs)
    sizes = (text.width, text.left_edge, text.right_edge, text.rack)
    decimals = (cell for size in sizes for cell in (size.inch, size.mm))
    return (
        (pane.shape, *decimals, pane.high_end, *(size.text for size in sizes)),
        (
            text.sloped_edge, text.lower_angle, text.diagonal_rising, text.diagonal_falling, text.bound_width, text.bound_height,
            text.area, text.mass,
        ),
    )  # fmt: skip


def _answered(line: OrderLine) -> str:
    return safe_text("; ".join(map(answer_text, line.answered))) if line.answered else ""


def _summary(order: Order) -> Iterator[Sequence[str]]:
    for group in order.groups:
        pane, qty = group.pane, group.qty
        sizes = (pane.width, pane.left_edge, pane.right_edge, pane.rack)
        yield (
            group.letters, str(qty), ", ".join(group.panels), pane.shape,
            *(length_text(size, order.governs).text for size in sizes),
            area_text(qty * double_area(pane)), mass_text(qty * double_volume(pane)),
        )  # fmt: skip


def _file(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows(rows)
    return b"\xef\xbb\xbf" + text.getvalue().encode("utf-8", "replace")
