"""Two people and an office, each in a real browser: join, read back blind, see what the others keep, be put out."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator

import cv2
import numpy as np
import pytest
from playwright.sync_api import Browser, expect

from fieldapp.words import say
from measure.store import Store
from tests.fieldapp.browser import DESK, PHONE, Tab
from tests.two_people.conftest import Shared

SLOW = 15_000
"""Milliseconds that a busy machine may take for what is told at once."""


LISTENS = """(() => {
  window.tones = [];
  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (...at) {
    window.tones.push([this.frequency.value, this.context.state]);
    return start.apply(this, at);
  };
})()"""
"""Notes each tone that is really begun, and whether the browser lets it be heard."""
AGREES, DIFFERS = [[880, "running"], [1320, "running"]], [[220, "running"], [220, "running"]]


def heard(tab: Tab, tones: list[list[object]]) -> None:
    """Fails unless these tones were the last ones."""
    tab.page.wait_for_function("n => window.tones.length >= n", arg=len(tones), timeout=SLOW)
    assert tab.page.evaluate("window.tones")[-len(tones) :] == tones


@pytest.fixture
def phone(browser: Browser, shared: Shared) -> Iterator[Callable[..., Tab]]:
    """`phone("Kit", "scribe")`: a phone that joined as a person would, at the scanned address."""
    opened: list[Tab] = []

    def join(name: str, role: str, size: tuple[int, int] = PHONE, link: str = "") -> Tab:
        one = Tab(browser, shared.phones, size, may_fail=True)
        opened.append(one)
        one.context.add_init_script(LISTENS)
        one.page.goto(link or f"{shared.phones}join#{shared.code}")
        one.page.get_by_label(say("join.name")).fill(name)
        one.page.get_by_role("radio", name=say(f"settings.role_{role}")).check(force=True)
        expect(one.page).to_have_url(f"{shared.phones}join")
        with one.page.expect_event("load"):
            one.page.get_by_role("button", name=say("join.join_as", name=name, role=say(f"settings.role_{role}"))).click()
        return one.ready()

    yield join
    for one in opened:
        one.close()


@pytest.fixture
def owner(browser: Browser, shared: Shared) -> Iterator[Tab]:
    one = Tab(browser, shared.address, DESK, may_fail=True)
    yield one
    one.close()


def go(tab: Tab, path: str) -> None:
    """To an address by hand: the page starts anew there."""
    tab.page.goto(tab.address + path)
    tab.ready()
    if "/walk/" in path:  # the page comes back as it was left, then goes there
        expect(tab.marked("question")).to_have_text(re.compile("^span"), timeout=SLOW)


def told(tab: Tab, words: str) -> None:
    expect(tab.page.get_by_text(words).first).to_be_attached(timeout=SLOW)


def only_the_rise_is_missing(tab: Tab, bay: str) -> None:
    row = tab.page.get_by_role("button", name=re.compile(f"^hold {bay}, rise not read The rise"))
    expect(row).to_be_attached(timeout=SLOW)


def test_a_figure_is_read_back_blind_and_agreement_and_difference_are_seen_on_both_phones(phone, shared):
    tape = phone("Mara", "tape")
    scribe = phone("Kit", "scribe")
    go(tape, f"job/{shared.job}/walk/A3")
    told(scribe, say("share.wait", name="Mara", bay="A3"))
    tape.tap("4", "0", "7/16", "Keep")
    expect(scribe.marked("place")).to_have_text("A3", timeout=SLOW)  # the scribe follows the tape
    told(scribe, say("readback.covered"))
    assert "7/16 in" not in scribe.page.locator("flt-semantics-host").inner_text()
    scribe.tap("4", "0", "7/16", "Keep")
    told(scribe, say("readback.agree", figure="40 7/16"))
    told(tape, say("share.agree", bay="A3", by="Kit", figure="40 7/16"))
    expect(tape.page).to_have_title(say("share.agrees_title", bay="A3"), timeout=SLOW)
    for one in (scribe, tape):
        heard(one, AGREES)

    tape.tap(say("app.close"))
    go(tape, f"job/{shared.job}/walk/A2")
    tape.tap("4", "0", "6/16", "Keep")
    scribe.tap(say("readback.next", tag="A2"))
    expect(scribe.marked("place")).to_have_text("A2", timeout=SLOW)
    scribe.tap("4", "0", "12/16", "Keep")
    for one in (scribe, tape):
        told(one, say("readback.differ", first="Mara", a="40 3/8", second="Kit", b="40 3/4"))
        heard(one, DIFFERS)
    tape.at(f"job/{shared.job}/both/A2")
    assert [(r["by"], r["value"], r.get("role", "first")) for r in shared.readings()] == [
        ("Mara", "40 7/16", "first"), ("Kit", "40 7/16", "read-back"), ("Mara", "40 3/8", "first"), ("Kit", "40 3/4", "read-back"),
    ]  # fmt: skip


def test_what_one_keeps_the_other_and_the_office_see_and_the_office_writes_no_reading(phone, shared):
    tape, scribe = phone("Mara", "tape"), phone("Kit", "scribe")
    office = phone("Jo", "office", DESK)
    go(tape, f"job/{shared.job}/walk/A1")
    told(office, say("share.on_bay", name="Mara", bay="A1"))
    tape.tap("4", "0", "7/16", "Keep")
    only_the_rise_is_missing(office, "A1")
    go(scribe, f"job/{shared.job}/walk/A2")
    scribe.tap("4", "0", "8/16", "Keep")
    only_the_rise_is_missing(office, "A2")
    told(office, f"{say('share.on_bay', name='Mara', bay='A1')} and {say('share.on_bay', name='Kit', bay='A2')}")
    told(tape, say("share.on_bay", name="Kit", bay="A2"))  # spoken, and a letter on the strip
    go(office, f"job/{shared.job}/walk/A4")
    told(office, say("join.not_office"))
    expect(office.button("Keep")).to_have_count(0)
    for key in ("4", "0", "Enter"):
        office.page.keyboard.press(key)
    assert sorted((r["by"], r["bay"], r["value"]) for r in shared.readings()) == [("Kit", "A2", "40 1/2"), ("Mara", "A1", "40 7/16")]
    go(office, f"job/{shared.other}/review")
    told(office, say("app.no_such_job"))


def test_the_qr_code_on_the_screen_leads_in_and_whoever_is_put_out_is_out_at_once(phone, owner, shared):
    owner.open(f"job/{shared.job}/share")
    told(owner, say("share.scan"))
    owner.page.wait_for_timeout(1000)
    screen = cv2.imdecode(np.frombuffer(owner.page.screenshot(), np.uint8), cv2.IMREAD_COLOR)
    link, _, _ = cv2.QRCodeDetectorAruco().detectAndDecode(screen)
    assert link == f"{shared.phones}join#{shared.code}"
    kit = phone("Kit", "scribe", link=link)
    told(owner, say("share.put_out", name="Kit"))
    owner.tap(say("share.put_out", name="Kit"), say("share.put_out_sure", name="Kit"))
    kit.page.wait_for_url(f"{shared.phones}join", timeout=SLOW)
    expect(kit.page.get_by_role("alert")).to_have_text(say("join.put_out"), timeout=SLOW)
    told(owner, say("share.nobody"))
    with Store.open(shared.folder, read_only=True) as store:
        assert store.setting("sharing")["guests"] == []


def test_a_phone_that_was_put_out_finds_its_half_typed_figure_when_it_joins_again(phone, owner, shared):
    tape = phone("Mara", "tape")
    go(tape, f"job/{shared.job}/walk/A1")
    tape.tap("4", "0")
    expect(tape.marked("entry")).to_have_text("40 in", timeout=SLOW)
    owner.open(f"job/{shared.job}/share")
    owner.tap(say("share.close"))
    page = tape.page
    expect(page.get_by_role("alert")).to_have_text(say("join.closed"), timeout=SLOW)
    owner.tap(say("share.open"))
    told(owner, say("share.nobody"))
    with Store.open(shared.folder, read_only=True) as store:
        code = store.setting("sharing")["codes"][shared.job]
    page.get_by_label(say("join.sign", n=1, of=4)).fill(code)  # name and role stand there still
    with page.expect_event("load"):
        page.get_by_role("button", name=say("join.join_as", name="Mara", role=say("settings.role_tape"))).click()
    tape.ready()
    go(tape, f"job/{shared.job}/walk/A1")
    expect(tape.marked("entry")).to_have_text("40 in", timeout=SLOW)


def test_a_phone_is_where_it_was_after_the_server_was_killed(phone, shared):
    tape = phone("Mara", "tape")
    go(tape, f"job/{shared.job}/walk/A1")
    tape.tap("4", "0", "7/16", "Keep")
    expect(tape.marked("verdict")).to_be_attached(timeout=SLOW)
    go(tape, f"job/{shared.job}/walk/A2")
    tape.tap("3", "9")
    tape.page.wait_for_timeout(500)
    shared.kill()
    with tape.reloading():
        shared.start()
    expect(tape.marked("entry")).to_have_text("39 in", timeout=SLOW)
    tape.tap("8/16", "Keep")
    expect(tape.marked("verdict")).to_be_attached(timeout=SLOW)
    assert [(r["by"], r["bay"], r["value"]) for r in shared.readings()] == [("Mara", "A1", "40 7/16"), ("Mara", "A2", "39 1/2")]
