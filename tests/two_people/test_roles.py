"""A role is what the desk lets its holder do, whatever the screen offers."""

from __future__ import annotations

import asyncio
import inspect

import pytest

from fieldapp import guest_desk
from fieldapp.desk import Desk
from fieldapp.guest_desk import MAY, OWN, OWNERS, READS, GuestDesk
from fieldapp.sharing import SIGNS, RefusedError, Sharing
from fieldapp.words import say
from measure.errors import SpanbookError, StoreError
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import opened

SPAN = {"bay": "A1", "what": "span", "value": "40 7/16"}


def at_the_desk(folder, steps, role="tape", name="Mara"):
    """Steps with a guest's desk, the owner's desk, the sharing, the job and another job."""

    async def run():
        with opened(folder) as desk:
            job, other = await desk.add_job(deck_file()), await desk.add_job(deck_file(name="Another terrace"))
            sharing = desk.sharing = Sharing(desk, "http://192.0.2.7:8455/")
            await sharing.open(job)
            guest, _ = await sharing.admit(job, name, role)
            await steps(GuestDesk(desk, sharing, guest), desk, sharing, guest, job, other)

    asyncio.run(run())


async def refused(call, *given, **more):
    with pytest.raises(SpanbookError) as told:
        result = call(*given, **more)
        if inspect.isawaitable(result):
            await result
    return str(told.value)


def test_everything_that_a_desk_can_do_has_its_place_in_one_table():
    public = {n for n, _ in inspect.getmembers(Desk) if not n.startswith("_")} | {"store", "company", "sharing"}
    tables = [READS, frozenset(MAY), OWN, OWNERS]
    assert public <= frozenset().union(*tables)
    assert sum(len(t) for t in tables) == len(frozenset().union(*tables))
    assert set(MAY) >= guest_desk.SIGNED


@pytest.mark.parametrize(("role", "reads"), [("tape", True), ("scribe", True), ("office", False)])
def test_tape_and_scribe_keep_readings_and_the_office_does_not(tmp_path, role, reads):
    async def steps(mine, desk, sharing, guest, job, other):
        if reads:
            await mine.keep_reading(job, "Mara", **SPAN)
            assert [r.text for r in desk.job(job).readings] == ["40 7/16"]
        else:
            assert await refused(mine.keep_reading, job, "Mara", **SPAN) == say("join.not_office")
            assert await refused(mine.keep_moved, job, "Mara", "P1") == say("join.not_office")
            assert desk.job(job).readings == []

    at_the_desk(tmp_path, steps, role)


@pytest.mark.parametrize("role", ["tape", "scribe"])
def test_only_the_office_issues_orders(tmp_path, role):
    async def steps(mine, desk, sharing, guest, job, other):
        assert await refused(mine.issue_order, job, "Mara") == say(f"join.not_{role}")
        assert desk.orders(job) == []

    at_the_desk(tmp_path, steps, role)


def test_nobody_signs_with_another_name(tmp_path):
    async def steps(mine, desk, sharing, guest, job, other):
        assert await refused(mine.keep_reading, job, "Kit", **SPAN) == say("join.not_your_name", name="Mara")
        assert await refused(mine.keep_answer, job, "Kit", bay="A1", check="off-plan", reason="so") == say("join.not_your_name", name="Mara")
        assert await refused(mine.keep_note, job, by="Kit", bay="A1", text="x") == say("join.not_your_name", name="Mara")

    at_the_desk(tmp_path, steps)


def test_another_job_is_not_there_for_a_guest(tmp_path):
    async def steps(mine, desk, sharing, guest, job, other):
        for call, given in ((mine.job, ()), (mine.words, ()), (mine.orders, ()), (mine.notes, ("A1",)), (mine.keep_reading, ("Mara",))):
            with pytest.raises(StoreError):
                await refused(call, other, *given)
                raise StoreError("refused")
        assert [card.id for card in mine.jobs()] == [job]
        heard = []
        mine.subscribe(heard.append)
        desk.changed(f"job {other}", f"bay {other} A1", "jobs", "settings")
        assert heard == []
        desk.changed(f"job {job}", f"job {other}")
        assert heard == [frozenset({f"job {job}"})]

    at_the_desk(tmp_path, steps)


def test_what_the_owner_does_no_guest_does_and_settings_of_others_are_nobodys(tmp_path):
    async def steps(mine, desk, sharing, guest, job, other):
        for name in OWNERS:
            assert await refused(getattr(mine, name), job, {}) == say("join.owners")
        for key in ("sharing", "crew", "here look", f"{guest.device} person"):
            await refused(mine.keep_setting, key, {})
        assert mine.setting("sharing", "none") == "none"
        assert mine.sharing is None
        await mine.keep_setting(f"{guest.device} look", {"theme": "shade"})
        await mine.keep_draft("here", "place", "40")
        assert desk.drafts("here") == {} and desk.drafts(guest.device) == {"place": "40"}
        await refused(mine.keep_draft, "here", "place", "4" * 5000)

    at_the_desk(tmp_path, steps)


def test_whoever_was_put_out_does_and_sees_nothing_more(tmp_path):
    async def steps(mine, desk, sharing, guest, job, other):
        await sharing.put_out(guest.id)
        for call, given in ((mine.job, (job,)), (mine.jobs, ()), (mine.keep_reading, (job, "Mara")), (mine.keep_draft, ("x", "y", "z"))):
            assert await refused(call, *given) == say("join.put_out")
        heard = []
        mine.subscribe(heard.append)
        desk.changed(f"job {job}")
        assert heard == []

    at_the_desk(tmp_path, steps)


def test_a_code_and_its_guests_last_over_a_restart_until_a_new_code_is_made(tmp_path):
    async def steps(mine, desk, sharing, guest, job, other):
        kit, token = await sharing.admit(job, " Kit  Li ", "scribe")
        again = Sharing(desk)
        assert (again.code(job), again.guest(token), kit.name) == (sharing.code(job), kit, "Kit Li")
        old = again.code(job)
        assert again.job_of(old.lower()) == job
        new = await again.renew(job)
        assert again.job_of(old) == ("" if old != new else job)
        assert again.guest(token) is None and again.guests(job) == []
        await again.close(job)
        assert again.job_of(new) == "" and again.job_of("") == ""

    at_the_desk(tmp_path, steps)


OUT = {"put_out": lambda s, job, guest: s.put_out(guest.id), "renewed": lambda s, job, _: s.renew(job), "closed": lambda s, job, _: s.close(job)}


@pytest.mark.parametrize("why", OUT)
def test_whoever_is_out_is_told_why_and_finds_what_was_half_typed_when_they_come_again(tmp_path, why):
    async def steps(mine, desk, sharing, guest, job, other):
        kit, token = await sharing.admit(job, "Kit", "scribe")
        await desk.keep_draft(kit.device, "/job/readback#figure", "40")
        assert sharing.gone(token) is None
        await OUT[why](sharing, job, kit)
        found = Sharing(desk)  # over a restart too
        assert found.guest(token) is None and (found.gone(token).why, found.gone(token).guest) == (why, kit)
        assert found.gone("of somebody else") is None
        await found.open(job)
        again, newer = await found.admit(job, "kit ", "tape", token)
        assert again.device == kit.device and desk.drafts(again.device) == {"/job/readback#figure": "40"}
        assert found.gone(newer) is None
        # Nobody else gets what is half-typed: another phone, another name, another job.
        for name, of, before in (("Kit", job, ""), ("Kit", job, "guessed"), ("Jo", job, token), ("Kit", other, token)):
            await found.open(of)
            assert (await found.admit(of, name, "scribe", before))[0].device != kit.device

    at_the_desk(tmp_path, steps)


def test_a_phone_that_joins_again_under_its_name_keeps_what_was_half_typed(tmp_path):
    async def steps(mine, desk, sharing, guest, job, other):
        kit, token = await sharing.admit(job, "Kit", "scribe")
        assert (await sharing.admit(job, "Kit", "tape", token))[0].device == kit.device

    at_the_desk(tmp_path, steps)


def test_codes_have_four_signs_that_nobody_mixes_up(tmp_path):
    async def steps(mine, desk, sharing, guest, job, other):
        codes = {await sharing.renew(job) for _ in range(40)}
        assert len(codes) > 35
        assert all(len(c) == 4 and set(c) <= set(SIGNS) for c in codes)
        assert not set(SIGNS) & set("ILO01S5B8Z2U")
        with pytest.raises(RefusedError):
            await sharing.admit(job, "Kit", "owner")

    at_the_desk(tmp_path, steps)
