"""At an office's gate: which codes and which pages are heard, and what comes of hostile, slow and oversized jobs."""

from __future__ import annotations

import asyncio
import json

import httpx
import pytest

from fieldapp.hosts.guesses import FREE, Guesses
from fieldapp.hosts.network import Network
from fieldapp.hosts.office_door import OfficeDoor
from fieldapp.hosts.office_line import post
from fieldapp.intake import Intake
from fieldapp.office_said import LARGEST_JOB, PATH
from fieldapp.sharing import Sharing
from measure.documents import dump
from measure.errors import SpanbookError
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import StillClock
from tests.fieldapp.harness import opened as desk_in
from tests.two_people.office_server import OWN_CODE, OfficeServer

APP = "https://app.example"
JSON = {"content-type": "application/json"}


@pytest.fixture(scope="module")
def gate(tmp_path_factory):
    """The same, one for all tests that leave it as they found it."""
    with OfficeServer(tmp_path_factory.mktemp("gate") / "office", "--allow-origin", APP) as server:
        yield server


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


@pytest.mark.parametrize(("code", "status"), [("XXXXXXXX", 403), ("", 401), (OWN_CODE, 422)])
def test_who_sends_much_is_still_told_why_it_was_refused(gate, code, status):
    # A sender whose line is closed in the middle takes the office for gone and tries the wrong code again and again.
    reply = asyncio.run(post(gate.at + PATH, {**JSON, "authorization": f"Spanbook {code}"}, b" " * (LARGEST_JOB - 1)))
    assert reply.status == status


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
