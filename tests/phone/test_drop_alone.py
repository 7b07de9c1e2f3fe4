"""A job file let go over the page of a phone that runs the app alone: a real file, by real drag events, and no server asked."""

from playwright.sync_api import expect

from fieldapp.words import say
from measure.documents import dump
from tests.fieldapp.deck_file import deck_file
from tests.phone.handset import named


def drag(line, kind, *paths):
    data = {"items": [], "files": [str(p) for p in paths], "dragOperationsMask": 1}
    line.send("Input.dispatchDragEvent", {"type": kind, "x": 200, "y": 400, "data": data})


def test_a_job_file_that_is_let_go_opens_as_a_job_without_a_server(phone, serve, whole_app, tmp_path):
    site = serve(whole_app)
    page = phone.start(site.address)
    path = tmp_path / "mill-stair.json"
    path.write_bytes(dump(deck_file(name="Mill stair")))
    line = page.context.new_cdp_session(page)
    site.stop()
    drag(line, "dragEnter", path)
    drag(line, "dragOver", path)
    expect(page.locator("#drop")).to_have_text(say("start.drop"))
    drag(line, "drop", path)
    expect(named(page, "place")).to_have_text("A1", timeout=60_000)
    expect(page.locator("#drop")).to_be_hidden()


def test_what_is_no_job_file_is_said_by_its_name(phone, serve, whole_app, tmp_path):
    page = phone.start(serve(whole_app).address)
    photo = tmp_path / "photo.jpg"
    photo.write_bytes(b"\xff\xd8" * 1000)
    line = page.context.new_cdp_session(page)
    for kind in ("dragEnter", "dragOver", "drop"):
        drag(line, kind, photo)
    expect(named(page, "told")).to_contain_text(say("jobs.other_kind", name="photo.jpg"), timeout=60_000)
