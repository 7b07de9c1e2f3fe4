"""The page around the app alone in the browser, seen from Python: how it keeps, what it knows, what only a window can do.

Talks to phone/worker.js, which puts itself under the name `spanbook_phone`; only the phone's Python has that module.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from fieldapp.hosts.keeping import Keeping

AGAIN = 60.0
"""Seconds between two notes beside the database that it is in use: more often tells nobody more."""


class PhonePage:
    """Implements `Keeper`. js: the module `spanbook_phone`. proxy: makes a function callable from the page for good."""

    def __init__(self, js: Any, proxy: Callable[[Callable[[], None]], Any]) -> None:
        self._js = js
        self._listeners: list[Callable[[], None]] = []
        self._noted: datetime | None = None
        self._noted_jobs = 0
        mark = js.mark.to_py()
        self._gone = _when(mark.get("kept_at")) if js.evicted and mark.get("jobs") else _when(mark.get("gone"))
        self._told = self._telling()
        js.changed = proxy(self._heard)

    # ---- where things lie ----------------------------------------------------------------------------------------------
    @property
    def database(self) -> Path:
        """The database; `set_aside` is the only other file that can be made beside it (its journal apart)."""
        return Path(self._js.folder) / self._js.base

    @property
    def empty(self) -> bool:
        """Whether nothing was kept here when the page opened."""
        return bool(self._js.empty)

    @property
    def set_aside(self) -> Path:
        """Where a copy of an older database goes before it is brought up to date."""
        return Path(self._js.folder) / self._js.before

    async def flush(self) -> None:
        """Returns once everything that is committed lies on the phone's disk. Raises OSError when it could not be kept."""
        from pyodide.ffi import JsException

        try:
            await self._js.flush()
        except JsException as refused:
            raise OSError(str(refused)) from None

    def note(self, jobs: Callable[[], int], now: datetime) -> None:
        """Remember outside the database that something is kept in it, so that its loss can be told. Cheap to call often.

        The first job is noted at once: without one nobody would be told.
        """
        is_old = self._noted is None or (now - self._noted).total_seconds() > AGAIN
        if not is_old and self._noted_jobs:
            return
        before, self._noted_jobs = self._noted_jobs, jobs()
        if is_old or self._noted_jobs != before:
            self._noted = now
            gone = self._gone and self._gone.isoformat()
            self._ask("mark", kept=self._js.kept, kept_at=now.isoformat(), jobs=self._noted_jobs, gone=gone)

    # ---- Keeper --------------------------------------------------------------------------------------------------------
    @property
    def keeping(self) -> Keeping:
        state = self._js.state.to_py()
        return Keeping(
            how=self._js.kept, ready=state["ready"], why_not=state["why"], stays=state["persisted"], used=int(state["usage"]),
            room=int(state["quota"]), newer=bool(state["newer"]), newer_failed=state.get("newer_failed") or "", version=state["version"],
            gone=self._gone, installed=state["standalone"], may_install=state["installable"], can_share=state["share"],
        )  # fmt: skip

    def subscribe(self, tell: Callable[[], None]) -> Callable[[], None]:
        self._listeners.append(tell)

        def leave() -> None:
            if tell in self._listeners:
                self._listeners.remove(tell)

        return leave

    async def ask_to_stay(self) -> bool:
        promised = bool(await self._ask("persist"))
        self._js.room()
        return promised

    async def look_again(self) -> None:
        self._js.room()
        await self._ask("look")

    async def take_newer(self) -> None:
        await self._ask("take")

    async def install(self) -> bool:
        return bool(await self._ask("install"))

    async def understood(self) -> None:
        self._gone = None
        await self._ask("mark", gone=None)
        self._changed()

    def wear(self, theme: str) -> None:
        """The starting page wears the same theme next time, before the app is there."""
        self._ask("mark", look=theme)

    @property
    def online(self) -> bool:
        """Whether the browser believes that there is a network."""
        return bool(self._js.state.online)

    # ---- the start -----------------------------------------------------------------------------------------------------
    def shown(self) -> None:
        """The first view is on its way: the starting page may go."""
        self._js.shown()

    def refuse(self, sentence: str, detail: str = "") -> None:
        """The app cannot start; the page says why."""
        self._js.trouble("refused", sentence, detail)

    def stopped(self, detail: str) -> None:
        """The app came up against something that nobody foresaw before its first view stood there."""
        self._js.trouble("app", "", detail)

    def _heard(self) -> None:
        """The page says something; only what a person would notice goes on."""
        telling = self._telling()
        if telling != self._told:
            self._told = telling
            self._changed()

    def _telling(self) -> tuple[Keeping, bool, bool]:
        keeping = self.keeping
        return replace(keeping, used=0, room=0), keeping.nearly_full, self.online

    def _changed(self) -> None:
        for tell in tuple(self._listeners):
            tell()

    def _ask(self, name: str, **value: object) -> Awaitable[Any]:
        from js import Object
        from pyodide.ffi import to_js

        return self._js.ask(name, to_js(value, dict_converter=Object.fromEntries))


def open_page() -> PhonePage:
    """The page of this very phone."""
    import spanbook_phone
    from pyodide.ffi import create_proxy

    return PhonePage(spanbook_phone, create_proxy)


def _when(text: Any) -> datetime | None:
    """A moment that an earlier start wrote down; None where there is none, or it is spoilt."""
    try:
        return datetime.fromisoformat(text).astimezone(UTC) if isinstance(text, str) else None
    except ValueError:
        return None
