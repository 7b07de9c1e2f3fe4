"""Orders that went out, against what their bays ask now: for every screen that has to say so."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.live_job import LiveJob
from fieldapp.parts.finding_row import finding_row
from fieldapp.screens.order_model import IssuedView, issued_view
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App


def all_issued(app: App, live: LiveJob) -> list[IssuedView]:
    """Every issued order of a job, the oldest first."""
    orders = app.desk.orders(live.id)
    if not orders:
        return []
    solved = {b.tag: o for b in live.plan.bays if (o := live.openings.of(b)) is not None}
    return [issued_view(one, solved, live.plan.units, live.plan.glass) for one in orders]


def last_issued(app: App, live: LiveJob) -> IssuedView | None:
    """The order that is in force; None where none was issued."""
    found = all_issued(app, live)
    return found[-1] if found else None


def ordered_row(app: App, live: LiveJob) -> list[ft.Control]:
    """For the review: which ordered panels differ now, a tap from the order; nothing where none does."""
    last = last_issued(app, live)
    if last is None or not last.changed:
        return []
    worst = "hold" if any(change.sign == "hold" for change in last.changed) else "query"
    place = say("order.row", number=last.number, tags=" ".join(last.differs))
    sentence = last.changed[0].sentence if len(last.changed) == 1 else last.heading
    go = lambda _: app.go("order", job=live.id)  # noqa: E731
    return [finding_row(app.look, worst, say(f"review.verdict_{worst}"), place, sentence, go)]  # type: ignore[arg-type]
