"""`spanbook bench app`: the touch app by real pixels in a headless Chromium, beside a bare Flet counter app of the same run.

Needs Playwright and a Chromium, which come with the `test` extra. Taps are rested: half a second and more between two of them.
"""

from __future__ import annotations

import importlib.util
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

from fieldapp.bench_kept import on_disk, ratio, resident_mb, told
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

NEEDS = "The benchmark of the app needs a browser: pip install 'spanbook[test]', and Chromium (apt install chromium)."
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync"]
NAMES = ("chromium", "chromium-browser", "google-chrome")
SCRIPT = Path(__file__).parent / "hosts" / "bench_page.js"
WIDTH, HEIGHT, SCALE = 390, 844, 2
PAUSE = (500, 620)
"""Milliseconds between two taps: longer than a button's own ripple."""
LOOK = 25
"""Milliseconds between two looks at whether it is painted; the times are the page's own."""
BLOCK = 10
PATIENCE = 20_000
KEEP, AGAIN, SPAN = say("walk.keep"), say("answer.again"), ("4", "1", "7/16")
STILL = 2500
"""Milliseconds after which a page stands still."""
GLASS = 40
"""From the side of the page to the glass, in whose height the figure stands."""
KEYS = ("1/16", "3/16", "5/16", "7/16", "9/16")
PHONES = 5
FIGURE_AND_ECHO, IN_PLACE_OF_KEYS = (0, 1), (2,)
Box = tuple[float, float, float, float]


@dataclass
class Tab:
    """An open page that is tapped. at: the middle of each key; regions: x, y, width, height, in pixels of the picture."""

    page: Page
    at: dict[str, tuple[float, float]]
    regions: list[Box]
    took: list[float] = field(default_factory=list)
    last: str = ""

    def touch(self, *names: str) -> None:
        """Tap without measuring, rested."""
        for name in names:
            self.page.wait_for_timeout(PAUSE[1])
            self.page.touchscreen.tap(*self.at[name])

    def tap(self, name: str, which: Sequence[int] = FIGURE_AND_ECHO) -> float:
        """Milliseconds from the finger's touch to the picture in which each of these regions has changed."""
        self.page.wait_for_timeout(random.randint(*PAUSE))
        self.page.evaluate("which => spanbookBench.arm(which)", list(which))
        self.page.touchscreen.tap(*self.at[name])
        for _ in range(PATIENCE // LOOK):
            self.page.wait_for_timeout(LOOK)
            down, painted = self.page.evaluate("() => [spanbookBench.down, spanbookBench.painted]")
            if painted:
                return float(painted - down)
        raise SpanbookError(f"A tap on {name} was not painted within {PATIENCE // 1000} s; {'it was felt' if down else 'it was not felt'}.")

    def other(self, names: Sequence[str]) -> str:
        """Another key than the one before: the same one twice changes nothing."""
        self.last = random.choice([n for n in names if n != self.last] or list(names))
        return self.last


def run(taps: int, out: TextIO) -> int:
    """All of it. taps: measured taps on each page."""
    if importlib.util.find_spec("playwright") is None:
        raise SpanbookError(NEEDS)
    from playwright.sync_api import sync_playwright

    random.seed(7)
    with tempfile.TemporaryDirectory() as name:
        with sync_playwright() as playwright, _browser(playwright) as browser:
            _in_browser(browser, Path(name) / "book", taps, out)
        on_disk(Path(name), taps * 5, out)  # a loop of its own, once the browser's has ended
    return 0


def _in_browser(browser: Browser, folder: Path, taps: int, out: TextIO) -> None:
    walk = _fill(folder)
    ours = ("fieldapp.command", "--port", "0", "--data", str(folder), "--no-browser")
    with _started(*ours) as (app, app_pid), _started("fieldapp.hosts.bare") as (bare, bare_pid):
        _first_pages(browser, app + walk, bare, max(3, taps // 10), out)
        _taps(browser, app + walk, bare, taps, out)
        _phones(browser, (("the app", app + walk, app_pid), ("bare", bare, bare_pid)), out)


# ---- what is started ---------------------------------------------------------------------------------------------------
@contextmanager
def _browser(playwright: Any) -> Iterator[Browser]:
    found = os.environ.get("SPANBOOK_CHROMIUM") or next((p for n in NAMES if (p := shutil.which(n))), None)
    if found is None and not Path(playwright.chromium.executable_path).exists():
        raise SpanbookError(NEEDS)
    browser = playwright.chromium.launch(executable_path=found, args=ARGUMENTS)
    try:
        yield browser
    finally:
        browser.close()


@contextmanager
def _started(*command: str) -> Iterator[tuple[str, int]]:
    """Run a module that tells its address; the address without its last stroke, and the process's number."""
    process = subprocess.Popen([sys.executable, "-m", *command], stdout=subprocess.PIPE, text=True)
    try:
        assert process.stdout is not None
        _, at, address = process.stdout.readline().partition(" is at ")
        if not at:
            raise SpanbookError(f"{command[0]} did not start; what it said stands above.")
        yield address.strip().rstrip("/"), process.pid
    finally:
        process.terminate()
        process.wait(20)


def _fill(folder: Path) -> str:
    """A book with a sample to tape and somebody who tapes it; the address of its first bay."""
    from fieldapp.samples import samples
    from fieldapp.screens import samples_model
    from measure.documents import read_job
    from measure.store import Store

    folder.mkdir()
    with Store.open(folder) as store:
        job = store.merge(None, read_job(samples_model.chosen(samples(), samples_model.FRESH)).as_dict()).job
        store.set_setting("here person", "M")
        return f"/job/{job}/walk/A1"


def _open(browser: Browser, address: str) -> Page:
    context = browser.new_context(viewport={"width": WIDTH, "height": HEIGHT}, device_scale_factor=SCALE, has_touch=True)
    context.add_init_script(path=SCRIPT)
    page = context.new_page()
    page.goto(address)
    page.wait_for_selector("flt-semantics-placeholder", state="attached", timeout=4 * PATIENCE)
    return page


# ---- taps --------------------------------------------------------------------------------------------------------------
def _box(page: Page, selector: str) -> Box:
    box = page.locator(selector).bounding_box(timeout=PATIENCE)
    assert box is not None
    return box["x"], box["y"], box["width"], box["height"]


def _middle(page: Page, name: str) -> tuple[float, float]:
    button = page.get_by_role("button", name=name, exact=True)
    box = button.bounding_box(timeout=PATIENCE)
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def _spoken(page: Page) -> None:
    """Let the page tell where its parts lie."""
    page.evaluate("() => document.querySelector('flt-semantics-placeholder').click()")
    page.wait_for_selector("flt-semantics[role=button]", state="attached", timeout=PATIENCE)
    page.wait_for_timeout(1000)


def _silent(page: Page, regions: Sequence[Box]) -> list[Box]:
    """Load it anew without the tree that screen readers need, and watch these regions; they come back in pixels."""
    page.reload()
    page.wait_for_selector("flt-semantics-placeholder", state="attached", timeout=4 * PATIENCE)
    page.wait_for_timeout(2500)
    watched: list[Box] = [tuple(v * SCALE for v in box) for box in regions]  # type: ignore[misc]
    page.evaluate("rects => spanbookBench.watch(rects)", watched)
    return watched


def _bare_tab(browser: Browser, address: str) -> Tab:
    """Its one figure, looked at as often as the three regions of the walk."""
    page = _open(browser, address)
    _spoken(page)
    at, figure = {"7": _middle(page, "7")}, _box(page, '[flt-semantics-identifier="entry"]')
    shown = (0.0, 0.0, max(figure[2], 200), figure[1] + figure[3])
    return Tab(page, at, _silent(page, [shown] * 3))


def _walk_tab(browser: Browser, address: str) -> Tab:
    """Watched: the figure across its glass, what lies between it and the keys, and the keys, in whose place the verdict comes."""
    page = _open(browser, address)
    _spoken(page)
    at = {name: _middle(page, name) for name in (*KEYS, *SPAN, KEEP)}
    _, y, _, h = _box(page, '[flt-semantics-identifier="entry"]')
    top = at["1"][1] - 32
    tab = Tab(page, at, [])
    tab.touch(*SPAN, KEEP)
    at[AGAIN] = _middle(page, AGAIN)
    tab.touch(AGAIN)
    tab.page.wait_for_timeout(PAUSE[1])
    tab.regions = _silent(page, [(GLASS, y, WIDTH - 2 * GLASS, h), (0, y + h + 40, WIDTH, top - y - h - 48), (0, top, WIDTH, 300)])
    return tab


def _taps(browser: Browser, walk: str, bare: str, taps: int, out: TextIO) -> None:
    tabs = {"bare": (_bare_tab(browser, bare), ("7",)), "walk": (_walk_tab(browser, walk), KEYS)}
    tabs["walk"][0].touch(*SPAN[:-1])
    for number in range(-(-taps // BLOCK) + 1):
        for name in random.sample(list(tabs), len(tabs)):
            tab, keys = tabs[name]
            tab.page.bring_to_front()
            took = [tab.tap(tab.other(keys)) for _ in range(BLOCK if number else 3)]
            tab.took += took if number else []  # the first block warms up
    base, ours = tabs["bare"][0].took, tabs["walk"][0].took
    out.write(f"tap to painted figure and echo: {told(ours)}; bare {told(base)}; {ratio(ours, base)} × its median\n")
    out.flush()
    kept = _keeps(tabs["walk"][0], max(10, taps // 3))
    out.write(f"Keep to painted verdict: {told(kept)}; {ratio(kept, base)} × a bare tap\n")
    out.flush()
    for tab, _ in tabs.values():
        tab.page.context.close()


def _keeps(tab: Tab, times: int) -> list[float]:
    """Keep the same span again and again."""
    tab.page.bring_to_front()
    tab.touch(SPAN[-1], KEEP, AGAIN)
    took = []
    for number in range(times + 1):
        tab.touch(*SPAN)
        measured = tab.tap(KEEP, IN_PLACE_OF_KEYS)
        took += [measured] if number else []
        tab.touch(AGAIN)
    return took


# ---- first pages, phones -----------------------------------------------------------------------------------------------
def _first_pages(browser: Browser, walk: str, bare: str, times: int, out: TextIO) -> None:
    """From the address to the picture that then stands still; each time in a profile of its own, nothing in its cache."""
    took: dict[str, list[float]] = {walk: [], bare: []}
    for _ in range(times):
        for address in random.sample(list(took), len(took)):
            page = _open(browser, address)
            page.wait_for_timeout(STILL)
            pictures: list[list[float]] = page.evaluate("() => spanbookBench.pictures")
            took[address].append(next(at for at, mark in pictures if mark == pictures[-1][1]))
            page.context.close()
    out.write(f"first page: {told(took[walk])}; bare {told(took[bare])}; {ratio(took[walk], took[bare])} × its median\n")
    out.flush()


def _phones(browser: Browser, servers: Sequence[tuple[str, str, int]], out: TextIO) -> None:
    """Memory of each server, in all and for every further open page."""
    for name, address, process in servers:
        before = resident_mb(process)
        pages = [_open(browser, address) for _ in range(PHONES)]
        pages[-1].wait_for_timeout(STILL)
        after = resident_mb(process)
        out.write(f"memory of {name}: {after:.0f} MB with {PHONES} more phones, {(after - before) / PHONES:.1f} MB a phone\n")
        out.flush()
        for page in pages:
            page.context.close()
