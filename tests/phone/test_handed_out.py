"""`spanbook` hands the folder for phones out below /phone/: made when asked for, behind the join code, told when no phone can keep it."""

from __future__ import annotations

import asyncio
import gzip
import json
import re
from pathlib import Path

import httpx
import pytest

from fieldapp.hosts.phone_app import Handing
from fieldapp.hosts.phone_folder import NOTE, PhoneFolder, made_of
from fieldapp.screens.phones_model import phones_view
from measure.errors import SpanbookError
from tests.fieldapp.browser import Served
from tests.two_people.conftest import PHONES, Shared

JOIN = {"name": "Kit", "role": "scribe"}


def folder_in(path: Path, base: str = "/phone/") -> Path:
    """A folder as `spanbook pack` leaves one, as far as the server looks at it."""
    (path / "pyodide").mkdir(parents=True)
    (path / NOTE).write_text(json.dumps({"version": "0123456789ab", "base": base}))
    (path / "index.html").write_text("<title>the app for phones</title>")
    (path / "sw.js").write_text("// the keeper")
    (path / "pyodide/pyodide.asm.wasm").write_bytes(b"\0asm" * 9000)
    (path / "pyodide/pyodide.asm.wasm.packed").write_bytes(gzip.compress(b"\0asm" * 9000, mtime=0))
    return path


@pytest.fixture
def handed_out(tmp_path):
    with Served(tmp_path / "book", "--phone", str(folder_in(tmp_path / "packed"))) as server:
        yield server


def test_the_owner_gets_the_page_and_its_parts_with_the_types_that_browsers_ask_for(handed_out):
    with httpx.Client(base_url=handed_out.address) as client:
        page = client.get("/phone/")
        assert (page.status_code, page.headers["content-type"].split(";")[0]) == (200, "text/html")
        assert "the app for phones" in page.text and page.headers["content-security-policy"] == "frame-ancestors 'none'"
        assert client.get("/phone").headers["location"] == "/phone/"
        keeper = client.get("/phone/sw.js")
        assert (keeper.headers["content-type"], keeper.headers["cache-control"]) == ("text/javascript", "no-cache")
        assert client.get("/phone/sw.js", headers={"if-none-match": keeper.headers["etag"]}).status_code == 304
        wasm = client.get("/phone/pyodide/pyodide.asm.wasm")
        assert (wasm.headers["content-type"], wasm.headers["content-encoding"], wasm.content) == ("application/wasm", "gzip", b"\0asm" * 9000)
        plain = client.get("/phone/pyodide/pyodide.asm.wasm", headers={"accept-encoding": "identity"})
        assert "content-encoding" not in plain.headers and plain.content == wasm.content
        twin = client.get("/phone/pyodide/pyodide.asm.wasm.packed")
        assert "content-encoding" not in twin.headers and gzip.decompress(twin.content) == wasm.content
        assert client.post("/phone/").status_code == 405
        for path in ("/phone/none.js", "/phone/%2e%2e/book/spanbook.db", "/phone/..%2fbook%2fspanbook.db", "/phone//etc/passwd", "/phone/" + "x" * 5000):
            assert (path[:40], client.get(path).status_code) == (path[:40], 404)


def test_a_phone_gets_nothing_of_it_without_the_join_code_and_comes_back_to_it_with_the_code(tmp_path):
    with Shared(tmp_path / "book", "7A3K", "--phone", str(folder_in(tmp_path / "packed"))) as server, httpx.Client(base_url=server.phones) as phone:
        for path in ("/phone/", "/phone/sw.js", "/phone/index.html", "/phone/pyodide/pyodide.asm.wasm"):
            assert (path, phone.get(path).status_code) == (path, 401)
            assert phone.get(path, headers={"accept": "text/html"}).headers["location"] == "/join?then=phone"
        assert phone.get("/phone", headers={"accept": "text/html"}).headers["location"] == "/join"
        assert 'action="/join?then=phone"' in phone.get("/join?then=phone").text
        wrong = phone.post("/join?then=phone", data={**JOIN, "code": list("XXXX")})
        assert wrong.status_code == 403 and 'action="/join?then=phone"' in wrong.text
        answer = phone.post("/join?then=phone", data={**JOIN, "code": list(server.code)})
        assert (answer.status_code, answer.headers["location"]) == (303, "/phone/")
        assert "the app for phones" in phone.get("/phone/").text


@pytest.mark.parametrize("then", ["https://evil.example", "//evil.example", '"><script>', "settings", "phone/../join"])
def test_the_page_to_join_leads_to_no_other_place(tmp_path, then):
    with Shared(tmp_path / "book") as server, httpx.Client(base_url=server.phones) as phone:
        assert 'action="/join"' in phone.get("/join", params={"then": then}).text
        answer = phone.post("/join", params={"then": then}, data={**JOIN, "code": list(server.code)})
        assert answer.headers["location"] == f"/job/{server.job}/readback"


@pytest.mark.parametrize("base", ["", "/x/", "/"])
def test_a_folder_that_is_none_or_is_bound_to_another_path_is_refused_with_what_to_do(tmp_path, base):
    given = folder_in(tmp_path / "packed", base) if base else tmp_path
    with pytest.raises(SpanbookError, match="spanbook pack -o .* --base /phone/"):
        PhoneFolder(tmp_path, given)


async def made(folder: PhoneFolder) -> list[str]:
    """Make it, as the tap of its owner does; what it told on the way."""
    told: list[str] = []
    done = asyncio.Event()

    def changed() -> None:
        told.append(folder.handing.told)
        if folder.handing.stage != "making":
            done.set()

    folder.changed = changed
    folder.make()
    folder.make()  # a second tap changes nothing
    await asyncio.wait_for(done.wait(), 300)
    return told


def test_made_once_it_is_there_at_the_next_start_and_made_anew_only_from_another_spanbook(tmp_path, monkeypatch):
    assert re.fullmatch("[0-9a-f]{64}", made_of())
    monkeypatch.setattr("fieldapp.hosts.phone_folder.made_of", lambda: "one")
    folder = PhoneFolder(tmp_path)
    assert (folder.handing.stage, folder.served) == ("none", None)
    told = asyncio.run(made(folder))
    assert "writing the start" in told and folder.handing == Handing("there", there=True, here="phone/")
    assert json.loads((tmp_path / "phone" / NOTE).read_text())["base"] == "/phone/"
    assert '<base href="/phone/">' in (tmp_path / "phone/index.html").read_text()

    async def next_start() -> str:
        later = PhoneFolder(tmp_path)
        later.bring_up_to_date()
        stage = later.handing.stage
        await later.close()
        return stage

    assert asyncio.run(next_start()) == "there"
    monkeypatch.setattr("fieldapp.hosts.phone_folder.made_of", lambda: "another")
    assert asyncio.run(next_start()) == "making"
    assert PhoneFolder(tmp_path).served and not [p.name for p in tmp_path.iterdir() if p.name.startswith(".")]


def test_without_the_packages_and_without_the_internet_it_says_what_is_needed(tmp_path, monkeypatch):
    monkeypatch.setenv("SPANBOOK_CACHE", str(tmp_path / "empty"))
    monkeypatch.setenv("PIP_NO_INDEX", "1")
    folder = PhoneFolder(tmp_path / "book")
    (tmp_path / "book").mkdir()
    asyncio.run(made(folder))
    assert folder.handing.stage == "failed" and folder.served is None
    assert re.search("could not be fetched: .* A connection to the package index is needed once", folder.handing.told)
    view = phones_view(folder.handing)
    assert (view.sign, view.action, view.under) == ("hold", "Try again", folder.handing.told)
    assert [p.name for p in (tmp_path / "book").iterdir()] == []


def test_a_server_that_ends_while_it_is_made_leaves_nothing_half_made(tmp_path):
    async def steps() -> None:
        folder = PhoneFolder(tmp_path)
        going = asyncio.Event()
        folder.changed = going.set
        folder.make()
        await asyncio.wait_for(going.wait(), 60)
        await folder.close()
        assert folder.served is None

    asyncio.run(steps())
    assert [p.name for p in tmp_path.iterdir()] == []


SECURE = Handing("there", there=True, address="https://192.0.2.7:8455/phone/", here="https://127.0.0.1:8455/phone/")


def test_an_address_without_https_is_told_with_what_to_do_and_promises_nothing():
    good, plain = phones_view(SECURE), phones_view(Handing("there", there=True, address="http://192.0.2.7:8455/phone/"))
    assert [s.words for s in good.steps] == ["Join with a job's code", "Put it on the home screen", "Wait for “Ready with no signal”"]
    assert good.warning == () and len(plain.steps) == 1
    assert "stays on no phone" in plain.warning[0] and "--cert and --key" in plain.warning[1] and "https host" in plain.warning[1]


def test_where_no_phone_reaches_this_machine_the_way_in_is_told():
    view = phones_view(Handing("there", there=True, here=f"http://{PHONES}:1/phone/"))
    assert (view.words, view.address, view.action) == ("No phone reaches this machine yet.", "", "Make it anew")
    assert phones_view(Handing("there", there=True, given=True)).action == ""
