"""An order's files in a folder: whole or not at all, an earlier order replaced, and a sentence where it cannot be."""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from measure.drawing import MARK
from measure.errors import OrderError
from measure.order import make_order
from measure.order_files import drawing_names, order_bytes, write_order
from measure.report import evaluate

FIVE = ["order-head.csv", "order-summary.csv", "order.csv", "order.html", "order.schema.json"]


@pytest.fixture
def order(deck):
    return make_order(evaluate(deck().bay("A1", "41 in", "3/8 in", "right").bay("A2", "41 1/4 in", "3/8 in", "right").job()))


def names(folder: Path):
    return sorted(path.name for path in folder.iterdir())


def contents(folder: Path):
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_the_five_files_are_written_and_the_folder_is_made(order, tmp_path):
    folder = tmp_path / "not" / "there yet"
    written = write_order(order, folder)
    assert sorted(path.name for path in written) == names(folder) == FIVE


def test_drawings_come_when_asked_for(order, tmp_path):
    write_order(order, tmp_path, drawings=True)
    assert names(tmp_path) == [*FIVE, "panel-A1.svg", "panel-A2.svg"]


def test_what_is_handed_out_is_what_is_written(order, tmp_path):
    write_order(order, tmp_path, drawings=True)
    assert contents(tmp_path) == order_bytes(order, drawings=True)


def test_an_earlier_orders_files_and_drawings_are_replaced_and_nobody_elses(order, deck, tmp_path):
    (tmp_path / "panel-mine.svg").write_text("<svg/>")
    (tmp_path / "notes.txt").write_text("ring the shop")
    (tmp_path / "panel-far.svg").symlink_to(tmp_path / "panel-A1.svg")
    write_order(order, tmp_path, drawings=True)
    assert MARK in (tmp_path / "panel-A1.svg").read_text()
    other = make_order(evaluate(deck().bay("B7", "40 in").job()))
    write_order(other, tmp_path, drawings=True)
    assert names(tmp_path) == sorted([*FIVE, "notes.txt", "panel-B7.svg", "panel-far.svg", "panel-mine.svg"])
    assert b"B7," in (tmp_path / "order.csv").read_bytes() and b"A1," not in (tmp_path / "order.csv").read_bytes()
    write_order(other, tmp_path)
    assert names(tmp_path) == sorted([*FIVE, "notes.txt", "panel-far.svg", "panel-mine.svg"])


def test_tags_that_differ_in_case_alone_get_drawings_of_their_own(deck, tmp_path):
    order = make_order(evaluate(deck().bay("a1", "41 in").bay("A1", "42 in").job()))
    assert drawing_names(order) == {"a1": "panel-a1.svg", "A1": "panel-A1~2.svg"}


def test_files_can_be_read_by_whom_the_folder_lets(order, tmp_path):
    before = os.umask(0o027)
    try:
        write_order(order, tmp_path)
    finally:
        os.umask(before)
    assert {path.stat().st_mode & 0o777 for path in tmp_path.iterdir()} == {0o640}


def test_an_order_of_no_panel_is_refused_before_a_folder_is_made(deck, tmp_path):
    empty = make_order(evaluate(deck().bay("A1", "41 in", status="ordered").job()))
    with pytest.raises(OrderError, match="No panel is left to order"):
        write_order(empty, tmp_path / "out")
    assert names(tmp_path) == []


@pytest.mark.parametrize("where", ["order.html", "order.csv"])
def test_a_folder_in_the_place_of_a_file_stops_everything(order, tmp_path, where):
    (tmp_path / where).mkdir()
    with pytest.raises(OrderError, match=f"{where} is a folder"):
        write_order(order, tmp_path)
    assert names(tmp_path) == [where]


def test_a_file_in_the_place_of_the_folder_is_said(order, tmp_path):
    (tmp_path / "out").write_text("")
    with pytest.raises(OrderError, match=r"out: that is a file, not a folder\. Name another folder with -o\.$"):
        write_order(order, tmp_path / "out")
    with pytest.raises(OrderError, match="a part of its path is a file"):
        write_order(order, tmp_path / "out" / "deeper")


SCRIPT = """
import os, resource, sys
from datetime import UTC, datetime
from pathlib import Path
sys.path.insert(0, sys.argv[3])
from conftest import Deck
from measure.errors import OrderError
from measure.order import make_order
from measure.order_files import write_order
from measure.report import evaluate

order = make_order(evaluate(Deck().bay("A1", "41 in", "3/8 in", "right").job()))
if sys.argv[2] == "full":
    resource.setrlimit(resource.RLIMIT_FSIZE, (12_000, 12_000))
elif os.geteuid() == 0:
    os.setgroups([])
    os.setgid(65534)
    os.setuid(65534)
try:
    write_order(order, Path(sys.argv[1]), drawings=True)
except OrderError as wrong:
    print(wrong)
"""


def in_another_process(folder: Path, trouble: str) -> str:
    """What a process says that may write no file above 12 000 bytes (`full`), or has no rights to the folder."""
    argv = [sys.executable, "-c", SCRIPT, str(folder), trouble, str(Path(__file__).parent)]
    done = subprocess.run(argv, capture_output=True, text=True, check=False, timeout=60)
    assert done.stderr == ""
    return done.stdout.strip()


def test_a_disk_that_fills_up_midway_leaves_the_earlier_order_as_it_was(order, tmp_path):
    write_order(order, tmp_path, drawings=True)
    before = contents(tmp_path)
    assert len(before["order.html"]) > 12_000 > len(before["order.csv"])
    said = in_another_process(tmp_path, "full")
    assert said.startswith(f"The order was not written to {tmp_path}: ") and said.endswith(".")
    assert contents(tmp_path) == before


def test_a_folder_that_may_not_be_written_is_said_and_stays_as_it_was():
    # Not in pytest's own folders: those are closed to the user that the process turns into.
    with tempfile.TemporaryDirectory() as made:
        folder = Path(made)
        folder.chmod(0o555)
        said = in_another_process(folder, "shut")
        assert said == f"The order was not written to {folder}: it may not be written. Name a folder of your own with -o."
        assert names(folder) == []
        folder.chmod(0o755)


def test_progress_hears_of_every_file(order, tmp_path):
    heard = []
    write_order(order, tmp_path, drawings=True, told=heard.append)
    assert sorted(heard) == names(tmp_path)
