"""How long it takes until a reading is on the disk, beside a bare commit; and how figures of a benchmark are told."""

from __future__ import annotations

import asyncio
import sqlite3
import statistics
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TextIO

from fieldapp.desk import Desk
from fieldapp.hosts.ports import WallClock
from measure.bench_job import bench_job
from measure.documents import read_job
from measure.store import Store


def on_disk(folder: Path, times: int, out: TextIO) -> None:
    """Readings kept by the desk (read, judged, written, flushed) and rows of the same text committed bare, in turns."""

    async def work() -> tuple[list[float], list[float]]:
        with Store.open(folder / "kept") as store:
            desk = Desk(store, WallClock())
            job = store.merge(None, read_job(bench_job(40)).as_dict()).job
            desk.job(job)
            bare = _bare(folder / "bare.db")
            ours, base = [], []
            for number in range(times):
                value = f"41 {number % 7 * 2 + 1}/16 in"
                begun = time.perf_counter()
                await desk.keep_reading(job, "M", bay=f"B0-{number % 40 + 1}", what="span", value=value)
                ours.append((time.perf_counter() - begun) * 1000)
                begun = time.perf_counter()
                bare(value)
                base.append((time.perf_counter() - begun) * 1000)
            return ours, base

    ours, base = asyncio.run(work())
    out.write(f"a kept reading: {told(ours, 2)}; bare commit {told(base, 2)}; {ratio(ours, base)} × its median\n")


def _bare(path: Path) -> Callable[[str], None]:
    """A commit of one row with nothing around it: write-ahead log, synchronous FULL, as the store has it on a disk."""
    db = sqlite3.connect(path, isolation_level=None)
    db.execute("PRAGMA journal_mode = WAL")
    db.execute("PRAGMA synchronous = FULL")
    db.execute("CREATE TABLE reading (id INTEGER PRIMARY KEY, words TEXT NOT NULL) STRICT")

    def commit(value: str) -> None:
        db.execute("BEGIN IMMEDIATE")
        db.execute("INSERT INTO reading (words) VALUES (?)", (value,))
        db.execute("COMMIT")

    return commit


def resident_mb(process: int) -> float:
    """Memory that a process holds now, in MB; 0 where the system does not tell."""
    status = Path(f"/proc/{process}/status")
    rows = status.read_text().splitlines() if status.exists() else []
    return next((int(row.split()[1]) / 1024 for row in rows if row.startswith("VmRSS")), 0.0)


def told(took: Sequence[float], places: int = 0) -> str:
    """Median and 95th percentile, milliseconds."""
    rank = sorted(took)[int(0.95 * (len(took) - 1))]
    return f"{statistics.median(took):.{places}f} ms, p95 {rank:.{places}f} (n = {len(took)})"


def ratio(took: Sequence[float], base: Sequence[float]) -> str:
    return f"{statistics.median(took) / statistics.median(base):.2f}"
