"""A store is made from blank and from every older version, and an older one is set aside before it is changed.

tests/data/store holds a store of every version as SQL, and the job that it holds as JSON. When a step was added,
`python tests/measure/store/keep_version.py` writes those of the newest version, once.
"""

import sqlite3
from pathlib import Path

import pytest
from sqlite_utils import Migrations

import measure.database
from measure import migrations, strict_json
from measure.database import FILE_NAME
from measure.errors import StoreError
from measure.store import Store

DATA = Path(__file__).parents[2] / "data" / "store"
VERSIONS = range(1, migrations.VERSION + 1)


def store_of(version: int, folder: Path) -> Path:
    """A store as that version left it."""
    file = folder / FILE_NAME
    db = sqlite3.connect(file)
    db.executescript((DATA / f"version-{version}.sql").read_text(encoding="utf-8"))
    db.close()
    return file


def schema(file: Path) -> list[tuple[str, str]]:
    db = sqlite3.connect(file)
    found = db.execute("SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name").fetchall()
    db.close()
    return found


def test_every_version_is_kept_for_this_test():
    assert sorted(f.name for f in DATA.glob("version-*")) == sorted(f"version-{v}.{e}" for v in VERSIONS for e in ("sql", "json"))


def test_a_blank_store_has_the_newest_version_and_our_mark(store):
    assert store.rows("PRAGMA user_version")[0]["user_version"] == migrations.VERSION
    assert store.rows("PRAGMA application_id")[0]["application_id"] == migrations.APPLICATION_ID
    assert len(store.rows("SELECT * FROM _sqlite_migrations")) == migrations.VERSION
    assert store.rows("PRAGMA foreign_keys")[0]["foreign_keys"] == 1
    assert store.troubles() == []


@pytest.mark.parametrize("version", VERSIONS)
def test_a_store_of_each_version_becomes_the_newest_with_all_that_it_held(version, tmp_path):
    file = store_of(version, tmp_path)
    expected = strict_json.read((DATA / f"version-{version}.json").read_bytes())
    with Store.open(tmp_path) as store:
        job = store.job_by_name("Heron landing")
        assert strict_json.write(store.document(job)) == strict_json.write(expected)
        assert store.order_files(1, 1) == {"order.csv": b"panel\r\nA1\r\n"}
        assert [o.panels for o in store.orders(job)] == [({"panel": "A1"},)]
        assert (store.draft("phone", "A4 span"), store.setting("look")) == ("41 7", {"theme": "sun"})
        assert store.presets("tape") == {"old tape": {"division": "1/16 in"}}
        assert store.troubles() == []
    blank = tmp_path / "blank.db"
    Store.open(blank).close()
    assert schema(file) == schema(blank)


def with_one_more_step(monkeypatch, step) -> None:
    more = Migrations("spanbook")
    more()(migrations.m001_first)
    more(name="m099_more")(step)
    monkeypatch.setattr(measure.database, "migrations", more)


def test_an_older_store_is_set_aside_before_it_is_changed(tmp_path, monkeypatch, deck_file):
    with Store.open(tmp_path) as store:
        job = store.add_job(deck_file)
    with_one_more_step(monkeypatch, lambda db: db.execute("DROP TABLE preset"))
    with Store.open(tmp_path) as store:
        assert store.document(job) == deck_file
        assert not store.rows("SELECT 1 FROM sqlite_schema WHERE name = 'crew'")
    aside = tmp_path / f"{FILE_NAME}.version-{migrations.VERSION}"
    monkeypatch.undo()
    with Store.open(aside) as store:
        assert (store.document(job), store.presets("system")) == (deck_file, {})


def test_a_host_may_set_an_older_store_aside_in_its_own_way(tmp_path, monkeypatch, deck_file):
    with Store.open(tmp_path, journal="delete") as store:
        job = store.add_job(deck_file)
    with_one_more_step(monkeypatch, lambda db: db.execute("DROP TABLE preset"))
    kept = []
    Store.open(tmp_path, journal="delete", set_aside=lambda data, version: kept.append((data, version))).close()
    monkeypatch.undo()
    assert [version for _, version in kept] == [migrations.VERSION]
    assert [f.name for f in tmp_path.iterdir()] == [FILE_NAME]
    with Store.open(":memory:", contents=kept[0][0]) as store:
        assert (store.document(job), store.presets("system")) == (deck_file, {})


def test_a_step_that_fails_leaves_the_store_as_it_was(tmp_path, monkeypatch, deck_file):
    with Store.open(tmp_path) as store:
        job = store.add_job(deck_file)

    def fails(db) -> None:
        db.execute("DROP TABLE preset")
        db.execute("INSERT INTO nowhere VALUES (1)")

    with_one_more_step(monkeypatch, fails)
    with pytest.raises(sqlite3.OperationalError, match="no such table"):
        Store.open(tmp_path)
    monkeypatch.undo()
    with Store.open(tmp_path) as store:
        assert (store.document(job), store.presets("system")) == (deck_file, {})


def test_an_older_store_is_not_changed_by_one_who_only_reads(tmp_path, monkeypatch):
    Store.open(tmp_path).close()
    with_one_more_step(monkeypatch, lambda db: db.execute("DROP TABLE preset"))
    with pytest.raises(StoreError, match="older Spanbook. Open it once in the app"):
        Store.open(tmp_path, read_only=True)
    monkeypatch.undo()
    with Store.open(tmp_path) as store:
        assert store.presets("system") == {}


def test_a_store_that_a_first_start_left_half_made_is_made(tmp_path):
    db = sqlite3.connect(tmp_path / FILE_NAME)
    db.execute("CREATE TABLE _sqlite_migrations (id INTEGER PRIMARY KEY, migration_set TEXT, name TEXT, applied_at TEXT)")
    db.close()
    with Store.open(tmp_path) as store:
        assert store.jobs() == []


def test_a_browsers_store_works_with_a_rollback_journal_and_without_further_files(tmp_path, deck_file):
    with Store.open(tmp_path, journal="delete") as store:
        job = store.add_job(deck_file)
        assert store.rows("PRAGMA journal_mode")[0]["journal_mode"] == "delete"
        assert store.rows("PRAGMA temp_store")[0]["temp_store"] == 2
        assert store.rows("PRAGMA synchronous")[0]["synchronous"] == 2
        assert [f.name for f in tmp_path.iterdir()] == [FILE_NAME]
        assert store.document(job) == deck_file


def test_a_store_in_memory_is_given_out_as_bytes_and_taken_in_again(deck_file):
    with Store.open(":memory:", journal="delete") as store:
        job = store.add_job(deck_file)
        store.set_draft("phone", "A4 span", "41 7")
        data = store.contents()
    with Store.open(":memory:", journal="delete", contents=data) as store:
        assert (store.document(job), store.draft("phone", "A4 span")) == (deck_file, "41 7")
