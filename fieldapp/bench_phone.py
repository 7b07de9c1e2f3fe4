"""`spanbook bench phone`: the app alone in a headless Chromium, beside a bare Flet counter app that is packed the same way, in one run.

Both folders are handed out by one plain server. A cold start is a new profile and a line of 20 Mbit/s; the server slows it, because
what the browser slows itself leaves out the worker that fetches nearly everything. A warm start is the same profile later on. Both
end with the picture that then stands still, by real pixels.
"""

from __future__ import annotations

import importlib.util
import json
import random
import statistics
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

from fieldapp.bench_kept import ratio, resident_mb, told
from fieldapp.bench_site import Site
from fieldapp.bench_tab import ARGUMENTS, NEEDS, SCREEN, SCRIPT, STILL, await_view, bare_tab, begin, chromium, taps, walk_tab
from fieldapp.hosts.pack import pack
from fieldapp.hosts.pack_archive import Cargo
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from playwright.sync_api import BrowserContext, Page, Playwright

BARE_NEEDS = ("flet", "msgpack", "repath", "six")
ALONE = Path(__file__).parent / "hosts" / "bench_alone"
BARE, KEEPING = Cargo("counter", ALONE, only=BARE_NEEDS), Cargo("keeping_alone", ALONE)
LINE, DELAY = 20_000_000, 0.02
"""Bits a second and seconds of the emulated line."""
AIMS = {"start": 1.25, "tap": 1.5, "bytes": 1.2}
"""At most so many times the bare app."""
LONGEST = 120_000
"""Milliseconds that anything is waited for."""


@dataclass
class Pair:
    """The same figure of both apps."""

    ours: list[float] = field(default_factory=list)
    bare: list[float] = field(default_factory=list)

    def add(self, name: str, figure: float) -> None:
        getattr(self, name).append(figure)

    def line(self, what: str, aim: str = "", places: int = 0) -> str:
        wanted = f" (aim: {AIMS[aim]})" if aim else ""
        return f"{what}: {told(self.ours, places)}; bare {told(self.bare, places)}; {ratio(self.ours, self.bare)} × its median{wanted}"


class Bench:
    """sites: the folders by the name of their app, `ours` and `bare`."""

    def __init__(self, playwright: Playwright, folder: Path, sites: dict[str, Site], out: TextIO) -> None:
        self._playwright, self._folder, self.sites, self._out = playwright, folder, sites, out
        self._profile = folder

    def say(self, line: str) -> None:
        self._out.write(line + "\n")
        self._out.flush()

    @contextmanager
    def phone(self) -> Iterator[BrowserContext]:
        """A new profile on a disk, in a browser of its own."""
        self._profile = Path(tempfile.mkdtemp(prefix="profile", dir=self._folder))
        kind, found = self._playwright.chromium, chromium(self._playwright)
        context = kind.launch_persistent_context(self._profile, executable_path=found, args=ARGUMENTS, **SCREEN)
        context.add_init_script(path=SCRIPT)
        try:
            yield context
        finally:
            context.close()

    # ---- starts --------------------------------------------------------------------------------------------------------
    def cold(self, times: int) -> None:
        """First visits: the start, and what goes over the line until the app is ready without one."""
        took, sent = Pair(), Pair()
        for _ in range(times):
            for name in random.sample(list(self.sites), 2):
                site = self.sites[name]
                with self.phone() as context:
                    site.bits, site.delay, site.sent = LINE, DELAY, 0
                    took.add(name, started(context.pages[0], site.address))
                    site.bits, site.delay = 0, 0.0
                    sent.add(name, site.sent / 1e6)
        self.say(took.line(f"cold start at {LINE // 1_000_000} Mbit/s", "start"))
        ours, bare = statistics.median(sent.ours), statistics.median(sent.bare)
        self.say(f"bytes on the line: {ours:.1f} MB; bare {bare:.1f} MB; {ours / bare:.2f} × (aim: {AIMS['bytes']})")

    def warm(self, context: BrowserContext, addresses: dict[str, str], times: int) -> None:
        """Later starts in a page of their own; memory of the page's process after each."""
        took, memory = Pair(), Pair()
        for number in range(times + 1):
            for name in random.sample(list(addresses), 2):
                page = context.new_page()
                needed = started(page, addresses[name])
                if number:  # the first one warms up
                    took.add(name, needed)
                    memory.add(name, largest_page(self._profile))
                page.close()
        self.say(took.line("warm start to the first question", "start"))
        self.say(f"memory of the page's process: {statistics.median(memory.ours):.0f} MB; bare {statistics.median(memory.bare):.0f} MB")

    # ---- all of it -----------------------------------------------------------------------------------------------------
    def run(self, starts: int, times: int) -> None:
        self.cold(max(2, starts // 2))
        with self.phone() as context:
            first = context.pages[0]
            started(first, self.sites["ours"].address)
            addresses = {"ours": begin(first), "bare": self.sites["bare"].address}
            started(first, addresses["bare"])
            first.goto("about:blank")
            self.warm(context, addresses, starts)
            self.taps(context, addresses, times)

    def taps(self, context: BrowserContext, addresses: dict[str, str], times: int) -> None:
        """A key of the walk, and Keep, beside the bare app's one key."""
        tabs = []
        for name, made in (("ours", walk_tab), ("bare", bare_tab)):
            started(page := context.new_page(), addresses[name])
            tabs.append(made(page))
        for line in taps(tabs[0], tabs[1], times):
            self.say(f"{line} (aim: {AIMS['tap']})")
        for tab in tabs:
            tab.page.close()

    def kept(self) -> None:
        """Readings kept on the phone's disk, and bare commits there."""
        with self.phone() as context:
            said: list[str] = []
            context.pages[0].on("console", lambda message: said.append(message.text))
            context.pages[0].goto(self.sites["keeping"].address)
            found = awaited(context.pages[0], lambda: next((line for line in said if line.startswith("KEPT ")), None))
        self.say(Pair(**json.loads(found.removeprefix("KEPT "))).line("a kept reading, bare: a commit", places=2))


def run(starts: int, times: int, out: TextIO) -> int:
    """All of it. starts: warm starts of each app; times: measured taps on each."""
    if importlib.util.find_spec("playwright") is None:
        raise SpanbookError(NEEDS)
    from playwright.sync_api import sync_playwright

    random.seed(7)
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        folder = Path(name)
        sites = {}
        for app, cargo, host in (("ours", Cargo(), "127.0.0.1"), ("bare", BARE, "localhost"), ("keeping", KEEPING, "127.0.0.1")):
            pack(folder / app, say=lambda line: None, cargo=cargo)
            sites[app] = Site(folder / app, host)
        try:
            bench = Bench(playwright, folder, sites, out)
            bench.kept()
            del bench.sites["keeping"]
            bench.run(starts, times)
        finally:
            for site in sites.values():
                site.close()
    return 0


# ---- one page ----------------------------------------------------------------------------------------------------------
def started(page: Page, address: str) -> float:
    """Open it; milliseconds from the address to the picture that then stands still, with no starting page over it."""
    page.goto(address)
    await_view(page)
    page.wait_for_timeout(STILL)
    pictures: list[list[float]] = page.evaluate("() => spanbookBench.pictures")
    still = next(at for at, mark in pictures if mark == pictures[-1][1])
    free = page.evaluate("() => performance.getEntriesByName('spanbook shown')[0].startTime")
    return max(float(still), float(free))


def awaited(page: Page, look: Callable[[], Any], patience: int = LONGEST) -> Any:
    """What `look` gives, once it gives something."""
    for _ in range(patience // 100):
        if found := look():
            return found
        page.wait_for_timeout(100)
    raise SpanbookError(f"What the benchmark waits for did not come within {patience // 1000} s.")


def largest_page(profile: Path) -> float:
    """MB that the page's process of a browser holds: of all its pages' processes the largest; 0 where the system does not tell."""
    words, parents = {}, {}
    for folder in Path("/proc").glob("[0-9]*"):
        try:
            words[folder.name] = (folder / "cmdline").read_text().replace("\0", " ")
            parents[folder.name] = (folder / "stat").read_text().rpartition(")")[2].split()[1]
        except OSError:  # ended meanwhile
            continue

    def ours(process: str) -> bool:
        return bool(process in parents and (f"--user-data-dir={profile} " in words[process] or ours(parents[process])))

    return max((resident_mb(int(p)) for p, said in words.items() if "--type=renderer" in said and ours(p)), default=0.0)
