"""The plan of a job while pages change it: one draft a device, whatever page of it is open."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldapp.screens import ROUTES
from fieldapp.screens.plan_draft import PlanDraft
from fieldapp.screens.plan_effects import everything_said, tags_read
from fieldapp.words import say
from measure.errors import SpanbookError
from measure.plan_version import PlanWords, plan_of

if TYPE_CHECKING:
    from fieldapp.app import App

_DRAFT = "plan"


class PlanChange:
    """draft: what is kept on this device until somebody keeps the plan by name. clashes: places that somebody else changed too.

    A version that came meanwhile is taken in at once: these changes then stand on top of it.
    """

    def __init__(self, app: App, job: str) -> None:
        self._app, self.id, self.live = app, job, app.desk.job(job)
        self._address = ROUTES["plan"].address(job=job)
        versions = {kept.version.id: kept.plan for kept in app.desk.plan_versions(job)}
        self.words = app.desk.words(job)
        now = plan_of(self.words)
        if any(conflict.kind == "plan" for conflict in app.desk.conflicts(job)):
            raise SpanbookError(say("change.settle_first"))
        base = next(id for id, plan in reversed(versions.items()) if plan == now)
        self.draft = PlanDraft.from_text(app.draft_of(_DRAFT, self._address), base, versions)
        self.clashes: list[str] = []
        if self.draft.base != base:
            self.draft, self.clashes = self.draft.onto(base, versions[base])
            self._write()

    @property
    def now(self) -> PlanWords:
        """The plan as it is to be."""
        return self.draft.now

    @property
    def read(self) -> set[str]:
        """Tags of bays that something was read of, also of those that the plan does not have."""
        return tags_read(self.words)

    @property
    def taken(self) -> set[str]:
        """Tags that a new bay may not get: of the plan as it is, and of bays that it does not have but something was said of."""
        said = everything_said(self.words)
        tags = {entry["bay"] for entries in said.values() for entry in entries.values() if entry.get("bay") is not None}
        return tags | {bay["tag"] for bay in self.draft.was["bays"]}

    @property
    def stale(self) -> bool:
        """Whether the plan was changed by somebody since this page was opened."""
        return plan_of(self._app.desk.words(self.id)) != self.draft.was

    def keep(self, words: PlanWords) -> None:
        """Take a change; it is on the disk right after this press."""
        self.draft = self.draft.to(words)
        self._write()

    def forget(self) -> None:
        """No change is left: they were kept, or dropped."""
        self.draft = PlanDraft.begin(self.draft.base, self.draft.was)
        self._write()

    def _write(self) -> None:
        self._app.keep_draft_of(_DRAFT, self.draft.text, self._address)
