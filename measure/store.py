"""The store: every job, order and half-typed figure of one device, in one SQLite file. Nothing else in `measure` knows SQLite.

    with Store.open(folder) as store:
        job = store.add_job(document)
        store.add_reading(job, {"bay": "A1", "what": "span", "value": "41 11/16 in", "by": "M", "at": "2026-05-02T09:31:00Z"})

A method that writes is one action: when it returns, what it wrote is on the disk, whole. `action()` makes one of several.
What was said is only ever added to. Every method raises StoreError, with a sentence that says what to do, when the file cannot be
used; what was kept before is then still there.
"""

from __future__ import annotations

from pathlib import Path
from types import TracebackType
from typing import Self

from measure.database import Clock, DeviceClock, Journal, SetAside, open_file
from measure.desk_rows import DeskRows
from measure.errors import StoreError
from measure.job import Job
from measure.job_rows import JobRows
from measure.order_rows import OrderRows


class Store(JobRows, OrderRows, DeskRows):
    """Open it with `Store.open`; use it from one thread."""

    @classmethod
    def open(
        cls,
        path: str | Path,
        *,
        journal: Journal = "wal",
        clock: Clock | None = None,
        read_only: bool = False,
        contents: bytes | None = None,
        set_aside: SetAside | None = None,
    ) -> Self:
        """path: the file, its folder, or `:memory:`. journal: `delete` in a browser. Older files are brought up to date.

        contents: the bytes of a store that lives in memory (`contents()` gives them). set_aside: called with the bytes and the
        version of an older store before it is changed; left out, a copy is put beside the file.
        """
        db, file = open_file(path, journal, read_only=read_only, contents=contents, set_aside=set_aside)
        return cls(db, file, clock or DeviceClock())

    @classmethod
    def job_named(cls, folder: str | Path, name: str) -> Job:
        """A job of a store, by its name or id, without writing there. Raises StoreError when it is not there."""
        with cls.open(folder, read_only=True) as store:
            job_id = store.job_by_name(name)
            if job_id is None:
                known = ", ".join(f"“{card.name}”" for card in store.jobs()) or "none"
                raise StoreError(f"No job in {store.path} is named “{name}”. Jobs there: {known}.")
            return store.job(job_id)

    async def flush(self) -> None:
        """Wait until everything is safe. Here it is so already; a host that keeps the bytes elsewhere does more."""

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self.close()
