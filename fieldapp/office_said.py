"""What goes between a phone and an office: whether all that one side said is with the other.

Both sides make it out of a job file's content alone, so it holds whatever their clocks and their numbers of rows are.
"""

from __future__ import annotations

from collections.abc import Mapping, Set
from dataclasses import dataclass

from measure.merge import Copy, Document
from measure.said import SECTIONS, digest

PATH = "/office/job"
"""Where an office takes jobs in."""
SCHEME = "Spanbook"
"""In `Authorization`: `Spanbook 7A3K`. There it stands in no address, no history and no log."""
PROTOCOL = 1
LARGEST_JOB = 8 * 1024 * 1024
"""Bytes of one job file. A job of a thousand bays, each read five times, has about one and a half million."""
Keys = Mapping[str, Set[str]]
"""By list (`readings` …): the key of everything said in it."""


@dataclass(frozen=True, slots=True)
class Tally:
    """How many things of each list, and a digest of their keys."""

    counts: dict[str, int]
    digest: str


def keys_of(copy: Copy) -> dict[str, frozenset[str]]:
    """Everything said in a copy of a job."""
    return {name: frozenset(copy.said[name]) for name in SECTIONS}


def tally(keys: Keys) -> Tally:
    """The same for the same things, on every device."""
    return Tally({name: len(keys[name]) for name in SECTIONS}, digest({name: sorted(keys[name]) for name in SECTIONS}))


def held(sent: Keys, here: Keys) -> Tally:
    """What is here of what was sent."""
    return tally({name: sent[name] & here[name] for name in SECTIONS})


def tally_of(document: Document, job: str) -> Tally:
    """Of a job file. job: the job's id, for a file that does not say it."""
    return tally(keys_of(Copy.of(document, job)))
