"""Every page as it stands in a real browser: what can be tapped is named, large enough and there once; nothing runs off its side."""

import re
from collections import Counter

import pytest
from playwright.sync_api import expect

from fieldapp.theme import KEY, TOUCH
from tests.app.book import PAGES, fill
from tests.app.hand import SLOW
from tests.fieldapp.browser import PHONE, Served, Tab

SIXTEENTH_OR_DIGIT = re.compile(r"\d|\d{1,2}/16")
LONG = 3600
AWAY = 0.6
"""Pixels by which a box may miss its measure: half a pixel of the screen, and rounding."""
BOXES = """() => [...document.querySelectorAll('flt-semantics')].filter(e => e.getAttribute('role') || (!e.querySelector('flt-semantics') && e.textContent))
  .map(e => { const r = e.getBoundingClientRect();
    return {button: e.getAttribute('role') === 'button', name: (e.getAttribute('aria-label') || e.textContent || '').trim().replace(/\\s+/g, ' '),
            inside: !!e.querySelector('flt-semantics[role=button]'), x: r.x, y: r.y, w: r.width, h: r.height}; })"""


class Reader:
    """A phone, and one of great length, that go through the pages of a filled book."""

    def __init__(self, short: Tab, long: Tab, jobs: dict[str, str], big: bool) -> None:
        self.short, self.long, self.jobs, self.big = short, long, jobs, big

    def boxes(self, page: str) -> list[dict]:
        """What is named there, with its box, once the page stands still. Scrolled work is seen whole on a phone of great length."""
        self.tab = self.short if page.startswith("walk") and not self.big else self.long
        address = PAGES[page].format(**self.jobs)
        self.tab.open(address)
        expect(self.tab.page.locator("flt-semantics[role=button]").first).to_be_attached(timeout=SLOW)
        before: list[dict] = []
        for _ in range(20):
            self.tab.page.wait_for_timeout(400)
            now = self.tab.page.evaluate(BOXES)
            if now == before:
                self.tab.at(address)  # a page that is not there shows the list of jobs
                return now
            before = now
        raise AssertionError(f"{page} does not come to rest")


@pytest.fixture(scope="module", params=[1.0, 2.0], ids=["letters as usual", "letters twice as large"])
def reader(request, browser, tmp_path_factory):
    folder = tmp_path_factory.mktemp("pages") / "book"
    jobs = fill(folder, text=request.param)
    with Served(folder) as served:
        tabs = Tab(browser, served.address), Tab(browser, served.address, (PHONE[0], LONG))
        yield Reader(*tabs, jobs, request.param > 1)
        for tab in tabs:
            tab.close()


@pytest.mark.parametrize("page", PAGES)
def test_what_is_tapped_is_named_large_enough_and_there_once_and_nothing_runs_off_the_side(reader, page):
    boxes = reader.boxes(page)
    buttons = [b for b in boxes if b["button"]]
    assert [b for b in buttons if not b["name"]] == []
    assert [name for name, times in Counter(b["name"] for b in buttons).items() if times > 1] == []
    least = {True: KEY, False: TOUCH}
    key = {id(b): SIXTEENTH_OR_DIGIT.fullmatch(b["name"]) is not None for b in buttons}
    small = [(b["name"], b["w"], b["h"]) for b in buttons if b["h"] < least[key[id(b)]] - AWAY or b["w"] < TOUCH - AWAY]
    assert small == []
    assert [(b["name"], b["x"], b["w"]) for b in boxes if b["x"] < -AWAY or b["x"] + b["w"] > PHONE[0] + AWAY] == []
