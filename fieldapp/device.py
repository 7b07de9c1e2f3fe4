"""What one device keeps for itself in the store: how the page looks, where it was left, what is half-typed there."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from urllib.parse import unquote

from fieldapp.desk import Desk
from fieldapp.theme import Look

LOOK = {"theme": "sun", "text": 1.0, "hand": "right", "large_keys": False}
"""What a device can choose of its look, and what it begins with."""
OTHER_UNIT = "other_unit"
Soon = Callable[[Callable[[], Awaitable[None]]], object]
_IN_JOB = "job"


class Device:
    """name: stays the same for this device. soon: runs a coroutine function once the packet of this press has left.

    Reading is from memory. Writing goes to the store right after the page got its answer: long before a finger sees it.
    """

    def __init__(self, desk: Desk, name: str, soon: Soon) -> None:
        self._desk, self._name, self._soon = desk, name, soon
        self._drafts = desk.drafts(name)

    # ---- look ----------------------------------------------------------------------------------------------------------
    def look(self, width: float, height: float) -> Look:
        """The look chosen on this device, in this room."""
        chosen = self._chosen()
        return Look(**{k: chosen.get(k, v) for k, v in LOOK.items()}, width=width, height=height)

    @property
    def other_unit(self) -> bool:
        """Whether the other unit stands beside a figure."""
        return bool(self._chosen().get(OTHER_UNIT, True))

    async def keep_look(self, **chosen: object) -> None:
        """Choose some of `LOOK`, or `other_unit`."""
        unknown = set(chosen) - {*LOOK, OTHER_UNIT}
        if unknown:
            raise TypeError(f"no part of a look: {unknown}")
        await self._desk.keep_setting(self._key("look"), {**self._chosen(), **chosen}, tell=False)

    def _chosen(self) -> dict[str, object]:
        return self._desk.setting(self._key("look"), {})

    # ---- person, place -------------------------------------------------------------------------------------------------
    @property
    def person(self) -> str:
        """Who holds this device; empty until somebody said so."""
        return self._desk.setting(self._key("person"), "")

    async def keep_person(self, name: str) -> None:
        await self._desk.keep_setting(self._key("person"), name)

    @property
    def place(self) -> str:
        """The address where this device was left; empty on a new one."""
        return self._desk.setting(self._key("place"), "")

    def place_in(self, job: str) -> str:
        """The address where it was left in one job; empty where it never was."""
        return self._desk.setting(self._key(f"place {job}"), "")

    def be_at(self, address: str) -> None:
        """The person is on this screen now."""
        job = _job_of(address)
        if job and address != self.place:
            self._soon(lambda: self._opened(job, address))
        for key in ("place", *([f"place {job}"] if job else [])):
            if self._desk.setting(self._key(key), "") != address:
                self._soon(lambda key=key: self._desk.keep_setting(self._key(key), address, tell=False))  # type: ignore[misc]

    async def _opened(self, job: str, address: str) -> None:
        self._desk.was_opened(job, address)

    # ---- half-typed ----------------------------------------------------------------------------------------------------
    def draft(self, where: str) -> str:
        """What is half-typed there; empty where nothing is."""
        return self._drafts.get(where, "")

    def keep_draft(self, where: str, text: str) -> None:
        """Keep what is half-typed there; empty forgets it."""
        if text == self.draft(where):
            return
        self._drafts[where] = text
        self._soon(lambda: self._desk.keep_draft(self._name, where, text))

    def _key(self, what: str) -> str:
        return f"{self._name} {what}"


def _job_of(address: str) -> str:
    """The job of an address `/job/…/…`, empty for any other."""
    parts = address.split("?")[0].split("/")
    return unquote(parts[2]) if len(parts) > 2 and parts[1] == _IN_JOB else ""
