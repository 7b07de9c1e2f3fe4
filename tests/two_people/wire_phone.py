"""A phone without a screen: it joins, opens a page over the real socket, types on a keyboard and notes when it hears something."""

from __future__ import annotations

import asyncio
import time
from typing import Any, Self

import httpx
import msgpack
import websockets

REGISTER, PATCH, EVENT, ASK = 1, 2, 3, 5
"""Kinds of messages of the client's protocol."""
PAGE = 1
"""The number of the page among its own controls."""


async def token_of(address: str, code: str, name: str, role: str, before: str = "") -> str:
    """Join over the form; the cookie. before: the one that this phone had, which is worth nothing from then on.

    Raises AssertionError where that is refused.
    """
    async with httpx.AsyncClient(base_url=address, timeout=30) as client:
        answer = await client.post("/join", data={"code": list(code), "name": name, "role": role}, headers={"cookie": before})
    assert answer.status_code == 303, answer.text[-300:]
    return "; ".join(f"{k}={v}" for k, v in answer.cookies.items())


class WirePhone:
    """`heard`: when each message came in, by the clock that only grows. `words`: everything that was said in them."""

    def __init__(self, address: str, cookie: str, route: str) -> None:
        self._url = address.replace("http", "ws", 1) + "ws"
        self._cookie, self._route = cookie, route
        self.heard: list[tuple[float, bytes]] = []
        self._shown = asyncio.Event()

    async def __aenter__(self) -> Self:
        self._socket = await websockets.connect(self._url, additional_headers={"cookie": self._cookie}, proxy=None, max_size=None)
        page = {"route": self._route, "width": 390, "height": 844, "web": True}
        await self._send(REGISTER, {"session_id": None, "page_name": "", "page": page})
        self._listening = asyncio.create_task(self._listen())
        shown = asyncio.create_task(self._shown.wait())
        await asyncio.wait([shown, self._listening], timeout=60, return_when=asyncio.FIRST_COMPLETED)
        if not self._shown.is_set():
            shown.cancel()
            await self.__aexit__()
            raise ConnectionError("the page never came")
        return self

    async def __aexit__(self, *_: object) -> None:
        self._listening.cancel()
        await asyncio.gather(self._listening, return_exceptions=True)
        await self._socket.close()

    async def keys(self, *keys: str) -> None:
        """Press keys of a real keyboard."""
        for key in keys:
            data = {"key": key, "shift": False, "ctrl": False, "alt": False, "meta": False}
            await self._send(EVENT, {"target": PAGE, "name": "keyboard_event", "data": data})

    async def hears(self, words: str, since: float, seconds: float = 60) -> float:
        """When these words came in first, after `since`."""
        looked = 0
        end = time.monotonic() + seconds
        while time.monotonic() < end:
            for at, data in self.heard[looked:]:
                looked += 1
                if at >= since and words.encode() in data:
                    return at
            await asyncio.sleep(0.002)
        raise AssertionError(f"“{words}” was not heard in {seconds} s")

    async def quiet(self, seconds: float = 1.5) -> float:
        """Wait until nothing was heard for so long; when the last message came."""
        while time.monotonic() - self.heard[-1][0] < seconds:
            await asyncio.sleep(0.05)
        return self.heard[-1][0]

    async def _listen(self) -> None:
        async for data in self._socket:
            assert isinstance(data, bytes)
            self.heard.append((time.monotonic(), data))
            kind, body = msgpack.unpackb(data[1:], strict_map_key=False)[:2]
            if kind == ASK:
                await self._send(ASK, {"control_id": body["control_id"], "call_id": body["call_id"], "result": None, "error": None})
            if kind == PATCH:
                self._shown.set()

    async def _send(self, kind: int, body: dict[str, Any]) -> None:
        await self._socket.send(b"\x00" + msgpack.packb([kind, body]))
