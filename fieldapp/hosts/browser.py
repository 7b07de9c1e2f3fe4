"""The app alone in the phone's browser: its store on the phone's own disk, its files through the page, no server anywhere.

`main` is what phone/worker.js runs once the files are mounted. Started from nowhere else.
"""

from __future__ import annotations

import logging
import traceback
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import TYPE_CHECKING, Self

import flet as ft

from fieldapp.app import App
from fieldapp.desk import Desk
from fieldapp.hosts.office_fetch import came_from, post
from fieldapp.hosts.page_files import PageFiles, PageShare
from fieldapp.hosts.phone_page import PhonePage, open_page
from fieldapp.hosts.ports import Host, WallClock
from fieldapp.office import Office
from measure.errors import StoreError
from measure.store import Store

if TYPE_CHECKING:
    from fieldapp.hosts.ports import HostName


log = logging.getLogger("spanbook")
NOT_TAKEN_OVER = (
    "No copy of the jobs could be set aside before this newer Spanbook takes them over. They were left as they are. "
    "Make room on the phone, then open it again."
)
NOT_KEPT = "The phone did not keep this; it may be full. What was kept before is safe. Make room on the phone, then try again."
NO_ROOM = "There is no room on this phone for the jobs, so nothing can be kept. Make room, then try again."
OTHER_TAB = "This was not kept: Spanbook is open in another tab or window, and the other one has kept something since. Close this one."


class PhoneStore(Store):
    """The store of a phone: what it wrote is safe once the page has it on the phone's disk."""

    phone: PhonePage
    _brought_up = False

    @classmethod
    def on(cls, phone: PhonePage) -> Self:
        """Raises StoreError for a store that this app cannot use; it is left as it was."""

        versions = []

        def set_aside(data: bytes, version: int) -> None:
            versions.append(version)
            try:
                phone.set_aside.write_bytes(data)
            except OSError as problem:
                phone.set_aside.unlink(missing_ok=True)  # half a copy helps nobody and takes room
                raise StoreError(NOT_TAKEN_OVER) from problem

        store = cls.open(phone.database, journal="delete", set_aside=set_aside)
        store.phone, store._brought_up = phone, bool(versions)
        return store

    async def begin(self) -> None:
        """A new store, or one that was brought up to date, has to be on the phone's disk before anybody works with it.

        Raises StoreError where the phone does not take it; an older store is left as it was. One that was there already opens all
        the same: on a full phone its jobs can be read and copied out.
        """
        if not (self._brought_up or self.phone.empty):
            return
        try:
            await self.flush()
        except StoreError as refused:
            raise StoreError(NOT_TAKEN_OVER if self._brought_up else NO_ROOM) from refused

    async def flush(self) -> None:
        """Raises StoreError when the phone did not take it: nothing is called kept that is not."""
        try:
            await self.phone.flush()
        except OSError as problem:
            log.warning("not kept: %s", problem)
            raise StoreError(OTHER_TAB if "NoModificationAllowed" in str(problem) else NOT_KEPT) from problem
        self.phone.note(lambda: len(self.jobs()), datetime.now(UTC))


@dataclass(frozen=True, slots=True)
class PhonePlace:
    """`Connection` of a phone alone: nobody beside it, its network as the browser tells it."""

    phone: PhonePage
    host: HostName = "alone"
    shared: bool = False
    device: str = "here"
    guest: str = ""
    role: str = ""

    @property
    def no_signal(self) -> bool:
        return not self.phone.online


def main() -> None:
    """Open the store and hand the page to the app; a store that cannot be used is told on the starting page."""
    phone = open_page()
    try:
        store = PhoneStore.on(phone)
    except StoreError as problem:
        phone.refuse(str(problem))
        return
    desk = Desk(store, WallClock())
    office = Office(desk, post, WallClock(), *came_from())
    phone.subscribe(lambda: _heard(phone, desk, office))

    async def start(page: ft.Page) -> None:
        try:
            await store.begin()
        except StoreError as problem:
            phone.refuse(str(problem))
            return
        host = Host(PageFiles(), PageShare(), WallClock(), PhonePlace(phone), phone, office=office)
        app = App(page, host, desk)
        try:
            await app.start()
        except BaseException:  # whatever ended it: the page of progress says so, then it goes its way
            phone.stopped(traceback.format_exc())
            raise
        phone.shown()
        phone.wear(app.look.theme)
        office.start()

    ft.run(start)


def _heard(phone: PhonePage, desk: Desk, office: Office) -> None:
    """The page said something: what was waiting for a network waits no longer once there is one."""
    if phone.online:
        office.nudge()
    desk.changed("phone")
