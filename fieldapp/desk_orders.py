"""Orders at the desk: what would be ordered now, what was issued, and how the two differ."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from typing import Any

from fieldapp.desk import Desk
from measure.errors import OrderError
from measure.opening import Opening
from measure.order import Order, OrderLine, make_order
from measure.order_files import order_bytes
from measure.order_rows import IssuedOrder, OrderNumber
from measure.panel import Panel
from measure.report import evaluate

_NM = ("width", "left_edge", "right_edge", "rack")


class DeskOrders:
    """All of one desk's orders."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    def now(self, id: str, tags: Collection[str] | None = None) -> Order:
        """The order of a job as it stands: every panel that nothing stands in the way of; the others are left out, with reasons.

        tags: of these panels only, as in a change order; the others are taken as ordered.
        """
        job = self._desk.job(id).job
        if tags is not None:
            job = replace(job, bays=tuple(b if b.tag in tags else replace(b, status="ordered") for b in job.bays))
        return make_order(evaluate(job))

    def issued(self, id: str) -> list[IssuedOrder]:
        """All orders of a job, every revision, oldest first."""
        return self._desk.store.orders(id)

    def files_now(self, id: str) -> dict[str, bytes]:
        """The files of the order as it stands, before it is issued: what `spanbook order` would write."""
        return order_bytes(self.now(id), drawings=True)

    def files(self, order: IssuedOrder) -> dict[str, bytes]:
        """The files of an issued order as they went out."""
        return self._desk.store.order_files(order.order_no, order.revision)

    async def issue(
        self, id: str, by: str, partial: bool = False, tags: Collection[str] | None = None, change_of: int | None = None
    ) -> IssuedOrder:
        """Number and freeze the order as it stands. partial: leave out what stands in the way. tags: of these panels only.

        Raises OrderError when something stands in the way, or no panel is left.
        """
        order = self.now(id, tags)
        if order.left_out and not partial:
            raise OrderError(f"{', '.join(tag for tag, _ in order.left_out)} cannot be ordered yet. Settle what stands in the way first.")
        if not order.lines:
            raise OrderError("No panel is left to order.")
        at = self._desk.moment(id)

        def files(number: OrderNumber) -> dict[str, bytes]:
            return order_bytes(order.issued(str(number.order_no), number.revision, at.date().isoformat(), by), drawings=True)

        issued = self._desk.store.issue_order(id, files, by, at, panels=[panel_words(line) for line in order.lines], change_of=change_of)
        await self._desk.kept("jobs", f"job {id}", f"orders {id}")
        return issued

    def differing(self, id: str) -> list[tuple[dict[str, Any], Opening | None]]:
        """Panels of the newest orders whose bay asks for another one now: as ordered, and the bay's opening as it stands.

        The opening is None where its figures no longer suffice.
        """
        live, ordered = self._desk.job(id), self.ordered(id)
        found = []
        for tag, words in ordered.items():
            opening = live.opening(tag) if tag in live.book.bays else None
            if opening is None or _sizes(opening.panel) != {key: words[key] for key in _sizes(opening.panel)}:
                found.append((words, opening))
        return found

    def ordered(self, id: str) -> dict[str, dict[str, Any]]:
        """Every panel as it was ordered last, by its tag, with `order_no` and `revision`."""
        found: dict[str, dict[str, Any]] = {}
        for order in self.issued(id):
            for words in order.panels:
                found[words["panel"]] = {**words, "order_no": order.order_no, "revision": order.revision}
        return found


def panel_words(line: OrderLine) -> dict[str, Any]:
    """A panel as it is kept with its order: whole nanometres."""
    return {"panel": line.panel, "run": line.run, "shape": line.pane.shape, **_sizes(line.pane), "group": line.group}


def _sizes(pane: Panel) -> dict[str, Any]:
    return {f"{name}_nm": getattr(pane, name).nm for name in _NM} | {"high_end": pane.high_end}
