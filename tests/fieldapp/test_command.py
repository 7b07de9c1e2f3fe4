"""The command: what it prints, its exit codes, and how little it starts."""

import functools
import json
import os
import signal
import subprocess
import sys

import pytest

from fieldapp.command import COMMANDS, main
from measure.store import Store
from tests.fieldapp.deck_file import deck_file

READ = [
    {"bay": tag, "what": what, "value": value, "by": by, "at": f"2026-05-02T09:3{minute}:00Z", **more}
    for tag in ("A1", "A2", "A3", "A4", "B1")
    for what, value, by, minute, more in [
        ("span", "40 1/2 in", "M", 0, {}),
        ("rise", "0", "M", 1, {}),
        ("span", "40 1/2 in", "K", 2, {"role": "read-back"}),
    ]
]


@pytest.fixture
def job(tmp_path):
    """A job file; `readings` in it as given."""

    def write(readings=READ, **more):
        path = tmp_path / "job.json"
        path.write_text(json.dumps({**deck_file(), "readings": readings, **more}))
        return path

    return write


def spanbook(*words, **more):
    return subprocess.run([sys.executable, "-m", "fieldapp.command", *map(str, words)], capture_output=True, text=True, timeout=60, **more)


def test_check_prints_a_line_a_finding_and_counts_them(job, capsys):
    assert main(["check", str(job(READ[3:]))]) == 1
    lines = capsys.readouterr().out.splitlines()
    found = [line.split("\t")[:3] for line in lines[:-1]]
    assert ["A1", "hold", "missing"] in found
    assert "stand in the way" in lines[-1]


def test_check_is_fine_when_nothing_stands_in_the_way_and_all_shows_the_clear_ones(job, capsys):
    path = str(job())
    assert main(["check", path]) == 0
    few = capsys.readouterr().out
    assert main(["check", path, "--all"]) == 0
    assert len(capsys.readouterr().out.splitlines()) > len(few.splitlines())


def test_order_writes_its_files_or_says_what_stands_in_the_way(job, tmp_path, capsys):
    assert main(["order", str(job(READ[3:])), "-o", str(tmp_path / "no")]) == 1
    assert not (tmp_path / "no").exists() and "A1" in capsys.readouterr().err
    assert main(["order", str(job(READ[3:])), "-o", str(tmp_path / "some"), "--partial"]) == 0
    assert main(["order", str(job()), "-o", str(tmp_path / "all"), "--drawings"]) == 0
    names = {p.name for p in (tmp_path / "all").iterdir()}
    assert {"order.csv", "order.schema.json", "order-summary.csv", "order-head.csv", "order.html", "panel-A1.svg"} <= names
    assert len((tmp_path / "some" / "order.csv").read_bytes().splitlines()) == 5


def test_a_job_of_the_apps_book_is_named_by_its_folder_and_name(job, tmp_path, capsys):
    with Store.open(tmp_path) as store:
        store.add_job(deck_file())
    assert main(["check", "--db", str(tmp_path), "Boathouse deck"]) == 1
    assert "A1\thold\tmissing" in capsys.readouterr().out
    assert main(["check", "--db", str(tmp_path), "Barn"]) == 2
    assert "Jobs there: Boathouse deck." in capsys.readouterr().err


@pytest.mark.parametrize(
    "words",
    [
        ["check"],
        ["check", "missing.json"],
        ["check", "."],
        ["check", "job.json", "--db", ".", "x"],
        ["check", "--db", "no-such-folder", "x"],
        ["check", "--db", ".", "x"],
        ["order", "missing.json", "-o", "out"],
        ["check", "broken.json"],
        ["check", "junk.json"],
        ["--data", "broken.json/x", "--no-browser", "--port", "0"],
    ],
)
def test_wrong_input_is_exit_code_2_and_a_sentence(words, job, tmp_path, monkeypatch, capsys):
    job()
    (tmp_path / "broken.json").write_text('{"format": ')
    (tmp_path / "junk.json").write_bytes(os.urandom(10_000_000))
    monkeypatch.chdir(tmp_path)
    assert main(words) == 2
    said = capsys.readouterr()
    assert said.out == "" and said.err.startswith("spanbook: ") and "Traceback" not in said.err


@pytest.mark.parametrize("words", [["--port", "x"], ["--port", "70000"], ["order", "job.json"], ["--nonsense"], ["nonsense"]])
def test_wrong_use_is_exit_code_2(words, capsys):
    with pytest.raises(SystemExit) as ended:
        main(words)
    assert ended.value.code == 2 and "usage: spanbook" in capsys.readouterr().err


@pytest.mark.parametrize("words", [[], *([name] for name, *_ in COMMANDS)])
def test_every_command_explains_itself(words, capsys):
    with pytest.raises(SystemExit) as ended:
        main([*words, "--help"])
    assert ended.value.code == 0 and "Exit codes: 0 fine" in capsys.readouterr().out


def test_nobody_reading_is_no_traceback(job):
    process = subprocess.Popen(
        [sys.executable, "-u", "-m", "fieldapp.command", "check", str(job()), "--all"], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    process.stdout.close()
    assert (process.stderr.read(), process.wait(30)) == ("", 141)
    process.stderr.close()


@pytest.mark.parametrize(("number", "code"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_a_stopped_command_says_so_without_a_traceback(tmp_path, number, code):
    fifo = tmp_path / "job.json"
    os.mkfifo(fifo)
    heard = functools.partial(signal.signal, number, signal.SIG_DFL)  # tests that run in the background were told not to hear it
    command = [sys.executable, "-m", "fieldapp.command", "check", str(fifo)]
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True, preexec_fn=heard)
    with open(fifo, "wb"):  # it waits for the rest of the file now
        process.send_signal(number)
        assert process.wait(30) == code
    assert "Traceback" not in process.stderr.read()
    process.stderr.close()


@pytest.mark.parametrize("command", ["check", "order"])
def test_check_and_order_start_neither_the_app_nor_a_web_server(command, job, tmp_path):
    words = [command, str(job()), *(["-o", str(tmp_path / "out")] if command == "order" else [])]
    code = (
        "import sys; from fieldapp.command import main; code = main(sys.argv[1:]); "
        "heavy = {m.split('.')[0] for m in sys.modules} & {'flet', 'flet_web', 'fastapi', 'starlette', 'uvicorn', 'msgpack', 'pint', 'sqlite3', 'sqlite_utils', 'segno'}; "
        "print('heavy', sorted(heavy)); sys.exit(code)"
    )
    ended = subprocess.run([sys.executable, "-c", code, *words], capture_output=True, text=True, timeout=60)
    assert (ended.returncode, ended.stdout.splitlines()[-1]) == (0, "heavy []")
