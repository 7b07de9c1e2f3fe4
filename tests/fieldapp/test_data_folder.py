"""The folder where this machine keeps the jobs."""

import subprocess
import sys
from pathlib import Path

import pytest

from fieldapp.hosts.data_folder import Occupied, make_folder, usual_folder
from measure.errors import StoreError


@pytest.mark.parametrize(
    ("platform", "given", "expected"),
    [
        ("linux", {"XDG_DATA_HOME": "/x/data"}, "/x/data/spanbook"),
        ("linux", {"XDG_DATA_HOME": ""}, "/home/m/.local/share/spanbook"),
        ("darwin", {}, "/home/m/Library/Application Support/Spanbook"),
        ("win32", {"LOCALAPPDATA": "/c/local"}, "/c/local/Spanbook"),
        ("win32", {"LOCALAPPDATA": ""}, "/home/m/AppData/Local/Spanbook"),
    ],
)
def test_the_usual_folder_is_where_each_system_keeps_such_things(monkeypatch, platform, given, expected):
    monkeypatch.setattr(sys, "platform", platform)
    monkeypatch.setattr(Path, "home", lambda: Path("/home/m"))
    for name, value in given.items():
        monkeypatch.setenv(name, value)
    assert usual_folder() == Path(expected)


def test_a_missing_folder_is_made_with_all_above_it(tmp_path):
    make_folder(tmp_path / "a" / "b")
    assert (tmp_path / "a" / "b").is_dir()


def test_a_folder_that_cannot_be_made_is_a_sentence(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(StoreError, match="cannot be used: .*--data"):
        make_folder(tmp_path / "file" / "below")


def test_one_program_at_a_time_has_the_folder_and_it_is_free_again_however_that_ended(tmp_path):
    code = "import sys, time; from pathlib import Path; from fieldapp.hosts.data_folder import Occupied\nwith Occupied(Path(sys.argv[1])): print('in', flush=True); time.sleep(60)"
    other = subprocess.Popen([sys.executable, "-c", code, str(tmp_path)], stdout=subprocess.PIPE, text=True)
    assert other.stdout.readline() == "in\n"
    with pytest.raises(StoreError, match="Another Spanbook works in"):
        Occupied(tmp_path).__enter__()
    other.kill()
    other.wait(20)
    other.stdout.close()
    with Occupied(tmp_path):
        pass
    with Occupied(tmp_path):
        pass
