"""Issued orders: numbered in their store, frozen as they left it. A change is a further revision of the same number."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from measure.database import Row, StoreFile, time_text
from measure.errors import StoreError
from measure.job_shelf import NO_JOB

NO_ORDER = "There is no order {order_no}, revision {revision}, in this store."
OTHER_JOB = "Order {order_no} belongs to another job. Issue a new order for this one."
NO_FILES = "An order without files cannot be issued. Write its files first."
Files = Mapping[str, bytes]


@dataclass(frozen=True, slots=True)
class OrderNumber:
    """revision: 1 for a new order, one more for every change of it."""

    order_no: int
    revision: int


@dataclass(frozen=True, slots=True)
class IssuedOrder:
    """An order as it went out. panels: what was ordered, as the caller put it (JSON values), one a line."""

    order_no: int
    revision: int
    job: str
    by: str
    at: str
    content_hash: str
    panels: tuple[dict[str, Any], ...]


class OrderRows(StoreFile):
    """Orders by number and revision."""

    def next_order(self, change_of: int | None = None) -> OrderNumber:
        """The number that the next order gets; as a change of an order, its next revision."""
        if change_of is None:
            last = self.row("SELECT max(order_no) AS n FROM glass_order")
            return OrderNumber(1 + ((last and last["n"]) or 0), 1)
        last = self.row("SELECT max(revision) AS n FROM glass_order WHERE order_no = ?", change_of)
        if last is None or last["n"] is None:
            raise StoreError(NO_ORDER.format(order_no=change_of, revision=1))
        return OrderNumber(change_of, last["n"] + 1)

    def issue_order(
        self,
        job_id: str,
        files: Files | Callable[[OrderNumber], Files],
        by: str,
        at: str | datetime,
        content_hash: str = "",
        panels: Iterable[dict[str, Any]] = (),
        change_of: int | None = None,
    ) -> IssuedOrder:
        """Number and freeze an order. files: name and bytes, or a function that makes them from the number.

        content_hash: left empty it is made from the files. change_of: the order that this one changes.
        """
        with self.action():
            if not self.write("UPDATE job SET changed_at = ?, changes = changes + 1 WHERE id = ?", self.now_text(), job_id):
                raise StoreError(NO_JOB)
            number = self.next_order(change_of)
            if change_of is not None and self.rows(
                "SELECT 1 FROM glass_order WHERE order_no = ? AND job <> ?", change_of, job_id
            ):
                raise StoreError(OTHER_JOB.format(order_no=change_of))
            made = files(number) if callable(files) else files
            if not made:
                raise StoreError(NO_FILES)
            lines = tuple(panels)
            order = IssuedOrder(
                number.order_no, number.revision, job_id, by, time_text(at), content_hash or files_hash(made), lines
            )
            self._keep_order(order, made)
        return order

    def orders(self, job_id: str) -> list[IssuedOrder]:
        """All orders of a job, every revision, oldest first."""
        found = self.rows("SELECT * FROM glass_order WHERE job = ? ORDER BY order_no, revision", job_id)
        return [self._order(row) for row in found]

    def order_files(self, order_no: int, revision: int) -> dict[str, bytes]:
        """The files of an order as they went out, by name, in the order in which they were given."""
        found = self.rows(
            "SELECT name, content FROM order_file WHERE order_no = ? AND revision = ? ORDER BY rowid", order_no, revision
        )
        if not found:
            raise StoreError(NO_ORDER.format(order_no=order_no, revision=revision))
        return {r["name"]: r["content"] for r in found}

    def _keep_order(self, order: IssuedOrder, files: Files) -> None:
        key = (order.order_no, order.revision)
        self.write(
            """INSERT INTO glass_order (order_no, revision, job, issued_by, issued_at, content_hash)
               VALUES (?, ?, ?, ?, ?, ?)""",
            *key,
            order.job,
            order.by,
            order.at,
            order.content_hash,
        )
        self.write_many(
            "INSERT INTO order_panel (order_no, revision, line, words) VALUES (?, ?, ?, ?)",
            [(*key, line, json.dumps(panel, ensure_ascii=False, allow_nan=False)) for line, panel in enumerate(order.panels, 1)],
        )
        self.write_many(
            "INSERT INTO order_file (order_no, revision, name, content) VALUES (?, ?, ?, ?)",
            [(*key, name, bytes(content)) for name, content in files.items()],
        )

    def _order(self, row: Row) -> IssuedOrder:
        panels = self.rows(
            "SELECT words FROM order_panel WHERE order_no = ? AND revision = ? ORDER BY line", row["order_no"], row["revision"]
        )
        return IssuedOrder(
            row["order_no"],
            row["revision"],
            row["job"],
            row["issued_by"],
            row["issued_at"],
            row["content_hash"],
            tuple(json.loads(p["words"]) for p in panels),
        )


def files_hash(files: Files) -> str:
    """SHA-256 over names and bytes of all files, whatever their order, as hexadecimal digits."""
    each = sorted(f"{hashlib.sha256(content).hexdigest()}  {name}" for name, content in files.items())
    return hashlib.sha256("\n".join(each).encode()).hexdigest()
