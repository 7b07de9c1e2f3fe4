"""Imports run one way: fieldapp → measure, and no web server or screen below the app."""

import ast
from pathlib import Path

import pytest

import measure

ROOT = Path(__file__).parents[1]
FILES = sorted((ROOT / "measure").rglob("*.py"))
FORBIDDEN = {"fieldapp", "flet", "flet_web", "fastapi", "starlette", "uvicorn", "httpx", "socket", "threading", "subprocess"}
SERVER_ONLY = {"fastapi", "starlette", "uvicorn", "flet_web", "httpx"}


def imported(path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            yield node.module or ""


@pytest.mark.parametrize("path", FILES, ids=lambda p: str(p.relative_to(ROOT)))
def test_measure_imports_no_app_no_screen_no_server(path):
    allowed = {"subprocess"} if path.stem.startswith("bench_") else set()  # a benchmark starts its stages as processes
    assert not {name.split(".")[0] for name in imported(path)} & (FORBIDDEN - allowed)


def test_only_the_store_and_its_rows_know_sqlite():
    knowing = {p.stem for p in FILES if {n.split(".")[0] for n in imported(p)} & {"sqlite3", "sqlite_utils"}}
    assert knowing and not any(stem.startswith(("check", "order", "document", "geometry", "opening", "report")) for stem in knowing)


def test_only_hosts_import_a_web_server():
    wrong = [
        str(p.relative_to(ROOT))
        for p in (ROOT / "fieldapp").rglob("*.py")
        if {n.split(".")[0] for n in imported(p)} & SERVER_ONLY and "hosts" not in p.parts
    ]
    assert wrong == []


def test_the_map_names_what_is_there():
    for name in measure.__all__:
        assert getattr(measure, name) is not None
