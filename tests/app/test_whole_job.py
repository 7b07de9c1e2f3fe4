"""The whole job on a phone, from the first tap to the file on its disk, and what the command line makes of the same job.

The two ways are compared with one another byte for byte; that the figures are right is proved in tests/measure.
"""

import csv
import io
import json
import re

import pytest

from fieldapp.command import main as spanbook
from fieldapp.samples import sample
from fieldapp.words import say
from tests.app.hand import Hand
from tests.fieldapp.deck_file import deck_file

SPANS = {"in": ("40 7/16", "40 9/16", "41 1/16"), "mm": ("1027", "1028,5", "1042")}
"""Spans of A1, A2 and one that is too far off plan to be let through unasked; plan 40 1/2 in or 1028 mm."""
RISES = {"in": "5/16", "mm": "8"}


def small_job(units, folder):
    """Two bays in one run, nothing read."""
    job = deck_file(units, name="Two bays")
    job["bays"], job["posts"] = job["bays"][:2], job["posts"][:3]
    path = folder / "two-bays.json"
    path.write_text(json.dumps(job))
    return path


def on_command_line(job_file, folder, *more):
    """What `spanbook order` writes for a job file."""
    assert spanbook(["order", str(job_file), "-o", str(folder), *more]) == 0
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def to_order(hand):
    """From where a job opens: its first open bay, or the review when nothing is left to tape."""
    hand.tab.page.wait_for_url(re.compile("/(walk|review)"))
    if "/walk/" in hand.tab.page.url:
        hand.tap(say("walk.review"))
    hand.tap(say("review.order_all"))
    hand.sees(say("order.files"))


def test_a_new_person_keeps_the_first_span_of_a_sample_in_three_taps_and_its_digits(tab):
    hand = Hand(tab())
    hand.tap(next(name for name in hand.buttons() if say("jobs.first") in name))
    assert hand.asked().startswith(say("walk.span"))
    hand.type("41 11/16")
    digits = 3
    hand.tap(say("walk.keep"), "Mona")
    assert hand.verdict() == say("answer.clear")
    assert hand.taps - digits == 3


@pytest.mark.parametrize("units", ["in", "mm"])
def test_a_job_is_walked_answered_read_back_and_ordered_as_the_command_line_orders_it(tab, tmp_path, units):
    page = tab()
    hand = Hand(page)
    hand.give(small_job(units, tmp_path))
    first, second, off = SPANS[units]
    hand.type(first)
    hand.tap(say("walk.keep"))
    hand.write(say("walk.who_first"), "Mona")
    hand.tap(say("walk.who_mine"))
    assert hand.verdict() == say("answer.clear")
    hand.tap("Next")
    hand.tap(say("walk.right_higher"))
    hand.type(RISES[units])
    assert hand.keep() == say("answer.clear")
    hand.tap("Next")

    hand.type(off)
    assert hand.keep() == "query"
    hand.tap(say("answer.again"))
    hand.type(second)
    assert hand.keep() == say("answer.clear")
    hand.tap("Next", say("walk.level"))
    assert hand.keep() == say("answer.clear")

    hand.tap(say("answer.review"))
    hand.tap(say("review.read_back"))
    hand.write(say("readback.who"), "Kai")
    hand.tap(say("readback.is_me"))
    for _ in range(2):
        hand.asked()
        tag = hand.placed()
        hand.type(first if tag == "A1" else second)
        hand.tap(say("walk.keep"))
        assert hand.verdict() == say("review.verdict_clear")
        hand.tap(next(n for n in hand.buttons() if n == say("readback.done") or re.fullmatch(say("readback.next", tag="A[12]"), n)))
    hand.tap(say("readback.to_review"))
    hand.sees(say("review.none"))
    hand.tap(say("review.order_all"))

    saved = hand.save("order.csv", tmp_path)
    job_file = hand.save(hand.job_file(), tmp_path)
    assert page.strangers() == [] and len(page.asked) > 10
    written = on_command_line(job_file, tmp_path / "order")
    assert saved.read_bytes() == written["order.csv"]
    rows = list(csv.DictReader(io.StringIO(written["order.csv"].decode("utf-8-sig"))))
    assert [(r["panel"], r["read_by"], r["read_back_by"]) for r in rows] == [("A1", "Mona", "Kai"), ("A2", "Mona", "Kai")]


@pytest.mark.parametrize(("name", "more"), [("boathouse-deck", ()), ("harbour-terrace", ("--partial",))])
def test_a_sample_is_ordered_as_the_command_line_orders_it(tab, tmp_path, name, more):
    hand = Hand(tab("/samples"))
    called = json.loads(sample(name).data)["job"]["name"]
    hand.tap(next(n for n in hand.buttons() if n.startswith(called) and say("samples.fresh_name", name=called) not in n))
    to_order(hand)
    saved = {n: hand.save(n, tmp_path / "app").read_bytes() for n in ("order.csv", "order-summary.csv", "order-head.csv", "order.html", "order.schema.json")}
    job_file = hand.save(hand.job_file(), tmp_path)
    assert saved == on_command_line(job_file, tmp_path / "order", *more)
