"""Runs inside the phone's Python under node: pytest on what is given, leaving out, loudly, what this Python cannot have.

A file of tests is left out when it imports a package that has no wheel for this platform, or starts processes or threads, which no
browser has. Its name and the reason are printed. Everything else runs as everywhere, warnings as errors.
"""

import ast
import asyncio
import importlib.util
import os
import pathlib
import platform
import sqlite3
import sys

PROJECT = pathlib.Path("/project")
OPTIONS = ["-p", "no:cacheprovider", "-p", "no:faulthandler", "--capture=sys"]
NO_BROWSER_HAS = {"subprocess": "other processes", "multiprocessing": "other processes", "threading": "threads"}

NO_RIGHTS = "it takes rights away from a folder, and a browser has neither users nor rights"
SINGLE = {
    "tests/measure/store/test_trouble.py::test_a_folder_that_cannot_be_written_is_said": NO_RIGHTS,
    "tests/measure/store/test_trouble.py::test_a_store_that_cannot_be_written_is_said_and_can_still_be_read": NO_RIGHTS,
}

sys.dont_write_bytecode = True
sys.path[:0] = ["/wheels", str(PROJECT)]
os.chdir(PROJECT)

import pytest  # noqa: E402  it lies in /wheels


def imported(path):
    for node in ast.walk(ast.parse(path.read_bytes())):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0 and node.module:
            yield node.module


def in_the_way(path):
    """Why a file of tests cannot run here; empty when it can."""
    for name in imported(path):
        top = name.split(".")[0]
        if top in NO_BROWSER_HAS:
            return f"it needs {NO_BROWSER_HAS[top]} ({top}), which no browser has"
        if top == "tests" and (helper := (PROJECT / name.replace(".", "/")).with_suffix(".py")).is_file():
            if why := in_the_way(helper):
                return f"{helper.name}: {why}"
        elif top != "tests" and importlib.util.find_spec(top) is None:
            return f"it needs {top}, which has no wheel for this platform here"
    return ""


def run(coroutine):
    """asyncio.run for coroutines that wait for nothing: this loop cannot be entered from inside it."""
    try:
        coroutine.send(None)
    except StopIteration as end:
        return end.value
    coroutine.close()
    raise RuntimeError("this test waits for something; leave it out here, with the reason")


class LeftOut:
    def __init__(self):
        self.files = {}

    def pytest_collection_modifyitems(self, config, items):
        out = [item for item in items if item.nodeid in SINGLE]
        self.files |= {item.nodeid: SINGLE[item.nodeid] for item in out}
        items[:] = [item for item in items if item not in out]
        config.hook.pytest_deselected(items=out)

    def pytest_ignore_collect(self, collection_path):
        if collection_path.suffix == ".py" and collection_path.name.startswith("test_") and (why := in_the_way(collection_path)):
            self.files[str(collection_path.relative_to(PROJECT))] = why
            return True
        return None

    def pytest_terminal_summary(self, terminalreporter):
        for name, why in sorted(self.files.items()):
            terminalreporter.write_line(f"LEFT OUT {name}: {why}")


print(f"Python {platform.python_version()} on {sys.platform}, SQLite {sqlite3.sqlite_version}")
asyncio.run = run
left_out = LeftOut()
int(pytest.main([*OPTIONS, *given], plugins=[left_out]))  # noqa: F821  `given` comes from pyodide_pytest.mjs
