"""A store of an older version on the phone: brought up to date after a copy is set aside, and never lost when that goes wrong.

Only one version was released so far, so a step after it is made up here and packed in place of the real list of steps.
"""

import shutil
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from playwright.sync_api import expect

from fieldapp.hosts.pack import pack
from fieldapp.hosts.pack_archive import Cargo
from fieldapp.samples import samples
from fieldapp.screens import samples_model
from measure.documents import read_job
from measure.migrations import VERSION
from measure.store import Store
from tests.phone.conftest import STAND_IN
from tests.phone.handset import named, started, tap
from tests.phone.in_the_browser import WAYS, keeps_as, kept, put
from tests.phone.small_disk import MEGA

STEPS = Path(__file__).parents[2] / "measure/migrations.py"
NEXT = VERSION + 1
GOOD = "ALTER TABLE job ADD COLUMN tried TEXT NOT NULL DEFAULT ''"
BAD = "INSERT INTO nowhere VALUES (1)"
FURTHER = """

@migrations()
def m{number:03}_tried(db: Database) -> None:
    db.execute("{sql}")
    db.execute("PRAGMA user_version = {number}")
"""


def packed(folder, sql=None):
    """The app's own store without a screen; with sql, one step further."""
    extra = folder.with_name(folder.name + "-more")
    shutil.copytree(STAND_IN.extra, extra)
    if sql:
        (extra / "measure").mkdir()
        text = STEPS.read_text().replace(f"VERSION = {VERSION}\n", f"VERSION = {NEXT}\n") + FURTHER.format(number=NEXT, sql=sql)
        (extra / "measure/migrations.py").write_text(text)
    pack(folder, cargo=Cargo(entry="readings", extra=extra))
    return folder


@pytest.fixture(scope="module")
def versions(tmp_path_factory):
    """This version, one whose step fails, and one whose step is good."""
    folder = tmp_path_factory.mktemp("versions")
    return packed(folder / "now"), packed(folder / "bad", BAD), packed(folder / "good", GOOD)


def publish(site, folder):
    """What lies on the server is replaced whole."""
    shutil.rmtree(site.folder)
    shutil.copytree(folder, site.folder)


def take_newer(page):
    """The app finds the newer version by itself at its start."""
    page.reload()
    started(page)
    expect(named(page, "state")).to_have_text("newer=True", timeout=60_000)
    with page.expect_event("load", timeout=60_000):
        tap(page, "Take")


def test_a_copy_is_set_aside_and_the_store_is_brought_up_to_date(phone, serve, versions):
    now, _, good = versions
    site = serve(now)
    page = phone.start(site.address)
    tap(page, "Keep")
    expect(named(page, "kept")).to_have_text("kept 1")
    expect(named(page, "before")).to_have_text("before 0")
    publish(site, good)
    take_newer(page)
    started(page)
    expect(named(page, "version")).to_have_text(f"version {NEXT}")
    expect(named(page, "rows")).to_have_text("rows 1 ok")
    expect(named(page, "before")).to_have_text(f"before {VERSION}")
    tap(page, "Keep")
    expect(named(page, "rows")).to_have_text("rows 2 ok")
    phone.kill()
    phone.open()
    page = phone.start(site.address)
    expect(named(page, "rows")).to_have_text("rows 2 ok")
    expect(named(page, "before")).to_have_text(f"before {VERSION}")


def test_a_step_that_fails_leaves_the_store_as_it_was_and_a_mended_version_is_offered_where_the_app_does_not_start(phone, serve, versions):
    now, bad, good = versions
    site = serve(now)
    page = phone.start(site.address)
    tap(page, "Keep")
    expect(named(page, "kept")).to_have_text("kept 1")
    publish(site, bad)
    take_newer(page)
    expect(page.get_by_text("Spanbook has stopped.")).to_be_visible(timeout=120_000)
    publish(site, good)
    page.get_by_role("button", name="Try again").click()
    with page.expect_event("load", timeout=120_000):
        page.get_by_role("button", name="Take the newer Spanbook").click(timeout=120_000)
    started(page)
    expect(named(page, "version")).to_have_text(f"version {NEXT}")
    expect(named(page, "rows")).to_have_text("rows 1 ok")
    expect(named(page, "before")).to_have_text(f"before {VERSION}")


@pytest.fixture
def many_notes(tmp_path):
    """A store of this version that is larger than the room left on the phone."""
    with Store.open(tmp_path / "many.db", journal="delete") as store:
        job = store.merge(None, read_job(samples_model.chosen(samples(), samples_model.FRESH)).as_dict()).job
        with store.action():
            for minute in range(3000):
                store.add_note(job, "A1", "n" * 2000, "", "M", datetime(2026, 5, 2, tzinfo=UTC) + timedelta(minutes=minute))
    return tmp_path / "many.db"


@pytest.mark.parametrize("way", WAYS)
def test_without_room_for_the_copy_the_older_store_is_left_as_it_was_and_taken_over_once_there_is_room(
    small_phone, disk, serve, versions, way, many_notes, tmp_path
):
    now, _, good = versions
    site, page = serve(now), small_phone.page
    keeps_as(site, way)
    small_phone.start(site.address)
    tap(page, "Keep")
    expect(named(page, "kept")).to_have_text("kept 1")
    put(page, site, way, many_notes)
    small_phone.start(site.address)
    publish(site, good)
    keeps_as(site, way)
    page.reload()
    started(page)
    expect(named(page, "state")).to_have_text("newer=True", timeout=60_000)
    disk.fill(leave=3 * MEGA)
    with page.expect_event("load", timeout=60_000):
        tap(page, "Take")
    expect(page.get_by_text("No copy of the jobs could be set aside")).to_be_visible(timeout=60_000)
    assert kept(page, site, way, tmp_path / "full.db").execute("PRAGMA user_version").fetchone() == (VERSION,)
    assert (tmp_path / "full.db").read_bytes() == many_notes.read_bytes()
    disk.make_room()
    small_phone.start(site.address)
    expect(named(page, "version")).to_have_text(f"version {NEXT}")
    db = kept(page, site, way, tmp_path / "taken.db")
    assert db.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert db.execute("SELECT count(*) FROM note").fetchone() == (3000,)
