"""The first visit cut off by a killed browser, and what the browser threw away later: never called ready before all of it is here."""

import os
import random
import threading

import pytest
from playwright.sync_api import Error, expect

from fieldapp.words import say
from tests.phone.handset import named, started, tap
from tests.phone.test_whole_app import keys, open_sample

KILLS = int(os.environ.get("SPANBOOK_KILLS", "2"))
"""How often a first visit is cut off. Fifty are run before a release."""
PARTS = 12
"""So many packed parts are asked for in a first visit."""


def claims_ready(page):
    """Whether the starting page or the app says that no signal is needed any more."""
    try:
        said = page.evaluate("document.body?.innerText ?? ''")
    except Error:  # the page is just being replaced: it claims nothing
        return False
    return say("start.ready") in said or "ready=True" in said


@pytest.mark.parametrize("number", range(KILLS))
def test_a_first_visit_killed_while_the_parts_come_gets_whole_at_the_next_one(phone, site, number):
    chance, reached, came = random.Random(number), threading.Event(), []
    moment = chance.randint(1, PARTS)

    def count(path):
        if path.endswith(".packed"):
            came.append(path)
        if len(came) == moment:
            reached.set()

    site.before_answer = count
    phone.page.goto(site.address, wait_until="commit")
    assert reached.wait(60), f"{len(came)} parts were asked for"
    phone.page.wait_for_timeout(chance.uniform(0, 100))
    if claims_ready(phone.page):
        site.stop()
    phone.kill()
    phone.open()
    page = phone.start(site.address)
    expect(named(page, "state")).to_contain_text("ready=True", timeout=30_000)
    site.stop()
    page.reload()
    started(page)
    expect(named(page, "state")).to_contain_text("ready=True")


def test_what_is_called_ready_opens_without_a_server_though_the_browser_was_killed_at_that_very_moment(phone, site):
    phone.page.goto(site.address, wait_until="commit")
    expect(phone.page.get_by_text(say("start.ready"), exact=True)).to_be_visible(timeout=60_000)
    site.stop()
    phone.kill()
    phone.open()
    page = phone.start(site.address)
    expect(named(page, "state")).to_contain_text("ready=True")


def test_parts_that_the_browser_threw_away_come_again_with_signal_and_until_then_nothing_is_called_ready(phone, site):
    page = phone.start(site.address)
    page.goto(site.address + "manifest.json")
    page.evaluate("caches.keys().then((names) => Promise.all(names.map((name) => caches.delete(name))))")
    packed = {f"/{path.relative_to(site.folder).as_posix()}" for path in site.folder.rglob("*.packed")}
    site.broken.update(dict.fromkeys(packed - {"/app.tar.packed"}, 503))
    phone.start(site.address)
    expect(named(page, "state")).to_contain_text("ready=False why=line", timeout=30_000)
    site.broken.clear()
    page.reload()
    started(page)
    expect(named(page, "state")).to_contain_text("ready=True", timeout=30_000)
    site.stop()
    page.reload()
    started(page)
    expect(named(page, "state")).to_contain_text("ready=True")


def test_jobs_that_the_browser_threw_away_are_told_on_the_list_of_jobs_until_the_person_has_read_it(phone, serve, whole_app):
    site, page = serve(whole_app), phone.page
    page.set_viewport_size({"width": 390, "height": 844})
    phone.start(site.address)
    open_sample(page, "to try")
    expect(named(page, "question")).to_contain_text("span", timeout=30_000)
    keys(page, "4", "1", "11/16", "Keep")
    page.get_by_role("textbox").click()
    page.keyboard.type("Kit", delay=40)
    page.keyboard.press("Enter")
    expect(named(page, "verdict")).to_have_text("clear", timeout=30_000)
    phone.end()  # a browser throws away only what no page uses
    phone.open()
    page = phone.page
    page.set_viewport_size({"width": 390, "height": 844})
    page.goto(site.address + "manifest.json")
    origin = {"origin": site.address.rstrip("/"), "storageTypes": "file_systems,indexeddb,cache_storage,service_workers"}
    phone.context.new_cdp_session(page).send("Storage.clearDataForOrigin", origin)
    phone.start(site.address)
    expect(page.get_by_text(say("phone.gone"))).to_be_visible(timeout=30_000)
    page.reload()
    started(page)
    page.get_by_text(say("phone.gone")).click()
    expect(page.get_by_role("heading", name=say("phone.title"))).to_be_visible(timeout=30_000)
    page.get_by_text(say("phone.gone")).click()
    expect(page.get_by_text(say("phone.gone"))).to_have_count(0, timeout=30_000)
    tap(page, say("app.back"))
    expect(page.get_by_text(say("phone.gone"))).to_have_count(0)
