"""A query that stands is answered with a reason and a name; the order is issued, frozen, and says which panel differs when a bay is taped anew."""

import csv
import io
import re

import pytest
from playwright.sync_api import expect

from fieldapp.screens.stands_model import reasons
from fieldapp.words import say
from tests.app.hand import SLOW, Hand
from tests.app.test_whole_job import RISES, SPANS, small_job

MONA = "Mona"


def rows(path):
    return {r["panel"]: r for r in csv.DictReader(io.StringIO(path.read_text("utf-8-sig")))}


def stands(hand, check="off-plan"):
    """It stands, because …: the first reason ready to tap, by a name of the crew."""
    hand.tap(say("answer.stands_says"))
    hand.tap(reasons(check)[0], MONA, say("stands.it_stands"))


@pytest.mark.parametrize("units", ["in", "mm"])
def test_a_query_is_answered_the_order_goes_out_and_a_bay_taped_anew_shows_which_panel_differs(tab, tmp_path, units):
    hand = Hand(tab())
    hand.give(small_job(units, tmp_path))
    hand.type(SPANS[units][0])
    hand.tap(say("walk.keep"))
    hand.write(say("walk.who_first"), MONA)
    hand.tap(say("walk.who_mine"))
    hand.verdict()
    hand.tap("Next", say("walk.right_higher"))
    hand.type(RISES[units])
    hand.keep()
    hand.tap("Next")
    hand.type(SPANS[units][2])
    assert hand.keep() == "query"
    stands(hand)
    assert hand.verdict() == say("answer.clear")
    hand.tap("Next", say("walk.level"))
    assert hand.keep() == say("answer.clear")

    hand.tap(say("answer.review"))
    read_back(hand, {"A1": SPANS[units][0], "A2": SPANS[units][2]})
    hand.tap(say("review.order_all"))
    hand.tap(f"{say('order.issue')} …")
    hand.tap(say("order.issue_what", n=2))  # nobody is chosen beforehand
    hand.sees(say("settings.name_needed"))
    hand.tap(MONA, say("order.issue_what", n=2))
    hand.sees(say("order.same"))
    before = rows(hand.save("order.csv 1", tmp_path / "first"))
    assert set(before) == {"A1", "A2"}

    hand.tap(say("order.back"), say("bays.row", run="A"))
    hand.tap(re.compile("^A2,"))
    hand.tap(say("answer.again_span"))
    hand.type(SPANS[units][1])
    hand.keep()
    hand.sees(re.compile("^A2 is .* as ordered"))
    hand.tap(say("walk.review"))
    hand.sees(say("order.row", number="1", tags="A2"))
    hand.tap(say("review.order_all"))
    hand.sees(say("order.changed", n=1))
    hand.sees(say("order.as_now"))
    change = say("order.change", number="1.1")
    hand.tap(f"{change} …")
    hand.sees(say("order.fact_out"))  # A2 is not read back yet: no change order has it

    hand.tap(say("app.back"))
    hand.sees(say("order.as_now"))
    hand.tap(say("order.back"))
    read_back(hand, {"A2": SPANS[units][1]}, known=True)
    hand.tap(say("review.order_all"), f"{change} …", MONA, say("order.change_of", change=change, tags="A2"))
    hand.sees(say("order.same"))
    after = rows(hand.save("order.csv 1.1", tmp_path / "second"))
    assert after["A2"]["width_in"] != before["A2"]["width_in"] and after["A1"]["width_in"] == before["A1"]["width_in"]


def read_back(hand, spans, known=False):
    """These spans, by a second person on the same phone."""
    hand.tap(say("review.read_back"))
    if not known:
        hand.write(say("readback.who"), "Kai")
        hand.tap(say("readback.is_me"))
    for _ in spans:
        hand.asked()
        hand.type(spans[hand.placed()])
        hand.tap(say("walk.keep"))
        assert hand.verdict() == say("review.verdict_clear")
        hand.tap(re.compile(f"^({say('readback.done')}|{say('readback.next', tag='A[12]')})$"))
    hand.tap(say("readback.to_review"))
    expect(hand.tab.button(say("review.order_all"))).to_be_attached(timeout=SLOW)
