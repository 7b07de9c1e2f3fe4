"""The real app on a phone without room: said before it is too late, said when something was not kept, and nothing is lost."""

import pytest
from playwright.sync_api import expect

from fieldapp.words import say
from tests.phone.handset import named, started, tap
from tests.phone.test_whole_app import keys, open_sample

NEARLY, NOTHING = 30_000_000, 2_000
"""Bytes that are left."""


@pytest.fixture
def app(phone, serve, whole_app):
    """The app with a job on a phone whose room can be set: `room(bytes left)`; None: as much as there is."""
    site = serve(whole_app)
    phone.page.set_viewport_size({"width": 390, "height": 844})
    page = phone.start(site.address)
    session = phone.context.new_cdp_session(page)
    origin = site.address.rstrip("/")

    def room(left):
        used = session.send("Storage.getUsageAndQuota", {"origin": origin})["usage"]
        session.send("Storage.overrideQuotaForOrigin", {"origin": origin} if left is None else {"origin": origin, "quotaSize": used + left})

    return page, room


def test_that_the_phone_is_nearly_full_stands_on_the_list_of_jobs_with_what_to_do(app):
    page, room = app
    room(NEARLY)
    page.reload()
    started(page)
    row = page.get_by_role("button").filter(has_text=say("phone.full"))
    expect(row).to_contain_text("Save a copy of the jobs", timeout=30_000)
    room(None)
    page.reload()
    started(page)
    expect(page.get_by_role("button", name=say("jobs.sample"), exact=True)).to_be_visible()
    expect(row).to_have_count(0)


def test_a_span_for_which_there_is_no_room_is_not_called_kept_and_is_kept_once_there_is_room(app):
    page, room = app
    open_sample(page, "to try")
    expect(named(page, "question")).to_contain_text("span", timeout=30_000)
    keys(page, "4", "1", "11/16")
    room(NOTHING)
    tap(page, "Keep")
    page.get_by_role("textbox").click()
    page.keyboard.type("Kit", delay=40)
    page.keyboard.press("Enter")
    told = named(page, "told")
    expect(told).to_contain_text("no room", timeout=30_000)
    expect(named(page, "verdict")).to_have_count(0)
    room(None)
    page.reload()
    started(page)
    expect(named(page, "entry")).to_contain_text("41", timeout=30_000)
    tap(page, "Keep")
    field = page.get_by_role("textbox")
    expect(field.or_(named(page, "verdict")).first).to_be_attached(timeout=30_000)
    if field.count():
        field.click()
        page.keyboard.type("Kit", delay=40)
        page.keyboard.press("Enter")
    expect(named(page, "verdict")).to_have_text("clear", timeout=30_000)
