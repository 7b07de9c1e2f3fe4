"""A server killed under two busy phones loses nothing that it kept. SPANBOOK_KILLS: how often to try (4)."""

from __future__ import annotations

import asyncio
import os
import random
from contextlib import AsyncExitStack, suppress

import websockets

from measure.store import Store
from tests.two_people.conftest import Shared
from tests.two_people.wire_phone import WirePhone, token_of

KILLS = int(os.environ.get("SPANBOOK_KILLS", "4"))
BAYS = {"Mara": "A1", "Kit": "A2"}


async def busy_until_killed(server: Shared, cookies: dict[str, str], seconds: float) -> None:
    """Both phones keep one top span after the other, each at a bay of its own, until the server is gone."""
    async with AsyncExitStack() as open_:

        async def keep_on(name: str, bay: str) -> None:
            with suppress(websockets.ConnectionClosed, ConnectionError, TimeoutError):
                while True:
                    async with WirePhone(server.phones, cookies[name], f"/job/{server.job}/read/{bay}/top-span") as phone:
                        await phone.keys("4", "0", "Enter")
                        await phone.quiet(0.05)

        typing = [asyncio.create_task(keep_on(name, bay)) for name, bay in BAYS.items()]
        open_.callback(lambda: [t.cancel() for t in typing])
        await asyncio.sleep(seconds)
        server.kill()
        await asyncio.gather(*typing, return_exceptions=True)


def test_every_reading_that_was_there_before_a_kill_is_there_after_it(tmp_path):
    chance = random.Random(11)
    server = Shared(tmp_path / "book")
    server.start()
    cookies = {name: asyncio.run(token_of(server.phones, server.code, name, "tape")) for name in BAYS}
    kept: list[str] = []
    for _ in range(KILLS):
        asyncio.run(busy_until_killed(server, cookies, chance.uniform(0.5, 1.5)))
        with Store.open(server.folder) as store:
            assert store.troubles() == []
            there = [r["id"] for r in store.document(server.job)["readings"]]
        assert there[: len(kept)] == kept and len(there) == len(set(there))
        kept = there
        server.start()  # the phones' passes still hold
    server.stop()
    assert len(kept) >= KILLS
