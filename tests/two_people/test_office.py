"""Jobs on their way to an office over a real line: sent, acknowledged, sent again, refused; nothing twice, nothing unasked, nothing lost."""

from __future__ import annotations

import asyncio
import json
import threading
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import httpx
import pytest

from fieldapp.hosts.guesses import FREE, Guesses
from fieldapp.hosts.network import Network
from fieldapp.hosts.office_door import OfficeDoor
from fieldapp.hosts.office_line import post
from fieldapp.intake import Intake
from fieldapp.office import Office, Reply, UnreachableError
from fieldapp.office_said import LARGEST_JOB, PATH
from fieldapp.sharing import Sharing
from measure.documents import dump
from measure.errors import SpanbookError
from measure.store import Store
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import StillClock
from tests.fieldapp.harness import opened as desk_in
from tests.two_people.conftest import Shared

OWN_CODE = "ACDEFGHJ"
APP = "https://app.example"
JSON = {"content-type": "application/json"}
WAITS = (0.05, 0.2, 0.02)


class OfficeServer(Shared):
    """`spanbook --share` with a job under a join code, and the office's own code."""

    def __init__(self, folder: Path, *more: str) -> None:
        super().__init__(folder, "7A3K", *more)
        with Store.open(folder) as store:
            store.set_setting("intake", {"code": OWN_CODE})

    @property
    def at(self) -> str:
        return self.phones.rstrip("/")

    def jobs(self) -> dict[str, int]:
        """Name -> how many readings, of everything that is kept."""
        with Store.open(self.folder, read_only=True) as store:
            return {card.name: len(store.document(card.id).get("readings", [])) for card in store.jobs()}


@pytest.fixture
def office(tmp_path):
    with OfficeServer(tmp_path / "office", "--allow-origin", APP) as server:
        yield server


@pytest.fixture(scope="module")
def gate(tmp_path_factory):
    """The same, one for all tests that leave it as they found it."""
    with OfficeServer(tmp_path_factory.mktemp("gate") / "office", "--allow-origin", APP) as server:
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


# ---- at the office's gate ------------------------------------------------------------------------------------------------
def sent(gate, code: str = "", body: bytes | None = None, **headers: str) -> httpx.Response:
    named = {**JSON, **({"authorization": f"Spanbook {code}"} if code else {}), **{k.replace("_", "-"): v for k, v in headers.items()}}
    return httpx.post(gate.at + PATH, content=dump(deck_file()) if body is None else body, headers=named)


@pytest.mark.parametrize("origin", ["https://evil.example", "null", f"{APP}.evil.example", "http://app.example", f"{APP}:8443"])
def test_a_page_of_another_origin_is_refused_before_anything_else(gate, origin):
    asked = {"origin": origin, "access-control-request-method": "POST", "access-control-request-headers": "authorization,content-type"}
    for answer in (httpx.options(gate.at + PATH, headers=asked), sent(gate, gate.code, origin=origin)):
        assert answer.status_code == 421 and not any(name.startswith("access-control") for name in answer.headers)


def test_a_page_of_an_allowed_origin_may_send_here_and_ask_for_nothing_else(gate):
    asked = {"origin": APP, "access-control-request-method": "POST", "access-control-request-headers": "authorization,content-type"}
    answer = httpx.options(gate.at + PATH, headers=asked)
    assert (answer.status_code, answer.headers["access-control-allow-origin"]) == (204, APP)
    assert answer.headers["access-control-allow-methods"] == "POST" and "origin" in answer.headers["vary"]
    assert {"authorization", "content-type"} == set(answer.headers["access-control-allow-headers"].split(", "))
    good = sent(gate, gate.code, origin=APP)
    assert (good.status_code, good.headers["access-control-allow-origin"]) == (200, APP)
    assert "access-control-allow-credentials" not in good.headers and "set-cookie" not in good.headers
    assert sent(gate, origin=APP).headers["access-control-allow-origin"] == APP
    for path in ("/", "/join", "/healthz", "/phone/", "/office", "/office/job/"):
        assert (path, httpx.get(gate.at + path, headers={"origin": APP}).status_code) == (path, 421)
    same = sent(gate, gate.code, origin=gate.at)
    assert same.status_code == 200 and "access-control-allow-origin" not in same.headers


@pytest.mark.parametrize("method", ["GET", "HEAD", "PUT", "DELETE", "PATCH"])
def test_nothing_but_a_sending_is_answered(gate, method):
    answer = httpx.request(method, gate.at + PATH, headers={"authorization": f"Spanbook {gate.code}"})
    assert (answer.status_code, answer.headers["allow"], gate.job in answer.text) == (405, "POST, OPTIONS", False)


READING = {"bay": "A1", "what": "span", "value": "40 in", "by": "K", "at": "2026-05-02T09:00:00Z"}
HOSTILE = {
    "nothing": b"", "no job": b"{}", "null": b"null", "deep": b"[" * 200_000, "no text": b"\xff\xfe\x00", "two": b'{"format": "spanbook-job/1"' * 2,
    "long id": dump({**deck_file(), "history": {"job": "x" * 65}}), "empty id": dump({**deck_file(), "history": {"job": ""}}),
    "unknown key": dump({**deck_file(), "more": 1}), "negative": dump({**deck_file(), "readings": [{**READING, "value": "-1 in"}]}),
    "no time": dump({**deck_file(), "readings": [{**READING, "at": "never"}]}), "no bay": dump({**deck_file(), "readings": [{**READING, "bay": "Z9"}]}),
    "unplaced of never": dump({**deck_file(), "history": {"job": "{job}", "unplaced": {"readings": [{**READING, "at": "x"}]}}}),
    "other plan": dump({**deck_file(), "history": {"job": "{job}", "other_plans": [{"id": "1", "by": "", "at": "x", "before": [], "plan": {}}]}}),
}  # fmt: skip
OTHERS = {
    "another id": dump({**deck_file(), "history": {"job": "../../etc"}}), "another name": dump(deck_file(name="=HYPERLINK(1)")),
    "other units": dump({**deck_file("mm"), "history": {"job": "{job}"}}), "a job beside it": dump(deck_file(name="Another terrace")),
}  # fmt: skip


@pytest.mark.parametrize("what", HOSTILE)
@pytest.mark.parametrize("code", ["7A3K", OWN_CODE])
def test_a_hostile_job_is_refused_in_words_and_changes_nothing(gate, what, code):
    before = gate.jobs()
    answer = sent(gate, code, HOSTILE[what].replace(b"{job}", gate.job.encode()))
    told = answer.json()
    assert (answer.status_code, told["office"], told["refused"], bool(told["sentence"])) == (422, 1, "file", True)
    assert gate.jobs() == before


@pytest.mark.parametrize("what", OTHERS)
def test_with_a_join_code_no_other_job_is_touched(gate, what):
    before = gate.jobs()
    answer = sent(gate, gate.code, OTHERS[what].replace(b"{job}", gate.job.encode()))
    assert (answer.status_code, answer.json()["refused"]) == (409, "job")
    assert gate.jobs() == before


def test_a_job_too_large_or_of_another_kind_is_refused_before_it_is_read(gate):
    big = b" " * (LARGEST_JOB + 1)
    assert sent(gate, gate.code, big).status_code == 413

    def pieces():
        for _ in range(LARGEST_JOB // 65536 + 2):
            yield b" " * 65536

    assert httpx.post(gate.at + PATH, content=pieces(), headers={**JSON, "authorization": f"Spanbook {gate.code}"}).status_code == 413
    for kind in ("text/plain", "multipart/form-data", "application/x-www-form-urlencoded", ""):
        assert (kind, sent(gate, gate.code, b"{}", content_type=kind).status_code) == (kind, 415)
    assert sent(gate, gate.code, content_encoding="gzip").status_code == 415
    assert httpx.get(f"{gate.address}healthz").text == "here"


def test_guessing_at_the_office_and_at_the_door_is_counted_together(tmp_path):
    with OfficeServer(tmp_path / "office") as server:
        for n in range(FREE):
            if n % 2:
                assert sent(server, "XXXXXXXX").status_code == 403
            else:
                assert httpx.post(f"{server.at}/join", data={"name": "Kit", "role": "scribe", "code": list("XXXX")}).status_code == 403
        stopped = sent(server, OWN_CODE)
        assert stopped.status_code == 429 and 0 < stopped.json()["seconds"] <= 30 and stopped.headers["retry-after"]
        assert httpx.post(f"{server.at}/join", data={"name": "Kit", "role": "scribe", "code": list("7A3K")}).status_code == 429


def test_a_new_code_leaves_the_old_one_worth_nothing_and_a_closed_office_takes_nothing_in(tmp_path):
    async def steps(desk) -> None:
        sharing = Sharing(desk)
        intake = Intake(desk, sharing)
        assert intake.letting("") is None and intake.letting("        ") is None
        first = await intake.open()
        assert await intake.open() == first and len(first) == 8
        second = await intake.renew()
        assert intake.letting(first) is None and intake.letting(second).job == ""
        assert Intake(desk, sharing).code == second
        await intake.close()
        assert intake.letting(second) is None and intake.letting("") is None

    with desk_in(tmp_path) as desk:
        asyncio.run(steps(desk))


def test_a_job_that_comes_too_slowly_is_let_go_and_many_at_once_are_told_to_come_again(tmp_path):
    async def steps(desk) -> None:
        intake = Intake(desk, Sharing(desk))
        code = await intake.open()
        door = OfficeDoor(nothing, intake, Guesses(), StillClock(), slowest=0.3)
        transport = httpx.ASGITransport(door)
        headers = {**JSON, "authorization": f"Spanbook {code}"}
        async with httpx.AsyncClient(transport=transport, base_url="http://192.0.2.7") as client:
            slow = await asyncio.gather(*(post_slowly(door, headers) for _ in range(6)))
            assert sorted(slow) == [408] * 4 + [503] * 2
            again = await client.post(PATH, content=dump(deck_file()), headers=headers)
            assert again.status_code == 200

    with desk_in(tmp_path) as desk:
        asyncio.run(steps(desk))


async def nothing(scope, receive, send) -> None:
    raise AssertionError("handed on")


async def post_slowly(door: OfficeDoor, headers: dict[str, str]) -> int:
    """Begin a sending and never end it; the status that comes back."""
    said: list[int] = []

    async def receive():
        if said_once:
            await asyncio.sleep(60)
        said_once.append(1)
        return {"type": "http.request", "body": b"{", "more_body": True}

    async def send(message) -> None:
        if message["type"] == "http.response.start":
            said.append(message["status"])

    said_once: list[int] = []
    scope = {
        "type": "http", "method": "POST", "path": PATH, "query_string": b"", "client": ("192.0.2.9", 5), "server": ("192.0.2.7", 80), "scheme": "http",
        "headers": [(k.encode(), v.encode()) for k, v in headers.items()],
    }  # fmt: skip
    await door(scope, receive, send)
    return said[0]


@pytest.mark.parametrize(
    "origin", ["*", "null", "app.example", "https://app.example/x", "https://a b", "ftp://app.example", "https://u:p@app.example", "https://", "https://app.example?x"]
)
def test_what_is_no_origin_is_refused_at_the_start(origin):
    with pytest.raises(SpanbookError, match="--allow-origin https://app.example"):
        Network("", origins=(origin,)).check()


def test_an_origin_is_how_an_address_begins():
    Network("", origins=("https://app.example", "http://192.0.2.7:8455", "https://[2001:db8::1]:8455")).check()


def test_an_answer_tells_counts_and_time_and_no_name_of_a_job(gate):
    told = json.loads(sent(gate, gate.code).text)
    assert set(told) == {"office", "job", "at", "has", "digest", "plan", "new"}
    assert told["at"].endswith("Z") and set(told["has"]) == {"readings", "moved", "answers", "notes"}
