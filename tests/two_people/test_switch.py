"""The switch in the app, in real browsers: phones are let in, shut out while somebody is typing, and let in again."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import httpx
import pytest
from playwright.sync_api import Browser, expect

from fieldapp.words import say
from measure.store import Store
from tests.fieldapp.browser import DESK, Served, Tab
from tests.fieldapp.deck_file import deck_file
from tests.two_people.conftest import PHONES

SLOW = 20_000
CODE = "7A3K"
BEHIND = f"""
from fieldapp import command
from fieldapp.hosts import phone_line
phone_line.own_address = lambda: "{PHONES}"
raise SystemExit(command.main())
"""
"""`spanbook` as it is, on a machine whose address on the network is another one of its own."""


class Alone(Served):
    """`spanbook` for its owner alone, with one job."""

    program = ("-c", BEHIND)

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        folder.mkdir(parents=True)
        with Store.open(folder) as store:
            self.job = store.add_job(deck_file())
            store.set_setting("sharing", {"codes": {self.job: CODE}, "guests": []})

    @property
    def phones(self) -> str:
        return f"http://{PHONES}:{self.port}/"

    def kept(self) -> list[tuple[str, str]]:
        with Store.open(self.folder, read_only=True) as store:
            return [(r["bay"], r["value"]) for r in store.document(self.job).get("readings", ())]

    def half_typed(self) -> list[str]:
        """What guests have typed and not kept."""
        with Store.open(self.folder, read_only=True) as store:
            guests = store.setting("sharing")["guests"]
            return [text for guest in guests for text in store.drafts(guest["device"]).values() if text]


@pytest.fixture
def alone(tmp_path: Path) -> Iterator[Alone]:
    with Alone(tmp_path / "book") as server:
        yield server


def comes_to(tab: Tab, is_so: Callable[[], bool]) -> None:
    """Fails unless it comes to be so within ten seconds."""
    for _ in range(200):
        if is_so():
            return
        tab.page.wait_for_timeout(50)
    assert is_so()


def joined(browser: Browser, server: Alone) -> Tab:
    guest = Tab(browser, server.phones, may_fail=True)
    guest.page.goto(f"{server.phones}join#{CODE}")
    guest.page.get_by_label(say("join.name")).fill("Mara")
    guest.page.get_by_role("radio", name=say("settings.role_tape")).check(force=True)
    with guest.page.expect_event("load"):
        guest.page.get_by_role("button", name=say("join.join_as", name="Mara", role=say("settings.role_tape"))).click()
    guest.ready()
    guest.page.goto(f"{server.phones}job/{server.job}/walk/A1")
    guest.ready()
    expect(guest.marked("question")).to_contain_text("span", timeout=SLOW)
    return guest


def test_phones_that_are_shut_out_are_told_take_nothing_and_go_on_where_they_were_once_let_in_again(browser, alone):
    owner = Tab(browser, alone.address, DESK)
    owner.open(f"job/{alone.job}/share").sees(say("share.off"))
    with pytest.raises(httpx.ConnectError):
        httpx.get(alone.phones)
    owner.tap(say("share.let_in"))
    expect(owner.page.get_by_role("img", name=say("share.qr_says", address=alone.phones))).to_be_attached(timeout=SLOW)
    guest = joined(browser, alone)
    try:
        guest.tap("4", "0")
        expect(guest.marked("entry")).to_have_text("40 in")
        comes_to(guest, lambda: "40" in alone.half_typed())

        owner.tap(say("share.shut"))
        owner.sees(say("share.off"))
        band = guest.page.locator("#no-connection.shown")
        expect(band).to_have_text(say("page.shut"), timeout=SLOW)
        with pytest.raises(httpx.ConnectError):
            httpx.get(alone.phones)
        assert guest.page.evaluate("fetch('/', { cache: 'no-store' }).then(() => 'came', () => 'refused')") == "refused"
        assert alone.kept() == []

        with guest.reloading():
            owner.tap(say("share.let_in"))
        expect(band).to_have_count(0, timeout=SLOW)
        expect(guest.marked("entry")).to_have_text("40 in", timeout=SLOW)
        guest.tap("8/16", "Keep")
        expect(guest.marked("verdict")).to_be_attached(timeout=SLOW)
        assert alone.kept() == [("A1", "40 1/2")]
        owner.sees(say("share.at_bay", role=say("settings.role_tape"), bay="A1"))
    finally:
        guest.close()
    owner.close()
