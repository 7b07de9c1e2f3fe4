"""Every page as it stands in a real browser: what can be tapped is named, large enough and there once; nothing runs off its side;
words stand out seven to one from what they stand on."""

import io
import re
from collections import Counter

import pytest
from PIL import Image
from playwright.sync_api import expect

from fieldapp.screens import ROUTES
from fieldapp.screens.route import find
from fieldapp.theme import KEY, TOUCH
from tests.app.book import ELSEWHERE, PAGES, fill
from tests.app.hand import SLOW
from tests.fieldapp.browser import PHONE, Chromium, Served, Tab
from tests.fieldapp.test_theme import contrast

SIXTEENTH_OR_DIGIT = re.compile(r"\d|\d{1,2}/16")
LONG = 3600
FOOT = 24
"""Room around the actions at the foot, in logical pixels."""
SILENT = ("img", "textbox", "group")
"""Boxes without words of their own: the words in a drawing and in a field are inks of the theme, whose contrast is proved in tests/fieldapp."""
AWAY = 0.6
"""Pixels by which a box may miss its measure: half a pixel of the screen, and rounding."""
BOXES = """() => [...document.querySelectorAll('flt-semantics')].filter(e => e.getAttribute('role') || (!e.querySelector('flt-semantics') && e.textContent))
  .map(e => { const r = e.getBoundingClientRect();
    return {role: e.getAttribute('role') || '', leaf: !e.querySelector('flt-semantics'), button: e.getAttribute('role') === 'button', name: (e.getAttribute('aria-label') || e.textContent || '').trim().replace(/\\s+/g, ' '),
            inside: !!e.querySelector('flt-semantics[role=button]'), x: r.x, y: r.y, w: r.width, h: r.height}; })"""


class Reader:
    """A phone, and one of great length, that go through the pages of a filled book."""

    def __init__(self, chromium: Chromium, address: str, jobs: dict[str, str], big: bool) -> None:
        self.chromium, self.address, self.jobs, self.big = chromium, address, jobs, big
        self.open()

    def open(self) -> None:
        self.browser = self.chromium.living()
        self.short, self.long = (Tab(self.browser, self.address, size) for size in (PHONE, (PHONE[0], LONG)))

    def close(self) -> None:
        for tab in (self.short, self.long):
            tab.close()

    def boxes(self, page: str) -> list[dict]:
        """What is named there, with its box, once the page stands still. Scrolled work is seen whole on a phone of great length."""
        if not self.browser.is_connected():
            self.open()
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
                self.look()
                return now
            before = now
        raise AssertionError(f"{page} does not come to rest")


    def look(self) -> None:
        """The page as it is seen now."""
        self.picture = Image.open(io.BytesIO(self.tab.page.screenshot())).convert("RGB")


@pytest.fixture(
    scope="module", params=[(1.0, "sun"), (2.0, "shade")], ids=["letters as usual, in the sun", "letters twice as large, in the shade"]
)
def reader(request, chromium, tmp_path_factory):
    folder = tmp_path_factory.mktemp("pages") / "book"
    text, theme = request.param
    jobs = fill(folder, text=text, theme=theme)
    with Served(folder) as served:
        one = Reader(chromium, served.address, jobs, text > 1)
        yield one
        one.close()


def test_every_screen_is_looked_at():
    opened = {find(ROUTES, address.replace("{", "").replace("}", ""))[0] for address in PAGES.values()}
    assert set(ROUTES) - opened == set(ELSEWHERE)


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
    high = reader.picture.height * PHONE[0] / reader.picture.width
    foot = min((b["y"] for b in buttons if b["y"] + b["h"] > high - FOOT), default=high)
    whole = [b for b in boxes if b["leaf"] and b["role"] not in SILENT and not b["y"] < foot < b["y"] + b["h"] + FOOT]  # not cut by it
    for _ in range(3):  # what was touched a moment ago may still be fading
        faint = [(b["name"], seen) for b in whole if (seen := standing_out(reader.picture, b)) < 7]
        if not faint:
            break
        reader.tab.page.wait_for_timeout(700)
        reader.look()
    assert faint == []


def standing_out(picture: Image.Image, box: dict) -> float:
    """How far the ink inside a box stands out from its ground, as WCAG 2.1 reckons it: the commonest colour there is the ground, of the
    others the one that stands out most is the ink (the rest are its edges). 21 where nothing of it is seen."""
    zoom = picture.width / PHONE[0]
    left, top, right, bottom = (round(v * zoom) for v in (box["x"], box["y"], box["x"] + box["w"], box["y"] + box["h"]))
    seen = max(left, 0), max(top, 0), min(right, picture.width), min(bottom, picture.height)
    if seen[0] >= seen[2] or seen[1] >= seen[3]:
        return 21
    found = sorted(picture.crop(seen).getcolors(picture.width * picture.height) or [], reverse=True)
    if len(found) < 2:
        return 21
    ground, *inks = (f"#{red:02X}{green:02X}{blue:02X}" for _, (red, green, blue) in found)
    return max(contrast(ink, ground) for ink in inks)
