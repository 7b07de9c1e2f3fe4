"""What two sides said differently is told where it comes in, and settled where it is told."""

from __future__ import annotations

import asyncio
import copy

import pytest

from fieldapp.app import DROPPED
from fieldapp.hosts.ports import PickedFile
from fieldapp.words import say
from measure.documents import dump
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, Tray, opened


def at_the_office(folder, steps):
    """Steps with a desk that has one reading of A1, and another copy's file, which has another one."""

    async def run():
        with opened(folder) as desk:
            job = await desk.add_job(deck_file(read_back="no"))
            other = copy.deepcopy(desk.words(job))
            other["readings"] = [
                {"bay": "A1", "what": "span", "value": "40 1/4", "by": "Kit", "at": "2026-05-02T08:00:00Z", "id": "bbbbbbbb-0000000000000001"}
            ]
            await desk.keep_reading(job, "Mara", bay="A1", what="span", value="40 7/16")
            await steps(desk, job, PickedFile("job.json", dump(other)))

    asyncio.run(run())


async def settled(phone):
    await asyncio.sleep(0.05)
    await phone.settle()


def test_a_file_that_brings_another_figure_says_so_at_once(tmp_path):
    async def steps(desk, job, file):
        phone = await Phone(desk, Tray()).start("/")
        phone.tray.to_pick = [file]
        await phone.key(DROPPED)
        await settled(phone)
        assert phone.sees(say("sides.count", n=1)) and len(desk.conflicts(job)) == 1

    at_the_office(tmp_path, steps)


@pytest.mark.parametrize("person", ["", "Ned"])
def test_whoever_decides_is_asked_for_a_name_in_place_and_only_where_none_is_known(tmp_path, person):
    async def steps(desk, job, file):
        await desk.take_file(file.data)
        if person:
            await desk.keep_setting("here person", person)
        phone = await Phone(desk, Tray()).start(f"/job/{job}/sides")
        assert phone.sees(say("sides.who")) is not bool(person)
        if not person:
            await phone.type(say("name.own"), "Ned")
        await phone.tap(say("sides.holds_reading", figure="40 1/4 in", by="Kit"))
        await settled(phone)
        assert phone.sees(say("sides.none"))
        assert [(r.text, r.by) for r in desk.job(job).readings][-1] == ("40 1/4", "Ned")

    at_the_office(tmp_path, steps)
