"""`order.schema.json`: what each column of order.csv means, as a Table Schema (Frictionless), with its unit and its rule."""

from __future__ import annotations

import json
from collections.abc import Mapping

from measure.order import Order
from measure.order_csv import COLUMNS, SUMMARY_COLUMNS
from measure.rounding import plain_text

_SIZE = {"minimum": 0}
_SIZE_TEXT = r"\d+( \d+/\d+)? in|\d+/\d+ in|\d+(\.\d+)? mm"

_Field = tuple[str, str, str, Mapping[str, object]]
_NUMBERS: Mapping[str, _Field] = {
    "qty": ("integer", "", "Panels on this line: one.", {"minimum": 1}),
    "thickness_mm": ("number", "mm", "Nominal thickness of the glass.", _SIZE),
    "sloped_edge_mm": ("number", "mm", "Length of an edge that follows the slope: √(W² + R²).", _SIZE),
    "lower_angle_deg": ("number", "deg", "The smaller lower corner angle: 90° − atan(R/W).", {"minimum": 0, "maximum": 90}),
    "diagonal_rising_mm": ("number", "mm", "From the lower left corner to the upper right.", _SIZE),
    "diagonal_falling_mm": ("number", "mm", "From the upper left corner to the lower right.", _SIZE),
    "bound_width_mm": ("number", "mm", "Width of the upright rectangle around the panel.", _SIZE),
    "bound_height_mm": ("number", "mm", "Height of the upright rectangle around the panel: H + R.", _SIZE),
    "area_m2": ("number", "m2", "Area of one panel, four decimals.", _SIZE),
    "mass_kg": ("number", "kg", "Mass of one panel at 2500 kg/m³ (EN 572-1), one decimal.", _SIZE),
    "size_tolerance_mm": ("number", "mm", "What a panel's sizes may be off, either way.", _SIZE),
    "span_mm": (
        "number",
        "mm",
        "Clear distance between the post faces that the width was made from: level, square to the posts.",
        _SIZE,
    ),
    "allowance_mm": ("number", "mm", "What was added to the span for both edges together, turned posts included.", _SIZE),
    "margin_mm": (
        "number",
        "mm",
        "The smaller grip margin: to spare before an edge leaves its groove, or before the panel no longer goes in.",
        _SIZE,
    ),
    "revision": ("integer", "", "0 until the order is issued.", {"minimum": 0}),
}
_SIZES: Mapping[str, str] = {
    "width": "Width, square across from upright edge to upright edge, never along the slope.",
    "left_edge": "Length of the left upright edge.",
    "right_edge": "Length of the right upright edge.",
    "rack": "How far one lower corner stands above the other, across the width. Never negative: `high_end` says which.",
}
_WORDS: Mapping[str, _Field] = {
    "panel": ("string", "", "The panel's mark; its bay's tag on site.", {"unique": True, "maxLength": 16}),
    "run": ("string", "", "The run of railing that the panel belongs to.", {}),
    "shape": (
        "string", "", "racked: both uprights plumb, top and bottom parallel. level-top: bottom follows the slope, top level.",
        {"enum": ["rectangle", "racked", "level-top"]},
    ),
    "high_end": ("string", "", "Where the panel stands higher; none: a rectangle.", {"enum": ["left", "right", "none"]}),
    "governs": ("string", "", "Which unit binds: its figures are exact, the other's are converted.", {"enum": ["in", "mm"]}),
    "seen_from": ("string", "", "Where one stands to see left, right and high end as named here. Do not mirror.", {}),
    "group": ("string", "", "The same letters for the same pane; also the key of order-summary.csv.", {"pattern": "[A-Z]+"}),
    "span_as_read": ("string", "", "The span as typed on site, with what was said of how it was taped.", {}),
    "rise_as_read": ("string", "", "The rise as typed on site and what it was read over, or the slope.", {}),
    "read_by": ("string", "", "Who taped the span.", {}),
}  # fmt: skip
_MAY_BE_EMPTY: Mapping[str, str] = {
    "glass": "Kind of glass.",
    "edge_top": "Work on the top edge.",
    "edge_uprights": "Work on both upright edges.",
    "edge_bottom": "Work on the bottom edge.",
    "corners": "Work on the corners.",
    "holes": "Holes: none unless said.",
    "finish_face": "Which face is frosted, coated or printed; empty: plain on both. With a finish face a pane is handed.",
    "stamp": "Where the permanent mark goes. It does not hand a pane.",
    "standard": "Standard that the glass is ordered to.",
    "read_back_by": "Who read the span back; empty when nobody did.",
    "answered": "Queries that stand, each `check: reason (name)`.",
    "order_no": "Empty until the order is issued.",
}


def order_schema(order: Order) -> bytes:
    """The Table Schema of this order's order.csv, UTF-8 JSON."""
    step = plain_text(order.job.order_step, order.governs)
    schema = {
        "title": "Glass order, a line a panel",
        "description": f"Seen from {order.seen_from}. Lengths are rounded to {step}: do not round again. Width is square across.",
        "fields": [_field(name) for name in COLUMNS],
        "missingValues": [""],
        "primaryKey": ["panel"],
        "foreignKeys": [{"fields": ["group"], "reference": {"resource": "order-summary", "fields": [SUMMARY_COLUMNS[0]]}}],
        "governs": order.governs,
        "seenFrom": order.seen_from,
        "rules": _rules(step),
    }
    return (json.dumps(schema, ensure_ascii=False, indent=1) + "\n").encode("utf-8", "replace")


def _rules(step: str) -> list[str]:
    return [
        f"Width and height are rounded to {step}, nearest, an exact half to the even step; so is the rack. "
        "Every other size follows from the rounded ones.",
        "Width is square across, upright edge to upright edge, never along the slope.",
        "Racked: both uprights H, p² + q² = 2(H² + W² + R²), p² − q² = ±4·H·R. Level-top: the high end H, the low end H + R.",
        "Diagonals of racked and level-top panels differ on purpose; only those of a rectangle are equal.",
        "Millimetres have two decimals, inches as many as are exact or four, a half to the even digit. "
        "The decimal sign is a point.",
        "Text that a spreadsheet program would turn into a formula, a number, a date or a time begins with an apostrophe.",
        "UTF-8 with byte order mark, comma, CRLF, quotes doubled (RFC 4180).",
    ]


def _field(name: str) -> dict[str, object]:
    kind, unit, say, rules = _meaning(name)
    field: dict[str, object] = {"name": name, "type": kind, "description": say}
    if unit:
        field["unit"] = unit
    if kind == "number":
        field["decimalChar"] = "."
    field["constraints"] = {"required": name not in _MAY_BE_EMPTY, **rules}
    return field


def _meaning(name: str) -> _Field:
    """Type, unit, description and constraints of a column."""
    for known in (_NUMBERS, _WORDS):
        if name in known:
            return known[name]
    if name in _MAY_BE_EMPTY:
        return "string", "", _MAY_BE_EMPTY[name], {}
    size, _, unit = name.rpartition("_")
    if unit == "text":
        return "string", "", f"{_SIZES[size]} As a shop reads it, in the unit that governs.", {"pattern": _SIZE_TEXT}
    return "number", unit, _SIZES[size], _SIZE
