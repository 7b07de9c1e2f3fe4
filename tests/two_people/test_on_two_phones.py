"""Two phones at one desk, in this process: whose figure is whose, what each is told, what both sides said."""

from __future__ import annotations

import asyncio
import copy

import pytest

from fieldapp.guest_desk import GuestDesk
from fieldapp.hosts.ports import Host, Place
from fieldapp.screens.present_model import letters_on
from fieldapp.screens.readback_model import was_aloud
from fieldapp.screens.say_model import words_to_say
from fieldapp.screens.walk_model import Step
from fieldapp.sharing import Sharing
from fieldapp.words import say
from measure.documents import dump, read_job
from measure.errors import SpanbookError
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, StillClock, Tray, opened


class GuestPhone(Phone):
    """The page of somebody who joined."""

    def __init__(self, desk, guest) -> None:
        super().__init__(desk, Tray(), device=guest.device)
        self._guest = guest

    async def start(self, route: str = "/"):
        import tests.fieldapp.harness as harness

        place = Place("served", shared=True, device=self._guest.device, guest=self._guest.id, role=self._guest.role)
        plain = harness.Host
        harness.Host = lambda files, share, clock, _: Host(files, share, StillClock(), place)
        try:
            return await super().start(route)
        finally:
            harness.Host = plain


def together(folder, steps, **deck):
    """Steps with Mara at the tape, Kit as scribe, the owner's desk and the job. deck: of the job's file."""

    async def run():
        with opened(folder) as desk:
            job = await desk.add_job(deck_file(**deck))
            sharing = desk.sharing = Sharing(desk)
            await sharing.open(job)
            phones = []
            for name, role, route in (("Mara", "tape", f"/job/{job}/walk/A2"), ("Kit", "scribe", f"/job/{job}/readback")):
                guest, _ = await sharing.admit(job, name, role)
                phones.append(await GuestPhone(GuestDesk(desk, sharing, guest), guest).start(route))
            await steps(*phones, desk, job)

    asyncio.run(run())


async def settled(*phones):
    await asyncio.sleep(0.05)
    for phone in phones:
        await phone.settle()


async def keyed(phone, *keys):
    await phone.tap(*keys)
    await settled(phone)


def test_the_scribe_waits_then_follows_and_sees_no_figure_of_the_tape(tmp_path):
    async def steps(mara, kit, desk, job):
        assert kit.sees(say("share.wait", name="Mara", bay="A2"))
        await keyed(mara, "4", "0", "7/16", "Keep")
        await settled(kit)
        assert kit.marked("place") and kit.sees("A2") and kit.sees(say("readback.covered"))
        assert not any("40" in t or "⁷⁄₁₆" in t for t in kit.texts())

    together(tmp_path, steps)


@pytest.mark.parametrize(("key", "agree"), [("7/16", True), ("9/16", False)])
def test_both_are_told_whether_the_figures_agree(tmp_path, key, agree):
    async def steps(mara, kit, desk, job):
        await keyed(mara, "4", "0", "7/16", "Keep")
        await settled(kit)
        await keyed(kit, "4", "0", key, "Keep")
        await settled(mara, kit)
        if agree:
            assert mara.sees(say("share.agree", bay="A2", by="Kit", figure="40 7/16")) and mara.page.title == "✓ A2"
            assert kit.sees(say("readback.agree", figure="40 7/16")) and kit.page.title.startswith("✓")
        else:
            differ = say("readback.differ", first="Mara", a="40 7/16", second="Kit", b="40 9/16")
            assert mara.sees(differ) and kit.sees(differ)
            assert mara.address == f"/job/{job}/both/A2" and mara.page.title.startswith("≠")

    together(tmp_path, steps)


def test_a_figure_said_aloud_is_confirmed_by_the_other_who_does_not_see_it(tmp_path):
    async def steps(mara, kit, desk, job):
        await keyed(mara, "4", "0", "7/16", "Keep")
        await settled(kit)
        mara.app.go("more", job=job, bay="A2")
        await settled(mara)
        await keyed(mara, f"{say('share.say')} {say('share.say_told')}")
        await keyed(kit, say("share.say"))
        assert mara.sees("FOW-er") and mara.sees("and SEV-en sixteenths")
        assert not any("40" in t or "FOW" in t for t in kit.texts())
        await keyed(kit, say("share.confirmed"))
        await settled(mara)
        back = desk.job(job).readings[-1]
        assert (back.by, back.role, back.text) == ("Kit", "read-back", "40 7/16")
        assert kit.sees(say("readback.confirmed", first="Mara", a="40 7/16", second="Kit"))
        # On record in the job file itself, and so on every copy of it.
        copy = read_job(dump(desk.words(job))).job()
        assert was_aloud(copy.readings[-1]) and not any(was_aloud(r) for r in copy.readings[:-1])
        kit.app.go("history", job=job, bay="A2")
        await settled(kit)
        assert any("said aloud and confirmed" in t for t in kit.texts())
        assert mara.sees(say("share.heard", bay="A2", by="Kit", figure="40 7/16 in"))

    together(tmp_path, steps)


def test_who_is_on_which_bay_is_seen_and_spoken_on_the_walk_and_in_the_review(tmp_path):
    async def steps(mara, kit, desk, job):
        kit.app.go("walk", job=job, bay="A3")
        await settled(kit, mara)
        assert mara.marked("others").label == say("share.on_bay", name="Kit", bay="A3")
        assert kit.marked("others").label == say("share.on_bay", name="Mara", bay="A2")
        assert letters_on(desk.company, job, mara.app) == {"A3": "K"}
        sent = len(mara.wire.packets)
        kit.app.go("more", job=job, bay="A3")  # still on that bay: nothing on the other phone looks different
        await settled(kit, mara)
        assert len(mara.wire.packets) == sent
        office = await Phone(desk, Tray()).start(f"/job/{job}/review")
        assert office.sees(f"{say('share.on_bay', name='Mara', bay='A2')} and {say('share.on_bay', name='Kit', bay='A3')}")
        scroll = office.app.screen._parts["runs"]
        kit.app.go("walk", job=job, bay="A1")
        await settled(kit, office)
        assert office.sees(say("share.on_bay", name="Kit", bay="A1"))
        assert office.app.screen._parts["runs"] is scroll  # set where it stands: the page stays where it was scrolled to

    together(tmp_path, steps)


def test_the_bay_that_a_scribe_reads_back_is_where_the_others_see_them(tmp_path):
    async def steps(mara, kit, desk, job):
        await keyed(mara, "4", "0", "7/16", "Keep")
        await settled(kit, mara)
        assert kit.sees("A2") and mara.marked("others").label == say("share.on_bay", name="Kit", bay="A2")

    together(tmp_path, steps)


def test_two_first_readings_of_one_bay_are_both_kept_and_shown_as_two_sides(tmp_path):
    async def steps(mara, kit, desk, job):
        kit.app.go("walk", job=job, bay="A2")
        await settled(kit)
        await desk.keep_reading(job, "Mara", bay="A2", what="span", value="40 7/16")
        await desk.keep_reading(job, "Kit", bay="A2", what="span", value="40 9/16")
        kit.app.go("sides", job=job)
        await settled(kit)
        assert kit.sees("40 7/16") and kit.sees("40 9/16")
        for screen in ("review", "order"):
            kit.app.go(screen, job=job)
            await settled(kit)
            # named although the rise is not read yet, in one row
            assert kit.sees("Two sides took the span of A2") and not kit.sees(say("sides.count", n=1))
        await keyed(kit, "Review")
        assert kit.address == f"/job/{job}/review" and not kit.sees("0.0000 m²")
        kit.app.go("sides", job=job)
        await settled(kit)
        await keyed(kit, say("sides.holds_reading", figure="40 7/16 in", by="Mara"))
        assert kit.sees(say("sides.none")) and desk.conflicts(job) == ()
        counting = desk.job(job).book.counting("bay", "A2", "span")
        assert (counting.text, counting.by, len(desk.job(job).readings)) == ("40 7/16", "Kit", 3)

    together(tmp_path, steps)


def test_two_first_readings_are_settled_by_taping_again_too(tmp_path):
    async def steps(mara, kit, desk, job):
        await desk.keep_reading(job, "Mara", bay="A2", what="span", value="40 7/16")
        await desk.keep_reading(job, "Kit", bay="A2", what="span", value="40 9/16")
        mara.app.go("sides", job=job)
        await settled(mara)
        await keyed(mara, say("sides.again", place="A2, span"))
        assert mara.sees("A2") and mara.address == f"/job/{job}/read/A2/span"
        await keyed(mara, "4", "0", "5/16", "Keep")  # what neither of them had
        assert desk.conflicts(job) == ()
        assert desk.job(job).book.counting("bay", "A2", "span").text == "40 5/16"
        assert [r.text for r in desk.job(job).readings] == ["40 7/16", "40 9/16", "40 5/16"]  # one tape, one reading
        await desk.keep_reading(job, "Kit", bay="A2", what="span", value="40 1/2")  # and so at the next one
        mara.app.go("sides", job=job)
        await settled(mara)
        for figure, by in (("40 5/16 in", "Mara"), ("40 1/2 in", "Kit")):
            mara.tappable(say("sides.holds_reading", figure=figure, by=by))
        assert sum(text.endswith(" holds") for text in mara.texts()) == 2

    together(tmp_path, steps, read_back="no")


def test_what_another_phone_reads_while_it_is_taped_again_is_not_settled_unseen(tmp_path):
    async def steps(mara, kit, desk, job):
        await taped(desk, job, "A2")
        mara.app.go("walk", job=job, bay="A2")
        await settled(mara)
        await keyed(mara, say("answer.again_span"), "4", "0")
        await desk.keep_reading(job, "Kit", bay="A2", what="span", value="40 9/16")
        await settled(mara)
        await keyed(mara, "8/16", "Keep")
        (conflict,) = desk.conflicts(job)
        assert {"40 9/16 in", "40 1/2 in"} <= {side.said for side in conflict.sides} and mara.sees(say("answer.sides"))

    together(tmp_path, steps, read_back="no")


def test_taping_again_what_both_read_alike_makes_no_two_sides_of_it(tmp_path):
    async def steps(mara, kit, desk, job):
        await taped(desk, job, "A2")
        await desk.keep_reading(job, "Kit", bay="A2", what="span", value="40 7/16")
        mara.app.go("walk", job=job, bay="A2")
        await settled(mara)
        await keyed(mara, say("answer.again_span"), "4", "0", "8/16", "Keep")
        assert desk.conflicts(job) == () and len(desk.job(job).readings) == 4

    together(tmp_path, steps, read_back="no")


async def taped(desk, job, *bays):
    for bay in bays:
        await desk.keep_reading(job, "Mara", bay=bay, what="span", value="40 7/16")
        await desk.keep_reading(job, "Mara", bay=bay, what="rise", value="0")


def test_what_two_sides_read_goes_into_no_order_until_somebody_decides(tmp_path):
    async def steps(mara, kit, desk, job):
        await taped(desk, job, "A2", "A3")
        assert [line.panel for line in desk.order(job).lines] == ["A2", "A3"]
        await desk.keep_reading(job, "Kit", bay="A2", what="span", value="40 9/16")
        assert [line.panel for line in desk.order(job).lines] == ["A3"]
        issued = await desk.issue_order(job, "Mara")
        assert [p["panel"] for p in issued.panels] == ["A3"]
        owner = await Phone(desk, Tray()).start(f"/job/{job}/order")
        assert owner.sees("A2: Two sides took the span of A2") and not owner.sees(say("sides.count", n=1))  # one row
        mara.app.go("walk", job=job, bay="A2")
        await settled(mara)
        assert mara.sees(say("answer.sides")) and mara.sees("40 9/16 in counts now")
        await keyed(mara, say("answer.sides"), say("sides.holds_reading", figure="40 7/16 in", by="Mara"))
        assert {line.panel for line in desk.order(job).lines} == {"A2", "A3"} and desk.conflicts(job) == ()

    together(tmp_path, steps, read_back="no")


def test_an_answer_in_writing_decides_it_too(tmp_path):
    async def steps(mara, kit, desk, job):
        await taped(desk, job, "A2")
        await desk.keep_reading(job, "Kit", bay="A2", what="span", value="40 9/16")
        with pytest.raises(SpanbookError, match="No panel is free"):
            await desk.issue_order(job, "Mara")
        await desk.keep_answer(job, "Mara", bay="A2", check="two-sides", reason="the other one was a trial")
        assert desk.conflicts(job) == () and [p["panel"] for p in (await desk.issue_order(job, "Mara")).panels] == ["A2"]

    together(tmp_path, steps, read_back="no")


def test_a_post_and_a_run_that_two_sides_read_are_settled_by_a_tap_too(tmp_path):
    async def steps(mara, kit, desk, job):
        await taped(desk, job, "A1", "A2")
        over = {"over": "40 in", "what": "plumb", "post": "P2", "value": "1/16"}
        await desk.keep_reading(job, "Mara", toward="left", **over)
        await desk.keep_reading(job, "Kit", toward="right", **over)
        run = {"run": "A", "what": "overall", "from": "outside"}
        await desk.keep_reading(job, "Mara", value="130", **run)
        await desk.keep_reading(job, "Kit", value="131", **run)
        assert len(desk.conflicts(job)) == 2 and desk.order(job).lines == ()
        mara.app.go("sides", job=job)
        await settled(mara)
        await keyed(mara, say("sides.holds_reading", figure="1/16 in, heads left", by="Mara"))
        await keyed(mara, say("sides.holds_reading", figure="130 in, outside", by="Mara"))
        assert desk.conflicts(job) == ()
        book = desk.job(job).book
        assert (book.plumb("P2", "A").toward, book.counting("run", "A", "overall").text) == ("left", "130")

    together(tmp_path, steps, read_back="no")


def test_a_plan_changed_on_two_sides_is_settled_by_a_person_and_not_before(tmp_path):
    async def steps(mara, kit, desk, job):
        base = {k: v for k, v in desk.words(job).items() if k != "history"}
        ours, theirs = copy.deepcopy(base), copy.deepcopy(base)
        theirs["bays"][0]["span"], ours["bays"][1]["span"] = "41 in", "42 in"
        await desk.keep_plan(job, ours, "Mara")
        history = desk.words(job)["history"]
        stem = history["plan"]["before"][0]
        theirs["history"] = {"job": history["job"], "plan": {"id": stem, "by": "", "at": "", "before": []}}  # changed by hand since
        result = await desk.take_file(dump(theirs))
        assert len(result.conflicts) == 1
        owner = await Phone(desk, Tray()).start(f"/job/{job}/sides")
        sides = desk.conflicts(job)[0].sides
        assert len(sides) == 2 and owner.sees(say("sides.plan", places="A1: planned span. A2: planned span."))
        assert owner.sees("A1: planned span 41 in.\nA2: planned span 40 1/2 in.") and owner.sees("A1: planned span 40 1/2 in.\nA2: planned span 42 in.")
        kit.app.go("sides", job=job)
        await settled(kit)
        assert kit.sees(say("sides.owner")) and not any(t.endswith(" holds") for t in kit.texts())  # the plan is the owner's
        await taped(desk, job, "A1")
        with pytest.raises(SpanbookError, match="No panel is free"):
            await desk.issue_order(job, "Mara")
        owner.app.go("review", job=job)
        await settled(owner)
        assert owner.sees(say("review.go_sides"))
        await keyed(owner, say("review.go_sides"))
        mine = next(s for s in sides if s.by == "Mara")
        await keyed(owner, say("sides.holds", by=mine.by))
        assert owner.sees(say("sides.who")) and len(desk.conflicts(job)) == 1  # nobody stands by it yet
        await keyed(owner, "Mara", say("sides.holds", by=mine.by))
        assert desk.conflicts(job) == () and owner.sees(say("sides.none"))
        assert [b["span"] for b in desk.words(job)["bays"][:2]] == ["40 1/2 in", "42 in"]

    together(tmp_path, steps)


def test_what_others_keep_takes_no_key_from_under_the_finger_of_whoever_reads_back(tmp_path):
    async def steps(mara, kit, desk, job):
        await keyed(mara, "4", "0", "7/16", "Keep")
        await settled(kit)
        key = kit.tappable("7")
        await keyed(kit, "4")
        await desk.keep_reading(job, "Jo", bay="A3", what="span", value="40 1/2")
        await settled(kit)
        assert kit.sees("A2") and kit.sees(say("readback.count", at=1, n=2))
        assert kit.tappable("7") is key and kit.marked("entry").label == "4 in"
        await desk.keep_reading(job, "Mara", bay="A2", what="span", value="40 9/16")  # taped anew: another first figure
        await settled(kit)
        assert kit.tappable("7") is not key and kit.marked("entry").label == "4 in"

    together(tmp_path, steps)


def test_an_open_answer_follows_what_is_told_of_its_run_and_by_another_copy_of_the_job(tmp_path):
    async def steps(mara, kit, desk, job):
        for tag in ("A1", "A2", "A3", "A4"):
            await taped(desk, job, tag)
        await desk.keep_reading(job, "Mara", run="A", what="overall", value="172 1/2", **{"from": "outside"})
        mara.app.go("read", job=job, bay="A2", what="overall-outside")
        await settled(mara)
        mara.app.screen._go_to(Step("told", "overall-outside"))
        await desk.keep_reading(job, "Jo", run="A", what="overall", value="180", **{"from": "outside"})
        await settled(mara)
        assert mara.sees("4572.0 mm") and not mara.sees("4381.5 mm")  # no bay was told of, the run was
        mara.app.go("walk", job=job, bay="A2")
        await settled(mara)
        assert mara.sees("Next") or mara.sees(say("answer.review"))
        other = copy.deepcopy(desk.words(job))
        other["readings"].append({"bay": "A2", "what": "span", "value": "40 1/4", "by": "Jo", "at": "2026-05-02T12:00:00Z", "id": "bbbbbbbb-0000000000000001"})
        await desk.take_file(dump(other))
        await settled(mara)
        assert mara.sees("40 1/4 in counts now") and mara.sees(say("answer.sides"))
        mara.app.go("read", job=job, bay="A3", what="span")
        await settled(mara)
        await keyed(mara, "4", "1")
        other["readings"][-1] |= {"bay": "A3", "id": "bbbbbbbb-0000000000000002"}
        await desk.take_file(dump(other))
        await settled(mara)
        assert mara.marked("entry").label == "41 in"  # what is half-typed stays

    together(tmp_path, steps, read_back="no")


SAID = [
    ("40", (7, 16), "in", "FOW-er / ZE-RO / and SEV-en sixteenths / inches"),
    ("15", (1, 2), "in", "WUN / FIFE / and WUN half / inches"),
    ("", (13, 16), "in", "WUN TREE sixteenths / inches"),
    ("1028.5", None, "mm", "WUN / ZE-RO / TOO / AIT / DAY-SEE-MAL / FIFE / millimetres"),
]


@pytest.mark.parametrize(("whole", "part", "unit", "words"), SAID)
def test_a_figure_is_said_sign_by_sign_as_pilots_say_it(whole, part, unit, words):
    # ICAO Annex 10, volume II, 5.2.1.4.3.1, from memory; fractions as the trade says them, no source.
    from fractions import Fraction

    said = words_to_say(whole, Fraction(*part) if part else None, unit)
    assert " / ".join(w for _, w in said) == words


def test_the_owner_sees_who_is_where_and_a_wrong_code_that_was_tried(tmp_path):
    async def steps(mara, kit, desk, job):
        desk.sharing.address = "http://192.0.2.7:8455/"
        owner = await Phone(desk, Tray()).start(f"/job/{job}/share")
        assert owner.marked("code").label == say("share.code_says", code=" ".join(desk.sharing.code(job)))
        assert owner.sees(say("share.at_bay", role="tape", bay="A2")) and owner.sees(say("share.in_job", role="scribe"))
        await kit.drop()
        await settled(owner)
        assert owner.sees(say("share.away", role="scribe"))
        await keyed(owner, say("share.put_out", name="Mara"))
        assert len(desk.sharing.guests(job)) == 2 and owner.sees(say("share.put_out_sure", name="Mara"))
        await keyed(owner, say("share.put_out", name="Kit"))  # another row asks anew
        assert len(desk.sharing.guests(job)) == 2 and owner.sees(say("share.put_out", name="Mara"))
        await keyed(owner, say("share.put_out_sure", name="Kit"))
        assert [g.name for g in desk.sharing.guests(job)] == ["Mara"] and owner.sees(say("share.put_out", name="Mara"))
        mara.app.go("share", job=job)
        await settled(mara)
        assert mara.sees(say("join.owners"))

    together(tmp_path, steps)
