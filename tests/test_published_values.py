"""Every row of published values says where it comes from."""

import csv
from pathlib import Path

import pytest

TABLES = sorted((Path(__file__).parent / "data").glob("*.csv"))


def test_there_are_tables_of_published_values():
    assert TABLES


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.stem)
def test_no_published_value_is_without_its_source(table):
    with table.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file, strict=True))
    assert rows
    assert [row for row in rows if not (row.get("source") or "").strip()] == []


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.stem)
def test_a_row_has_as_many_cells_as_its_table_has_columns(table):
    with table.open(encoding="utf-8", newline="") as file:
        head, *rows = csv.reader(file, strict=True)
    assert [row for row in rows if len(row) != len(head)] == []
