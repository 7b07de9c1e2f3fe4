"""Many phones in one job at once. SPANBOOK_PHONES: how many (5). Nothing is timed to pass: what was measured is printed."""

from __future__ import annotations

import asyncio
import os
import statistics
import time
from contextlib import AsyncExitStack
from pathlib import Path

from fieldapp.words import say
from measure.store import Store
from tests.fieldapp.deck_file import deck_file
from tests.two_people.conftest import Shared
from tests.two_people.wire_phone import WirePhone, token_of

SPAN = ("4", "0", " ", "7", "/", "1", "6", "Enter")
PHONES = int(os.environ.get("SPANBOOK_PHONES", "5"))


def long_deck(bays: int) -> dict:
    """One straight run with a bay for each phone. Invented."""
    words = deck_file()
    words["posts"] = [{"id": f"P{i}", "kind": "end" if i in (0, bays) else "line"} for i in range(bays + 1)]
    words["bays"] = [{"tag": f"A{i + 1}", "run": "A", "left": f"P{i}", "right": f"P{i + 1}", "span": "40 1/2 in"} for i in range(bays)]
    return words


class Crowd(Shared):
    """A shared job with two bays for each phone."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        with Store.open(folder) as store:
            self.job = store.add_job(long_deck(2 * PHONES))
            store.set_setting("sharing", {"codes": {self.job: self.code}, "guests": []})


def memory(pid: int) -> int:
    """Bytes that a process holds in memory; 0 where the system does not tell."""
    try:
        return int(Path(f"/proc/{pid}/statm").read_text().split()[1]) * os.sysconf("SC_PAGE_SIZE")
    except OSError:
        return 0


async def everybody_keeps(server: Crowd) -> tuple[list[float], list[float], int]:
    """All phones keep a span at the same time; then one after the other at a second bay, while its neighbour listens.

    How long each waited for its own answer; how long until the neighbour heard; bytes of the server's memory a phone.
    """
    cookies = [await token_of(server.phones, server.code, f"P{n}", "tape") for n in range(PHONES)]
    before = memory(server.pid)
    async with AsyncExitStack() as open_:
        phones = [
            await open_.enter_async_context(WirePhone(server.phones, c, f"/job/{server.job}/walk/A{n + 1}"))
            for n, c in enumerate(cookies)
        ]
        each = (memory(server.pid) - before) // PHONES
        start = time.monotonic()
        await asyncio.gather(*(phone.keys(*SPAN) for phone in phones))
        at_once = [await phone.hears(say("review.verdict_clear"), start) - start for phone in phones]
        for phone in phones:
            await phone.quiet()
    async with AsyncExitStack() as open_:
        phones = [
            await open_.enter_async_context(WirePhone(server.phones, c, f"/job/{server.job}/walk/A{PHONES + n + 1}"))
            for n, c in enumerate(cookies)
        ]
        alone = []
        for n, phone in enumerate(phones):
            other = phones[n - 1]
            await phone.keys(*SPAN[:-1])
            await other.quiet()
            begun = time.monotonic()
            await phone.keys(SPAN[-1])
            alone.append(await other.hears("", begun) - begun)
        for phone in phones:
            await phone.quiet()
    return at_once, alone, each


def test_every_figure_of_every_phone_is_kept_once(tmp_path, capsys):
    with Crowd(tmp_path / "book") as server:
        at_once, alone, each = asyncio.run(everybody_keeps(server))
        kept = [(r["by"], r["bay"], r["value"]) for r in server.readings()]
    expected = [(f"P{n}", f"A{n + 1 + later}", "40 7/16") for n in range(PHONES) for later in (0, PHONES)]
    assert sorted(kept) == sorted(expected)
    with Store.open(server.folder) as store:
        assert store.troubles() == []
    with capsys.disabled():
        print(f"\n{PHONES} phones in one job, {each / 1e6:.1f} MB of the server's memory each")
        print(f"all keep at the same moment, until each has its answer: {spread(at_once)}")
        print(f"one keeps, until the next phone hears of it: {spread(alone)}")


def spread(seconds: list[float]) -> str:
    """Median and 95th percentile in milliseconds."""
    ordered = sorted(seconds)
    high = ordered[min(len(ordered) - 1, int(len(ordered) * 0.95))]
    return f"median {statistics.median(ordered) * 1000:.0f} ms, p95 {high * 1000:.0f} ms"
