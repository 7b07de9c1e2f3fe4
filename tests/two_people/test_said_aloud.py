"""Saying a figure aloud, taping anew: each tap leads where its words say, and one phone knows of the other."""

from __future__ import annotations

import asyncio
from contextlib import suppress

from fieldapp.screens.tape_anew import tape_anew
from fieldapp.words import say
from tests.two_people.test_on_two_phones import keyed, settled, together


async def kept(mara, kit, *keys):
    await keyed(mara, *keys, "Keep")
    await settled(mara, kit)


def can_tap(phone, name):
    with suppress(LookupError):
        return phone.tappable(name) is not None
    return False


def test_tape_anew_on_either_page_of_both_figures_is_one_tap_from_the_keys(tmp_path):
    async def steps(mara, kit, desk, job):
        await kept(mara, kit, "4", "0", "7/16")
        await kept(kit, mara, "4", "0", "9/16")
        for phone in (mara, kit):
            await keyed(phone, say("readback.tape_anew", tag="A2"))
            assert phone.address == f"/job/{job}/read/A2/span" and can_tap(phone, "Keep") and phone.sees(say("walk.span_where"))
        await kept(mara, kit, "4", "0", "9/16")
        assert desk.job(job).book.counting("bay", "A2", "span").text == "40 9/16"
        # Once more, after its answer was left standing there: the keys, not that answer.
        mara.app.go("review", job=job)
        await settled(mara)
        tape_anew(mara.app, job, "A2")
        await settled(mara)
        assert can_tap(mara, "Keep") and mara.sees(say("walk.span_where"))

    together(tmp_path, steps)


def test_what_was_confirmed_aloud_is_not_asked_again(tmp_path):
    async def steps(mara, kit, desk, job):
        await kept(mara, kit, "4", "0", "7/16")
        await desk.keep_reading(job, "Mara", bay="A3", what="span", value="40 1/2")
        await settled(kit)
        await keyed(kit, say("share.say"), say("share.confirmed"))
        assert kit.address == f"/job/{job}/both/A2" and kit.sees("heard Kit")
        await keyed(kit, say("share.go_on"))
        assert kit.address == f"/job/{job}/readback" and kit.marked("place") and kit.sees("A3")
        kit.app.go("say", job=job, bay="A2")  # as by the browser's own Back
        await settled(kit)
        assert not can_tap(kit, say("share.confirmed")) and kit.sees(say("readback.confirmed", first="Mara", a="40 7/16", second="Kit"))

    together(tmp_path, steps)


def test_not_so_is_one_tap_from_the_keys(tmp_path):
    async def steps(mara, kit, desk, job):
        await kept(mara, kit, "4", "0", "7/16")
        await keyed(kit, say("share.say"), say("share.not_so"))
        assert kit.address == f"/job/{job}/read/A2/span" and can_tap(kit, "Keep")

    together(tmp_path, steps)


def test_whoever_taped_a_bay_is_called_when_the_other_listens_and_has_a_way_on(tmp_path):
    async def steps(mara, kit, desk, job):
        await kept(mara, kit, "4", "0", "7/16")
        before = mara.address
        await keyed(kit, say("share.say"))
        await settled(mara)
        assert mara.sees(say("share.listens", name="Kit", bay="A2")) and mara.address == before
        mara.app.go("review", job=job)  # the call goes with her
        await settled(mara)
        assert mara.sees(say("share.listens", name="Kit", bay="A2"))
        await keyed(mara, say("share.to_say", bay="A2"))
        assert mara.sees("FOW-er") and mara.sees(say("share.say_do", name="Kit")) and not mara.sees(say("share.listens", name="Kit", bay="A2"))
        await keyed(kit, say("share.confirmed"))
        await settled(mara)
        assert mara.sees(say("share.heard", bay="A2", by="Kit", figure="40 7/16 in"))
        await keyed(mara, say("share.go_on"))
        assert mara.address == f"/job/{job}/review"

    together(tmp_path, steps)


def test_a_call_goes_when_the_listener_goes_and_is_told_elsewhere_when_it_was_answered(tmp_path):
    async def steps(mara, kit, desk, job):
        await kept(mara, kit, "4", "0", "7/16")
        await keyed(kit, say("share.say"))
        await settled(mara)
        await keyed(kit, say("app.back"))
        await settled(mara)
        assert not mara.sees(say("share.listens", name="Kit", bay="A2"))
        await keyed(kit, say("share.say"))
        await settled(mara)
        assert mara.sees(say("share.listens", name="Kit", bay="A2"))
        await keyed(kit, say("share.confirmed"))  # she called it across the deck, her page stands where it stood
        await settled(mara)
        assert mara.sees(say("share.heard", bay="A2", by="Kit", figure="40 7/16 in"))
        assert not mara.sees(say("share.listens", name="Kit", bay="A2"))

    together(tmp_path, steps)


def test_a_scribe_is_called_when_the_other_begins_to_say_a_figure(tmp_path):
    async def steps(mara, kit, desk, job):
        await kept(mara, kit, "4", "0", "7/16")
        mara.app.go("say", job=job, bay="A2")
        await settled(mara, kit)
        assert mara.sees(say("share.say_do_other"))
        assert kit.sees(say("share.says", name="Mara", bay="A2")) and not kit.sees("FOW")
        await keyed(kit, say("share.to_hear"))
        await asyncio.sleep(0)
        await settled(mara)
        assert can_tap(kit, say("share.confirmed")) and mara.sees(say("share.say_do", name="Kit"))

    together(tmp_path, steps)
