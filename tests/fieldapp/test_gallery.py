"""Every part builds in every look, without a store and without the checks."""

from __future__ import annotations

import ast
from pathlib import Path
from types import SimpleNamespace

import flet as ft
import pytest

from fieldapp.parts.gallery import boards, look_of
from fieldapp.theme import Look

PARTS = Path(__file__).parents[2] / "fieldapp" / "parts"
LOOKS = {
    "phone": Look(),
    "shade, 200 %": Look("shade", 2.0),
    "low phone": Look(width=375, height=667),
    "large keys": Look(large_keys=True),
    "left hand": Look(hand="left"),
    "desk": Look(width=1280, height=800),
}
MAY_READ = {"measure.errors", "measure.length", "measure.parse", "measure.slope", "measure.units"}


@pytest.mark.parametrize("look", LOOKS.values(), ids=LOOKS)
@pytest.mark.parametrize("path", boards())
def test_every_board_builds_in_every_look(path: str, look: Look):
    page = SimpleNamespace(navigate=lambda _: None)
    assert isinstance(boards()[path](look, page), ft.Control)


def test_an_address_says_how_it_wants_to_be_seen():
    path, look = look_of("/order?theme=shade&text=2&hand=left&large=1", 390, 844)
    assert (path, look) == ("/order", Look("shade", 2.0, "left", True, 390, 844))


def imports_of(path: Path) -> set[str]:
    tree = ast.parse(path.read_text("utf-8"))
    plain = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    return plain | {node.module for node in ast.walk(tree) if isinstance(node, ast.ImportFrom) and node.module}


@pytest.mark.parametrize("path", sorted(PARTS.glob("*.py")), ids=lambda path: path.stem)
def test_parts_know_no_store_no_check_and_no_screen(path: Path):
    names = imports_of(path)
    assert {name for name in names if name.startswith("measure")} <= MAY_READ
    assert not [
        name for name in names if name.startswith(("fieldapp.screens", "fieldapp.hosts", "fieldapp.desk", "fieldapp.words"))
    ]
