"""Two phones and an office, and one phone's line is cut, then frozen: what was typed is there, the rest catches up, the order is one."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from fieldapp.words import say
from tests.app.cuttable_line import CuttableLine
from tests.app.hand import Hand
from tests.fieldapp.browser import DESK, PHONE, Tab
from tests.two_people.conftest import PHONES, NoReadBack, Shared

SLOW = 30_000


@pytest.fixture
def shared(tmp_path: Path) -> Iterator[Shared]:
    with NoReadBack(tmp_path / "book") as server:
        yield server


@pytest.fixture
def joined(browser: Browser, shared: Shared) -> Iterator[Callable[..., Tab]]:
    """`joined("Kit", "tape")`: a phone in the job; at: another way to the same server."""
    opened: list[Tab] = []

    def join(name: str, role: str, size: tuple[int, int] = PHONE, at: str = "") -> Tab:
        address = at or shared.phones
        one = Tab(browser, address, size, may_fail=True)
        opened.append(one)
        one.page.goto(f"{address}join#{shared.code}")
        one.page.get_by_label(say("join.name")).fill(name)
        one.page.get_by_role("radio", name=say(f"settings.role_{role}")).check(force=True)
        with one.page.expect_event("load"):
            one.page.get_by_role("button", name=say("join.join_as", name=name, role=say(f"settings.role_{role}"))).click()
        return one.ready()

    yield join
    for one in opened:
        one.close()


def walks(tab: Tab, shared: Shared, bay: str) -> None:
    tab.page.goto(f"{tab.address}job/{shared.job}/walk/{bay}")
    tab.ready()
    expect(tab.marked("question")).to_have_text(re.compile("^span"), timeout=SLOW)


def rest_of_bay(tab: Tab) -> None:
    """From the kept span to the kept rise."""
    expect(tab.marked("verdict")).to_be_attached(timeout=SLOW)
    tab.page.get_by_role("button", name=re.compile("^Next")).first.click()
    expect(tab.marked("question")).to_have_text(re.compile("^rise"), timeout=SLOW)
    tab.tap("level", "Keep")
    expect(tab.marked("verdict")).to_be_attached(timeout=SLOW)


def order_of(tab: Tab, shared: Shared, folder: Path) -> bytes:
    tab.page.goto(f"{tab.address}job/{shared.job}/order")
    tab.ready()
    with tab.page.expect_download(timeout=SLOW) as coming:
        tab.page.get_by_role("button", name="order.csv", exact=True).click()
    path = folder / f"order-{len(list(folder.glob('order-*')))}.csv"
    coming.value.save_as(path)
    return path.read_bytes()


def test_a_phone_whose_line_is_cut_and_frozen_comes_back_to_its_digits_and_all_end_with_one_order(joined, shared, tmp_path):
    with CuttableLine(shared.port, PHONES) as line:
        mara = joined("Mara", "tape", at=f"http://127.0.0.1:{line.port}/")
        kit, office = joined("Kit", "tape"), joined("Jo", "office", DESK)
        band = mara.page.locator("#no-connection")
        for away, back, typed, bays in ((line.cut, line.mend, "40", ("A1", "A2")), (line.freeze, line.thaw, "41", ("A3", "A4"))):
            walks(mara, shared, bays[0])
            mara.tap(*typed)
            expect(mara.marked("entry")).to_contain_text(typed)
            mara.page.wait_for_timeout(500)  # the digits are on their way
            away()
            expect(band).to_be_visible(timeout=SLOW)
            walks(kit, shared, bays[1])
            kit.tap("4", "0", "8/16", "Keep")
            rest_of_bay(kit)
            back()
            expect(band).to_be_hidden(timeout=SLOW)
            Hand(mara).come_back()
            expect(mara.marked("entry")).to_contain_text(typed, timeout=SLOW)
            expect(mara.page.get_by_text(say("share.on_bay", name="Kit", bay=bays[1]))).to_be_attached(timeout=SLOW)
            mara.tap("7/16", "Keep")
            rest_of_bay(mara)
        orders = {order_of(one, shared, tmp_path) for one in (mara, kit, office)}
    kept = [(r["by"], r["bay"], r["what"], r["value"]) for r in shared.readings()]
    assert sorted(kept) == [
        ("Kit", "A2", "rise", "0"), ("Kit", "A2", "span", "40 1/2"), ("Kit", "A4", "rise", "0"), ("Kit", "A4", "span", "40 1/2"),
        ("Mara", "A1", "rise", "0"), ("Mara", "A1", "span", "40 7/16"), ("Mara", "A3", "rise", "0"), ("Mara", "A3", "span", "41 7/16"),
    ]  # fmt: skip
    assert len(orders) == 1 and orders.pop().count(b"\r\n") > 1
