"""A job goes into the bin by two taps and comes out by one; nothing in it is lost."""

import asyncio

import pytest

from fieldapp.hosts.ports import Place
from fieldapp.screens.jobs_model import binned_told, job_facts
from measure.documents import read_job
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, Tray, opened
from tests.fieldapp.test_plan_effects import taped


def went(steps, folder, size=(390, 844), route="/"):
    async def run():
        with opened(folder) as desk:
            ids = [await desk.add_job(taped(deck_file(name=name), "A1")) for name in ("Boathouse deck", "Mill stair")]
            await steps(await Phone(desk, Tray(), width=size[0], height=size[1]).start(route), *ids)

    asyncio.run(run())


async def waited(phone):
    await asyncio.sleep(0.05)
    await phone.settle()


@pytest.mark.parametrize("size", [(390, 844), (1280, 800)], ids=["phone", "wide"])
def test_a_job_goes_into_the_bin_and_comes_back_with_all_that_was_read(tmp_path, size):
    async def steps(phone, deck, stair):
        await phone.tap("More about job 2", "Put it in the bin …")
        assert {c.id for c in phone.desk.jobs()} == {stair, deck}
        await phone.tap("Into the bin")
        await waited(phone)
        assert phone.address == "/" and phone.sees("1 job in this book") and phone.sees("“Boathouse deck” is in the bin.")
        await phone.tap("bin 1 job")
        assert phone.sees("1 of 5 bays kept, last changed") and not phone.sees("Mill stair")
        await phone.tap("Bring Boathouse deck back")
        await waited(phone)
        assert phone.sees("The bin is empty.") and len(phone.desk.words(deck)["readings"]) == 3
        await phone.tap("Back")
        assert phone.sees("2 jobs in this book") and not phone.sees("is in the bin")

    went(steps, tmp_path, size)


def test_the_list_itself_offers_the_way_back_until_one_goes_elsewhere(tmp_path):
    async def steps(phone, deck, stair):
        await phone.tap("More about job 1", "Put it in the bin …", "Into the bin")
        await waited(phone)
        await phone.tap("Bring it back")
        await waited(phone)
        assert {c.id for c in phone.desk.jobs()} == {deck, stair} and not phone.sees("is in the bin")
        await phone.tap("More about job 1", "Put it in the bin …", "Into the bin")
        await waited(phone)
        await phone.tap("Settings", "Back")
        assert not phone.sees("is in the bin.") and phone.sees("1 job")

    went(steps, tmp_path)


def test_one_tap_takes_no_job_away_and_the_question_can_be_left(tmp_path):
    async def steps(phone, deck, stair):
        await phone.tap("More about job 1", "Put it in the bin …", "Leave it here")
        assert phone.desk.binned_jobs() == [] and phone.sees("Put it in the bin …")

    went(steps, tmp_path)


def test_the_whole_job_is_copied_out_as_its_file(tmp_path):
    async def steps(phone, deck, stair):
        assert phone.sees("never")
        await phone.tap("Copy the job out Its file, with all that was read: to keep, or for another phone.")
        (file,) = phone.tray.saved
        assert file.name == "mill-stair.json" and len(read_job(file.data).job().readings) == 3
        assert not next(c for c in phone.desk.jobs() if c.id == stair).copy_is_old
        assert phone.sees("The job file is saved.") and not phone.sees("never")

    async def run():
        with opened(tmp_path) as desk:
            id = await desk.add_job(taped(deck_file(name="Mill stair"), "A1"))
            await steps(await Phone(desk, Tray()).start(f"/jobs/{id}"), "", id)

    asyncio.run(run())


def test_what_is_told_of_a_job_leaves_out_what_nobody_said(tmp_path):
    with opened(tmp_path) as desk:
        asyncio.run(desk.add_job(deck_file()))
        (card,) = desk.jobs()
        told = dict(job_facts(card))
        assert told["taped"] == "0 of 5 bays kept" and told["last copied out"] == "never" and "site" not in told
        assert binned_told(card).startswith("0 of 5 bays kept, last changed ")


def test_a_guest_has_no_menu_of_the_whole_job(tmp_path):
    async def run():
        with opened(tmp_path) as desk:
            await desk.add_job(deck_file())
            phone = await Phone(desk, Tray()).start("/")
            phone.app.host = phone.app.host.__class__(phone.tray, phone.tray, phone.app.host.clock, Place("served", guest="7", role="tape"))
            phone.app.redraw()
            await phone.settle()
            with pytest.raises(LookupError):
                phone.tappable("More about job 2")

    asyncio.run(run())


def test_looking_at_the_whole_job_is_not_where_it_was_left(tmp_path):
    async def steps(phone, deck, stair):
        await phone.tap("More about job 1", "Open the job")
        assert phone.address == f"/job/{stair}/walk/A2"

    went(steps, tmp_path)
