"""The folder on a plain static server: one visit, then no server is needed; what was kept is there whatever happens."""

import os
import random

import pytest
from playwright.sync_api import expect

from fieldapp.hosts.pack import pack
from fieldapp.hosts.pack_archive import Cargo
from tests.phone.conftest import STAND_IN
from tests.phone.handset import add_to, named, started, tap
from tests.phone.in_the_browser import NO_FILES

KILLS = int(os.environ.get("SPANBOOK_KILLS", "2"))
"""How often the browser is killed in each way. Fifty are run before a release."""


def keep(page, number):
    tap(page, "Keep")
    expect(named(page, "kept")).to_have_text(f"kept {number}")


def test_after_one_visit_it_starts_without_a_server_and_has_what_was_kept(phone, site):
    page = phone.start(site.address)
    tap(page, "Tap")
    expect(named(page, "taps")).to_have_text("taps 1")
    expect(named(page, "state")).to_contain_text("files ready=True")
    keep(page, 1)
    site.stop()
    page.reload()
    started(page)
    expect(named(page, "rows")).to_have_text("rows 1 ok")
    phone.kill()
    phone.open()
    page = phone.start(site.address)
    expect(named(page, "rows")).to_have_text("rows 1 ok")
    expect(named(page, "state")).to_contain_text("ready=True")


def test_every_part_is_fetched_once_and_nothing_is_missing(phone, site):
    phone.start(site.address)
    twice = {p for p, _ in site.asked if p.endswith(".packed") and [q for q, _ in site.asked].count(p) > 1}
    assert twice == set()
    assert site.paths(404) == []


@pytest.fixture(scope="session", params=["stand_in", "readings"])
def keeping(request, tmp_path_factory):
    """Two folders: bare rows, and the app's own store with readings."""
    folder = tmp_path_factory.mktemp("keeping") / request.param
    pack(folder, cargo=Cargo(entry=request.param, extra=STAND_IN.extra))
    return folder


def test_what_was_kept_survives_a_killed_browser(phone, serve, keeping):
    site = serve(keeping)
    page = phone.start(site.address)
    for number in range(1, KILLS + 1):
        keep(page, number)
        phone.kill()
        phone.open()
        page = phone.start(site.address)
        expect(named(page, "rows")).to_have_text(f"rows {number} ok")


def test_every_kept_row_of_a_burst_survives_a_kill_at_any_moment(phone, serve, keeping):
    site = serve(keeping)
    chance = random.Random(5)
    page = phone.start(site.address)
    for _ in range(KILLS):
        phone.said.clear()
        tap(page, "Burst")
        while not any(line.startswith("ACK ") for line in phone.said):
            page.wait_for_timeout(10)
        page.wait_for_timeout(chance.uniform(0, 1500))
        phone.kill()
        kept = max(int(line.split()[1]) for line in phone.said if line.startswith("ACK "))
        phone.open()
        page = phone.start(site.address)
        _, rows, check = named(page, "rows").inner_text().split()
        assert check == "ok"
        assert int(rows) >= kept > 0


def test_a_second_tab_is_told_so_and_opens_by_itself_when_the_first_is_closed(phone, site):
    first = phone.start(site.address)
    keep(first, 1)
    second = phone.new_tab()
    second.goto(site.address)
    expect(second.get_by_text("Spanbook is open in another tab.")).to_be_visible(timeout=20_000)
    keep(first, 2)
    first.close()
    started(second)
    expect(named(second, "rows")).to_have_text("rows 2 ok")


def test_a_phone_without_room_says_that_it_kept_nothing_and_keeps_again_when_there_is_room(phone, site):
    page = phone.start(site.address)
    keep(page, 1)
    origin = site.address.rstrip("/")
    session = phone.context.new_cdp_session(page)
    used = session.send("Storage.getUsageAndQuota", {"origin": origin})["usage"]
    session.send("Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": used + 600_000})
    tap(page, "Fill")
    expect(named(page, "kept")).to_contain_text("not kept: database or disk is full", timeout=30_000)
    full = named(page, "rows").inner_text()
    assert full.endswith(" ok")
    session.send("Storage.overrideQuotaForOrigin", {"origin": origin})
    tap(page, "Keep")
    expect(named(page, "kept")).to_have_text(f"kept {int(full.split()[1]) + 1}")
    phone.kill()
    phone.open()
    page = phone.start(site.address)
    expect(named(page, "rows")).to_have_text(f"rows {int(full.split()[1]) + 1} ok")


NO_RECORD = "Object.defineProperty(self, 'indexedDB', { get() { throw new DOMException('refused', 'SecurityError'); } });"


def test_where_file_handles_are_refused_the_record_keeps_and_goes_on_keeping(phone, site):
    add_to(site, "opfs.js", NO_FILES)
    page = phone.start(site.address)
    expect(named(page, "state")).to_contain_text("record ready=True")
    keep(page, 1)
    phone.kill()
    phone.open()
    page = phone.start(site.address)
    expect(named(page, "rows")).to_have_text("rows 1 ok")


def beside_the_app(page, site, script):
    """Run a script on a page of the same address that is not the app."""
    page.goto(site.address + "manifest.json")
    page.evaluate("async () => { const root = await navigator.storage.getDirectory();" + script + "}")


def test_files_that_do_not_open_one_day_do_not_hide_the_jobs_behind_an_empty_store(phone, site):
    page = phone.start(site.address)
    keep(page, 1)
    blocked = """
        const folder = await root.getDirectoryHandle((await root.keys().next()).value);
        await folder.removeEntry("spanbook-before.db");
        await folder.getDirectoryHandle("spanbook-before.db", { create: true });
    """
    beside_the_app(page, site, blocked)
    page.goto(site.address)
    expect(page.get_by_text("The jobs on this phone cannot be reached.")).to_be_visible(timeout=60_000)


def test_a_window_that_keeps_nothing_says_so_and_goes_on_only_when_told(phone, site):
    add_to(site, "opfs.js", NO_FILES + NO_RECORD)
    page = phone.page
    page.goto(site.address)
    expect(page.get_by_text("This browser keeps nothing.")).to_be_visible(timeout=60_000)
    page.get_by_role("button", name="Go on; nothing is kept").click()
    started(page)
    expect(named(page, "state")).to_contain_text("nowhere")


def test_what_the_browser_threw_away_is_told(phone, site):
    page = phone.start(site.address)
    keep(page, 1)
    beside_the_app(page, site, "for await (const name of root.keys()) await root.removeEntry(name, { recursive: true });")
    phone.start(site.address)
    expect(named(page, "rows")).to_have_text("rows 0 ok")
    expect(named(page, "state")).to_contain_text("gone=True")
