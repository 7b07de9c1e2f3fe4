"""The jobs of a store as a list: what stands on each one's card, where it was left, and the bin."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Any

from measure.conflict import plan_conflict
from measure.database import Row, time_text
from measure.errors import StoreError
from measure.plan_rows import PlanRows

NO_JOB = "There is no such job in this store (any more). Look at the list of jobs, or in the bin."
DOUBLED_NAME = "Several jobs here are named “{name}”. Say which by its id: {ids}."
BAY_WHATS = ("span", "rise", "base-rise")
Counts = dict[tuple[str, str], int]
"""Newest first reading that counts, by bay and what was read, in microseconds since 1970."""


@dataclass(frozen=True, slots=True)
class JobCard:
    """bays: with glass. measured: those of them whose span and rise are read and still count.

    place: where the job was left, empty for a new one. Times are RFC 3339 in UTC by this device's clock; empty for never.
    copied_at: when a copy last left this device. copy_is_old: something changed here since. changes: goes up with every change.
    settled: False where the plan was changed on two sides.
    """

    id: str
    name: str
    site: str
    units: str
    bays: int
    measured: int
    added_by: str
    added_at: str
    changed_at: str
    opened_at: str
    place: str
    copied_at: str
    copy_is_old: bool
    changes: int
    settled: bool


class JobShelf(PlanRows):
    """All jobs; nothing here ever loses one."""

    def jobs(self) -> list[JobCard]:
        """Jobs, the one that was worked on last first."""
        return self._cards("binned_at IS NULL")

    def binned_jobs(self) -> list[JobCard]:
        """Jobs in the bin, likewise."""
        return self._cards("binned_at IS NOT NULL")

    def card(self, job_id: str) -> JobCard:
        """One job's card, from the bin too. Raises StoreError where there is none."""
        found = self._cards("id = ?", job_id)
        if not found:
            raise StoreError(NO_JOB)
        return found[0]

    def job_by_name(self, name: str) -> str | None:
        """The id of the job of exactly this name or id; None where there is none. Raises StoreError where there are several."""
        found = [r["id"] for r in self.rows("SELECT id FROM job WHERE binned_at IS NULL AND (id = ? OR name = ?)", name, name)]
        if name in found:
            return name
        if len(found) > 1:
            raise StoreError(DOUBLED_NAME.format(name=name, ids=", ".join(found)))
        return found[0] if found else None

    def remove_job(self, job_id: str) -> None:
        """Put a job into the bin."""
        self._mark(job_id, "binned_at", self.now_text())

    def restore_job(self, job_id: str) -> None:
        """Take a job out of the bin."""
        self._mark(job_id, "binned_at", None)

    def mark_opened(self, job_id: str, place: str = "") -> None:
        """Somebody works on this job, at this place of it."""
        with self.lesser_action():
            if not self.write("UPDATE job SET opened_at = ?, left_at = ? WHERE id = ?", self.now_text(), place, job_id):
                raise StoreError(NO_JOB)

    def mark_copy(self, job_id: str, at: str | datetime | None = None, changes: int | None = None) -> None:
        """A copy of this job left this device. changes: the card's figure when the copy was made; left out, as it is now."""
        with self.action():
            touched = self.write(
                "UPDATE job SET copied_at = ?, copied_changes = coalesce(?, changes) WHERE id = ?",
                self.now_text() if at is None else time_text(at),
                changes,
                job_id,
            )
            if not touched:
                raise StoreError(NO_JOB)

    def last_copy_at(self, job_id: str) -> str | None:
        """When a copy of this job last left this device."""
        return self.card(job_id).copied_at or None

    def _mark(self, job_id: str, column: str, value: str | None) -> None:
        with self.action():
            if not self.write(f"UPDATE job SET {column} = ? WHERE id = ?", value, job_id):
                raise StoreError(NO_JOB)

    def _cards(self, which: str, *values: object) -> list[JobCard]:
        found = self.rows(
            f"SELECT * FROM job WHERE {which} ORDER BY max(changed_at, coalesce(opened_at, '')) DESC, rowid DESC", *values
        )
        return [self._card(row) for row in found]

    def _card(self, row: Row) -> JobCard:
        plans = self._newest_plans(row["id"])
        plan = plans[-1].plan
        bays = [b for b in plan.get("bays") or () if b.get("glass") != "none"]
        trimmed = {p["id"] for p in plan.get("posts") or () if p.get("trimmed")}
        counts, moved = self._counts(row["id"])
        return JobCard(
            id=row["id"],
            name=row["name"],
            site=row["site"],
            units=row["units"],
            bays=len(bays),
            measured=sum(_is_measured(bay, trimmed, counts, moved) for bay in bays),
            added_by=row["added_by"],
            added_at=row["added_at"],
            changed_at=row["changed_at"],
            opened_at=row["opened_at"] or "",
            place=row["left_at"],
            copied_at=row["copied_at"] or "",
            copy_is_old=row["changes"] > row["copied_changes"],
            changes=row["changes"],
            settled=plan_conflict(plans) is None,
        )

    def _counts(self, job_id: str) -> tuple[Counts, dict[str, int]]:
        readings = self.rows(
            """SELECT r.place, r.what, max(r.at_us) AS at_us FROM reading AS r
               WHERE r.job = ? AND r.kind = 'bay' AND r.role = 'first' AND r.what IN ('span', 'rise', 'base-rise')
               AND NOT EXISTS (SELECT 1 FROM reading AS n WHERE n.job = r.job AND n.replaces = r.own_id)
               GROUP BY r.place, r.what""",
            job_id,
        )
        moved = self.rows("SELECT post, max(at_us) AS at_us FROM moved WHERE job = ? GROUP BY post", job_id)
        return {(r["place"], r["what"]): r["at_us"] for r in readings}, {r["post"]: r["at_us"] for r in moved}


def _is_measured(bay: dict[str, Any], trimmed: set[str], counts: Counts, moved: dict[str, int]) -> bool:
    posts = {bay["left"], bay["right"]}
    since = max((moved[p] for p in posts if p in moved), default=None)
    read = {w for w in BAY_WHATS if (bay["tag"], w) in counts and (since is None or counts[bay["tag"], w] >= since)}
    rises = {"base-rise"} if posts & trimmed else {"rise", "base-rise"}
    return "span" in read and bool(read & rises)
