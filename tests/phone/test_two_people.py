"""Two phones that run the app alone and share no network: a letter there and one back by QR code, and job files to and fro."""

from __future__ import annotations

import re
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

import cv2
import numpy as np
import pytest
from playwright.sync_api import Page, Playwright, expect

from fieldapp.words import say
from tests.fieldapp.browser import Tab, launch
from tests.fieldapp.deck_file import deck_file
from tests.phone.handset import Phone, StaticServer, add_to, named, started, tap
from tests.two_people.conftest import NoReadBack, Shared
from tests.two_people.share_sheet import SHEET, given

SLOW = 60_000
SIZE = {"width": 390, "height": 844}


@pytest.fixture
def other(playwright: Playwright, tmp_path: Path) -> Iterator[Phone]:
    """A second phone, with a profile of its own."""
    one = Phone(playwright, tmp_path / "other")
    one.open()
    yield one
    one.close()
    assert one.foreign == []


@pytest.fixture
def site(serve: Callable[..., StaticServer], whole_app: Path) -> StaticServer:
    """The app's folder under a path of its own, as on somebody's web space."""
    return serve(whole_app, "deck/app")


def job_on_disk(folder: Path) -> Path:
    from measure.documents import dump

    path = folder / "boathouse-deck.json"
    path.write_bytes(dump(deck_file()))
    return path


def opens_file(page: Page, path: Path) -> None:
    """Hand a job file to the page, on the list of jobs; it opens."""
    with page.expect_file_chooser(timeout=SLOW) as chooser:
        tap(page, say("jobs.file"))
    chooser.value.set_files(path)
    expect(page).to_have_url(re.compile("/job/"), timeout=SLOW)


def keeps(page: Page, *keys: str) -> None:
    for key in keys:
        tap(page, key)


def qr_codes(page: Page) -> set[str]:
    """What two independent readers make of a screenshot; they have to agree."""
    page.wait_for_timeout(700)  # pictures are drawn after the words
    shot = page.screenshot()
    with tempfile.NamedTemporaryFile(suffix=".png") as file:
        Path(file.name).write_bytes(shot)
        zbar = subprocess.run(["zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", file.name], capture_output=True, text=True, timeout=60)
    opencv, _, _ = cv2.QRCodeDetectorAruco().detectAndDecode(cv2.imdecode(np.frombuffer(shot, np.uint8), cv2.IMREAD_GRAYSCALE))
    return {zbar.stdout.strip(), opencv}


DETECTOR = """
self.BarcodeDetector = class {
  constructor(kinds) { if (kinds.formats.join() !== "qr_code") throw new TypeError(`formats: ${kinds.formats}`); }
  async detect(image) {
    if (!(image instanceof ImageBitmap)) throw new TypeError(String(image));
    const canvas = new OffscreenCanvas(image.width, image.height);
    canvas.getContext("2d").drawImage(image, 0, 0);
    const answer = await fetch(new URL("decode", self.location), { method: "POST", body: await canvas.convertToBlob() }).catch(() => null);
    if (!answer?.ok) throw new DOMException("Barcode detection service unavailable.", "NotSupportedError");
    const rawValue = await answer.text();
    return rawValue ? [{ rawValue, format: "qr_code" }] : [];
  }
};
"""
"""The browser's own reader, which this Chromium lacks: it asks the test's server, and is there by name only while nobody answers."""


def decoded(picture: bytes) -> bytes:
    """What a reader that has nothing to do with the phone makes of a picture."""
    found, _, _ = cv2.QRCodeDetectorAruco().detectAndDecode(cv2.imdecode(np.frombuffer(picture, np.uint8), cv2.IMREAD_GRAYSCALE))
    return found.encode()


def chooses_picture(page: Page, picture: bytes) -> None:
    """Through the app's own file choice, as from the phone's pictures."""
    with page.expect_file_chooser(timeout=SLOW) as chooser:
        tap(page, say("letter.picture"))
    chooser.value.set_files({"name": "screenshot.png", "mimeType": "image/png", "buffer": picture})


def at(site: StaticServer, route: str = "") -> str:
    return f"{site.address}deck/app/{route}"


def test_a_letter_goes_from_one_phone_to_the_other_and_back_by_qr_codes_without_a_server(phone, other, site, tmp_path):
    """The answer comes back from a picture of the other phone's screen, read by the browser, and once more as a link."""
    add_to(site, "worker.js", DETECTOR, under="deck/app")
    phone.page.add_init_script(SHEET)
    for one in (phone, other):
        one.page.set_viewport_size(SIZE)
        one.start(at(site))
        assert one.page.evaluate("navigator.serviceWorker.controller !== null")
    site.stop()
    first, second = phone.page, other.page
    opens_file(first, job_on_disk(tmp_path))
    expect(named(first, "question")).to_contain_text("span", timeout=SLOW)
    keeps(first, "4", "0", "7/16", "Keep")
    first.get_by_role("textbox").click()
    first.keyboard.type("Mara", delay=40)
    first.keyboard.press("Enter")
    expect(named(first, "verdict")).to_be_attached(timeout=SLOW)
    job = re.search(r"job/([0-9a-f]+)/", first.url)[1]
    first.goto(at(site, f"#/job/{job}/ask"))
    first.reload()
    started(first)
    codes = qr_codes(first)
    assert len(codes) == 1
    link = codes.pop()
    assert link.startswith(at(site, "#/letter/A1"))
    tap(first, say("letter.send"))
    assert given(first, 1) == {"text": link, "files": []}

    second.goto(link)  # as its camera opens it
    second.reload()
    started(second)
    second.get_by_role("textbox").click()
    second.keyboard.type("Kit", delay=40)
    second.keyboard.press("Enter")
    expect(named(second, "place")).to_have_text("A1", timeout=SLOW)
    assert "7/16 in" not in second.locator("flt-semantics-host").inner_text()
    keeps(second, "4", "0", "7/16", "Keep")
    expect(named(second, "letter")).to_be_attached(timeout=SLOW)
    codes = qr_codes(second)
    assert len(codes) == 1
    back = codes.pop()
    assert back.startswith(at(site, "#/answer/B1"))

    picture = second.screenshot()
    chooses_picture(first, picture)
    expect(named(first, "told")).to_contain_text(say("letter.no_reader"), timeout=SLOW)
    site.posted["/deck/app/decode"] = decoded
    site.start()
    chooses_picture(first, b"no picture at all")
    expect(named(first, "told")).to_contain_text(say("letter.no_code"), timeout=SLOW)
    chooses_picture(first, first.screenshot())  # the letter that went there: a code, but no answer
    expect(named(first, "told")).to_contain_text(say("letter.unreadable"), timeout=SLOW)
    chooses_picture(first, picture)
    expect(named(first, "told")).to_contain_text(say("letter.taken", n=1), timeout=SLOW)
    expect(first.get_by_text(say("letter.ask_none"))).to_be_attached(timeout=SLOW)
    site.stop()

    first.goto(back)
    first.reload()
    started(first)
    expect(first.get_by_text(say("letter.from", by="Kit", bays="A1"))).to_be_attached(timeout=SLOW)
    tap(first, say("letter.take_in"))
    expect(first.get_by_text(say("letter.known")).first).to_be_attached(timeout=SLOW)


def test_where_the_browser_reads_no_codes_no_picture_is_offered_and_the_words_say_what_is(phone, site, tmp_path):
    page = phone.page
    page.set_viewport_size(SIZE)
    phone.start(at(site))
    opens_file(page, job_on_disk(tmp_path))
    expect(named(page, "question")).to_contain_text("span", timeout=SLOW)
    job = re.search(r"job/([0-9a-f]+)/", page.url)[1]
    assert not page.evaluate("'BarcodeDetector' in self")
    page.goto(at(site, f"#/job/{job}/ask"))
    page.reload()
    started(page)
    expect(page.get_by_role("button", name=say("letter.take_in"), exact=True)).to_be_attached(timeout=SLOW)
    expect(page.get_by_text(say("letter.take_hint_text"))).to_be_attached(timeout=SLOW)
    assert page.get_by_role("button", name=say("letter.picture"), exact=True).count() == 0


def saved_copy(page: Page, folder: Path) -> Path:
    """The copy of the job that a page hands out on its order."""
    with page.expect_download(timeout=SLOW) as coming:
        page.get_by_role("button", name="boathouse-deck.json", exact=True).click()
    path = folder / f"copy-{len(list(folder.glob('copy-*')))}.json"
    coming.value.save_as(path)
    return path


def order_csv(copy: Path) -> bytes:
    folder = copy.with_suffix("")
    command = [sys.executable, "-m", "fieldapp.command", "order", copy, "-o", folder, "--partial"]
    ended = subprocess.run(command, capture_output=True, text=True, timeout=120)
    assert ended.returncode == 0, ended.stderr
    return (folder / "order.csv").read_bytes()


def span_and_rise(page: Page, *span: str) -> None:
    keeps(page, *span, "Keep")
    expect(named(page, "verdict")).to_be_attached(timeout=SLOW)
    page.get_by_role("button", name=re.compile("^Next")).first.click()
    expect(named(page, "question")).to_contain_text("rise", timeout=SLOW)
    keeps(page, "level", "Keep")
    expect(named(page, "verdict")).to_be_attached(timeout=SLOW)


def test_a_phone_that_joined_and_a_phone_alone_end_with_the_same_job_and_order(playwright, shared, site, tmp_path):
    """Files go there and back, twice and in either order; what was said on both sides is there on both, once."""
    alone = Phone(playwright, tmp_path / "alone")
    alone.open()
    alone.page.set_viewport_size(SIZE)
    browser = launch(playwright)
    mara, owner = Tab(browser, shared.phones, may_fail=True), Tab(browser, shared.address, may_fail=True)
    try:
        mara.page.goto(f"{shared.phones}join#{shared.code}")
        mara.page.get_by_label(say("join.name")).fill("Mara")
        mara.page.get_by_role("radio", name=say("settings.role_tape")).check(force=True)
        with mara.page.expect_event("load"):
            mara.page.get_by_role("button", name=say("join.join_as", name="Mara", role=say("settings.role_tape"))).click()
        mara.ready()
        mara.page.goto(f"{shared.phones}job/{shared.job}/walk/A1")
        mara.ready()
        span_and_rise(mara.page, "4", "0", "7/16")

        owner.open(f"job/{shared.job}/order")
        first = saved_copy(owner.page, tmp_path)
        alone.page.add_init_script(SHEET)
        kit = alone.start(at(site))
        opens_file(kit, first)
        expect(named(kit, "place")).to_have_text("A2", timeout=SLOW)
        keeps(kit, "4", "0", "8/16", "Keep")
        kit.get_by_role("textbox").click()
        kit.keyboard.type("Kit", delay=40)
        kit.keyboard.press("Enter")
        expect(named(kit, "verdict")).to_be_attached(timeout=SLOW)
        kit.get_by_role("button", name=re.compile("^Next")).first.click()
        expect(named(kit, "question")).to_contain_text("rise", timeout=SLOW)
        keeps(kit, "level", "Keep")
        expect(named(kit, "verdict")).to_be_attached(timeout=SLOW)

        mara.page.goto(f"{shared.phones}job/{shared.job}/walk/A3")
        mara.ready()
        span_and_rise(mara.page, "4", "0", "9/16")  # meanwhile, out of sight of the phone alone

        go_alone(kit, site, f"job/{shared.job}/order")
        from_alone = saved_copy(kit, tmp_path)
        for _ in range(2):  # the same file twice adds nothing
            owner.open("")
            opens_file(owner.page, from_alone)
        owner.open(f"job/{shared.job}/order")
        from_served = saved_copy(owner.page, tmp_path)
        go_alone(kit, site, "samples")
        to_jobs(kit)
        opens_file(kit, from_served)
        go_alone(kit, site, f"job/{shared.job}/order")
        from_both = saved_copy(kit, tmp_path)
        assert from_both.read_bytes() == from_served.read_bytes()
        shared_by_sheet(kit, from_both)
        csv = order_csv(from_both)
        assert csv == order_csv(from_served) and [line[:3] for line in csv.splitlines()[1:]] == [b"A1,", b"A2,", b"A3,"]
        assert [r["value"] for r in shared.readings()] == ["40 7/16", "0", "40 1/2", "0", "40 9/16", "0"]
    finally:
        mara.close()
        owner.close()
        browser.close()
        alone.close()
    assert alone.foreign == []


def shared_by_sheet(page: Page, copy: Path) -> None:
    """Order and job go through the phone's share sheet as they were saved."""
    tap(page, say("order.share"))
    files = given(page, 1)["files"]
    assert [f["name"] for f in files] == ["order.csv", "order-summary.csv", "order-head.csv", "order.html"]
    assert files[0]["text"].splitlines() == order_csv(copy).decode("utf-8-sig").splitlines()
    tap(page, say("order.share_job"))
    assert given(page, 2)["files"] == [{"name": "boathouse-deck.json.txt", "type": "text/plain", "text": copy.read_text()}]


def to_jobs(page: Page) -> None:
    """From the samples, once they stand there: at the bare address a device comes back to where it was left."""
    expect(page.get_by_role("heading", name=say("samples.title"))).to_be_attached(timeout=SLOW)
    tap(page, say("app.back"))


def go_alone(page: Page, site: StaticServer, path: str) -> None:
    """To an address by hand: the app starts anew there."""
    page.goto(at(site, f"#/{path}"))
    page.reload()
    started(page)


@pytest.fixture
def shared(tmp_path: Path) -> Iterator[Shared]:
    with NoReadBack(tmp_path / "book") as server:
        yield server
