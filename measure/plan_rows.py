"""The versions of a job's plan as rows: a change adds one, older ones stay."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from measure.database import Row, StoreFile
from measure.plan_version import PlanVersion, PlanWords, newest
from measure.said import from_text, to_text


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """A version of the plan as this store has it. newest: no other here stems from it."""

    version: PlanVersion
    kept_at: str
    newest: bool

    @property
    def plan(self) -> PlanWords:
        return self.version.plan


class PlanRows(StoreFile):
    """Versions by job."""

    def plan_versions(self, job_id: str) -> list[KeptPlan]:
        """Every version that this store ever had, oldest first."""
        found = self.rows(
            """SELECT p.*, n.plan IS NOT NULL AS newest FROM plan AS p
               LEFT JOIN newest_plan AS n ON n.job = p.job AND n.plan = p.id WHERE p.job = ? ORDER BY p.seq""",
            job_id,
        )
        return [KeptPlan(_version(r), r["kept_at"], bool(r["newest"])) for r in found]

    def _newest_plans(self, job_id: str) -> tuple[PlanVersion, ...]:
        """The newest versions, the shown one last."""
        found = self.rows(
            """SELECT p.* FROM newest_plan AS n
               JOIN plan AS p ON p.job = n.job AND p.id = n.plan WHERE n.job = ?""",
            job_id,
        )
        return newest(_version(r) for r in found)

    def _keep_plans(self, job_id: str, plans: Iterable[PlanVersion]) -> None:
        """These are the newest ones now, inside an action."""
        now = self.now_text()
        self.write("DELETE FROM newest_plan WHERE job = ?", job_id)
        for version in plans:
            self.write(
                """INSERT INTO plan (job, id, words, said_by, said_at, before, kept_at) VALUES (?, ?, ?, ?, ?, ?, ?)
                   ON CONFLICT (job, id) DO NOTHING""",
                job_id,
                version.id,
                to_text(version.plan),
                version.by,
                version.at,
                to_text(sorted(version.before)),
                now,
            )
            self.write("INSERT INTO newest_plan (job, plan) VALUES (?, ?)", job_id, version.id)


def _version(row: Row) -> PlanVersion:
    return PlanVersion(row["id"], from_text(row["words"]), row["said_by"], row["said_at"], frozenset(from_text(row["before"])))
