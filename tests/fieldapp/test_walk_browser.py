"""The walk in a real browser at 390 × 844, with fingers."""

import re

from playwright.sync_api import expect

from fieldapp.words import say
from tests.fieldapp.browser import Tab


def touch(page: Tab, *names: str) -> None:
    """A finger on each, one after the other."""
    for name in names:
        page.button(name).tap()


def shows(page: Tab, mark: str, words: str) -> None:
    expect(page.marked(mark)).to_have_text(re.compile(words), timeout=30_000)




def named(page: Tab, name: str) -> None:
    """Write who measures."""
    page.page.get_by_role("textbox").click()
    page.page.keyboard.type(name, delay=40)


def open_sample(page: Tab) -> None:
    """Two taps: to the samples, and into the one that nobody taped yet."""
    touch(page, say("jobs.sample"))
    page.at("/samples")
    page.page.wait_for_timeout(500)  # a tap on a page that only just came is lost
    page.page.get_by_role("button", name=re.compile("to try")).tap()
    shows(page, "question", "^span")


def test_a_new_person_keeps_the_first_span_in_three_taps_and_the_digits(tab):
    page = tab()
    open_sample(page)
    touch(page, "4", "1", "8/16", "Keep")
    named(page, "Kit")
    page.page.keyboard.press("Enter")
    shows(page, "verdict", "^clear$")
    shows(page, "place", "^A1$")


def test_span_rise_answer_and_next_with_fingers_and_keyboard(tab, served):
    page = tab(may_fail=True)
    open_sample(page)
    touch(page, "4", "2", "12/16", "Keep")
    named(page, "Kit")
    touch(page, say("walk.who_mine"))
    shows(page, "verdict", "^query$")
    shows(page, "finding", "1 in mark")
    touch(page, "It was 41 3/4 in")
    shows(page, "verdict", "^clear$")
    touch(page, "Next")
    shows(page, "question", "^rise")
    touch(page, "right higher", "6/16", "Keep")
    shows(page, "finding", "^Panel 43 1/16 in wide, 38 in high, rack 3/8 in, right end high")
    touch(page, "Next")
    shows(page, "place", "^A2$")
    page.page.keyboard.type("3 ft 5 1/2", delay=60)
    shows(page, "entry", "^3 ft 5 1/2$")
    page.page.keyboard.press("Enter")
    shows(page, "verdict", "^clear$")
    touch(page, "Next", "level")
    shows(page, "entry", "^0 in$")
    touch(page, "Keep", "Next", "4", "1", "7/16")
    shows(page, "entry", "^41 7/16 in$")
    page.page.wait_for_timeout(300)
    served.kill()
    with page.reloading():
        served.start()
    shows(page, "place", "^A3$")
    shows(page, "entry", "^41 7/16 in$")
    touch(page, "Keep")
    shows(page, "verdict", "^clear$")
