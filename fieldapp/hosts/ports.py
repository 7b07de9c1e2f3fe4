"""What the app asks of the place it runs in. Screens see these ports and never which host stands behind them.

A host is put together once for every open page: the server does it in hosts/server.py, the phone alone in hosts/browser.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Literal, Protocol

import flet as ft

from fieldapp.hosts.keeping import Keeper
from fieldapp.hosts.phone_app import PhoneApp

if TYPE_CHECKING:
    from fieldapp.intake import Intake
    from fieldapp.office import Office

HostName = Literal["served", "alone", "packaged"]
"""`served` by this machine or another one, `alone` in the phone's browser, `packaged` as a native app."""


@dataclass(frozen=True, slots=True)
class PickedFile:
    """A file that the person chose. data: its bytes, whole."""

    name: str
    data: bytes


LARGEST_FILES = 30 * 1024 * 1024
"""Bytes of all files that come in at once; the page sends larger ones on by their names alone."""
AS_TEXT = ".txt"
"""Behind a job file's own name where it had to be shared as plain text."""
OnPicked = Callable[[Sequence[PickedFile]], Awaitable[None]]


class Files(Protocol):
    """Files out to the person and in from the person, as bytes; no path of the device is ever seen."""

    async def save(self, name: str, data: bytes) -> None:
        """Hand a file to the person: a download in a browser, the system's dialog in a package. data: not empty."""

    async def pick(self, *endings: str) -> Sequence[PickedFile]:
        """Ask for files. endings: without the dot, `json`. Empty when the person chose none."""

    async def dropped(self) -> Sequence[PickedFile]:
        """The job files that the person just let go over the page. Nothing opens: the page has them (assets/drop.js)."""

    def picking(self, then: OnPicked, *endings: str, several: bool = False) -> ft.ClientAction:
        """The same as an action to hang on a key (`ft.Button(action=…)`): it opens inside the tap, as phones demand."""

    def forget(self) -> None:
        """The screen that hung `picking` on its keys is left."""


Went = Literal["sent", "closed", "refused", "none"]
"""What became of something shared. `closed`: by the person, without a choice. `refused`: by the browser, just now. `none`: no share sheet for it here."""


class Share(Protocol):
    """The share sheet of the device, where there is one."""

    async def share(self, files: Sequence[PickedFile], text: str) -> Went:
        """Offer files to the share sheet, or words alone where there are none."""


class Clock(Protocol):
    """The time, so that tests can stand it still."""

    def now(self) -> datetime:
        """Now, with a zone."""


class Connection(Protocol):
    """What lies between the person's fingers and the place where readings are kept."""

    @property
    def host(self) -> HostName:
        """Which host this is; for words only (`kept here`), never for a rule."""

    @property
    def shared(self) -> bool:
        """True where phones beside this one work in the same store."""

    @property
    def no_signal(self) -> bool:
        """True where the app runs without a server and the device has no network. A served page tells that by itself."""

    @property
    def device(self) -> str:
        """A name for this device that stays: its last place and its half-typed digits hang on it."""

    @property
    def guest(self) -> str:
        """Which guest of a shared job this is; empty for the owner."""

    @property
    def role(self) -> str:
        """What a guest does: `tape`, `scribe` or `office`; empty for the owner."""


class WallClock:
    """The device's own clock, in UTC."""

    def now(self) -> datetime:
        return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class Place:
    """A connection whose answers never change while the page is open."""

    host: HostName
    shared: bool = False
    device: str = "here"
    no_signal: bool = False
    guest: str = ""
    role: str = ""


@dataclass(frozen=True, slots=True)
class Host:
    """All ports of one open page."""

    files: Files
    share: Share
    clock: Clock
    connection: Connection
    keeper: Keeper | None = None
    """What a phone alone says about keeping; None where a server keeps."""
    phone_app: PhoneApp | None = None
    """The app for phones as this machine hands it out; for the owner of a server only."""
    office: Office | None = None
    """Jobs on their way to an office; for the owner only."""
    intake: Intake | None = None
    """Jobs that phones send here; for the owner of a server only."""
