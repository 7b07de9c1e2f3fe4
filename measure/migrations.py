"""The steps that bring a store from any older version to this one. A step that was released is never edited: add another.

Each step stands on its own (it imports nothing of ours, so later code cannot change what it once did), runs in one transaction
with all the others that are due, and sets `user_version` to its own number. Numbers and names are those of the functions.
SQL for SQLite 3.39.
"""

from __future__ import annotations

from sqlite_utils import Database, Migrations

APPLICATION_ID = 0x53504E42
"""`SPNB`: marks a SQLite file as ours."""
VERSION = 1
"""The number of the last step."""
migrations = Migrations("spanbook")

M001_JOBS = """
CREATE TABLE job (
    id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 64),
    name TEXT NOT NULL,
    site TEXT NOT NULL,
    units TEXT NOT NULL CHECK (units IN ('in', 'mm')),
    layout TEXT NOT NULL CHECK (json_valid(layout)),          -- the parts of the file it came from, in their order
    grown INTEGER NOT NULL CHECK (grown IN (0, 1)),           -- 1: holds more than that file
    by_time INTEGER NOT NULL CHECK (by_time IN (0, 1)),       -- 1: met another copy, lists go by time
    added_by TEXT NOT NULL,
    added_at TEXT NOT NULL,
    changed_at TEXT NOT NULL,
    opened_at TEXT,
    left_at TEXT NOT NULL DEFAULT '',                         -- the place where it was left
    changes INTEGER NOT NULL DEFAULT 0,                       -- goes up with every change
    copied_at TEXT,                                           -- when a copy last left this device
    copied_changes INTEGER NOT NULL DEFAULT 0,                -- the changes that this copy held
    binned_at TEXT
) STRICT;
CREATE TABLE plan (
    seq INTEGER PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    id TEXT NOT NULL,
    words TEXT NOT NULL CHECK (json_valid(words)),
    said_by TEXT NOT NULL,
    said_at TEXT NOT NULL,
    before TEXT NOT NULL CHECK (json_valid(before)),
    kept_at TEXT NOT NULL,
    UNIQUE (job, id)
) STRICT;
CREATE TABLE newest_plan (
    job TEXT NOT NULL,
    plan TEXT NOT NULL,
    PRIMARY KEY (job, plan),
    FOREIGN KEY (job, plan) REFERENCES plan (job, id)
) STRICT;
"""
M001_SAID = """
CREATE TABLE reading (
    seq INTEGER PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    key TEXT NOT NULL,
    own_id TEXT,
    kind TEXT NOT NULL CHECK (kind IN ('bay', 'post', 'run')),
    place TEXT NOT NULL,
    what TEXT NOT NULL,
    role TEXT NOT NULL CHECK (role IN ('first', 'second', 'read-back')),
    replaces TEXT,
    at_us INTEGER NOT NULL,                                   -- microseconds since 1970, UTC
    tie INTEGER NOT NULL CHECK (tie >= 0),
    words TEXT NOT NULL CHECK (json_valid(words)),
    kept_at TEXT NOT NULL,
    UNIQUE (job, key)
) STRICT;
CREATE INDEX reading_at ON reading (job, at_us);
CREATE INDEX reading_replaces ON reading (job, replaces) WHERE replaces IS NOT NULL;
CREATE TABLE moved (
    seq INTEGER PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    key TEXT NOT NULL,
    post TEXT NOT NULL,
    at_us INTEGER NOT NULL,
    tie INTEGER NOT NULL CHECK (tie >= 0),
    words TEXT NOT NULL CHECK (json_valid(words)),
    kept_at TEXT NOT NULL,
    UNIQUE (job, key)
) STRICT;
CREATE TABLE answer (
    seq INTEGER PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    key TEXT NOT NULL,
    kind TEXT NOT NULL CHECK (kind IN ('bay', 'run')),
    place TEXT NOT NULL,
    "check" TEXT NOT NULL,
    at_us INTEGER NOT NULL,
    tie INTEGER NOT NULL CHECK (tie >= 0),
    words TEXT NOT NULL CHECK (json_valid(words)),
    kept_at TEXT NOT NULL,
    UNIQUE (job, key)
) STRICT;
CREATE TABLE note (
    seq INTEGER PRIMARY KEY,
    job TEXT NOT NULL REFERENCES job (id),
    key TEXT NOT NULL,
    bay TEXT NOT NULL,
    at_us INTEGER NOT NULL,
    tie INTEGER NOT NULL CHECK (tie >= 0),
    words TEXT NOT NULL CHECK (json_valid(words)),
    kept_at TEXT NOT NULL,
    UNIQUE (job, key)
) STRICT;
CREATE TABLE later_tie (                                      -- another copy knew a later place on a tie
    job TEXT NOT NULL REFERENCES job (id),
    list TEXT NOT NULL CHECK (list IN ('readings', 'moved', 'answers', 'notes')),
    key TEXT NOT NULL,
    tie INTEGER NOT NULL CHECK (tie >= 0),
    PRIMARY KEY (job, list, key)
) STRICT;
"""
M001_ORDERS = """
CREATE TABLE glass_order (
    order_no INTEGER NOT NULL CHECK (order_no > 0),
    revision INTEGER NOT NULL CHECK (revision > 0),
    job TEXT NOT NULL REFERENCES job (id),
    issued_by TEXT NOT NULL,
    issued_at TEXT NOT NULL,
    content_hash TEXT NOT NULL,
    PRIMARY KEY (order_no, revision)
) STRICT;
CREATE INDEX glass_order_job ON glass_order (job);
CREATE TABLE order_panel (
    order_no INTEGER NOT NULL,
    revision INTEGER NOT NULL,
    line INTEGER NOT NULL CHECK (line > 0),
    words TEXT NOT NULL CHECK (json_valid(words)),
    PRIMARY KEY (order_no, revision, line),
    FOREIGN KEY (order_no, revision) REFERENCES glass_order (order_no, revision)
) STRICT;
CREATE TABLE order_file (
    order_no INTEGER NOT NULL,
    revision INTEGER NOT NULL,
    name TEXT NOT NULL,
    content BLOB NOT NULL,
    PRIMARY KEY (order_no, revision, name),
    FOREIGN KEY (order_no, revision) REFERENCES glass_order (order_no, revision)
) STRICT;
"""
M001_DESK = """
CREATE TABLE setting (key TEXT NOT NULL PRIMARY KEY, value TEXT NOT NULL CHECK (json_valid(value))) STRICT;
CREATE TABLE draft (scope TEXT NOT NULL, key TEXT NOT NULL, words TEXT NOT NULL, PRIMARY KEY (scope, key)) STRICT;
CREATE TABLE preset (
    kind TEXT NOT NULL,
    name TEXT NOT NULL,
    words TEXT NOT NULL CHECK (json_valid(words)),
    PRIMARY KEY (kind, name)
) STRICT;
"""
M001_KEPT = ("plan", "reading", "moved", "answer", "note", "glass_order", "order_panel", "order_file")
M001_NEVER = """
CREATE TRIGGER {table}_never_{verb} BEFORE {verb} ON {table}
BEGIN SELECT RAISE(ABORT, '{table} is only ever added to'); END;
"""


@migrations()
def m001_first(db: Database) -> None:
    """Jobs, plans, what was said, orders, and what lies on the desk."""
    db.executescript(M001_JOBS + M001_SAID + M001_ORDERS + M001_DESK)
    for table in M001_KEPT:
        for verb in ("UPDATE", "DELETE"):
            db.execute(M001_NEVER.format(table=table, verb=verb))
    db.execute(f"PRAGMA application_id = {0x53504E42}")
    db.execute("PRAGMA user_version = 1")
