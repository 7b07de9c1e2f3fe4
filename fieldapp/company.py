"""Who is here now and on which bay. In memory only: whoever goes away is gone from it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from urllib.parse import unquote

_AT_BAY = ("walk", "read", "taken", "more", "both", "say")


@dataclass(frozen=True, slots=True)
class Present:
    """One open page. role: empty for the owner's own pages. bay: empty where they are on no bay. since: grows with every move."""

    name: str
    role: str
    guest: str
    job: str = ""
    bay: str = ""
    screen: str = ""
    since: int = 0


class Company:
    """changed: told the topic `people JOB` whenever somebody comes, goes or moves to another bay."""

    def __init__(self, changed: Callable[..., None]) -> None:
        self._changed = changed
        self._pages: dict[object, Present] = {}
        self._moves = 0

    def at(self, page: object, name: str, role: str, guest: str, address: str, bay: str = "") -> None:
        """This page stands at this address now. page: whatever it is known by. bay: where the screen says more than its address."""
        before = self._pages.get(page)
        job, screen, there = place_of(address)
        bay = bay or there
        if before is not None and (before.name, before.job, before.screen, before.bay) == (name, job, screen, bay):
            return
        self._moves += 1
        self._pages[page] = Present(name, role, guest, job, bay, screen, self._moves)
        self._tell(before, self._pages[page])

    def gone(self, page: object) -> None:
        """This page is closed, or does not answer."""
        self._tell(self._pages.pop(page, None))

    def of(self, job: str, but: object = None) -> list[Present]:
        """Everybody in a job, the one who moved last at the end; one line for each who has several pages open.

        but: a page whose person is left out, with all the pages that they have open.
        """
        own = self._pages.get(but)
        found = [p for p in self._pages.values() if p.job == job and (own is None or (p.guest, p.name) != (own.guest, own.name))]
        found.sort(key=lambda p: p.since)
        last = {(p.guest, p.name): p for p in found}
        return [p for p in found if last[(p.guest, p.name)] is p]

    def here(self, guest: str) -> Present | None:
        """Where a guest is; None while they are away."""
        found = [p for p in self._pages.values() if p.guest == guest]
        return max(found, key=lambda p: p.since, default=None)

    def taped_by(self, job: str, but: object = None) -> Present | None:
        """Who is taping a bay of the job just now: the one who moved last."""
        taping = [p for p in self.of(job, but) if p.screen in ("walk", "read") and p.bay and p.role != "office"]
        return taping[-1] if taping else None

    def _tell(self, *pages: Present | None) -> None:
        jobs = sorted({p.job for p in pages if p is not None and p.job})
        if jobs:
            self._changed(*(f"people {job}" for job in jobs))


def place_of(address: str) -> tuple[str, str, str]:
    """Job, screen and bay of an address `/job/7/walk/A3`; empty where it has none."""
    parts = [unquote(p) for p in address.split("?")[0].split("/")]
    if len(parts) < 4 or parts[1] != "job":
        return "", "", ""
    bay = parts[4] if len(parts) > 4 and parts[3] in _AT_BAY else ""
    return parts[2], parts[3], bay
