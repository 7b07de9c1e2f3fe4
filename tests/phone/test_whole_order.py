"""A whole job alone in the phone, its server stopped after the first page: taken in, taped, answered, read back, reviewed, ordered.

Every file of the order is compared byte for byte with what the command line writes from the job file that the phone gave out.
"""

import json
import re

from playwright.sync_api import expect

from fieldapp.command import main as spanbook
from fieldapp.words import say
from tests.app.hand import Hand
from tests.fieldapp.deck_file import deck_file
from tests.phone.handset import named, started

FILES = ("order.csv", "order.html", "order-summary.csv", "order-head.csv", "order.schema.json")
OFF_PLAN, FIRST, SECOND, RISE = "41 1/16", "40 7/16", "40 9/16", "5/16"
"""Spans of two bays that are planned at 40 1/2 in, and a rise."""


class OnPhone:
    """What a `Hand` asks of a page."""

    def __init__(self, page):
        self.page = page

    def button(self, name):
        return self.page.get_by_role("button", name=name, exact=True)

    def marked(self, identifier):
        return named(self.page, identifier)


class Finger(Hand):
    """This browser takes a mouse for a finger."""

    def touch(self, part):
        part.click()


def two_bays(folder):
    job = deck_file("in", name="Two bays")
    job["bays"], job["posts"] = job["bays"][:2], job["posts"][:3]
    path = folder / "two-bays.json"
    path.write_text(json.dumps(job))
    return path


def tape(hand):
    """Both bays; the first span is off plan, looked at again and taped anew."""
    hand.type(OFF_PLAN)
    hand.tap(say("walk.keep"))
    hand.write(say("walk.who_first"), "Mona")
    hand.tap(say("walk.who_mine"))
    assert hand.verdict() == "query"
    hand.tap(say("answer.again"))
    hand.type(FIRST)
    assert hand.keep() == say("answer.clear")
    hand.tap("Next", say("walk.right_higher"))
    hand.type(RISE)
    assert hand.keep() == say("answer.clear")
    hand.tap("Next")
    hand.type(SECOND)
    assert hand.keep() == say("answer.clear")
    hand.tap("Next", say("walk.level"))
    assert hand.keep() == say("answer.clear")


def read_back(hand):
    """A second person, on the same phone, the first figure covered."""
    hand.tap(say("review.read_back"))
    hand.write(say("readback.who"), "Kai")
    hand.tap(say("readback.is_me"))
    for _ in range(2):
        hand.asked()
        hand.type(FIRST if hand.placed() == "A1" else SECOND)
        hand.tap(say("walk.keep"))
        assert hand.verdict() == say("review.verdict_clear")
        hand.tap(next(n for n in hand.buttons() if n == say("readback.done") or re.fullmatch(say("readback.next", tag="A[12]"), n)))
    hand.tap(say("readback.to_review"))


def test_a_job_is_taken_in_taped_read_back_and_ordered_alone_as_the_command_line_orders_it(phone, serve, whole_app, tmp_path):
    site = serve(whole_app)
    phone.page.set_viewport_size({"width": 390, "height": 844})
    hand = Finger(OnPhone(phone.start(site.address)))
    asked = len(site.asked)
    site.stop()
    hand.give(two_bays(tmp_path))
    tape(hand)
    hand.tap(say("answer.review"))
    read_back(hand)
    hand.sees(say("review.none"))
    hand.tap(say("review.order_all"))
    hand.sees(say("order.files"))
    saved = {name: hand.save(name, tmp_path / "phone").read_bytes() for name in FILES}
    job_file = hand.save(hand.job_file(), tmp_path)
    assert spanbook(["order", str(job_file), "-o", str(tmp_path / "desk")]) == 0
    assert saved == {path.name: path.read_bytes() for path in (tmp_path / "desk").iterdir()}
    assert len(site.asked) == asked and {status for _, status in site.asked} <= {200, 304}


def test_guide_settings_and_what_the_phone_says_of_itself_stand_there_without_a_server(phone, serve, whole_app):
    site = serve(whole_app)
    phone.page.set_viewport_size({"width": 390, "height": 844})
    page = phone.start(site.address)
    hand = Finger(OnPhone(page))
    site.stop()
    hand.tap(say("jobs.settings"))
    hand.tap(re.compile(re.escape(say("phone.title"))))
    expect(page.get_by_role("heading", name=say("phone.title"))).to_be_attached(timeout=30_000)
    hand.sees(say("phone.ready"))
    hand.sees(say("phone.may_go"))
    hand.tap(re.compile("^" + re.escape(say("phone.may_go"))))
    hand.sees(say("phone.not_promised"))
    page.goto(site.address + "#/guide/tape")
    hand.sees(say("guide.tape_1"))
    page.reload()
    started(page)
    hand.sees(say("guide.tape_1"))
