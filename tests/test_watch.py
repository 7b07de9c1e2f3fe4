"""A test that hangs in the browser fails, says where it stood, and the next one has a browser again."""

import os
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent.parent
CONFTEST = """
from tests.conftest import browser, chromium, playwright, pytest_runtest_call
from tests.watch import Watch
import os
def pytest_configure(config):
    config.pluginmanager.register(Watch({seconds}, os.dup(2), grace={grace}))
"""
HANGING = """
def test_for_ever(browser):
    browser.new_page().evaluate("() => { for (;;); }")
def test_afterwards(browser):
    assert browser.new_page().evaluate("() => 6 * 7") == 42
"""
DEAF = """
import threading
def test_for_ever():
    threading.Event().wait()
"""


def run(folder: Path, tests: str, seconds: float, grace: float) -> subprocess.CompletedProcess[str]:
    (folder / "conftest.py").write_text(CONFTEST.format(seconds=seconds, grace=grace))
    (folder / "test_it.py").write_text(tests)
    told = {**os.environ, "PYTHONPATH": str(HERE)}
    command = [sys.executable, "-m", "pytest", "-q", "-p", "no:cacheprovider", "--rootdir", str(folder), str(folder)]
    return subprocess.run(command, capture_output=True, text=True, env=told, cwd=folder, timeout=300)


def test_a_question_that_the_browser_never_answers_fails_and_the_next_test_has_a_browser(tmp_path):
    done = run(tmp_path, HANGING, seconds=20, grace=60)
    assert done.returncode == 1
    assert "1 failed, 1 passed" in done.stdout
    assert "test_for_ever takes longer than 20 s" in done.stderr
    assert "TargetClosedError" in done.stdout


def test_a_run_that_hangs_in_itself_is_given_up(tmp_path):
    done = run(tmp_path, DEAF, seconds=1, grace=1)
    assert done.returncode == 70
    assert "The run is given up." in done.stderr
