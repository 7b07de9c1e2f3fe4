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
    """A shared job with a bay for each phone."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        with Store.open(folder) as store:
            self.job = store.add_job(long_deck(PHONES))
            store.set_setting("sharing", {"codes": {self.job: self.code}, "guests": []})


def memory(pid: int) -> int:
    """Bytes that a process holds in memory; 0 where the system does not tell."""
    try:
        return int(Path(f"/proc/{pid}/statm").read_text().split()[1]) * os.sysconf("SC_PAGE_SIZE")
    except OSError:
        return 0


class Waited:
    """Seconds: until each has its own answer when all keep at once; until reader, tape and office are told of a read-back."""

    def __init__(self) -> None:
        self.at_once: list[float] = []
        self.reader: list[float] = []
        self.tape: list[float] = []
        self.office: list[float] = []
        self.each = 0
        """Bytes of the server's memory a phone."""


async def everybody_keeps(server: Crowd, cookies: list[str], waited: Waited) -> None:
    """All phones keep the span that they have typed at the same moment, each in a bay of its own."""
    before = memory(server.pid)
    async with AsyncExitStack() as open_:
        phones = [
            await open_.enter_async_context(WirePhone(server.phones, c, f"/job/{server.job}/walk/A{n + 1}"))
            for n, c in enumerate(cookies)
        ]
        waited.each = (memory(server.pid) - before) // PHONES
        await asyncio.gather(*(phone.keys(*SPAN[:-1]) for phone in phones))
        for phone in phones:
            await phone.quiet()
        start = time.monotonic()
        await asyncio.gather(*(phone.keys(SPAN[-1]) for phone in phones))
        waited.at_once = [await phone.hears(say("review.verdict_clear"), start) - start for phone in phones]
        for phone in phones:
            await phone.quiet()


async def each_is_read_back(server: Crowd, cookies: list[str], office: str, waited: Waited) -> None:
    """One after the other comes to its bay and the next one reads it back, while all the others and the office look on."""

    def page(cookie: str, path: str) -> WirePhone:
        return WirePhone(server.phones, cookie, f"/job/{server.job}/{path}")

    async with AsyncExitStack() as open_:
        desk = await open_.enter_async_context(page(office, "review"))
        for n, c in enumerate(cookies):
            await open_.enter_async_context(page(c, f"walk/A{n + 1}"))
        for n, c in enumerate(cookies):
            # The reader follows whoever came to a bay last.
            async with page(c, f"walk/A{n + 1}") as tape, page(cookies[n - 1], "readback") as reader:
                await reader.keys(*SPAN[:-1])
                for one in (reader, tape, desk):
                    await one.quiet(0.3)
                begun = time.monotonic()
                await reader.keys(SPAN[-1])
                waited.reader.append(await reader.hears(say("readback.agree", figure="40 7/16"), begun) - begun)
                agree = say("share.agree", bay=f"A{n + 1}", by=f"P{(n - 1) % PHONES}", figure="40 7/16")
                waited.tape.append(await tape.hears(agree, begun) - begun)
                waited.office.append(await desk.hears("", begun) - begun)


async def everybody(server: Crowd) -> Waited:
    waited = Waited()
    cookies = [await token_of(server.phones, server.code, f"P{n}", "tape") for n in range(PHONES)]
    office = await token_of(server.phones, server.code, "Jo", "office")
    await everybody_keeps(server, cookies, waited)
    await each_is_read_back(server, cookies, office, waited)
    return waited


def test_every_figure_of_every_phone_is_kept_once(tmp_path, capsys):
    with Crowd(tmp_path / "book") as server:
        waited = asyncio.run(everybody(server))
        kept = [(r["by"], r["bay"], r.get("role", "first"), r["value"]) for r in server.readings()]
    expected = [(f"P{n}", f"A{n + 1}", "first", "40 7/16") for n in range(PHONES)]
    expected += [(f"P{(n - 1) % PHONES}", f"A{n + 1}", "read-back", "40 7/16") for n in range(PHONES)]
    assert sorted(kept) == sorted(expected)
    with Store.open(server.folder) as store:
        assert store.troubles() == []
    with capsys.disabled():
        print(f"\n{PHONES} phones and an office in one job, {waited.each / 1e6:.1f} MB of the server's memory each")
        print(f"all keep at the same moment, until each has its answer: {spread(waited.at_once)}")
        print(f"one reads back among them, until it is told: {spread(waited.reader)}; until the tape is told: {spread(waited.tape)}")
        print(f"until the office's page shows it: {spread(waited.office)}")


def spread(seconds: list[float]) -> str:
    """Median and 95th percentile in milliseconds."""
    ordered = sorted(seconds)
    high = ordered[min(len(ordered) - 1, int(len(ordered) * 0.95))]
    return f"median {statistics.median(ordered) * 1000:.0f} ms, p95 {high * 1000:.0f} ms"
