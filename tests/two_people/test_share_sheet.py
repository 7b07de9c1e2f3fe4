"""The share sheet of a phone: order files, the job file and a letter go to it whole; closed, refused or missing, it is told calmly."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, expect

from fieldapp.letter import Ask
from fieldapp.words import say
from measure.documents import dump, read_job
from measure.store import Store
from tests.fieldapp.browser import DESK, PHONE, Served, Tab
from tests.fieldapp.deck_file import deck_file
from tests.two_people.share_sheet import SHEET, given


@pytest.fixture(scope="module")
def served(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """A Spanbook with one job, of which A1 is taped."""
    folder = tmp_path_factory.mktemp("sheet") / "book"
    folder.mkdir()
    with Store.open(folder) as store:
        job = store.add_job(deck_file(read_back="no"))
        for what, value in (("span", "40 7/16"), ("rise", "0")):
            store.add_reading(job, {"bay": "A1", "what": what, "value": value, "by": "Mara", "at": "2026-05-02T09:31:00Z"})
    with Served(folder) as server:
        server.job = job
        yield server


@pytest.fixture
def tab(browser: Browser, served: Served) -> Iterator[Tab]:
    one = Tab(browser, served.address)
    yield one
    one.close()


def copied(served: Served) -> str | None:
    """When the job last left this machine."""
    with Store.open(served.folder, read_only=True) as store:
        return store.last_copy_at(served.job)


def told(tab: Tab, words: str) -> None:
    expect(tab.marked("told")).to_contain_text(words)


def test_order_files_and_the_job_file_go_to_the_share_sheet_by_name_kind_and_content(tab, served):
    tab.context.add_init_script(SHEET)
    tab.open(f"job/{served.job}/order").tap(say("order.share"))
    order = given(tab.page, 1)
    assert [(f["name"], f["type"]) for f in order["files"]] == [
        ("order.csv", "text/csv"), ("order-summary.csv", "text/csv"), ("order-head.csv", "text/csv"), ("order.html", "text/html"),
    ]  # fmt: skip
    assert order["files"][0]["text"].splitlines()[1].startswith("A1,") and "Panel A1" in order["files"][3]["text"].replace("\n", " ")
    assert order["text"] == "Boathouse deck" and tab.marked("told").count() == 0

    before = copied(served)
    tab.tap(say("order.share_job"))
    (job,) = given(tab.page, 2)["files"]
    assert (job["name"], job["type"]) == ("boathouse-deck.json.txt", "text/plain")  # no job file as such is let through
    assert [r.text for r in read_job(job["text"]).job().readings] == ["40 7/16", "0"]
    for _ in range(100):
        if copied(served) != before:
            break
        tab.page.wait_for_timeout(50)
    assert copied(served) != before


def test_a_share_sheet_that_is_closed_or_refused_is_told_calmly_and_counts_as_no_copy(tab, served):
    tab.context.add_init_script(SHEET)
    before = copied(served)
    tab.open(f"job/{served.job}/order")
    for n, (ends, words) in enumerate((("AbortError", "share.gone_closed"), ("NotAllowedError", "share.gone_refused")), 1):
        tab.page.evaluate("ends => { window.ends = ends; }", ends)
        tab.tap(say("order.share_job"))
        given(tab.page, n)
        told(tab, say(words))
    assert copied(served) == before
    tab.page.evaluate("window.ends = ''")
    tab.tap(say("order.share_job"))
    given(tab.page, 3)
    expect(tab.marked("told")).to_have_count(0)  # it went this time: nothing is left to be said


@pytest.mark.parametrize("size", [PHONE, DESK])
def test_what_is_told_lies_on_no_title_and_takes_no_more_room_than_it_needs(browser, served, size):
    tab = Tab(browser, served.address, size)
    tab.open(f"job/{served.job}/ask").tap(say("letter.take_in"))
    told(tab, say("letter.unreadable"))
    title = tab.page.get_by_role("heading", name=say("letter.ask"))

    def parted() -> bool:
        band, name = tab.marked("told").bounding_box(), title.bounding_box()
        return band["y"] + band["height"] <= name["y"] <= 140

    for _ in range(100):
        if parted():
            break
        tab.page.wait_for_timeout(50)
    assert parted()
    tab.close()


def test_without_a_share_sheet_the_file_is_saved_and_a_letter_is_there_to_copy(tab, served):
    tab.open(f"job/{served.job}/order")
    assert not tab.page.evaluate("'share' in navigator")
    with tab.page.expect_download() as coming:
        tab.tap(say("order.share_job"))
    assert coming.value.suggested_filename == "boathouse-deck.json"
    told(tab, say("share.gone_saved", name="boathouse-deck.json"))


def test_a_letter_goes_to_the_share_sheet_as_text_where_no_phone_could_open_its_link(tab, served):
    tab.context.add_init_script(SHEET)
    tab.open(f"job/{served.job}/ask").tap(say("letter.send"))
    sent = given(tab.page, 1)
    assert sent["files"] == [] and Ask.read(sent["text"]).job == served.job


def test_a_job_file_that_came_as_plain_text_is_taken_in(tab, served, tmp_path):
    path = tmp_path / "heron.json.txt"
    path.write_bytes(dump(deck_file(name="Heron landing")))
    tab.open("samples").tap(say("app.back"))
    with tab.page.expect_file_chooser() as chooser:
        tab.tap(say("jobs.file"))
    chooser.value.set_files(path)
    expect(tab.page).to_have_url(re.compile("/job/"))
