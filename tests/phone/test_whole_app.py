"""The real app alone in a phone: from the first tap to the order's file, without a server, over kills and reloads."""

import re
import subprocess
import sys
from pathlib import Path

import pytest
from playwright.sync_api import expect

from fieldapp.words import say
from tests.phone.handset import named, started, tap

OLDER = sorted((Path(__file__).parents[1] / "data/store").glob("version-*.sql"))


@pytest.fixture
def app(phone, serve, whole_app):
    """The app on a phone of 390 × 844, and the server that hands it out."""
    site = serve(whole_app)
    phone.page.set_viewport_size({"width": 390, "height": 844})
    phone.start(site.address)
    return phone, site


def open_sample(page, words):
    tap(page, say("jobs.sample"))
    # The list of jobs has a row of nearly the same name: the list of samples has to stand there first.
    expect(page.get_by_role("heading", name=say("samples.title"))).to_be_visible(timeout=30_000)
    page.get_by_role("button", name=re.compile(words)).click()


def keys(page, *names):
    for name in names:
        tap(page, name)


def again(phone, site):
    """The browser is killed and opened anew."""
    phone.kill()
    phone.open()
    phone.page.set_viewport_size({"width": 390, "height": 844})
    return phone.start(site.address)


def test_a_first_span_and_half_typed_digits_are_there_without_a_server_after_a_kill(app):
    phone, site = app
    page = phone.page
    expect_ready(phone, page)
    open_sample(page, "to try")
    expect(named(page, "question")).to_contain_text("span", timeout=30_000)
    keys(page, "4", "1", "11/16", "Keep")
    page.get_by_role("textbox").click()
    page.keyboard.type("Kit", delay=40)
    page.keyboard.press("Enter")
    expect(named(page, "verdict")).to_have_text("clear", timeout=30_000)
    site.stop()
    page = again(phone, site)
    expect(named(page, "place")).to_have_text("A1")
    tap(page, "Next")
    expect(named(page, "question")).not_to_have_text(re.compile("^span kept"), timeout=30_000)
    keys(page, "3", "8")
    expect(named(page, "entry")).to_have_text(re.compile("38"))
    page.wait_for_timeout(300)
    asked = named(page, "question").inner_text()
    page = again(phone, site)
    expect(named(page, "question")).to_have_text(asked)
    expect(named(page, "entry")).to_have_text(re.compile("38"))
    page.reload()
    started(page)
    expect(named(page, "entry")).to_have_text(re.compile("38"))


def expect_ready(phone, page):
    assert page.evaluate("navigator.serviceWorker.controller !== null")
    assert phone.foreign == []


def downloaded(page, name, folder):
    with page.expect_download(timeout=60_000) as coming:
        page.get_by_role("button", name=name, exact=True).click()
    path = folder / name
    coming.value.save_as(path)
    return path


def test_the_order_from_a_phone_without_server_is_byte_for_byte_that_of_the_command(app, tmp_path):
    phone, site = app
    page = phone.page
    site.stop()
    open_sample(page, "13 taped, all clear")
    tap(page, "Order")
    expect(page.get_by_role("button", name="order.csv", exact=True)).to_be_visible(timeout=60_000)
    files = {name: downloaded(page, name, tmp_path) for name in ("order.csv", "order-summary.csv", "order.schema.json", "boathouse-deck.json")}
    command = [sys.executable, "-m", "fieldapp.command", "order", files["boathouse-deck.json"], "-o", tmp_path / "order"]
    ended = subprocess.run(command, capture_output=True, text=True)
    assert ended.returncode == 0, ended.stderr
    for name in ("order.csv", "order-summary.csv", "order.schema.json"):
        assert files[name].read_bytes() == (tmp_path / "order" / name).read_bytes(), name


@pytest.mark.parametrize("dump", OLDER, ids=lambda p: p.stem)
def test_a_database_of_every_older_version_is_brought_up_to_date_on_the_phone(app, dump, tmp_path):
    import sqlite3

    phone, site = app
    page = phone.page
    file = tmp_path / "older.db"
    db = sqlite3.connect(file, isolation_level=None)
    db.executescript(dump.read_text(encoding="utf-8"))
    names = [name for (name,) in db.execute("SELECT name FROM job WHERE binned_at IS NULL")]
    db.close()
    put = """async (bytes) => {
        const root = await navigator.storage.getDirectory(), folder = await root.getDirectoryHandle((await root.keys().next()).value);
        const writing = await (await folder.getFileHandle("spanbook.db")).createWritable();
        await writing.write(new Uint8Array(bytes));
        await writing.close();
    }"""
    page.goto(site.address + "manifest.json")
    page.evaluate(put, list(file.read_bytes()))
    phone.start(site.address)
    assert names
    for name in names:
        expect(page.get_by_role("button", name=re.compile(re.escape(name))).first).to_be_visible(timeout=30_000)


def test_a_store_of_a_newer_version_is_said_and_left_alone(app, tmp_path):
    phone, site = app
    page = phone.page
    page.goto(site.address + "manifest.json")
    # SQLite keeps `user_version` in the four bytes from 60 (its file format, section 1.3)
    newer = """async () => {
        const root = await navigator.storage.getDirectory(), folder = await root.getDirectoryHandle((await root.keys().next()).value);
        const writing = await (await folder.getFileHandle("spanbook.db")).createWritable({ keepExistingData: true });
        await writing.write({ type: "write", position: 60, data: new Uint8Array([0, 0, 3, 231]) });
        await writing.close();
    }"""
    page.evaluate(newer)
    page.goto(site.address)
    trouble = page.locator("#start .trouble")
    expect(trouble).to_contain_text("Spanbook cannot open its jobs.", timeout=60_000)
    expect(trouble).to_contain_text("newer Spanbook")


