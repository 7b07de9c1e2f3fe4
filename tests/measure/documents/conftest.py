"""The job file that the contract shows, as bytes and as a tree of the test's own, and ways to read it and to hear what is wrong."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from measure import strict_json
from measure.documents import dump, read_job
from measure.errors import DocumentError

DATA = Path(__file__).parents[2] / "data" / "documents"
FUZZ = int(os.environ.get("SPANBOOK_FUZZ", "150"))
"""How many examples each fuzz test tries."""


@pytest.fixture(scope="session")
def example_bytes() -> bytes:
    """The contract's example, letter for letter."""
    return (DATA / "contract-example.json").read_bytes()


@pytest.fixture
def job(example_bytes: bytes) -> dict[str, Any]:
    """The contract's example as a tree; a test changes what it likes."""
    tree = strict_json.read(example_bytes)
    assert isinstance(tree, dict)
    return tree


@pytest.fixture
def read() -> Callable[[dict[str, Any]], Any]:
    """Reads a tree as a job file; the job."""
    return lambda tree: read_job(dump(tree)).job()


@pytest.fixture
def problems() -> Callable[[Any], dict[str, str]]:
    """What is wrong with a tree, text or bytes: sentence by place."""

    def found(what: Any) -> dict[str, str]:
        data = what if isinstance(what, (bytes, str)) else strict_json.write(what)
        with pytest.raises(DocumentError) as refused:
            read_job(data)
        told = {p.place: p.sentence for p in refused.value.problems}
        assert len(told) == len(refused.value.problems)
        return told

    return found


@pytest.fixture
def line(job: dict[str, Any]) -> dict[str, Any]:
    """Four bays in two runs that meet at P3; no readings."""
    for key in ("readings", "moved", "answers"):
        del job[key]
    job["runs"] = [{"run": "A"}, {"run": "B"}]
    job["posts"] = [
        {"id": "P1", "kind": "end"}, {"id": "P2", "kind": "line"}, {"id": "P3", "kind": "corner"}, {"id": "P4", "kind": "line"},
        {"id": "P5", "kind": "wall"},
    ]  # fmt: skip
    job["bays"] = [
        {"tag": f"{run}{i}", "run": run, "left": f"P{i}", "right": f"P{i + 1}", "spacing": "44 in"} for run, i in ("A1", "A2", "B3", "B4") for i in [int(i)]
    ]  # fmt: skip
    return job
