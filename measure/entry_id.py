"""The id of a reading, made where the reading was taken: the device's name and random digits, so no two devices make the same."""

from __future__ import annotations

import re
from uuid import uuid4

DEVICE_LENGTH, OWN_LENGTH = 8, 16
_MADE = re.compile(f"([0-9a-f]{{{DEVICE_LENGTH}}})-[0-9a-f]{{{OWN_LENGTH}}}(~[0-9a-f]+)?", re.ASCII)


def new_device() -> str:
    """A name for a device's store, made once."""
    return uuid4().hex[:DEVICE_LENGTH]


def new_id(device: str) -> str:
    """An id for one reading."""
    return f"{device}-{uuid4().hex[:OWN_LENGTH]}"


def device_of(id: str | None) -> str | None:
    """The device that made an id; None for an id that somebody wrote by hand."""
    made = _MADE.fullmatch(id or "")
    return made[1] if made else None
