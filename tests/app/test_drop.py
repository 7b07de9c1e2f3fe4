"""Job files let go over the page, as a browser hands them over: real files, by real drag events."""

import json

import pytest
from playwright.sync_api import expect

from fieldapp.theme import SHADE, SUN
from fieldapp.words import say
from measure.documents import dump
from tests.fieldapp.browser import DESK, Served, Tab
from tests.fieldapp.deck_file import deck_file

SLOW = 20_000


@pytest.fixture
def desk_tab(tmp_path, browser):
    with Served(tmp_path / "book") as served:
        tab = Tab(browser, served.address, DESK)
        tab.open()
        tab.line = tab.context.new_cdp_session(tab.page)
        yield tab
        tab.close()


def drag(tab, kind, paths):
    """One event of a drag that comes from outside the browser."""
    data = {"items": [], "files": [str(p) for p in paths], "dragOperationsMask": 1}
    tab.line.send("Input.dispatchDragEvent", {"type": kind, "x": 640, "y": 400, "data": data})


def let_go(tab, *paths):
    drag(tab, "dragEnter", paths)
    drag(tab, "dragOver", paths)
    drag(tab, "drop", paths)


def job_file(folder, name, **more):
    path = folder / f"{name}.json"
    path.write_bytes(dump(deck_file(name=name, **more)))
    return path


def test_where_a_file_can_be_let_go_is_shown_while_it_is_over_the_page(desk_tab, tmp_path):
    path = job_file(tmp_path, "Mill stair")
    drag(desk_tab, "dragEnter", [path])
    drag(desk_tab, "dragOver", [path])
    place = desk_tab.page.locator("#drop")
    expect(place).to_be_visible()
    expect(place).to_have_text(say("page.drop"))
    desk_tab.picture(tmp_path / "over.png")
    drag(desk_tab, "dragCancel", [path])
    desk_tab.page.mouse.move(300, 300)
    expect(place).to_be_hidden()


def colour(tab, path):
    """Of the place where a file can be let go, while one is over the page."""
    place = tab.page.locator("#drop")
    drag(tab, "dragEnter", [path])
    drag(tab, "dragOver", [path])
    expect(place).to_be_visible()
    found = place.evaluate("box => getComputedStyle(box).backgroundColor")
    drag(tab, "dragCancel", [path])
    tab.page.mouse.move(300, 300)
    expect(place).to_be_hidden()
    return found


@pytest.mark.parametrize("theme", [SUN, SHADE], ids=["sun", "shade"])
def test_where_a_file_can_be_let_go_wears_the_theme_of_the_app(desk_tab, tmp_path, theme):
    path, wanted = job_file(tmp_path, "Mill stair"), f"rgb({', '.join(str(part) for part in bytes.fromhex(theme.paper.lstrip('#')))})"
    if theme is SHADE:
        desk_tab.tap(say("jobs.to_shade"))
        expect(desk_tab.button(say("jobs.to_sun"))).to_be_attached(timeout=SLOW)
    tries = (colour(desk_tab, path) for _ in range(20))  # the other theme fades in
    assert wanted in tries


def test_one_job_file_that_is_let_go_opens_as_a_job(desk_tab, tmp_path):
    let_go(desk_tab, job_file(tmp_path, "Mill stair"))
    expect(desk_tab.marked("place")).to_have_text("A1", timeout=SLOW)
    expect(desk_tab.page.locator("#drop")).to_be_hidden()


def test_several_at_once_come_into_the_list_and_what_is_no_job_file_is_said_by_its_name(desk_tab, tmp_path):
    photo, spoilt = tmp_path / "photo.jpg", tmp_path / "spoilt.json"
    photo.write_bytes(b"\xff\xd8" * 1000)
    spoilt.write_text(json.dumps({"format": "spanbook-job/1"}))
    large = tmp_path / "large.json"
    large.write_bytes(b" " * (31 * 1024 * 1024))
    let_go(desk_tab, job_file(tmp_path, "Mill stair"), photo, spoilt, large, job_file(tmp_path, "Harbour", units="mm"))
    told = desk_tab.marked("told")
    expect(told).to_contain_text(say("jobs.other_kind", name="photo.jpg"), timeout=SLOW)
    expect(told).to_contain_text("spoilt.json is no job file that can be read")
    expect(told).to_contain_text("large.json is empty, or larger than 30 MB")
    for name in ("Mill stair", "Harbour"):
        expect(desk_tab.page.get_by_role("button", name=name).first).to_be_attached(timeout=SLOW)


def test_a_file_let_go_on_any_other_page_never_takes_the_app_away(desk_tab, tmp_path):
    desk_tab.tap(say("jobs.settings"))
    desk_tab.sees(say("settings.light"))
    let_go(desk_tab, job_file(tmp_path, "Mill stair"))
    expect(desk_tab.marked("place")).to_have_text("A1", timeout=SLOW)


def test_the_picker_itself_goes_on_as_before(desk_tab, tmp_path):
    with desk_tab.page.expect_file_chooser(timeout=SLOW) as waiting:
        desk_tab.tap(say("jobs.file"))
    waiting.value.set_files([job_file(tmp_path, "Mill stair")])
    expect(desk_tab.marked("place")).to_have_text("A1", timeout=SLOW)
