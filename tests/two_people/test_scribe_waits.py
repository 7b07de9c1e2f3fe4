"""The page of a scribe who has nothing to read back says what is waited for, and calls nothing done that is not."""

from __future__ import annotations

from fieldapp.words import say
from tests.two_people.test_on_two_phones import keyed, settled, together


def test_before_the_first_span_the_scribe_waits_for_it_and_is_asked_to_hand_over_no_phone(tmp_path):
    async def steps(mara, kit, desk, job):
        mara.app.go("review", job=job)
        await settled(mara, kit)
        assert kit.sees(say("readback.first")) and not kit.sees(say("readback.none"))
        mara.app.go("walk", job=job, bay="A1")
        await settled(mara, kit)
        assert kit.sees(say("share.wait", name="Mara", bay="A1")) and not kit.sees(say("readback.so_far"))

    together(tmp_path, steps)


def test_after_one_bay_no_more_is_called_read_back_than_was_taped(tmp_path):
    async def steps(mara, kit, desk, job):
        bays = sum(bay.has_glass for bay in desk.job(job).plan.bays)
        await keyed(mara, "4", "0", "7/16", "Keep")
        await settled(kit)
        await keyed(kit, "4", "0", "7/16", "Keep")
        await settled(mara, kit)
        await keyed(kit, say("share.go_on"))
        # Mara is at the rise of A2, whose span is read back.
        assert kit.sees(say("readback.at_rise", name="Mara", bay="A2")) and not kit.sees("Wait for")
        assert kit.sees(say("readback.so_far")) and kit.sees(say("readback.to_tape", n=bays - 1)) and not kit.sees(say("readback.done"))
        await desk.keep_reading(job, "Mara", bay="A2", what="rise", value="0")
        await settled(kit)
        assert kit.sees(say("readback.at_bay", name="Mara", bay="A2"))
        mara.app.go("review", job=job)
        await settled(mara, kit)
        assert kit.sees(say("readback.so_far")) and kit.sees(say("readback.to_tape", n=bays - 1)) and not kit.sees(say("readback.done"))

    together(tmp_path, steps)


def test_all_is_read_back_only_when_all_was_taped_and_none_of_it_by_the_scribe_alone(tmp_path):
    async def steps(mara, kit, desk, job):
        mara.app.go("review", job=job)
        tags = [bay.tag for bay in desk.job(job).plan.bays if bay.has_glass]
        for tag in tags:
            by = ("Kit", "Mara") if tag == "A1" else ("Mara", "Kit")
            await desk.keep_reading(job, by[0], bay=tag, what="span", value="40 7/16")
            if tag != "A1":
                await desk.keep_reading(job, by[1], bay=tag, what="span", value="40 7/16", role="read-back")
        await settled(mara, kit)
        assert kit.sees(say("readback.yours", bays="A1")) and not kit.sees(say("readback.done"))
        await desk.keep_reading(job, "Mara", bay="A1", what="span", value="40 7/16", role="read-back")
        await settled(kit)
        assert kit.sees(say("readback.done")) and kit.sees(say("readback.done_words"))

    together(tmp_path, steps)
