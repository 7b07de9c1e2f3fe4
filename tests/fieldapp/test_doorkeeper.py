"""Who may come in, and what every answer says about itself."""

import asyncio

import httpx
import pytest
from starlette.responses import PlainTextResponse

from fieldapp.hosts.doorkeeper import Doorkeeper

HOSTS = {"127.0.0.1:8455", "localhost:8455"}


async def inner(scope, receive, send):
    if scope["type"] == "websocket":
        await send({"type": "websocket.accept"})
    else:
        await PlainTextResponse("in")(scope, receive, send)


def asked(headers: dict[str, str], hosts=HOSTS) -> httpx.Response:
    async def go():
        async with httpx.AsyncClient(transport=httpx.ASGITransport(Doorkeeper(inner, hosts)), base_url="http://127.0.0.1:8455") as client:
            return await client.get("/", headers=headers)

    return asyncio.run(go())


def socket_opened(headers: dict[str, str]) -> str:
    """The first thing that a socket hears."""
    sent: list[dict] = []

    async def go():
        async def send(message):
            sent.append(message)

        async def receive():
            return {"type": "websocket.connect"}

        raw = [(k.lower().encode(), v.encode()) for k, v in headers.items()]
        await Doorkeeper(inner, HOSTS)({"type": "websocket", "path": "/ws", "headers": raw}, receive, send)

    asyncio.run(go())
    return sent[0]["type"]


CASES = [
    ({}, True),
    ({"host": "127.0.0.1:8455"}, True),
    ({"host": "LOCALHOST:8455"}, True),
    ({"host": "127.0.0.1:8456"}, False),
    ({"host": "spanbook.example"}, False),
    ({"host": "127.0.0.1:8455", "origin": "http://127.0.0.1:8455"}, True),
    ({"host": "127.0.0.1:8455", "origin": "http://localhost:8455"}, False),
    ({"host": "127.0.0.1:8455", "origin": "https://evil.example"}, False),
    ({"host": "127.0.0.1:8455", "origin": "null"}, False),
]


@pytest.mark.parametrize(("headers", "let_in"), CASES)
def test_only_this_machines_own_page_is_answered(headers, let_in):
    assert asked(headers).status_code == (200 if let_in else 421)


@pytest.mark.parametrize(("headers", "let_in"), CASES[1:])
def test_only_this_machines_own_page_opens_a_socket(headers, let_in):
    assert socket_opened(headers) == ("websocket.accept" if let_in else "websocket.close")


def test_every_answer_forbids_other_hosts_frames_and_guessing():
    headers = asked({}).headers
    policy = {part.split()[0]: part.split()[1:] for part in headers["content-security-policy"].split(";")}
    assert policy["default-src"] == ["'none'"]
    assert policy["frame-ancestors"] == ["'none'"]
    assert policy["connect-src"] == ["'self'", "blob:", "data:", "ws://127.0.0.1:8455", "wss://127.0.0.1:8455"]
    assert "'unsafe-inline'" not in policy["script-src"] and "'unsafe-eval'" not in policy["script-src"]
    assert not [source for sources in policy.values() for source in sources if "://" in source and "127.0.0.1" not in source]
    assert (headers["x-content-type-options"], headers["x-frame-options"], headers["referrer-policy"]) == ("nosniff", "DENY", "no-referrer")


def test_without_a_list_of_hosts_the_origin_still_has_to_be_the_host():
    assert asked({"host": "10.0.0.7:8455", "origin": "http://10.0.0.7:8455"}, None).status_code == 200
    assert asked({"host": "10.0.0.7:8455", "origin": "http://10.0.0.8:8455"}, None).status_code == 421
