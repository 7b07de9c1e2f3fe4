"""The plan of a measured job is changed on a phone: the verdict that comes of it is seen first, then kept under a name, then in the review."""

import asyncio
from concurrent.futures import ThreadPoolExecutor

import pytest
from playwright.sync_api import expect

from fieldapp.words import say
from tests.fieldapp.browser import PHONE, Served, Tab
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import opened
from tests.fieldapp.test_plan_effects import taped

SLOW = 20_000


@pytest.fixture
def measured(tmp_path, browser):
    """A phone in the plan of a job whose run A is taped and clear."""
    folder = tmp_path / "book"
    folder.mkdir()

    async def begin():
        with opened(folder) as desk:
            await desk.keep_setting("here person", "Mona")
            return await desk.add_job(taped(deck_file(), "A1", "A2", "A3", "A4"))

    with ThreadPoolExecutor(1) as other:  # a browser's loop runs in this thread
        id = other.submit(asyncio.run, begin()).result()
    with Served(folder) as served:
        tab = Tab(browser, served.address, PHONE)
        tab.open(f"job/{id}/plan")
        yield tab, id, folder
        tab.close()


def test_another_spacing_of_a_taped_bay_becomes_a_query_once_it_is_kept(measured):
    tab, id, folder = measured
    tab.tap("run A 4 × 43 in, wall to corner", "A2 43 in")
    expect(tab.marked("entry")).to_contain_text("43", timeout=SLOW)
    tab.tap(say("walk.erase"), say("walk.erase"), "4", "2", say("walk.keep"))
    expect(tab.button("A2 42 in")).to_be_attached(timeout=SLOW)
    tab.tap(say("change.so"))
    tab.sees("A2: spacing 42 in.")
    tab.tap(say("change.see"))
    tab.sees(say("change.differ", n=1))
    tab.sees(say("change.place_was", place="A2", was=say("change.sign_clear")))
    tab.tap(say("change.keep"))
    tab.at(f"job/{id}/review")
    tab.sees("15/16 in longer than planned")
    with opened(folder) as desk:
        assert [kept.version.by for kept in desk.plan_versions(id)] == ["", "Mona"]
        assert len(desk.words(id)["readings"]) == 12


def test_a_change_that_was_begun_is_there_again_after_the_page_was_left(measured):
    tab, id, _ = measured
    tab.tap("A3, panel", say("change.glass_none"))
    tab.sees("A3: no glass, was panel.")
    tab.open("settings")
    tab.open(f"job/{id}/plan")
    tab.sees("A3: no glass, was panel.")
    tab.tap(say("change.drop"))
    tab.sees(say("change.nothing"))
