"""Issued orders are numbered and frozen; a change is a further revision."""

import sqlite3

import pytest

from measure.errors import StoreError
from measure.order_rows import OrderNumber, files_hash

FILES = {"order.csv": b"panel,qty\r\nA1,1\r\n", "order.html": "<p>½</p>".encode(), "empty.txt": b""}
AT = "2026-05-02T12:00:00Z"


def test_orders_are_numbered_through_the_store_and_changes_within_an_order(store, deck_file):
    one, other = store.add_job(deck_file), store.add_job(deck_file)
    numbers = [
        store.issue_order(one, FILES, "Mona", AT),
        store.issue_order(other, FILES, "Mona", AT),
        store.issue_order(one, FILES, "Kit", AT, change_of=1),
        store.issue_order(one, FILES, "Kit", AT),
    ]
    assert [(o.order_no, o.revision) for o in numbers] == [(1, 1), (2, 1), (1, 2), (3, 1)]
    assert [(o.order_no, o.revision) for o in store.orders(one)] == [(1, 1), (1, 2), (3, 1)]
    assert store.next_order() == OrderNumber(4, 1)
    assert store.next_order(change_of=1) == OrderNumber(1, 3)


def test_an_order_keeps_its_files_panels_and_who_issued_it(store, deck_file):
    job = store.add_job(deck_file)
    panels = [{"panel": "A1", "width_nm": 1076325000}, {"panel": "A2", "width_nm": 1076325000}]
    issued = store.issue_order(job, FILES, "Mona", AT, "abc", panels)
    assert store.orders(job) == [issued]
    assert (issued.by, issued.at, issued.content_hash, list(issued.panels)) == ("Mona", AT, "abc", panels)
    assert store.order_files(1, 1) == FILES
    assert list(store.order_files(1, 1)) == list(FILES)


def test_files_can_be_made_with_the_number_they_get(store, deck_file):
    job = store.add_job(deck_file)
    store.issue_order(job, lambda n: {"order.csv": f"{n.order_no}/{n.revision}".encode()}, "Mona", AT)
    store.issue_order(job, lambda n: {"order.csv": f"{n.order_no}/{n.revision}".encode()}, "Mona", AT, change_of=1)
    assert store.order_files(1, 2) == {"order.csv": b"1/2"}


def test_an_order_whose_files_cannot_be_made_takes_no_number(store, deck_file):
    job = store.add_job(deck_file)
    with pytest.raises(ZeroDivisionError):
        store.issue_order(job, lambda n: {"order.csv": bytes(1 // 0)}, "Mona", AT)
    with pytest.raises(StoreError, match="without files"):
        store.issue_order(job, {}, "Mona", AT)
    assert store.orders(job) == []
    assert store.issue_order(job, FILES, "Mona", AT).order_no == 1


def test_the_content_hash_hangs_on_names_and_bytes_alone(store, deck_file):
    job = store.add_job(deck_file)
    assert store.issue_order(job, FILES, "Mona", AT).content_hash == files_hash(dict(reversed(FILES.items())))
    assert len({files_hash(f) for f in (FILES, {**FILES, "empty.txt": b"x"}, {"a": b"", "b": b""}, {"a": b""})}) == 4


def test_an_order_is_changed_by_its_own_job_only(store, deck_file):
    one, other = store.add_job(deck_file), store.add_job(deck_file)
    store.issue_order(one, FILES, "Mona", AT)
    with pytest.raises(StoreError, match="belongs to another job"):
        store.issue_order(other, FILES, "Mona", AT, change_of=1)
    with pytest.raises(StoreError, match="no order 7"):
        store.issue_order(one, FILES, "Mona", AT, change_of=7)
    with pytest.raises(StoreError, match="no order 1, revision 2"):
        store.order_files(1, 2)


@pytest.mark.parametrize("table", ["glass_order", "order_panel", "order_file"])
@pytest.mark.parametrize("sql", ["UPDATE {} SET revision = 9", "DELETE FROM {}"])
def test_an_issued_order_cannot_be_changed_even_by_sql(store, deck_file, table, sql):
    job = store.add_job(deck_file)
    store.issue_order(job, FILES, "Mona", AT, panels=[{"panel": "A1"}])
    with sqlite3.connect(store.path) as other, pytest.raises(sqlite3.IntegrityError, match="only ever added to"):
        other.execute(sql.format(table))
    other.close()
    assert store.order_files(1, 1) == FILES
