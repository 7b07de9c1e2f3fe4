"""The packed app in a phone sends its job to a shared office: from the office's own /phone/, and from a plain host that the office allowed."""

import re

import pytest
from playwright.sync_api import expect

from fieldapp.words import say
from tests.phone.handset import named, started, tap
from tests.phone.test_whole_app import keys, open_sample
from tests.two_people.office_server import OWN_CODE, OfficeServer

LONG = 60_000


def first_span(page):
    """The first figure that this phone keeps, and by whom."""
    expect(named(page, "question")).to_contain_text("span", timeout=30_000)
    keys(page, "4", "1", "11/16", "Keep")
    page.get_by_role("textbox").click()
    page.keyboard.type("Kit", delay=40)
    page.keyboard.press("Enter")
    expect(named(page, "verdict")).to_be_visible(timeout=30_000)


def rise_after_it(page):
    """And the second one."""
    tap(page, "Next")
    expect(named(page, "question")).to_contain_text("rise", timeout=30_000)
    keys(page, "level", "Keep")
    expect(named(page, "verdict")).to_be_visible(timeout=30_000)


def to_office(page):
    """The screen of the job that stands open."""
    job = re.search(r"#/job/([^/]+)/", page.url)[1]
    page.evaluate(f"location.hash = '#/job/{job}/office'")
    expect(page.get_by_role("heading", name=say("office.title"))).to_be_visible(timeout=30_000)


def write(page, label, text):
    box = page.get_by_role("textbox", name=label)
    box.click()
    page.keyboard.press("Control+A")
    page.keyboard.type(text, delay=20)


def says(page, words, timeout=LONG):
    expect(page.get_by_text(words).first).to_be_attached(timeout=timeout)


@pytest.fixture
def office(tmp_path, whole_app):
    with OfficeServer(tmp_path / "office", "--phone", str(whole_app)) as server:
        yield server


def test_from_the_offices_own_phone_page_a_reading_is_there_and_the_next_one_too_after_the_office_was_down(phone, office):
    phone.page.set_viewport_size({"width": 390, "height": 844})
    page = phone.start(office.address + "phone/")
    open_sample(page, "to try")
    first_span(page)
    walk = page.url
    to_office(page)
    says(page, say("office.never"))
    write(page, say("office.code"), "xxxx")  # the address stands there already: it is where this app came from
    tap(page, say("office.send"))
    says(page, say("office.trouble_code"))
    write(page, say("office.code"), OWN_CODE)
    tap(page, say("office.by_itself_True"))
    says(page, re.compile("The office has everything up to"))
    assert sorted(office.jobs().values()) == [0, 0, 1]
    office.stop()
    page.goto(walk)
    rise_after_it(page)
    to_office(page)
    says(page, re.compile("1 reading not yet with the office"))
    page.reload()  # the phone starts anew without its server, and goes on with what waits
    started(page)
    says(page, re.compile("did not answer"))
    office.start()
    says(page, re.compile("The office has everything up to"))
    assert sorted(office.jobs().values()) == [0, 0, 2]
    page.goto(office.address + "phone/#/this-phone")
    says(page, say("phone.copied"))
    assert phone.foreign == []


def test_from_a_plain_host_it_goes_only_to_an_office_that_allowed_it(phone, serve, whole_app, tmp_path):
    site = serve(whole_app)
    phone.page.set_viewport_size({"width": 390, "height": 844})
    page = phone.start(site.address)
    open_sample(page, "to try")
    first_span(page)
    to_office(page)
    with OfficeServer(tmp_path / "strict") as strict:
        write(page, say("office.address"), strict.address)
        write(page, say("office.code"), OWN_CODE)
        tap(page, say("office.send"))
        says(page, say("office.trouble_unreachable"))
        assert sorted(strict.jobs().values()) == [0, 0]
    with OfficeServer(tmp_path / "open", "--allow-origin", site.address) as allowing:
        write(page, say("office.address"), allowing.address)
        tap(page, say("office.send"))
        says(page, re.compile("The office has everything up to"))
        assert sorted(allowing.jobs().values()) == [0, 0, 1]
    assert phone.foreign == []
