"""The tests of `measure` and of the screens' models on the Python that phones run (3.14, on WebAssembly), under node."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

from fieldapp.hosts.pack_client import python_of, web_folder
from fieldapp.hosts.pack_wheels import LIST, fetched, unpack

HERE = Path(__file__).parent
PROJECT = HERE.parents[1]
MODELS = sorted(
    path.relative_to(PROJECT).as_posix()
    for path in (PROJECT / "tests/fieldapp").glob("test_*.py")
    if re.search(r"_model|taken|typing_state|walk_order|words|route", path.stem)
)


@pytest.fixture(scope="session")
def wheels(tmp_path_factory):
    """All packages of the phone, and what tests need besides, unpacked."""
    folder = tmp_path_factory.mktemp("wheels")
    for source in (LIST, HERE / "wheels-test.txt"):
        for _, path in fetched(source, *python_of(web_folder()), print):
            unpack(path, folder)
    return folder


@pytest.mark.parametrize("tests", [["tests/measure"], MODELS], ids=["measure", "models"])
def test_they_pass_on_the_phones_own_python(tests, wheels):
    node = shutil.which("node")
    assert node, "node is needed for the phone's Python: install it (apt install nodejs)"
    command = [node, HERE / "pyodide_pytest.mjs", web_folder() / "pyodide/pyodide.mjs", PROJECT, wheels, *tests]
    ended = subprocess.run(command, capture_output=True, text=True)
    print(ended.stdout[-6000:], ended.stderr[-2000:])
    assert ended.returncode == 0
    assert ended.stdout.startswith("Python 3.14.") and re.search(r"\b[1-9]\d* passed", ended.stdout)
