"""The id of a reading, made where the reading was taken: the device's name and random digits, so no two devices make the same.

A reading that takes the place of one while others stand beside it says so in its id: a job file has one `replaces`, and one
tape is one reading. `aaaaaaaa-…+12ab34cd` settles the reading whose mark is `12ab34cd` too.
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable
from uuid import uuid4

DEVICE_LENGTH, OWN_LENGTH, MARK_LENGTH = 8, 16, 8
_MADE = re.compile(
    f"([0-9a-f]{{{DEVICE_LENGTH}}})-[0-9a-f]{{{OWN_LENGTH}}}((?:\\+[0-9a-f]{{{MARK_LENGTH}}})*)(~[0-9a-f]+)?", re.ASCII
)


def new_device() -> str:
    """A name for a device's store, made once."""
    return uuid4().hex[:DEVICE_LENGTH]


def new_id(device: str, settled: Iterable[str] = ()) -> str:
    """An id for one reading. settled: ids of readings that stand beside the one which it replaces and count no more either."""
    return "+".join((f"{device}-{uuid4().hex[:OWN_LENGTH]}", *sorted(mark_of(id) for id in settled)))


def mark_of(id: str) -> str:
    """A reading's mark in the id of another one that settles it."""
    return hashlib.sha256(id.encode()).hexdigest()[:MARK_LENGTH]


def settled_by(id: str | None) -> tuple[str, ...]:
    """The marks of the readings that this one settles besides; of an id that somebody wrote by hand none."""
    made = _MADE.fullmatch(id or "")
    return tuple(made[2].split("+")[1:]) if made else ()


def device_of(id: str | None) -> str | None:
    """The device that made an id; None for an id that somebody wrote by hand."""
    made = _MADE.fullmatch(id or "")
    return made[1] if made else None
