"""What went wrong with the store's file, in a sentence that says what to do. Nothing that was kept is touched by any of these."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from measure.errors import StoreError

FULL = "There is no room left on this device, so nothing more can be kept. What was kept is safe. Make room, then try again."
READ_ONLY = "{file} cannot be written. What was kept is safe. Allow writing to its folder, or work in another folder."
NO_FILE = "{file} cannot be opened. Check that its folder is there and may be read and written, or work in another folder."
DAMAGED = (
    "{file} is damaged and was left as it is. Put it aside under another name, then take in the newest job files "
    "that were copied out; keep the damaged file, most of it can often be read."
)
FOREIGN = (
    "{file} is not a file of Spanbook, or it is damaged at its beginning. It was left as it is. Name another folder, "
    "or put the file aside and take in the newest job files that were copied out."
)
NEWER = "{file} was written by a newer Spanbook and was left as it is. Install the newest Spanbook, then open it again."
OLDER = "{file} was written by an older Spanbook. Open it once in the app, which brings it up to date, then try again."
BUSY = "Another program is writing to {file} just now, so this was not kept. Close it or wait a moment, then try again."
MISSING = "There is no store at {file}. Give the folder in which Spanbook keeps its data."
DISK = "This device could not read or write {file}. What was kept is safe as far as the device has it. Check its storage, then try again."
MAKE_ROOM = "Make room or allow writing to its folder, then try again."
BY_CODE = {
    sqlite3.SQLITE_FULL: FULL,
    sqlite3.SQLITE_READONLY: READ_ONLY,
    sqlite3.SQLITE_PERM: READ_ONLY,
    sqlite3.SQLITE_CANTOPEN: NO_FILE,
    sqlite3.SQLITE_CORRUPT: DAMAGED,
    sqlite3.SQLITE_NOTADB: FOREIGN,
    sqlite3.SQLITE_BUSY: BUSY,
    sqlite3.SQLITE_LOCKED: BUSY,
    sqlite3.SQLITE_IOERR: DISK,
}


def sentence(problem: sqlite3.Error, file: str) -> str | None:
    """What to say about an error of SQLite; None where it is a mistake in our own code."""
    code = getattr(problem, "sqlite_errorcode", None)
    told = None if code is None else BY_CODE.get(code & 0xFF)
    return None if told is None else told.format(file=file)


@contextmanager
def told(file: str) -> Iterator[None]:
    """Turns trouble with the file into StoreError; anything else passes."""
    try:
        yield
    except sqlite3.Error as problem:
        said = sentence(problem, file)
        if said is None:
            raise
        raise StoreError(said) from problem
