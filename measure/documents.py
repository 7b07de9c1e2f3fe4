"""Job files in and out: read whole or refused whole, with every problem and its place.

A `JobDocument` keeps what was typed letter for letter, beside the job as a value. Readings, answers and moved posts can be
judged one at a time by the same rules, as they are kept.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from measure import said_words
from measure.document_reader import Tree, job_of, raise_all, shaped
from measure.figures import Figures, Problem
from measure.job import Job, Units
from measure.job_file import Part
from measure.places import PlaceKind, Places
from measure.reading import Answer, Moved, Reading
from measure.strict_json import odd_places, scan, write


@dataclass(frozen=True, slots=True)
class JobDocument:
    """A job file that was read."""

    _words: Tree
    _job: Job

    def job(self) -> Job:
        """The job as a value."""
        return self._job

    def as_dict(self) -> Tree:
        """The job as it was typed, for export; whole numbers are ints, others Decimals. A copy of its own."""
        return copied(self._words)


def read_job(data: bytes | str) -> JobDocument:
    """A job file. Raises DocumentError with every problem."""
    scanned = scan(data)
    job = job_of(scanned.tree, scanned.odd)
    return JobDocument(scanned.tree, job)  # type: ignore[arg-type]  # anything but a dict was refused


def read_words(words: Mapping[str, Any]) -> JobDocument:
    """A job that is a dict already, as `as_dict` gives it; figures are text, ints or Decimals. Raises DocumentError."""
    tree = copied(words)
    return JobDocument(tree, job_of(tree, odd_places(tree)))


def dump(words: Mapping[str, Any]) -> bytes:
    """A job file from its dict: an entry a line, numbers by their digits."""
    parts = []
    for key, value in words.items():
        if isinstance(value, (list, tuple)) and value:
            told = "[\n" + ",\n".join([f"    {write(entry)}" for entry in value]) + "\n  ]"
        else:
            told = write(value)
        parts.append(f"  {write(key)}: {told}")
    return ("{\n" + ",\n".join(parts) + "\n}\n").encode("utf-8")


def copied(words: Mapping[str, Any]) -> Tree:
    """A copy of a tree whose dicts and lists are its own."""
    return {key: _copied(value) for key, value in words.items()}


def _copied(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _copied(inner) for key, inner in value.items()}
    return [_copied(inner) for inner in value] if isinstance(value, (list, tuple)) else value


def read_reading(words: Mapping[str, Any], units: Units, places: Places | None = None) -> Reading:
    """One reading alone. places: those of its job; left out, its place and ids are not judged. Raises DocumentError.

    Once it is kept, `places.take_id` it.
    """
    tree, found, figures = _alone(words, "reading", units)
    made = said_words.reading(tree, (), figures)
    found += figures.problems
    if places is not None:
        if trouble := places.trouble(made):
            found.append(((trouble[0],), trouble[1]))
        found += _told("id", places.id_trouble(made))
        found += _told("replaces", places.replaces_trouble(made))
    raise_all(found, tree)
    return made


def read_moved(words: Mapping[str, Any], places: Places | None = None) -> Moved:
    """One moved post alone. Raises DocumentError."""
    tree, found, figures = _alone(words, "moved")
    made = said_words.moved(tree, (), figures)
    found += figures.problems + _unknown(tree, places, "post")
    raise_all(found, tree)
    return made


def read_answer(words: Mapping[str, Any], places: Places | None = None) -> Answer:
    """One written answer alone. Raises DocumentError."""
    tree, found, figures = _alone(words, "answer")
    made = said_words.answer(tree, (), figures)
    found += figures.problems + _unknown(tree, places, "bay", "run")
    raise_all(found, tree)
    return made


def check_note(words: Mapping[str, Any], places: Places | None = None) -> None:
    """Judges one note alone; it stays what was typed. Raises DocumentError."""
    tree, found, figures = _alone(words, "note")
    said_words.note(tree, (), figures)
    found += figures.problems + _unknown(tree, places, "bay")
    raise_all(found, tree)


def _alone(words: Mapping[str, Any], part: Part, units: Units | None = None) -> tuple[Tree, list[Problem], Figures]:
    tree = copied(words)
    return *shaped(tree, part, odd_places(tree)), Figures(units)


def _unknown(tree: Tree, places: Places | None, *kinds: PlaceKind) -> list[Problem]:
    if places is None:
        return []
    return [problem for kind in kinds for problem in _told(kind, places.unknown(kind, tree.get(kind, "")))]


def _told(key: str, sentence: str | None) -> list[Problem]:
    return [] if sentence is None else [((key,), sentence)]
