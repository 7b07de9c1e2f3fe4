"""What a hand does on the phone: taps with a finger, types a figure on the app's own keys, saves files."""

from __future__ import annotations

import contextlib
import re
from pathlib import Path
from urllib.parse import unquote, urlsplit

from playwright.sync_api import Error, Locator, expect

from fieldapp.words import say
from tests.fieldapp.browser import Tab

SLOW = 20_000
"""Milliseconds that a tap's outcome may take on a busy machine: a bound for hanging, no measure."""


def name_of(part: Locator) -> str:
    """What a person hears for it, in one line."""
    return " ".join((part.get_attribute("aria-label") or part.inner_text()).split())


class Hand:
    """One finger on one page. taps: how often it tapped."""

    def __init__(self, tab: Tab) -> None:
        self.tab, self.taps = tab, 0

    def tap(self, *names: str | re.Pattern[str]) -> None:
        """Touch the buttons of these names, or whose names are like this, one after the other."""
        for name in names:
            button = self.tab.button(name)
            expect(button).to_be_attached(timeout=SLOW)
            for _ in range(3):  # the page may set up its tree anew just now
                with contextlib.suppress(Error):
                    button.scroll_into_view_if_needed(timeout=SLOW)
                    break
            self.touch(button)
            self.taps += 1

    def touch(self, part: Locator) -> None:
        part.tap()

    def type(self, figure: str) -> None:
        """A figure on the app's own keys, each awaited on the screen: `41 11/16`, `1027,5`, `0`."""
        whole, _, sixteenth = figure.rpartition(" ") if "/" in figure else (figure, "", "")
        shown = ""
        for sign in whole:
            self.tap(say("walk.comma_says") if sign == "," else sign)
            shown += sign
            expect(self.tab.marked("entry")).to_contain_text(shown, timeout=SLOW)
        if sixteenth:
            self.tap(sixteenth)
            expect(self.tab.marked("entry")).to_contain_text("/", timeout=SLOW)

    def write(self, label: str, words: str) -> None:
        """Write into a field on the phone's own keyboard."""
        field = self.tab.page.get_by_role("textbox", name=label)
        self.touch(field)
        expect(field).to_be_focused(timeout=SLOW)
        self.tab.page.wait_for_timeout(500)  # the page's keyboard comes a little after the field has the caret
        self.tab.page.keyboard.type(words, delay=60)
        expect(field).to_have_value(words, timeout=SLOW)

    def keep(self) -> str:
        """Keep, and the verdict's word."""
        self.tap(say("walk.keep"))
        return self.verdict()

    def verdict(self) -> str:
        expect(self.tab.marked("verdict")).to_be_attached(timeout=SLOW)
        return self.tab.marked("verdict").inner_text()

    def buttons(self) -> list[str]:
        """What can be tapped, by its spoken names, in the order of the page."""
        return [name_of(one) for one in self.tab.page.get_by_role("button").all()]

    def placed(self) -> str:
        """The bay that is asked for."""
        return self.tab.marked("place").inner_text()

    def job_file(self) -> str:
        """The name of the job's own file, as the order offers it."""
        return next(name for name in self.buttons() if name.endswith(".json") and not name.startswith("order."))

    def asked(self) -> str:
        """The question that stands there."""
        expect(self.tab.marked("question")).to_be_attached(timeout=SLOW)
        return self.tab.marked("question").inner_text()

    def sees(self, words: str) -> None:
        expect(self.tab.page.get_by_text(words).first).to_be_attached(timeout=SLOW)

    def save(self, name: str, folder: Path) -> Path:
        """Tap a file's name; where it was saved."""
        with self.tab.page.expect_download(timeout=SLOW) as waiting:
            self.tap(name)
        found = folder / waiting.value.suggested_filename
        waiting.value.save_as(found)
        return found

    def give(self, path: Path) -> None:
        """Open a job file from the front page."""
        with self.tab.page.expect_file_chooser(timeout=SLOW) as waiting:
            self.tap(say("jobs.file"))
        waiting.value.set_files(path)

    def come_back(self) -> None:
        """Wait until the page, which started anew by itself or did not have to, tells what it shows."""
        asks = self.tab.page.locator("flt-semantics-placeholder, flt-semantics[role=button]").first
        for _ in range(3):
            expect(asks).to_be_attached(timeout=SLOW)
            with contextlib.suppress(Error):  # it starts anew at this very moment
                self.tab.page.evaluate("() => document.querySelector('flt-semantics-placeholder')?.click()")
            self.tab.page.wait_for_timeout(1500)
        expect(self.tab.page.locator("flt-semantics[role=button]").first).to_be_attached(timeout=SLOW)

    @property
    def job(self) -> str:
        """The id of the job whose address stands in the browser."""
        return unquote(urlsplit(self.tab.page.url).path).split("/")[2]
