"""A page in a headless Chromium that a benchmark taps, and whose pictures it looks at. Times are the page's own (hosts/bench_page.js)."""

from __future__ import annotations

import os
import random
import shutil
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from fieldapp.bench_kept import ratio, told
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from playwright.sync_api import Page

NEEDS = "The benchmark of the app needs a browser: pip install 'spanbook[test]', and Chromium (apt install chromium)."
ARGUMENTS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync"]
NAMES = ("chromium", "chromium-browser", "google-chrome")
SCRIPT = Path(__file__).parent / "hosts" / "bench_page.js"
WIDTH, HEIGHT, SCALE = 390, 844, 2
SCREEN: Any = {"viewport": {"width": WIDTH, "height": HEIGHT}, "device_scale_factor": SCALE, "has_touch": True}
PAUSE = (500, 620)
"""Milliseconds between two taps: longer than a button's own ripple."""
LOOK = 25
"""Milliseconds between two looks at whether it is painted; the times are the page's own."""
BLOCK = 10
PATIENCE = 20_000
STILL = 2500
"""Milliseconds after which a page stands still."""
KEEP, AGAIN, SPAN = say("walk.keep"), say("answer.again"), ("4", "1", "7/16")
TURNS = ("9/16", "7/16")
"""Sixteenths of the spans that are kept by turns: both are answered in the same way."""
GLASS = 40
"""From the side of the page to the glass, in whose height the figure stands."""
KEYS = ("1/16", "3/16", "5/16", "7/16", "9/16")
FIGURE_AND_ECHO, IN_PLACE_OF_KEYS = (0, 1), (2,)
Box = tuple[float, float, float, float]


def chromium(playwright: Any) -> str | None:
    """The Chromium of this machine; None: Playwright's own. Raises SpanbookError where there is neither."""
    found = os.environ.get("SPANBOOK_CHROMIUM") or next((p for n in NAMES if (p := shutil.which(n))), None)
    if found is None and not Path(playwright.chromium.executable_path).exists():
        raise SpanbookError(NEEDS)
    return found


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


def await_view(page: Page) -> None:
    """Wait until Flutter is there and no starting page stands over it any more."""
    page.wait_for_selector("flt-semantics-placeholder", state="attached", timeout=4 * PATIENCE)
    page.wait_for_selector("#start", state="detached", timeout=4 * PATIENCE)


def spoken(page: Page) -> None:
    """Let the page tell where its parts lie."""
    page.evaluate("() => document.querySelector('flt-semantics-placeholder').click()")
    page.wait_for_selector("flt-semantics[role=button]", state="attached", timeout=PATIENCE)
    page.wait_for_timeout(1000)


def begin(page: Page) -> str:
    """From the list of jobs to the sample's first bay, and somebody who tapes it; the address of that bay."""
    spoken(page)
    page.get_by_role("button", name=say("jobs.sample"), exact=True).click()
    page.get_by_role("heading", name=say("samples.title")).wait_for(timeout=PATIENCE)
    page.get_by_role("button", name=say("samples.fresh_name", name=""), exact=False).first.click()
    page.locator('[flt-semantics-identifier="question"]').wait_for(state="attached", timeout=PATIENCE)
    for name in (*SPAN, KEEP):
        page.get_by_role("button", name=name, exact=True).click()
    page.get_by_role("textbox").click()
    page.keyboard.type("M", delay=40)
    page.keyboard.press("Enter")
    page.get_by_role("button", name=AGAIN, exact=True).click(timeout=PATIENCE)
    page.get_by_role("button", name=KEYS[0], exact=True).wait_for(state="attached", timeout=PATIENCE)
    page.wait_for_timeout(STILL)  # until the phone remembers it
    return page.url


def bare_tab(page: Page) -> Tab:
    """The bare app's one figure, looked at as often as the three regions of the walk."""
    spoken(page)
    at, figure = {"7": _middle(page, "7")}, _box(page, '[flt-semantics-identifier="entry"]')
    shown = (0.0, 0.0, max(figure[2], 200), figure[1] + figure[3])
    return Tab(page, at, _silent(page, [shown] * 3))


def walk_tab(page: Page) -> Tab:
    """Watched: the figure across its glass, what lies between it and the keys, and the keys, in whose place the verdict comes."""
    spoken(page)
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


def _box(page: Page, selector: str) -> Box:
    box = page.locator(selector).bounding_box(timeout=PATIENCE)
    assert box is not None
    return box["x"], box["y"], box["width"], box["height"]


def _middle(page: Page, name: str) -> tuple[float, float]:
    button = page.get_by_role("button", name=name, exact=True)
    box = button.bounding_box(timeout=PATIENCE)
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def _silent(page: Page, regions: Sequence[Box]) -> list[Box]:
    """Load it anew without the tree that screen readers need, and watch these regions; they come back in pixels."""
    page.reload()
    await_view(page)
    page.wait_for_timeout(STILL)
    watched: list[Box] = [tuple(v * SCALE for v in box) for box in regions]  # type: ignore[misc]
    page.evaluate("rects => spanbookBench.watch(rects)", watched)
    return watched


def taps(walk: Tab, bare: Tab, times: int) -> tuple[str, str]:
    """Two lines: a key of the walk, and Keep, each beside a tap on the bare app, in shuffled blocks."""
    tabs = {"bare": (bare, ("7",)), "walk": (walk, KEYS)}
    walk.touch(*SPAN[:-1])
    for number in range(-(-times // BLOCK) + 1):
        for name in random.sample(list(tabs), len(tabs)):
            tab, keys = tabs[name]
            tab.page.bring_to_front()
            took = [tab.tap(tab.other(keys)) for _ in range(BLOCK if number else 3)]
            tab.took += took if number else []  # the first block warms up
    base, ours = bare.took, walk.took
    key = f"tap to painted figure and echo: {told(ours)}; bare {told(base)}; {ratio(ours, base)} × its median"
    kept = _keeps(walk, max(10, times // 3))
    return key, f"Keep to painted verdict: {told(kept)}; {ratio(kept, base)} × a bare tap"


def _keeps(tab: Tab, times: int) -> list[float]:
    """Keep one span and the other by turns, so that each answer has to be drawn anew."""
    tab.page.bring_to_front()
    tab.touch(SPAN[-1], KEEP, AGAIN)
    took = []
    for number in range(times + 1):
        tab.touch(*SPAN[:-1], TURNS[number % 2])
        measured = tab.tap(KEEP, IN_PLACE_OF_KEYS)
        took += [measured] if number else []
        tab.touch(AGAIN)
    return took
