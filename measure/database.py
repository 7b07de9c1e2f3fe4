"""The store's file: opening it, bringing it up to date, and one transaction an action.

On a real disk it works with a write-ahead log, in a browser with a rollback journal. What an action wrote is on the disk when
it returns.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Literal, Protocol
from urllib.parse import quote

from sqlite_utils import Database

from measure.errors import StoreError
from measure.migrations import APPLICATION_ID, VERSION, migrations
from measure.store_trouble import FOREIGN, MAKE_ROOM, MISSING, NEWER, OLDER, told

FILE_NAME = "spanbook.db"
"""The store's name in its folder, the same on every host."""
Journal = Literal["wal", "delete"]
SetAside = Callable[[bytes, int], None]
"""Keeps the bytes of a store, and its version, before it is brought up to date."""
BUSY_SECONDS = 5.0
Row = dict[str, Any]


class Clock(Protocol):
    """The time, so that tests can stand it still."""

    def now(self) -> datetime:
        """Now, with a zone."""


class DeviceClock:
    """The device's own clock, in UTC."""

    def now(self) -> datetime:
        return datetime.now(UTC)


class StoreFile:
    """One open connection. Use from one thread only."""

    def __init__(self, db: Database, path: str, clock: Clock) -> None:
        self._db, self.path, self._clock = db, path, clock
        self._logs_ahead = db.execute("PRAGMA journal_mode").fetchone()[0] == "wal"

    @contextmanager
    def action(self) -> Iterator[None]:
        """One user action: kept whole or not at all. Inside another one it is part of that."""
        with told(self.path), self._db.atomic():
            yield

    @contextmanager
    def lesser_action(self) -> Iterator[None]:
        """The same for what a power cut may take: with a write-ahead log it survives the end of the process, no more.

        Whatever is kept by `action` afterwards takes it along to the disk.
        """
        if not self._logs_ahead or self._db.conn.in_transaction:
            with self.action():
                yield
            return
        self._db.execute("PRAGMA synchronous = NORMAL")
        try:
            with self.action():
                yield
        finally:
            self._db.execute("PRAGMA synchronous = FULL")

    def rows(self, sql: str, *values: object) -> list[Row]:
        """What a SELECT finds."""
        with told(self.path):
            found = self._db.execute(sql, values)
            names = [column[0] for column in found.description]
            return [dict(zip(names, row, strict=True)) for row in found]

    def row(self, sql: str, *values: object) -> Row | None:
        """The first row that a SELECT finds."""
        return next(iter(self.rows(sql, *values)), None)

    def write(self, sql: str, *values: object) -> int:
        """One writing statement inside an action; how many rows it touched."""
        return self._db.execute(sql, values).rowcount

    def write_many(self, sql: str, rows: list[tuple[object, ...]]) -> None:
        """One writing statement for many rows, inside an action."""
        self._db.conn.executemany(sql, rows)

    def now_text(self) -> str:
        """The time of this device, as it is written beside what it keeps."""
        return time_text(self._clock.now())

    def troubles(self) -> list[str]:
        """What SQLite's own checks find wrong with the file; empty when all is well."""
        try:
            found = [str(r["integrity_check"]) for r in self.rows("PRAGMA integrity_check")]
            broken = [f"{r['table']} row {r['rowid']}" for r in self.rows("PRAGMA foreign_key_check")]
        except StoreError as too_broken:
            return [str(too_broken)]
        return [f for f in found if f != "ok"] + broken

    def contents(self) -> bytes:
        """The whole store as bytes, for a host that keeps them itself."""
        with told(self.path):
            return self._db.conn.serialize()

    def close(self) -> None:
        self._db.close()


def time_text(at: str | datetime) -> str:
    """A time as RFC 3339 in UTC to the millisecond; text is taken as it is."""
    if isinstance(at, str):
        return at
    return at.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def open_file(
    path: str | Path,
    journal: Journal,
    *,
    read_only: bool = False,
    contents: bytes | None = None,
    set_aside: SetAside | None = None,
) -> tuple[Database, str]:
    """Open, make or bring up to date a store. path: the file, its folder, or `:memory:`.

    contents: the bytes of a store that lives in memory. set_aside: where a copy of an older store goes before it is changed;
    left out, a file beside it. Raises StoreError.
    """
    file = _file(path)
    with told(file):
        connection = _connection(file, read_only)
        try:
            db = Database(connection)
            if contents is not None:
                connection.deserialize(contents)
            _refuse_strange(db, file)
            if not read_only:
                _bring_up_to_date(db, file, journal, set_aside or (lambda data, version: _beside(file, data, version)))
            elif migrations.pending(db):
                raise StoreError(OLDER.format(file=file))
            # The order counts: a step may rebuild a table, which needs keys to be off.
            db.execute("PRAGMA foreign_keys = ON")
            db.execute("PRAGMA synchronous = FULL")
        except BaseException:  # whatever it was, the file is let go of before it is told
            connection.close()
            raise
    return db, file


def _file(path: str | Path) -> str:
    return os.path.join(path, FILE_NAME) if os.path.isdir(path) else os.fspath(path)


def _connection(file: str, read_only: bool) -> sqlite3.Connection:
    if not read_only:
        return sqlite3.connect(file, timeout=BUSY_SECONDS, isolation_level=None)
    if not os.path.isfile(file):
        raise StoreError(MISSING.format(file=file))
    address = f"file:{quote(os.path.abspath(file))}?mode=ro"
    connection = sqlite3.connect(address, uri=True, timeout=BUSY_SECONDS, isolation_level=None)
    try:
        connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()
    except sqlite3.OperationalError:
        # A folder that cannot be written has no room for the log's index; without a log the file alone is the whole store.
        connection.close()
        if os.path.exists(f"{file}-wal") and os.path.getsize(f"{file}-wal"):
            raise
        connection = sqlite3.connect(f"{address}&immutable=1", uri=True, isolation_level=None)
    except sqlite3.DatabaseError:
        connection.close()
        raise
    return connection


def _refuse_strange(db: Database, file: str) -> None:
    """Raises StoreError for a file of another program, or of a newer Spanbook."""
    mark = _number(db, "application_id")
    tables = {name for (name,) in db.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")}
    if mark != APPLICATION_ID and tables - {migrations.migrations_table}:
        raise StoreError(FOREIGN.format(file=file))
    if _number(db, "user_version") > VERSION:
        raise StoreError(NEWER.format(file=file))


def _bring_up_to_date(db: Database, file: str, journal: Journal, set_aside: SetAside) -> None:
    db.execute(f"PRAGMA journal_mode = {journal}").fetchone()
    if journal == "delete":
        # A browser has no further file to spill into.
        db.execute("PRAGMA temp_store = MEMORY")
    if not migrations.pending(db):
        return
    version = _number(db, "user_version")
    if version:
        set_aside(db.conn.serialize(), version)
    # All steps or none, and one program at a time.
    db.execute("BEGIN IMMEDIATE")
    with db.atomic():
        migrations.apply(db)
    db.commit()


def _number(db: Database, pragma: str) -> int:
    return int(db.execute(f"PRAGMA {pragma}").fetchone()[0])


def _beside(file: str, data: bytes, version: int) -> None:
    """Keep the bytes of an older store beside it, whole or not at all. Never over one that is there."""
    if file == ":memory:":
        return
    target = Path(f"{file}.version-{version}")
    if target.exists():
        return
    part = Path(f"{target}.part")
    try:
        with part.open("wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        part.replace(target)
    except OSError as problem:
        part.unlink(missing_ok=True)
        why = problem.strerror or "not possible"
        raise StoreError(f"No copy of {file} could be set aside: {why}. The store was left as it is. {MAKE_ROOM}") from problem
