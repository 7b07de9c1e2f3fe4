"""Who else is in a job, and on which bay: in a few words, and as letters beside the bays. Pure."""

from __future__ import annotations

import re

from fieldapp.company import Company
from fieldapp.words import listed, say


def on_bays(company: Company, job: str, but: object) -> str:
    """`Kit on A3 and Mara on B1`: the others in a job who are on a bay, by bay; empty where nobody is."""
    there = sorted((_as_counted(p.bay), p.name, p.bay) for p in company.of(job, but) if p.bay and p.name)
    return listed([say("share.on_bay", name=name, bay=bay) for _, name, bay in there])


def letters_on(company: Company, job: str, but: object) -> dict[str, str]:
    """The others' first letters by the tag of the bay that they are on: `{"A3": "KM"}`, in the order of the alphabet."""
    found: dict[str, list[str]] = {}
    for one in company.of(job, but):
        if one.bay and one.name:
            found.setdefault(one.bay, []).append(one.name[0].upper())
    return {bay: "".join(sorted(letters)) for bay, letters in found.items()}


def _as_counted(tag: str) -> tuple[tuple[int, str], ...]:
    """A2 before A10."""
    return tuple((int(part or 0), "") if part.isdigit() else (0, part) for part in re.split(r"(\d+)", tag))
