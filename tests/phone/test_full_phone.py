"""A phone whose disk is really full: it says so, claims nothing that it did not do, loses nothing, and goes on once there is room."""

import json
import re

import pytest
from playwright.sync_api import expect

from fieldapp.words import say
from tests.phone.handset import named, started, tap
from tests.phone.in_the_browser import WAYS, keeps_as, kept
from tests.phone.small_disk import MEGA
from tests.phone.test_versions import next_version
from tests.phone.test_whole_app import keys, open_sample


@pytest.mark.parametrize("way", WAYS)
def test_a_reading_without_room_is_not_called_kept_and_the_same_tap_keeps_it_once_there_is_room(
    small_phone, disk, serve, whole_app, way, tmp_path
):
    site = serve(whole_app)
    keeps_as(site, way)
    page = small_phone.start(site.address)
    open_sample(page, "to try")
    expect(named(page, "question")).to_contain_text("span", timeout=30_000)
    keys(page, "4", "1", "11/16", "Keep")
    page.get_by_role("textbox").click()
    page.keyboard.type("Kit", delay=40)
    page.keyboard.press("Enter")
    expect(named(page, "verdict")).to_have_text("clear", timeout=30_000)
    tap(page, "Next")
    expect(page.get_by_role("button", name="left higher", exact=True)).to_be_visible(timeout=30_000)
    asked = named(page, "question").inner_text()
    keys(page, "1", "left higher")
    expect(named(page, "entry")).to_have_text(re.compile("1 in"))
    with disk.full():
        tap(page, "Keep")
        expect(named(page, "told")).to_have_text(re.compile("Make room"), timeout=30_000)
        assert named(page, "question").inner_text() == asked
        expect(named(page, "entry")).to_have_text(re.compile("1 in"))
    tap(page, "Keep")
    expect(page.get_by_role("button", name="Rise again", exact=True)).to_be_visible(timeout=30_000)
    db = kept(page, site, way, tmp_path / "kept.db")
    assert db.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    found = [json.loads(words) for (words,) in db.execute("SELECT words FROM reading ORDER BY seq")]
    assert [(said["bay"], said["what"], said["value"]) for said in found] == [("A1", "span", "41 11/16"), ("A1", "rise", "1")]


def used(page):
    """Bytes that the browser counts for this address."""
    return page.evaluate("navigator.storage.estimate().then((said) => said.usage)")


def test_without_room_for_the_tool_it_opens_with_signal_and_says_so_until_there_is_room(small_phone, disk, serve, whole_app):
    site, page = serve(whole_app), small_phone.page
    page.goto(site.address + "manifest.json")
    disk.fill(leave=25 * MEGA)
    small_phone.start(site.address)
    expect(page.get_by_text(say("phone.room_under"))).to_be_visible(timeout=30_000)
    assert used(page) < 5 * MEGA, "half the tool takes no room from the jobs"
    disk.make_room()
    page.reload()
    started(page)
    expect(page.get_by_role("button", name=say("jobs.start"))).to_be_visible()
    expect(page.get_by_text(say("phone.room_under"))).to_have_count(0)
    whole = used(page)
    disk.fill(leave=20 * MEGA)
    next_version(site)
    page.goto(site.address + "#/this-phone")
    expect(page.get_by_text(say("phone.newer_no_room"))).to_be_visible(timeout=60_000)
    expect(page.get_by_text(say("phone.ready"))).to_be_visible()
    assert used(page) < whole + 5 * MEGA, "half a newer one takes no room from the jobs"
    site.stop()
    page.reload()
    started(page)
    expect(page.get_by_text(say("phone.ready"))).to_be_visible()
