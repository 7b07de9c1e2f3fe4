"""From readings to a glass order, without a user interface.

    values      length · slope · system · plan · reading · job · finding · panel
    text        parse (typed → value) · rounding (value → text; the only place that rounds)
    files in    strict_json · documents (pydantic) → job
    arithmetic  geometry · uncertainty → opening (one bay solved, up to its panel)
    what counts book (replaced, stale, newest)
    checks/     a file a family → report (findings, what may be ordered)
    order out   order → order_csv · order_schema · drawing · order_html → order_files
    store       migrations · store · merge (SQLite behind it, nowhere else)

Imports run one way, upwards in this list never; nothing here knows the app. What a caller needs most is named below and
loaded when first asked for, so that a command that checks a file starts fast.
"""

from __future__ import annotations

from importlib import import_module

_WHERE = {
    "Length": "length",
    "Slope": "slope",
    "Job": "job",
    "Finding": "finding",
    "Panel": "panel",
    "Report": "report",
    "evaluate": "report",
    "parse_length": "parse",
    "parse_rise": "parse",
    "parse_slope": "parse",
    "read_job": "documents",
    "Store": "store",
    "EntryError": "errors",
    "DocumentError": "errors",
    "OrderError": "errors",
    "SpanbookError": "errors",
    "StoreError": "errors",
}
__all__ = sorted(_WHERE)


def __getattr__(name: str) -> object:
    if name not in _WHERE:
        raise AttributeError(f"measure has no {name}")
    return getattr(import_module(f"measure.{_WHERE[name]}"), name)
