"""A full disk, a folder that cannot be written, a damaged or newer file: a sentence says what to do, nothing kept is lost."""

import os
import sqlite3
import stat
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from measure.database import FILE_NAME
from measure.errors import StoreError
from measure.migrations import VERSION
from measure.store import Store

NOBODY = 65534
LONG_NAME = "Mona" * 250


@contextmanager
def without_rights(folder: Path) -> Iterator[None]:
    """The folder and its files can be read, not written. An administrator may do so anyway, so one turns into nobody."""
    for path in (folder, *folder.iterdir()):
        path.chmod(path.stat().st_mode & ~(stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH) | stat.S_IRGRP | stat.S_IROTH)
    folder.chmod(0o555)
    administrator = os.geteuid() == 0
    if administrator:
        os.seteuid(NOBODY)
    try:
        yield
    finally:
        if administrator:
            os.seteuid(0)
        folder.chmod(0o755)


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that others may enter, which those of pytest are not."""
    with tempfile.TemporaryDirectory() as name:
        Path(name).chmod(0o755)
        yield Path(name)


def test_a_full_disk_is_said_and_what_was_kept_is_there(store, deck_file, span):
    job = store.add_job(deck_file)
    kept = [store.add_reading(job, span("A4", "41 1/2 in"))]
    pages = store.rows("PRAGMA page_count")[0]["page_count"]
    store.rows(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(StoreError, match="no room left.*Make room"):
        for at in range(60):
            kept.append(store.add_reading(job, span("A4", "41 1/2 in", by=LONG_NAME, at=at)))
    assert store.document(job)["readings"] == [*deck_file["readings"], *kept]
    store.rows(f"PRAGMA max_page_count = {10 * pages}")
    kept.append(store.add_reading(job, span("A4", "41 5/8 in")))
    assert store.document(job)["readings"] == [*deck_file["readings"], *kept]
    assert store.troubles() == []


def test_a_merge_that_finds_no_room_takes_nothing(store, deck_file, span):
    job = store.add_job(deck_file)
    larger = {**deck_file, "readings": [*deck_file["readings"], *(span("A4", f"{n} mm", by=LONG_NAME) for n in range(1, 99))]}
    pages = store.rows("PRAGMA page_count")[0]["page_count"]
    store.rows(f"PRAGMA max_page_count = {pages + 5}")
    with pytest.raises(StoreError, match="no room"):
        store.merge(job, larger)
    assert store.document(job) == deck_file


def test_a_folder_that_cannot_be_written_is_said(open_folder):
    with without_rights(open_folder), pytest.raises(StoreError, match="cannot be (opened|written).*another folder"):
        Store.open(open_folder)
    assert list(open_folder.iterdir()) == []


def test_a_store_that_cannot_be_written_is_said_and_can_still_be_read(open_folder, deck_file):
    with Store.open(open_folder) as store:
        job = store.add_job(deck_file)
    with without_rights(open_folder):
        with pytest.raises(StoreError, match="cannot be (opened|written).*another folder"):
            Store.open(open_folder).add_job(deck_file)
        with Store.open(open_folder, read_only=True) as store:
            assert store.document(job) == deck_file


def test_a_store_opened_for_reading_is_never_written(store, deck_file):
    job = store.add_job(deck_file)
    with Store.open(store.path, read_only=True) as reader:
        assert reader.document(job) == deck_file
        with pytest.raises(StoreError, match="cannot be written"):
            reader.remove_job(job)
    assert [c.id for c in store.jobs()] == [job]


def test_a_folder_that_is_not_there_is_said(tmp_path):
    with pytest.raises(StoreError, match="Check that its folder is there"):
        Store.open(tmp_path / "none" / FILE_NAME)
    with pytest.raises(StoreError, match="no store at"):
        Store.open(tmp_path, read_only=True)


@pytest.mark.parametrize("content", [b"a shopping list\n" * 100, b"\x00" * 5000, b"SQLite format 3\x00" + b"\xff" * 5000])
@pytest.mark.parametrize("read_only", [False, True])
def test_a_file_that_is_no_store_is_left_as_it_is(tmp_path, content, read_only):
    file = tmp_path / FILE_NAME
    file.write_bytes(content)
    with pytest.raises(StoreError, match="left as it is"):
        Store.open(tmp_path, read_only=read_only)
    assert file.read_bytes() == content


def test_the_store_of_another_program_is_left_as_it_is(tmp_path):
    file = tmp_path / FILE_NAME
    with sqlite3.connect(file) as other:
        other.execute("CREATE TABLE job (id)")
    other.close()
    content = file.read_bytes()
    with pytest.raises(StoreError, match="not a file of Spanbook"):
        Store.open(tmp_path)
    assert file.read_bytes() == content


def test_a_file_of_a_newer_spanbook_is_left_as_it_is(tmp_path):
    Store.open(tmp_path).close()
    file = tmp_path / FILE_NAME
    with sqlite3.connect(file) as newer:
        newer.execute(f"PRAGMA user_version = {VERSION + 1}")
    newer.close()
    content = file.read_bytes()
    with pytest.raises(StoreError, match="newer Spanbook.*Install the newest"):
        Store.open(tmp_path)
    assert file.read_bytes() == content


def test_a_file_damaged_in_its_middle_is_said_and_left_as_it_is(tmp_path, deck_file, span):
    with Store.open(tmp_path) as store:
        job = store.add_job(deck_file)
        for at in range(60):
            store.add_reading(job, span("A4", "41 1/2 in", by=LONG_NAME, at=at))
        page = store.rows("SELECT rootpage FROM sqlite_schema WHERE name = 'reading'")[0]["rootpage"]
        size = store.rows("PRAGMA page_size")[0]["page_size"]
    file = tmp_path / FILE_NAME
    content = bytearray(file.read_bytes())
    content[(page - 1) * size : page * size] = b"\xa5" * size
    file.write_bytes(content)
    with Store.open(tmp_path) as store:
        with pytest.raises(StoreError, match="damaged.*job files"):
            store.document(job)
        assert store.troubles() != []
        assert store.rows("SELECT name FROM job") == [{"name": "Heron landing"}]
    assert file.read_bytes() == content


def test_a_store_that_another_program_writes_to_is_said(store, deck_file, span):
    job = store.add_job(deck_file)
    store.rows("PRAGMA busy_timeout = 0")
    other = sqlite3.connect(store.path, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    with pytest.raises(StoreError, match="Another program is writing"):
        store.add_reading(job, span("A4", "41 1/2 in"))
    assert store.document(job) == deck_file
    other.execute("ROLLBACK")
    other.close()
    store.add_reading(job, span("A4", "41 1/2 in"))


def test_a_mistake_in_our_own_sql_is_no_trouble_of_the_file(store):
    with pytest.raises(sqlite3.OperationalError, match="no such table"):
        store.rows("SELECT * FROM nowhere")
