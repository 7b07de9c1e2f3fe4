"""The open sockets of guests: one guest's session is nobody else's, and ends when they are put out."""

from __future__ import annotations

import asyncio
import contextlib
import logging
from collections import defaultdict

from fastapi import WebSocket
from flet_web.fastapi.flet_app import FletApp
from starlette.types import Message

from fieldapp.hosts.rest import Rest
from fieldapp.sharing import Guest

LARGEST = 256 * 1024
"""Bytes of one message of a guest: taps and figures; files come in at the owner's page only."""
MOST_PAGES = 6
"""Pages that one guest may have open at a time."""
GRACE = 5.0
"""Seconds that the app's own end of a closed socket may take."""
PUT_OUT = 4001
log = logging.getLogger("spanbook")


class GuestSockets:
    """`hold` serves one socket until it is closed from either side."""

    def __init__(self) -> None:
        self._open: dict[str, set[asyncio.Event]] = defaultdict(set)
        self._rest = Rest()

    def end(self, guest: str) -> None:
        """Close all sockets of a guest."""
        for ending in self._open.pop(guest, ()):
            ending.set()

    async def hold(self, guest: Guest, page: FletApp, websocket: WebSocket) -> None:
        """Serve a page to a guest. Raises nothing that the guest could have caused."""
        if len(self._open[guest.id]) >= MOST_PAGES:
            await websocket.close(1008)
            return
        ending, gone = asyncio.Event(), asyncio.Event()
        self._rest.came()
        self._open[guest.id].add(ending)
        # The path is part of the name under which a session is found again: no guest takes up the session of another.
        own = WebSocket({**websocket.scope, "path": f"/{guest.id}/ws", "root_path": ""}, _heard(websocket, gone, self._rest), websocket.send)
        task = asyncio.create_task(page.handle(own))
        waits = [asyncio.create_task(e.wait()) for e in (ending, gone)]
        try:
            await asyncio.wait([task, *waits], return_when=asyncio.FIRST_COMPLETED)
            if ending.is_set() and not task.done():
                with contextlib.suppress(RuntimeError):  # it was closed from the other side in the same moment
                    await websocket.close(PUT_OUT)
            self._open.get(guest.id, set()).discard(ending)  # closed: it counts no longer, however long the app's own end takes
            await asyncio.wait([task], timeout=GRACE)
        finally:
            self._open.get(guest.id, set()).discard(ending)
            self._rest.went()
            for one in (*waits, task):
                one.cancel()
        if task.done() and not task.cancelled() and (problem := task.exception()) is not None:
            log.info("a guest's socket ended with %s", type(problem).__name__)


def _heard(websocket: WebSocket, gone: asyncio.Event, rest: Rest):  # type: ignore[no-untyped-def]
    async def receive() -> Message:
        message = await websocket.receive()
        rest.heard()
        if message["type"] == "websocket.disconnect":
            gone.set()
        elif message["type"] == "websocket.receive" and len(message.get("bytes") or message.get("text") or b"") > LARGEST:
            gone.set()
            await websocket.close(1009)
            return {"type": "websocket.disconnect", "code": 1009}
        return message

    return receive
