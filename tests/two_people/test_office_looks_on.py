"""The office is led to nothing that it may not do: it looks, answers in writing and orders; no page asks it for a reading."""

from __future__ import annotations

import pytest

from fieldapp.guest_desk import GuestDesk
from fieldapp.words import say
from tests.two_people.test_on_two_phones import GuestPhone, keyed, settled, taped, together
from tests.two_people.test_said_aloud import can_tap


async def office(desk, job, route):
    guest, _ = await desk.sharing.admit(job, "Ola", "office")
    return await GuestPhone(GuestDesk(desk, desk.sharing, guest), guest).start(f"/job/{job}/{route}")


def test_the_review_offers_the_office_the_order_and_a_bay_opens_to_be_looked_at(tmp_path):
    async def steps(mara, kit, desk, job):
        await taped(desk, job, "A2")
        ola = await office(desk, job, "review")
        go = next(f for f in desk.job(job).in_the_way() if f.bay)
        assert not can_tap(ola, say("review.go", place=go.bay)) and not can_tap(ola, say("review.read_back"))
        ola.app.go("walk", job=job, bay="A2")
        await settled(ola)
        assert ola.sees("40") and not can_tap(ola, "Keep") and not can_tap(ola, say("answer.again_span"))
        await keyed(ola, say("answer.review"))
        assert ola.address == f"/job/{job}/review"
        await keyed(ola, say("review.order", n=1) if can_tap(ola, say("review.order", n=1)) else say("review.order_all"))
        assert ola.address == f"/job/{job}/order"

    together(tmp_path, steps)


@pytest.mark.parametrize("route", ["walk/A1", "read/A1/top-span", "readback", "say/A2", "moved/A1"])
def test_a_page_that_asks_for_a_reading_says_at_once_that_the_office_changes_none(tmp_path, route):
    async def steps(mara, kit, desk, job):
        await taped(desk, job, "A2")
        ola = await office(desk, job, route)
        assert ola.sees(say("join.not_office")) and not can_tap(ola, "7") and not can_tap(ola, say("share.confirmed"))
        await ola.key("4", "0", "Enter")
        assert ola.sees(say("join.not_office")) and not ola.sees("40")
        await keyed(ola, say("walk.review"))
        assert ola.address == f"/job/{job}/review"

    together(tmp_path, steps)


def test_a_bay_that_the_office_looks_at_shows_its_figure_as_soon_as_it_is_kept(tmp_path):
    async def steps(mara, kit, desk, job):
        ola = await office(desk, job, "walk/A2")
        assert ola.sees(say("walk.not_read"))
        await keyed(mara, "4", "0", "7/16", "Keep")
        await settled(ola)
        assert ola.sees(say("answer.kept_span")) and not ola.sees(say("walk.not_read"))
        ola.app.go("more", job=job, bay="A2")
        await settled(ola)
        assert can_tap(ola, say("walk.review")) and not ola.sees(say("more.span_told")) and not ola.sees(say("more.walk_from")) and not ola.sees(say("more.moved"))
        await mara.app.desk.keep_reading(job, "Mara", bay="A2", what="rise", value="0")
        ola.app.go("walk", job=job, bay="A2")
        await settled(ola)
        assert ola.sees(say("answer.kept_both")) and not ola.sees(say("join.not_office"))

    together(tmp_path, steps)


def test_both_figures_that_differ_ask_the_office_for_no_tape(tmp_path):
    async def steps(mara, kit, desk, job):
        await taped(desk, job, "A2")
        await desk.keep_reading(job, "Kit", bay="A2", what="span", value="40 9/16", role="read-back")
        ola = await office(desk, job, "both/A2")
        assert ola.sees("40 9/16") and not can_tap(ola, say("readback.tape_anew", tag="A2"))
        ola.app.go("history", job=job, bay="A2")
        await settled(ola)
        assert ola.sees("40 9/16") and not can_tap(ola, say("more.count_again"))

    together(tmp_path, steps)
