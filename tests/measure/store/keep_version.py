"""Writes a store of this version as SQL, and the job that it holds as JSON, for `test_versions.py`. Never over older ones."""

import sqlite3
import sys
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

from measure import strict_json
from measure.migrations import APPLICATION_ID, VERSION
from measure.store import Store

DATA = Path(__file__).parents[2] / "data" / "store"
AT = "2026-05-02T10:00:00Z"


class StoodClock:
    def now(self) -> datetime:
        return datetime(2026, 5, 2, 12, 0, tzinfo=UTC)


def fill(store: Store) -> str:
    """Something in every table."""
    job = store.add_job(strict_json.read((DATA / "deck.json").read_bytes()))  # type: ignore[arg-type]
    store.set_setting("name of this store", "0123abcd")
    store.set_setting("look", {"theme": "sun"})
    reading = {"bay": "A4", "what": "span", "value": "41 1/2 in", "by": "Kit", "at": AT, "id": "0123abcd-0123456789abcdef"}
    store.add_reading(job, reading)
    store.add_note(job, "A2", "downpipe in the way", "A2-1.jpg", "Kit", AT)
    plan = store.document(job)
    plan["glass"]["height"] = "40 in"
    store.save_plan(job, plan, "Mona", AT)
    other = store.document(job)
    other["tape"] = {"division": "1/32 in"}
    del other["history"]
    store.merge(job, other)
    store.issue_order(job, {"order.csv": b"panel\r\nA1\r\n"}, "Mona", AT, panels=[{"panel": "A1"}])
    store.set_draft("phone", "A4 span", "41 7")
    store.save_preset("tape", "old tape", {"division": "1/16 in"})
    store.mark_opened(job, "bay A4")
    store.mark_copy(job)
    return job


def main() -> None:
    sql, job_file = DATA / f"version-{VERSION}.sql", DATA / f"version-{VERSION}.json"
    if sql.exists():
        sys.exit(f"{sql.name} is there already: a version that was kept is never written again.")
    with TemporaryDirectory() as folder, Store.open(Path(folder), clock=StoodClock()) as store:
        job_file.write_text(strict_json.write(store.document(fill(store))) + "\n", encoding="utf-8")
        db = sqlite3.connect(store.path)
        head = [f"PRAGMA application_id = {APPLICATION_ID};", f"PRAGMA user_version = {VERSION};"]
        sql.write_text("\n".join([*head, *db.iterdump()]) + "\n", encoding="utf-8")
        db.close()


if __name__ == "__main__":
    main()
