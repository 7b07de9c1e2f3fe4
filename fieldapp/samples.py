"""The sample jobs that come with the app: copies of the project's own, so that there is something to try at once.

Each file's name is the sample's name for the app. `tests/fieldapp/test_samples.py` keeps them identical to sample_jobs/.
"""

from __future__ import annotations

from dataclasses import dataclass
from importlib.resources import files

FOLDER = "samples"


@dataclass(frozen=True, slots=True)
class Sample:
    """name: of the file, without its ending. data: the job file."""

    name: str
    data: bytes


def samples() -> list[Sample]:
    """All samples, by name."""
    found = (f for f in files("fieldapp").joinpath(FOLDER).iterdir() if f.name.endswith(".json"))
    return [Sample(f.name.removesuffix(".json"), f.read_bytes()) for f in sorted(found, key=lambda f: f.name)]


def sample(name: str) -> Sample:
    """One sample; KeyError when there is none of that name."""
    return {s.name: s for s in samples()}[name]
