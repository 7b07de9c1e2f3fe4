"""What a stranger on the same network gets: the page to join, and nothing else, however they ask."""

from __future__ import annotations

import asyncio
import re

import httpx
import pytest
import websockets
from starlette.responses import PlainTextResponse
from websockets.sync.client import connect

from fieldapp.hosts.door import Door
from fieldapp.hosts.guesses import FREE, IN_ALL, LONGEST_WAIT, Guesses
from fieldapp.hosts.network import Network
from fieldapp.hosts.office_door import OfficeDoor
from fieldapp.hosts.ports import WallClock
from fieldapp.intake import Intake
from fieldapp.screens import ROUTES
from fieldapp.sharing import Sharing
from fieldapp.words import say
from measure.documents import dump
from measure.errors import SpanbookError
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import opened as desk_in
from tests.two_people.conftest import PHONES, Shared

FORM = {"name": "Kit", "role": "scribe"}
PARAMS = {"job": "JOB", "letter": "A1x", "key": "system", "number": "1", "page": "1", "bay": "A1", "what": "span", "place": "A1", "kind": "system", "run": "A", "post": "P1", "version": "1", "check": "off-plan", "name": "Kit"}
FILES = (
    "/healthz", "/page.js", "/page.css", "/join.html", "/main.dart.js", "/manifest.json", "/favicon.png", "/assets/fonts/Spanbook-Bold.ttf",
    "/canvaskit/canvaskit.wasm", "/python.js", "/upload", "/%2e%2e/%2e%2e/etc/passwd", "/spanbook.db",
)  # fmt: skip


def join(client: httpx.Client, code: str, **more: str) -> httpx.Response:
    return client.post("/join", data={**FORM, **more, "code": list(code)}, headers={"origin": str(client.base_url).rstrip("/")})


@pytest.fixture
def phone(door):
    with httpx.Client(base_url=door.phones.rstrip("/"), follow_redirects=False) as client:
        yield client


@pytest.fixture
def shared(door):
    return door


def screens(job: str) -> list[str]:
    params = {**PARAMS, "job": job}
    return [route.address(**{k: v for k, v in params.items() if f"{{{k}}}" in route.pattern}) for route in ROUTES.values()]


def opened(shared, cookie: str = "", origin: str | None = None, host: str = "") -> str:
    """`open` where the socket opens and stays, else why not."""
    headers = {"cookie": cookie} if cookie else {}
    url = f"ws://{PHONES}:{shared.port}/ws"
    try:
        with connect(url, additional_headers=headers, origin=origin, proxy=None) as socket:
            try:
                socket.recv(timeout=0.3)
            except TimeoutError:
                return "open"
    except websockets.InvalidStatus as refused:
        return str(refused.response.status_code)
    except websockets.ConnectionClosed as closed:
        return f"closed {closed.rcvd.code if closed.rcvd else ''}"
    return "open"


def test_without_the_code_every_address_is_refused_or_leads_to_the_page_to_join(shared, phone):
    for path in (*screens(shared.job), *FILES):
        plain = phone.get(path)
        assert (path, plain.status_code, plain.text) == (path, 401, "Join first.")
        page = phone.get(path, headers={"accept": "text/html"})
        assert (path, page.status_code, page.headers["location"], page.text) == (path, 303, "/join", "")
        for method in ("POST", "PUT", "DELETE", "OPTIONS", "PATCH"):
            assert (path, method, phone.request(method, path).status_code) == (path, method, 401)
    assert "Boathouse" not in phone.get("/join").text


def test_without_the_code_the_app_for_phones_leads_to_the_page_to_join_and_gives_nothing(shared, phone):
    for path in ("/phone/", "/phone/sw.js", "/phone/index.html", "/phone/app.tar.packed", "/phone/%2e%2e/spanbook.db"):
        assert (path, phone.get(path).status_code, phone.get(path, headers={"cookie": f"spanbook-{shared.port}=invented"}).text) == (path, 401, "Join first.")
        assert phone.get(path, headers={"accept": "text/html"}).headers["location"].startswith("/join")


@pytest.mark.parametrize(
    ("given", "status"),
    [("", 401), ("Spanbook", 401), ("Basic N0EzSw==", 401), ("Bearer 7A3K", 401), ("Spanbook XXXX", 403), ("Spanbook 7A3", 403)],
)
def test_at_the_office_a_sending_without_a_code_or_with_a_wrong_one_is_refused_before_it_is_read(tmp_path, given, status):
    with Shared(tmp_path / "book") as server, httpx.Client(base_url=server.phones) as phone:
        named = {"cookie": f"code={server.code}", **({"authorization": given} if given else {})}
        answer = phone.post("/office/job", content=b"not even looked at", headers=named, params={"code": server.code})
        assert (answer.status_code, answer.json()["refused"]) == (status, "code")
        assert phone.post("/office/job/", headers=named).status_code == 401


def test_at_the_office_a_code_that_was_renewed_or_closed_is_worth_nothing(tmp_path):
    async def steps(desk):
        sharing, clock = Sharing(desk), WallClock()
        job = await desk.add_job(deck_file())
        door = OfficeDoor(PlainTextResponse("in"), Intake(desk, sharing), Guesses(), clock)
        async with httpx.AsyncClient(transport=httpx.ASGITransport(door), base_url="http://192.0.2.7") as client:

            async def status(code: str) -> int:
                named = {"authorization": f"Spanbook {code}", "content-type": "application/json"}
                return (await client.post("/office/job", content=dump(deck_file()), headers=named)).status_code

            first = await sharing.open(job)
            assert await status(first) == 200
            second = await sharing.renew(job)
            assert (await status(first), await status(second)) == (403, 200)
            await sharing.close(job)
            assert await status(second) == 403

    with desk_in(tmp_path) as desk:
        asyncio.run(steps(desk))


def test_without_the_code_or_with_an_invented_or_an_old_token_no_socket_opens(shared, phone):
    name = f"spanbook-{shared.port}"
    assert opened(shared) == "403"
    assert opened(shared, f"{name}=") == "403"
    assert opened(shared, f"{name}=invented") == "403"
    assert opened(shared, f"{name}={'x' * 5000}") == "403"
    answer = join(phone, shared.code)
    token = f"{name}={answer.cookies[name]}"
    assert opened(shared, token) == "open"
    again = join(phone, shared.code)  # the same phone joins anew: its first token is old
    assert opened(shared, token) == "403"
    assert opened(shared, f"{name}={again.cookies[name]}") == "open"


def test_a_token_that_is_out_is_told_so_where_it_joins_and_a_stranger_is_not(shared, phone):
    name = f"spanbook-{shared.port}"
    first = join(phone, shared.code).cookies[name]
    join(phone, shared.code)  # the same phone joins anew: its first token is out
    phone.cookies.clear()
    page = phone.get("/join", headers={"cookie": f"{name}={first}"})
    assert page.status_code == 200 and say("join.put_out") in page.text and f'value="{FORM["name"]}"' in page.text
    assert shared.code not in page.text and first not in page.text
    for cookie in ("", f"{name}=x{first}", f"{name}="):
        stranger = phone.get("/join", headers={"cookie": cookie} if cookie else {}).text
        assert say("join.put_out") not in stranger and f'value="{FORM["name"]}"' not in stranger


def test_a_socket_opens_only_from_the_servers_own_page(shared, phone):
    name = f"spanbook-{shared.port}"
    token = f"{name}={join(phone, shared.code).cookies[name]}"
    assert opened(shared, token, origin=f"http://{PHONES}:{shared.port}") == "open"
    for origin in ("https://evil.example", "null", f"http://127.0.0.1:{shared.port}", f"http://{PHONES}:1"):
        assert opened(shared, token, origin=origin) == "403"


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1", "{phones}", "spanbook.local:{port}", "127.0.0.3:{port}", ""])
def test_a_name_that_somebody_points_at_this_machine_is_not_answered(shared, phone, host):
    host = host.format(phones=PHONES, port=shared.port)
    assert phone.get("/join", headers={"host": host}).status_code in (400, 421)


def test_the_owners_own_address_in_the_host_line_makes_nobody_the_owner(shared):
    # From another machine the address would be theirs; here the connection has to come in by the phones' address.
    with httpx.Client(base_url=f"http://{PHONES}:{shared.port}") as client:
        assert client.get("/page.js", headers={"host": f"{PHONES}:{shared.port}", "x-forwarded-for": "127.0.0.1", "x-forwarded-host": f"127.0.0.1:{shared.port}"}).status_code == 401


def test_the_right_code_gives_a_cookie_that_no_script_reads_and_no_other_site_sends(shared, phone):
    answer = join(phone, shared.code.lower()[:2] + "-" + shared.code[2:])
    assert (answer.status_code, answer.headers["location"]) == (303, f"/job/{shared.job}/readback")
    cookie = answer.headers["set-cookie"]
    token = re.match(rf"spanbook-{shared.port}=([\w-]{{43}});", cookie)
    assert token
    assert {"httponly", "path=/", "samesite=strict"} <= {part.strip().lower() for part in cookie.split(";")}
    assert phone.get("/healthz").text == "here"
    assert token[1] not in (shared.folder / "spanbook.db").read_bytes().decode("latin-1")


def test_neither_code_nor_token_is_ever_written_down_or_put_into_an_address(shared, phone):
    page = phone.get("/join").text
    wrong = join(phone, "XXXX")
    answer = join(phone, shared.code)
    token = answer.cookies[f"spanbook-{shared.port}"]
    opened(shared, f"spanbook-{shared.port}={token}")
    assert shared.code not in page + wrong.text + answer.headers["location"] + answer.text and "XXXX" not in wrong.text
    assert token not in answer.headers["location"] + answer.text
    said = shared.said()
    assert "a wrong join code from" in said and shared.code not in said and token not in said and "XXXX" not in said


@pytest.mark.parametrize("path", ["/join", "/", "/healthz"])
def test_every_answer_at_the_door_is_strict_about_itself(phone, path):
    headers = phone.get(path).headers
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] in ("no-referrer", "same-origin")
    assert headers["cache-control"] == "no-store"
    assert "frame-ancestors 'none'" in headers["content-security-policy"]
    assert "server" not in headers
    if path == "/join":
        assert "default-src 'none'" in headers["content-security-policy"] and "unsafe" not in headers["content-security-policy"]


def test_guessing_is_stopped_and_then_even_the_right_code_has_to_wait(tmp_path):
    with Shared(tmp_path / "book") as server, httpx.Client(base_url=server.phones.rstrip("/")) as stranger:
        for _ in range(FREE):
            assert join(stranger, "XXXX").status_code == 403
        stopped = join(stranger, server.code)
    assert stopped.status_code == 429 and 0 < int(stopped.headers["retry-after"]) <= 30
    assert "set-cookie" not in stopped.headers


def test_waits_double_and_many_addresses_together_are_stopped_too():
    now = [0.0]
    one = Guesses(lambda: now[0])
    waits = []
    for _ in range(12):
        one.wrong("10.0.0.9")
        waits.append(one.wait("10.0.0.9"))
        now[0] += waits[-1]
    assert waits[: FREE - 1] == [0] * (FREE - 1)
    assert waits[FREE - 1 :] == [30, 60, 120, 240, 480, 900, 900, 900]
    assert one.wait("10.0.0.10") == 0
    many = Guesses(lambda: now[0])
    for n in range(IN_ALL):
        assert many.wait(f"10.0.1.{n}") == 0
        many.wrong(f"10.0.1.{n}")
    assert many.wait("10.0.2.1") > 0 and many.lately == IN_ALL
    now[0] += LONGEST_WAIT
    assert many.wait("10.0.2.1") == 0 and many.lately == 0


MALFORMED = [
    (b"", "application/x-www-form-urlencoded"),
    (b"code=7A3K", "application/x-www-form-urlencoded"),
    (b"code=7A3K&name=Kit&role=scribe&more=1", "application/x-www-form-urlencoded"),
    (b"code=7A3K&name=Kit&name=Kat&role=scribe", "application/x-www-form-urlencoded"),
    (b"code=7A3K&name=%ff%fe&role=scribe", "application/x-www-form-urlencoded"),
    (b"\xff\xfe\x00", "application/x-www-form-urlencoded"),
    (b'{"code": "7A3K", "name": "Kit", "role": "scribe"}', "application/json"),
    (b"code=7A3K&name=Kit&role=scribe", "text/plain"),
    (b"code=" + b"7" * 3000 + b"&name=Kit&role=scribe", "application/x-www-form-urlencoded"),
    (b"&".join([b"code=7"] * 300) + b"&name=Kit&role=scribe", "application/x-www-form-urlencoded"),
]


@pytest.mark.parametrize(("body", "kind"), MALFORMED)
def test_a_malformed_or_oversized_form_is_refused(phone, body, kind):
    answer = phone.post("/join", content=body, headers={"content-type": kind})
    assert (answer.status_code, "set-cookie" in answer.headers) == (400, False)


HOSTILE = [
    "", "   ", "x" * 41, "Kit\u202etiK", "Kit\x00", "\u200b",
]  # fmt: skip
HARMLESS = ["<script>alert(1)</script>", "=HYPERLINK(1)", "../../etc/passwd", "'; DROP TABLE job;--", "Zoë O'Hara", "{name}$name"]


@pytest.mark.parametrize("name", HOSTILE)
def test_a_name_that_cannot_be_printed_is_refused(shared, phone, name):
    assert join(phone, shared.code, name=name).status_code == 400


@pytest.mark.parametrize("name", HARMLESS)
def test_any_other_name_is_only_a_name(shared, phone, name):
    page = join(phone, "XXXX", name=name).text
    assert "<script>alert" not in page
    assert join(phone, shared.code, name=name).status_code == 303


def test_a_role_that_there_is_not_is_refused(shared, phone):
    for role in ("owner", "", "tape\n", "TAPE", "../tape"):
        assert join(phone, shared.code, role=role).status_code == 400


def test_what_a_guest_sends_too_large_or_malformed_ends_their_socket_and_nothing_else(shared, phone):
    name = f"spanbook-{shared.port}"
    token = join(phone, shared.code).cookies[name]
    for data in (b"\x00" * (300 * 1024), b"\x00\xc1", b"\x00\x92\x63\x80", b"\x01", b"\x00", b"\x07junk", b"\x00" + b"\x91" * 5000):
        with connect(f"ws://{PHONES}:{shared.port}/ws", additional_headers={"cookie": f"{name}={token}"}, proxy=None) as socket:
            socket.send(data)
            try:
                while socket.recv(timeout=0.5):
                    pass
            except (TimeoutError, websockets.ConnectionClosed):
                pass
    assert phone.get("/healthz").status_code == 200
    assert httpx.get(f"{shared.address}healthz").text == "here"
    assert opened(shared, f"{name}={token}") == "open"


def test_without_share_nothing_answers_beyond_this_machine(tmp_path):
    from tests.fieldapp.browser import Served

    with Served(tmp_path / "book") as server, pytest.raises(httpx.ConnectError):
        httpx.get(f"http://{PHONES}:{server.port}/healthz")


def test_on_an_encrypted_line_the_pass_goes_over_encrypted_lines_only(tmp_path):
    async def steps(desk):
        job = await desk.add_job(deck_file())
        desk.sharing = Sharing(desk)
        code = await desk.sharing.open(job)
        transport = httpx.ASGITransport(Door(PlainTextResponse("in"), desk.sharing, ROUTES), client=("192.0.2.9", 5))
        async with httpx.AsyncClient(transport=transport, base_url="https://192.0.2.7:8455") as client:
            answer = await client.post("/join", data={**FORM, "code": list(code)})
            assert (await client.get("/")).text == "in"
            # The pass of a plain line, whoever set it, is none here.
            token = answer.headers["set-cookie"].split("=", 1)[1].split(";")[0]
            client.cookies.clear()
            assert (await client.get("/", headers={"cookie": f"spanbook-443={token}; spanbook-8455={token}"})).status_code == 401
        parts = {part.strip().lower() for part in answer.headers["set-cookie"].split(";")}
        assert {"secure", "httponly", "samesite=strict", "path=/"} <= parts and answer.headers["set-cookie"].startswith("__Host-")
        assert not any(p.startswith("domain") for p in parts)

    with desk_in(tmp_path) as desk:
        asyncio.run(steps(desk))


def test_a_stranger_who_writes_the_owners_address_into_the_host_line_stays_a_stranger(tmp_path):
    async def asked(client: tuple[str, int], host: str, desk) -> int:
        transport = httpx.ASGITransport(Door(PlainTextResponse("in"), Sharing(desk), ROUTES), client=client)
        async with httpx.AsyncClient(transport=transport, base_url=f"http://{host}") as line:
            return (await line.get("/")).status_code

    with desk_in(tmp_path) as desk:
        assert asyncio.run(asked(("127.0.0.1", 5), "127.0.0.1:8455", desk)) == 200
        assert asyncio.run(asked(("192.0.2.9", 5), "127.0.0.1:8455", desk)) == 401
        assert asyncio.run(asked(("192.0.2.9", 5), "localhost:8455", desk)) == 401
        assert asyncio.run(asked(("127.0.0.1", 5), "192.0.2.7:8455", desk)) == 401


@pytest.mark.parametrize(("cert", "key"), [("cert.pem", None), (None, "key.pem"), ("no-such.pem", "no-such.pem"), ("junk.pem", "junk.pem")])
def test_a_certificate_that_does_not_serve_is_a_sentence(tmp_path, cert, key):
    (tmp_path / "junk.pem").write_text("junk")
    with pytest.raises(SpanbookError, match="--cert FILE and --key FILE|does not serve"):
        Network("", *(str(tmp_path / f) if f else None for f in (cert, key))).check()
