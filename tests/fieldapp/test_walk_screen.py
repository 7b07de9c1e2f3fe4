"""The walk on a phone, in this process."""

import asyncio

from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, Tray, opened

PERSON = "Mona"


def on_deck(folder, steps, route="/job/{id}/walk/A1", person=PERSON, size=(390, 844), **deck):
    """Steps on a phone that stands at a bay of a fresh deck."""

    async def run():
        with opened(folder) as desk:
            job = await desk.add_job(deck_file(**deck))
            if person:
                await desk.keep_setting("here person", person)
            phone = Phone(desk, Tray(), width=size[0], height=size[1])
            phone.job = job
            await phone.start(route.format(id=job))
            await steps(phone)

    asyncio.run(run())


def entry(phone):
    return phone.marked("entry").label


def readings(phone):
    return phone.desk.words(phone.job).get("readings", [])


async def keyed(phone, *keys):
    await phone.tap(*keys)
    await asyncio.sleep(0.02)
    await phone.settle()


def test_the_walk_begins_with_the_span_of_its_bay(tmp_path):
    async def steps(phone):
        assert phone.marked("question").label == "span. Tape tight, just above the base plates."
        assert entry(phone) == "nothing typed yet, in"

    on_deck(tmp_path, steps)


def test_keys_show_the_figure_and_keep_answers_with_the_verdict(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16")
        assert entry(phone) == "40 7/16 in"
        await keyed(phone, "Keep")
        assert phone.sees("clear")
        assert readings(phone)[0] | {"at": "", "id": ""} == {
            "bay": "A1", "what": "span", "value": "40 7/16", "by": PERSON, "at": "", "id": "",
        }  # fmt: skip

    on_deck(tmp_path, steps)


def test_next_goes_on_with_the_rise_and_then_with_the_next_bay(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16", "Keep", "Next")
        assert phone.marked("question").label.startswith("rise.")
        await keyed(phone, "right higher", "6/16", "Keep")
        assert phone.marked("verdict")
        assert phone.sees("Panel 41 3/4 in wide")
        await keyed(phone, "Next")
        assert phone.address.endswith("/walk/A2")
        assert phone.marked("question").label.startswith("span.")

    on_deck(tmp_path, steps)
