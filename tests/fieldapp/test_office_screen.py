"""Sending a job to the office, and taking jobs in there, by hand: what is typed, tapped and told."""

from __future__ import annotations

import asyncio
import json

from fieldapp.hosts.phone_app import Handing
from fieldapp.intake import Intake
from fieldapp.office import Office, Reply, UnreachableError
from fieldapp.office_said import tally_of
from fieldapp.screens.office_model import when
from fieldapp.sharing import Sharing
from fieldapp.words import say
from measure.documents import dump, read_job
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, StillClock, Tray, opened

ADDRESS, CODE, SEND = say("office.address"), say("office.code"), say("office.send")
ON, OFF = say("office.by_itself_True"), say("office.by_itself_False")


class Line:
    """An office that keeps all it gets. away: nobody answers."""

    def __init__(self, job: str) -> None:
        self.job, self.heard, self.away = job, [], False

    async def __call__(self, address, headers, data) -> Reply:
        if self.away:
            raise UnreachableError("no route")
        self.heard.append((address, headers["authorization"]))
        told = {"office": 1, "at": "2026-05-02T09:00:00Z", "digest": tally_of(read_job(data).as_dict(), self.job).digest, "plan": True}
        return Reply(200, json.dumps(told).encode())


async def comes(phone, words: str) -> None:
    """Wait until the words stand on the page by themselves."""
    for _ in range(250):
        if phone.sees(words):
            return
        await asyncio.sleep(0.02)
        await phone.settle()
    raise AssertionError(f"never came: {words}; there is {phone.texts()}")


def with_phone(tmp_path, steps) -> None:
    async def work() -> None:
        with opened(tmp_path) as desk:
            job = await desk.add_job(deck_file())
            line = Line(job)
            office = Office(desk, line, StillClock(), waits=(0.05, 0.1, 0.01))
            phone = Phone(desk, Tray(), office=office)
            await phone.start(f"/job/{job}/office")
            await steps(phone, line, office, job)
            await office.close()

    asyncio.run(work())


def test_what_is_missing_is_said_below_its_field_and_nothing_is_sent(tmp_path):
    async def steps(phone, line, office, job):
        await phone.tap(SEND)
        assert phone.sees(say("office.address_needed")) and phone.sees(say("office.code_needed"))
        await phone.type(ADDRESS, "office example")
        await phone.type(CODE, "7a3k")
        await phone.tap(ON)
        assert phone.sees(say("office.address_wrong")) and not phone.sees(say("office.code_needed"))
        assert line.heard == [] and not office.sending(job).on

    with_phone(tmp_path, steps)


def test_once_sent_it_says_up_to_when_and_the_next_job_has_the_same_office_at_hand(tmp_path):
    async def steps(phone, line, office, job):
        assert phone.sees(say("office.never"))
        await phone.type(ADDRESS, "192.0.2.7:8455/")
        await phone.type(CODE, "7a-3k")
        await phone.tap(SEND)
        await comes(phone, "The office has everything up to")
        assert line.heard == [("http://192.0.2.7:8455/office/job", "Spanbook 7A3K")]
        other = await phone.desk.add_job(deck_file(name="Another"))
        assert (office.sending(other).address, office.sending(other).code, office.sending(other).on) == ("http://192.0.2.7:8455", "7A3K", False)

    with_phone(tmp_path, steps)


def test_switched_on_it_goes_by_itself_and_is_told_on_the_open_screen_and_off_means_off(tmp_path):
    async def steps(phone, line, office, job):
        await phone.type(ADDRESS, "192.0.2.7")
        await phone.type(CODE, "7A3K")
        office.start()
        line.away = True
        await phone.tap(ON)
        await comes(phone, "no route")
        assert phone.sees(say("office.again_soon"))
        line.away = False
        office.nudge()
        await comes(phone, "The office has everything up to")
        assert phone.sees(say("office.by_itself"))
        sent = len(line.heard)
        await phone.tap(OFF)
        await phone.desk.keep_reading(job, "Kit", bay="A1", what="span", value="40 1/2 in")
        await comes(phone, "1 reading not yet with the office.")
        assert len(line.heard) == sent

    with_phone(tmp_path, steps)


def test_what_is_half_typed_is_there_after_a_look_elsewhere(tmp_path):
    async def steps(phone, line, office, job):
        await phone.type(ADDRESS, "192.0.2")
        phone.app.go("review", job=job)
        await phone.settle()
        phone.app.go("office", job=job)
        await phone.settle()
        assert "192.0.2" in [c.value for c in phone.controls() if getattr(c, "label", None) == ADDRESS]

    with_phone(tmp_path, steps)


def test_without_an_office_of_its_own_a_page_has_no_such_screen(tmp_path):
    async def steps() -> None:
        with opened(tmp_path) as desk:
            job = await desk.add_job(deck_file())
            phone = await Phone(desk, Tray()).start(f"/job/{job}/office")
            assert phone.address == "/" and phone.sees(say("join.owners"))
            for address in ("/settings/jobs-from-phones", "/settings/phones"):
                other = await Phone(desk, Tray()).start(address)
                assert other.address == "/"

    asyncio.run(steps())


def test_the_office_makes_its_code_a_new_one_and_takes_none_in(tmp_path):
    async def steps() -> None:
        with opened(tmp_path) as desk:
            desk.sharing = Sharing(desk, "http://192.0.2.7:8455/")
            intake = Intake(desk, desk.sharing)
            phone = await Phone(desk, Tray(), intake=intake).start("/settings/jobs-from-phones")
            assert not intake.code
            await phone.tap(say("intake.open"))
            first = intake.code
            assert len(first) == 8 and phone.sees(f"{first[:4]} {first[4:]}") and phone.sees("http://192.0.2.7:8455/")
            await phone.tap(say("intake.renew"))
            assert intake.code != first and phone.sees(intake.code[:4])
            words = deck_file(name="From the site")
            words["readings"] = [{"bay": "A1", "what": "span", "value": "40 in", "by": "K", "at": "2026-05-02T09:00:00Z"}]
            for _ in range(2):  # the second time there is nothing new
                await intake.take(dump(words), intake.letting(intake.code))
            await comes(phone, "From the site")
            assert phone.sees("1 new reading") and [(c.name, c.readings) for c in intake.came] == [("From the site", 1)]
            await phone.tap(say("intake.close"))
            assert not intake.code and phone.sees(say("intake.off"))

    asyncio.run(steps())


class Making:
    """A folder for phones that is made when somebody says so."""

    def __init__(self) -> None:
        self.handing, self.begun = Handing("none"), 0

    def make(self) -> None:
        self.begun += 1
        self.handing = Handing("making", "copying the client")


def test_the_app_for_phones_is_made_by_a_tap_and_its_address_shown_once_it_is_there(tmp_path):
    async def steps() -> None:
        with opened(tmp_path) as desk:
            making = Making()
            phone = await Phone(desk, Tray(), phone_app=making).start("/settings/phones")
            await phone.tap(say("phones.make"))
            assert making.begun == 1 and phone.sees("copying the client")
            making.handing = Handing("there", there=True, address="https://192.0.2.7:8455/phone/", here="https://127.0.0.1:8455/phone/")
            desk.changed("phone-app")
            await comes(phone, "https://192.0.2.7:8455/phone/")
            assert phone.sees("Put it on the home screen")

    asyncio.run(steps())


def test_the_row_of_the_review_says_how_the_job_stands_with_the_office(tmp_path):
    async def steps(phone, line, office, job):
        async def reviewed(words: str) -> None:
            await comes(phone, words)
            assert phone.address == f"/job/{job}/review"

        phone.app.go("review", job=job)
        await reviewed(say("office.never"))
        await office.choose(job, "http://127.0.0.1:9", "ABCD", False)
        await office.send_now(job)
        await reviewed(say("office.has", at=when("2026-05-02T09:00:00Z", StillClock().now())))
        line.away = True
        await office.choose(job, "http://127.0.0.1:9", "ABCD", True)
        await phone.desk.keep_reading(job, "Mara", bay="A1", what="span", value="40 7/16")
        await reviewed(say("office.row_network", words=say("office.waiting", n=1)))
        line.away = False
        await reviewed(say("office.has", at=when("2026-05-02T09:00:00Z", StillClock().now())))

    with_phone(tmp_path, steps)
