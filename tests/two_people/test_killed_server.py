"""A server killed under two busy phones loses nothing that it kept. SPANBOOK_KILLS: how often to try (4)."""

from __future__ import annotations

import asyncio
import itertools
import os
import random
import time
from contextlib import suppress

import httpx
import websockets

from fieldapp.words import say
from measure.store import Store
from tests.two_people.conftest import Shared
from tests.two_people.wire_phone import WirePhone, token_of

KILLS = int(os.environ.get("SPANBOOK_KILLS", "4"))
KEPT = say("answer.kept_top-span")
"""A word of the answer, which stands there only once the figure is kept."""
BAYS = {"Mara": "A1", "Kit": "A2"}


async def busy_until_killed(server: Shared, cookies: dict[str, str], seconds: float) -> int:
    """Both phones keep one top span after the other, each at a bay of its own, until the server is gone; how many were answered."""
    answered = 0

    async def keep_on(name: str, bay: str) -> None:
        nonlocal answered
        with suppress(websockets.WebSocketException, httpx.TransportError, ConnectionError, TimeoutError):  # it is gone, at any moment
            for turn in itertools.count():
                # Somebody else each time: to a person who comes back the answer is shown, not the question again.
                cookies[name] = await token_of(server.phones, server.code, f"{name} {'IV'[turn % 2]}", "tape", cookies[name])
                async with WirePhone(server.phones, cookies[name], f"/job/{server.job}/read/{bay}/top-span") as phone:
                    asked = time.monotonic()
                    await phone.keys("4", "0", "Enter")
                    await phone.hears(KEPT, asked, 2)
                    answered += 1

    typing = [asyncio.create_task(keep_on(name, bay)) for name, bay in BAYS.items()]
    await asyncio.sleep(seconds)
    server.kill()
    for done in await asyncio.gather(*typing, return_exceptions=True):
        assert done is None or "was not heard" in str(done), done
    return answered


def test_every_reading_that_was_there_before_a_kill_is_there_after_it(tmp_path):
    chance = random.Random(11)
    server = Shared(tmp_path / "book")
    server.start()
    cookies = {name: asyncio.run(token_of(server.phones, server.code, name, "tape")) for name in BAYS}
    kept: list[str] = []
    answered = 0
    for _ in range(KILLS):
        answered += asyncio.run(busy_until_killed(server, cookies, chance.uniform(1.0, 3.0)))
        with Store.open(server.folder) as store:
            assert store.troubles() == []
            there = [r["id"] for r in store.document(server.job).get("readings", ())]
        assert there[: len(kept)] == kept and len(there) == len(set(there))
        assert len(there) >= answered
        kept = there
        server.start()  # the phones' passes still hold
    server.stop()
    assert answered >= KILLS, (answered, len(kept))
