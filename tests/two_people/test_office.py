"""Jobs on their way to an office over a real line: sent, acknowledged, sent again, refused; nothing twice, nothing unasked, nothing lost."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest

from fieldapp.hosts.office_line import post
from fieldapp.office import Office, Reply, UnreachableError
from measure.store import Store
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import StillClock
from tests.fieldapp.harness import opened as desk_in
from tests.two_people.office_server import OWN_CODE, OfficeServer

WAITS = (0.05, 0.2, 0.02)


@pytest.fixture
def office(tmp_path):
    with OfficeServer(tmp_path / "office") as server:
        yield server


class Field:
    """A phone's book with one job of the office's, and its line, counted; a stand-in for the line may be put in its way."""

    def __init__(self, desk, job: str, clock=None) -> None:
        self.desk, self.job, self.sent = desk, job, 0
        self.instead: Callable[..., object] | None = None
        self.office = Office(desk, self._post, clock or StillClock(), waits=WAITS)

    async def _post(self, address, headers, data) -> Reply:
        self.sent += 1
        return await (self.instead or post)(address, headers, data)

    async def keep(self, value: str, bay: str = "A1") -> None:
        await self.desk.keep_reading(self.job, "Kit", bay=bay, what="span", value=value)

    async def until(self, true: Callable[[], bool]) -> None:
        """Wait for something that comes by itself. AssertionError where it does not."""
        for _ in range(600):
            if true():
                return
            await asyncio.sleep(0.05)
        raise AssertionError(f"it never came: {self.standing}")

    @property
    def standing(self):
        return self.office.standing(self.job)


def in_field(tmp_path: Path, steps: Callable[[Field], object], clock=None, file: dict | None = None) -> None:
    async def work() -> None:
        with desk_in(tmp_path / "field") as desk:
            if clock is not None:
                desk._clock = clock
            field = Field(desk, await desk.add_job(file or deck_file()), clock)
            field.office.start()
            try:
                await steps(field)
            finally:
                await field.office.close()

    (tmp_path / "field").mkdir()
    asyncio.run(work())


def test_what_is_sent_is_acknowledged_by_the_offices_clock_and_counts_as_a_copy(office, tmp_path):
    async def steps(field):
        await field.keep("40 1/2 in")
        assert (field.standing.waiting, field.standing.all_there) == (1, False)
        await field.office.choose(field.job, office.at, office.code, False)
        before = datetime.now(UTC).replace(microsecond=0)
        assert await field.office.send_now(field.job) is None
        standing = field.standing
        assert (standing.waiting, standing.all_there, standing.trouble) == (0, True, None)
        assert before <= datetime.fromisoformat(standing.sending.at) <= datetime.now(UTC)
        card = field.desk.store.card(field.job)
        assert card.copied_at and not card.copy_is_old
        await field.keep("40 3/8 in", "A2")
        assert (field.standing.waiting, field.standing.all_there, field.desk.store.card(field.job).copy_is_old) == (1, False, True)

    in_field(tmp_path, steps)
    assert [r["value"] for r in office.readings()] == ["40 1/2 in"]


def test_nothing_is_sent_that_nobody_asked_for(office, tmp_path):
    async def steps(field):
        await field.keep("40 1/2 in")
        await field.office.choose(field.job, office.at, office.code, False)
        await field.keep("40 3/8 in", "A2")
        other = await field.desk.add_job(deck_file(name="Nobody's business"))
        await field.desk.keep_reading(other, "Kit", bay="A1", what="span", value="40 in")
        await asyncio.sleep(5 * sum(WAITS))
        assert field.sent == 0
        await field.office.choose(field.job, office.at, office.code, True)
        await field.until(lambda: field.standing.all_there)
        assert not field.office.standing(other).all_there

    in_field(tmp_path, steps)
    assert office.jobs() == {"Boathouse deck": 2, "Another terrace": 0}


def test_once_switched_on_whatever_is_new_goes_by_itself_while_the_office_goes_and_comes_back(office, tmp_path):
    async def steps(field):
        await field.office.choose(field.job, office.at, office.code, True)
        await field.keep("40 1/2 in")
        await field.until(lambda: field.standing.all_there)
        office.stop()
        await field.keep("40 3/8 in", "A2")
        await field.keep("40 1/4 in", "A3")
        await field.until(lambda: field.standing.trouble is not None and field.sent >= 3)
        assert (field.standing.trouble.kind, field.standing.waiting) == ("unreachable", 2)
        office.start()
        await field.until(lambda: field.standing.all_there)
        assert field.standing.trouble is None

    in_field(tmp_path, steps)
    assert [r["value"] for r in office.readings()] == ["40 1/2 in", "40 3/8 in", "40 1/4 in"]


def test_after_a_restart_of_the_phone_it_goes_on(office, tmp_path):
    async def away(field):
        field.instead = nobody
        await field.office.choose(field.job, office.at, office.code, True)
        await field.keep("40 1/2 in")
        await field.until(lambda: field.standing.trouble is not None)

    async def again() -> None:
        with desk_in(tmp_path / "field") as desk:
            field = Field(desk, desk.jobs()[0].id)
            field.office.start()
            await field.until(lambda: field.standing.all_there)
            await field.office.close()

    in_field(tmp_path, away)
    asyncio.run(again())
    assert len(office.readings()) == 1


async def nobody(*_: object) -> Reply:
    raise UnreachableError("")


def test_an_answer_that_is_lost_leads_to_a_second_sending_and_to_nothing_twice(office, tmp_path):
    async def steps(field):
        async def lost(*given) -> Reply:
            await post(*given)
            field.instead = None
            raise UnreachableError("cut")

        await field.keep("40 1/2 in")
        field.instead = lost
        await field.office.choose(field.job, office.at, office.code, True)
        await field.until(lambda: field.standing.all_there)
        assert field.sent == 2
        for _ in range(3):
            assert await field.office.send_now(field.job) is None

    in_field(tmp_path, steps)
    assert len(office.readings()) == 1


def test_what_is_kept_while_a_job_is_on_its_way_is_not_called_there(office, tmp_path):
    async def steps(field):
        async def slow(*given) -> Reply:
            reply = await post(*given)
            await field.keep("40 3/8 in", "A2")
            return reply

        await field.keep("40 1/2 in")
        await field.office.choose(field.job, office.at, office.code, False)
        field.instead = slow
        assert await field.office.send_now(field.job) is None
        assert (field.standing.waiting, field.standing.all_there, field.desk.store.card(field.job).copy_is_old) == (1, False, True)

    in_field(tmp_path, steps)


class Ahead(StillClock):
    """A phone whose clock is five years ahead."""

    def __init__(self) -> None:
        super().__init__()
        self.at = datetime.now(UTC) + timedelta(days=5 * 365)


class Behind(StillClock):
    """A phone whose battery was empty: its clock began anew."""

    def __init__(self) -> None:
        super().__init__()
        self.at = datetime(1999, 1, 1, tzinfo=UTC)


@pytest.mark.parametrize("clock", [Ahead, Behind])
def test_a_phone_with_a_wrong_clock_is_told_the_offices_time_and_nothing_is_left_out(office, tmp_path, clock):
    async def steps(field):
        await field.keep("40 1/2 in")
        await field.office.choose(field.job, office.at, office.code, False)
        await field.office.send_now(field.job)
        told = datetime.fromisoformat(field.standing.sending.at)
        assert abs(datetime.now(UTC) - told) < timedelta(minutes=2) and field.standing.all_there
        await field.keep("40 3/8 in", "A2")
        assert field.standing.waiting == 1
        await field.office.send_now(field.job)
        assert field.standing.all_there

    in_field(tmp_path, steps, clock())
    assert len(office.readings()) == 2


def test_a_wrong_code_is_tried_once_and_never_again_by_itself(office, tmp_path):
    async def steps(field):
        await field.keep("40 1/2 in")
        await field.office.choose(field.job, office.at, "XXXX", True)
        await field.until(lambda: field.standing.trouble is not None)
        await field.keep("40 3/8 in", "A2")
        await asyncio.sleep(5 * sum(WAITS))
        assert (field.standing.trouble.kind, field.sent) == ("code", 1)
        await field.office.choose(field.job, office.at, office.code, True)
        await field.until(lambda: field.standing.all_there)

    in_field(tmp_path, steps)
    said = office.said()
    assert said.count("a wrong code for the office from") == 1
    assert office.code not in said and "XXXX" not in said and "Kit" not in said


def test_a_job_too_large_for_any_office_is_not_sent_at_all(tmp_path):
    async def steps(field):
        await field.office.choose(field.job, "http://192.0.2.1:9", "7A3K", False)
        trouble = await field.office.send_now(field.job)
        assert (trouble.kind, field.sent) == ("large", 0)

    file = deck_file()
    file["readings"] = [
        {"bay": "A1", "what": "span", "value": "40 in", "by": "K" * 1900, "at": f"2026-05-02T09:{n // 60 % 60:02}:{n % 60:02}.{n:06}Z"} for n in range(4400)
    ]
    in_field(tmp_path, steps, file=file)


def answering(status: int, body: bytes, **headers: str) -> HTTPServer:
    """A server of somebody else."""

    class Stranger(BaseHTTPRequestHandler):
        def do_POST(self) -> None:
            self.rfile.read(int(self.headers["content-length"]))
            self.server.heard.append((self.path, self.headers.get("authorization")))
            self.send_response(status)
            for name, value in {**headers, "content-length": str(len(body))}.items():
                self.send_header(name, value)
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *_: object) -> None:
            pass

    server = HTTPServer(("127.0.0.1", 0), Stranger)
    server.heard = []
    threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.02}, daemon=True).start()
    return server


LIES = [
    (200, b"<html>Welcome to our hotspot</html>"),
    (200, b""),
    (200, b"[1]"),
    (200, b'{"office": 2, "digest": "x", "at": "2026-05-02T09:00:00Z"}'),
    (200, b'{"office": 1, "at": "2026-05-02T09:00:00Z"}'),
    (200, b'{"office": 1, "digest": "' + b"0" * 64 + b'", "at": "2026-05-02T09:00:00Z", "plan": true}'),
    (404, b"not here"),
    (502, b"bad gateway"),
    (429, b'{"office": 1, "seconds": "x", "refused": "wait"}'),
    (422, b'{"office": 1, "sentence": 5}'),
    (200, b'{"office": 1, "deep": ' + b"[" * 60_000),
]


@pytest.mark.parametrize(("status", "body"), LIES)
def test_an_answer_that_is_none_of_an_office_acknowledges_nothing(tmp_path, status, body):
    server = answering(status, body)

    async def steps(field):
        await field.keep("40 1/2 in")
        await field.office.choose(field.job, f"http://127.0.0.1:{server.server_port}", "7A3K", False)
        trouble = await field.office.send_now(field.job)
        assert trouble is not None and trouble == field.standing.trouble
        assert (field.standing.sending.at, field.standing.waiting, field.desk.store.card(field.job).copied_at) == ("", 1, "")

    in_field(tmp_path, steps)
    server.shutdown()
    server.server_close()


def test_an_office_that_sends_on_to_another_address_is_not_followed_and_the_code_stays(tmp_path):
    other = answering(200, b"{}")
    first = answering(307, b"", location=f"http://127.0.0.1:{other.server_port}/office/job")

    async def steps(field):
        await field.office.choose(field.job, f"http://127.0.0.1:{first.server_port}", "7A3K", False)
        assert (await field.office.send_now(field.job)).kind == "stranger"

    in_field(tmp_path, steps)
    assert first.heard == [("/office/job", "Spanbook 7A3K")] and other.heard == []
    for server in (first, other):
        server.shutdown()
        server.server_close()


def test_another_office_has_nothing_of_a_job_yet(office, tmp_path):
    async def steps(field):
        await field.keep("40 1/2 in")
        await field.office.choose(field.job, office.at, office.code, False)
        await field.office.send_now(field.job)
        await field.office.choose(field.job, "http://192.0.2.1:9", office.code, False)
        assert (field.standing.all_there, field.standing.waiting, field.standing.sending.at) == (False, 1, "")

    in_field(tmp_path, steps)


def changed_plan(field):
    words = field.desk.words(field.job)
    words["job"] = {**words["job"], "site": "another site"}
    return field.desk.keep_plan(field.job, words, "Kit")


def test_a_join_code_lets_in_what_a_guest_may_add_and_no_plan(office, tmp_path):
    async def steps(field):
        await changed_plan(field)
        await field.keep("40 1/2 in")
        await field.office.choose(field.job, office.at, office.code, False)
        assert await field.office.send_now(field.job) is None
        assert (field.standing.waiting, field.standing.all_there, field.standing.sending.plan) == (0, False, False)
        assert field.desk.store.card(field.job).copied_at == ""
        await field.office.choose(field.job, office.at, OWN_CODE, False)
        assert await field.office.send_now(field.job) is None
        assert field.standing.all_there and field.desk.store.card(field.job).copied_at

    with Store.open(office.folder, read_only=True) as store:
        assert store.card(office.job).site == ""
    in_field(tmp_path, steps)
    with Store.open(office.folder, read_only=True) as store:
        assert (store.card(office.job).site, store.card(office.job).settled, len(office.readings())) == ("another site", True, 1)


def test_a_join_code_lets_no_other_job_in_and_the_offices_own_lets_a_new_one_in(office, tmp_path):
    async def steps(field):
        await field.keep("40 1/2 in")
        await field.office.choose(field.job, office.at, office.code, True)
        await field.until(lambda: field.standing.trouble is not None)
        assert field.standing.trouble.kind == "job"
        assert office.jobs() == {"Boathouse deck": 0, "Another terrace": 0}
        await field.office.choose(field.job, office.at, OWN_CODE.lower(), True)
        await field.until(lambda: field.standing.all_there)

    in_field(tmp_path, steps, file=deck_file(name="Third deck"))
    assert office.jobs() == {"Boathouse deck": 0, "Another terrace": 0, "Third deck": 1}
