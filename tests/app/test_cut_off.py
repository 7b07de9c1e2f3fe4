"""A connection that is cut or frozen is said on the page; afterwards the page shows the truth and takes taps again."""

import json
import os

import pytest
from playwright.sync_api import expect

from fieldapp.words import say
from tests.app.cuttable_line import CuttableLine
from tests.app.hand import SLOW, Hand
from tests.fieldapp.browser import Tab
from tests.fieldapp.deck_file import deck_file

SECONDS = (5, 60) if os.environ.get("SPANBOOK_LONG_CUTS") else (5,)
"""How long the line is away; the minute only where the environment asks for it."""


@pytest.fixture
def line(served):
    with CuttableLine(served.port) as found:
        yield found


@pytest.mark.parametrize("seconds", SECONDS)
@pytest.mark.parametrize("how", ["cut", "freeze"])
def test_a_line_that_is_away_is_said_and_afterwards_the_truth_stands_there(browser, served, line, tmp_path, how, seconds):
    file = tmp_path / "deck.json"
    file.write_text(json.dumps(deck_file("in")))
    page = Tab(browser, f"http://127.0.0.1:{line.port}/", may_fail=True).open()
    hand = Hand(page)
    hand.give(file)
    hand.type("40")

    band = page.page.locator("#no-connection")
    line.cut() if how == "cut" else line.freeze()
    expect(band).to_be_visible(timeout=SLOW)
    expect(band).to_have_text(say("page.no_connection"))
    page.page.wait_for_timeout(seconds * 1000)
    expect(band).to_be_visible()
    line.mend() if how == "cut" else line.thaw()

    expect(band).to_be_hidden(timeout=SLOW)
    hand.come_back()
    expect(page.marked("entry")).to_contain_text("40", timeout=SLOW)
    hand.tap("7/16")
    expect(page.marked("entry")).to_contain_text("40 7/16", timeout=SLOW)
    page.close()
