"""What can be set on a device and in the book, and the copy of every job. Pure."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from fieldapp.words import day, say

ROLES = ("tape", "scribe", "office")
LIGHTS = ("sun", "shade")
LETTERS = (1.0, 1.5, 2.0)
HANDS = ("left", "right")
KEYS = (False, True)
OTHER_UNIT = (True, False)
LONGEST_NAME = 40


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody of the crew, as the name will stand on the order."""

    name: str
    role: str = "tape"

    @property
    def letter(self) -> str:
        return self.name[:1].upper()

    def as_dict(self) -> dict[str, str]:
        return {"name": self.name, "role": self.role}


def crew_of(kept: Iterable[dict[str, Any]]) -> list[Person]:
    """The crew as it was kept in the book."""
    return [Person(str(p["name"]), p["role"] if p.get("role") in ROLES else ROLES[0]) for p in kept]


def under(person: Person, here: str) -> str:
    """What stands below a name: the role, and whether this device is theirs."""
    role = say(f"settings.role_{person.role}")
    return say("settings.role_here", role=role) if same_name(person.name, here) else role


def same_name(one: str, other: str) -> bool:
    """Names are the same whatever their capitals and spaces, as the checks see it."""
    return " ".join(one.split()).casefold() == " ".join(other.split()).casefold()


def refused_name(name: str, crew: Sequence[Person], but: str = "") -> str:
    """Why a name cannot be taken; empty when it can. but: the name that it takes the place of."""
    plain = " ".join(name.split())
    if not plain:
        return say("settings.name_needed")
    if len(plain) > LONGEST_NAME:
        return say("settings.name_long", most=LONGEST_NAME)
    if any(same_name(plain, p.name) and not same_name(plain, but) for p in crew):
        return say("settings.name_taken", name=plain)
    return ""


def changed(crew: Sequence[Person], before: str, after: Person | None) -> list[Person]:
    """The crew with one name changed, added (before empty) or taken off (after None)."""
    if after is None:
        return [p for p in crew if not same_name(p.name, before)]
    if not before:
        return [*crew, after]
    return [after if same_name(p.name, before) else p for p in crew]


def copy_name(when: datetime) -> str:
    """The file name of a copy of every job."""
    return f"spanbook-{when:%Y-%m-%d}.zip"


def copied(times: Sequence[str]) -> str:
    """The day up to which every job was copied out: that of the oldest copy; `never` where a job has none. times: RFC 3339 or empty."""
    return day(datetime.fromisoformat(min(times))) if times and all(times) else say("settings.never")


def copy_of_all(jobs: Iterable[tuple[str, bytes]]) -> bytes:
    """Job files by the names of their jobs, in one zip; names that would be one file get a number."""
    packed, taken = io.BytesIO(), set[str]()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in jobs:
            archive.writestr(_free(file_stem(name), taken) + ".json", data)
    return packed.getvalue()


def file_stem(name: str) -> str:
    """A job's name as the stem of a file name that every system takes; nothing of it is ever read as a path."""
    return re.sub(r"[^A-Za-z0-9._-]+", "-", name).strip(".-")[:60] or "job"


def _free(stem: str, taken: set[str]) -> str:
    found, number = stem, 1
    while found.casefold() in taken:
        number += 1
        found = f"{stem}-{number}"
    taken.add(found.casefold())
    return found
