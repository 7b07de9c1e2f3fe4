"""What the phone says about keeping: where jobs lie, whether they may stay, whether the app is ready for a place without signal."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Literal, Protocol

How = Literal["files", "record", "nowhere"]
"""`files`: the browser's durable files. `record`: one record of its database, rewritten at each keep. `nowhere`: a private window."""
WhyNot = Literal["", "insecure", "refused", "room", "line"]
"""Why the app is not ready without signal: no https, the browser forbids it, no room, or the line broke before all was here."""

NO_ROOM = "NoRoom"
"""What phone/sw.js calls it when a version came and could not be put away."""
NEARLY_FULL = 50_000_000
"""Bytes left for this page. Below it the person is told: a large job with its orders takes some megabytes, an update 16."""


@dataclass(frozen=True, slots=True)
class Keeping:
    """ready: every part of the app is in the phone. stays: the browser promised not to throw anything away by itself.

    used, room: bytes of this page, and what it may use in all (0: not told). newer: a newer version lies here whole, waiting to be
    taken. newer_failed: why one did not come, as the browser names it (or NO_ROOM); empty where none failed. version: 12 hex digits.
    gone: when something was last kept here that the browser has thrown away since. installed: opened from the home screen.
    may_install: the browser would put it there when asked.
    """

    how: How
    ready: bool = False
    why_not: WhyNot = ""
    stays: bool = False
    used: int = 0
    room: int = 0
    newer: bool = False
    newer_failed: str = ""
    version: str = ""
    gone: datetime | None = None
    installed: bool = False
    may_install: bool = False
    can_share: bool = False

    @property
    def nearly_full(self) -> bool:
        return bool(self.room) and self.room - self.used < NEARLY_FULL


class Keeper(Protocol):
    """The page around the app. Every answer may change while it is open: subscribe."""

    @property
    def keeping(self) -> Keeping:
        """How things stand now."""

    def subscribe(self, tell: Callable[[], None]) -> Callable[[], None]:
        """Call `tell` after each change, until the function that this returns is called."""

    async def ask_to_stay(self) -> bool:
        """Ask the browser never to throw the jobs away by itself; some ask the person. True: it promised."""

    async def look_again(self) -> None:
        """Ask how much room there is now, and for a newer version."""

    async def take_newer(self) -> None:
        """Take the newer version: the page opens anew."""

    async def install(self) -> bool:
        """Put it on the home screen. True: the person agreed."""

    async def understood(self) -> None:
        """The person has read that kept things are gone."""
