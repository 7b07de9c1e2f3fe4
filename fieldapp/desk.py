"""The desk: every job of this store as it stands now, and word to every open page when something changes.

One desk for one store, on one loop. Everything that writes does so in this order: store, `flush`, the live job, then word to
the others; when it returns, the thing is kept.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

from fieldapp.hosts.ports import Clock
from fieldapp.live_job import LiveJob
from fieldapp.words import say
from measure.documents import JobDocument, read_job
from measure.errors import StoreError
from measure.job_shelf import JobCard
from measure.store import Store

EVERYTHING = frozenset({"everything"})
"""The topic of a page that was away."""
Tell = Callable[[frozenset[str]], None]
_STEP = timedelta(milliseconds=1)


class Desk:
    """Topics of a change: `jobs`, `settings`, `presets`, `job 7`, `orders 7`, and `bay 7 A3` for each bay that may look different."""

    def __init__(self, store: Store, clock: Clock) -> None:
        self.store, self._clock = store, clock
        self._live: dict[str, LiveJob] = {}
        self._listeners: list[Tell] = []

    # ---- word to the pages ---------------------------------------------------------------------------------------------
    def subscribe(self, tell: Tell) -> Callable[[], None]:
        """Call `tell` with the topics of every change, until the function that this returns is called."""
        self._listeners.append(tell)

        def leave() -> None:
            if tell in self._listeners:
                self._listeners.remove(tell)

        return leave

    def changed(self, *topics: str) -> None:
        """Tell every page."""
        for tell in tuple(self._listeners):
            tell(frozenset(topics))

    # ---- jobs ----------------------------------------------------------------------------------------------------------
    def jobs(self) -> list[JobCard]:
        """All jobs, the one worked on last first."""
        return self.store.jobs()

    def job(self, id: str) -> LiveJob:
        """A job as it stands now. Raises StoreError where there is none."""
        if id not in self._live:
            if id not in {row.id for row in self.store.jobs()}:
                raise StoreError(say("app.no_such_job"))
            self._live[id] = LiveJob(id, self.store.document(id).job())
        return self._live[id]

    def is_open(self, id: str) -> bool:
        """Whether the job was looked into already: then it costs nothing to show."""
        return id in self._live

    def job_file(self, id: str) -> bytes:
        """The job as a file, with all that was ever said."""
        return self.store.document(id).dump()

    async def take_file(self, data: bytes) -> str:
        """A job file: a new job, or more of one that is here. Raises DocumentError with every problem; the job's id."""
        return await self.take_document(read_job(data))

    async def take_document(self, document: JobDocument) -> str:
        """The same for a job that is read already."""
        id = self.store.add_job(document)
        return await self._kept(id, "jobs", f"job {id}", anew=True)

    async def keep_plan(self, id: str, document: JobDocument, by: str) -> str:
        """A changed plan, system, glass or head."""
        self.store.save_plan(id, document, by=by, at=self._moment(id))
        return await self._kept(id, "jobs", f"job {id}", anew=True)

    async def _kept(self, id: str, *topics: str, anew: bool = False) -> str:
        await self.store.flush()
        if anew and id in self._live:
            self._live[id].replan(self.store.document(id).job())
        self.changed(*topics)
        return id

    # ---- settings, half-typed figures ------------------------------------------------------------------------------------
    def setting(self, key: str, default: Any = None) -> Any:
        """A setting of the book or of a device, as JSON holds it."""
        return self.store.setting(key, default)

    async def keep_setting(self, key: str, value: Any, tell: bool = True) -> None:
        """value: anything that JSON holds. tell: False for what concerns nobody else."""
        self.store.set_setting(key, value)
        await self.store.flush()
        if tell:
            self.changed("settings")

    def drafts(self, device: str) -> dict[str, str]:
        """All that is half-typed on a device, by its place."""
        return self.store.drafts(device)

    async def keep_draft(self, device: str, place: str, text: str) -> None:
        """Keep what is half-typed; empty forgets it."""
        self.store.set_draft(device, place, text or None)
        await self.store.flush()
