"""The files of the page, as a browser gets them."""

import asyncio
from pathlib import Path

import flet_web
import httpx
import pytest

from fieldapp.hosts.client_files import ClientFiles
from fieldapp.words import say


def asked(*paths: str, **headers: str) -> list[httpx.Response]:
    files = ClientFiles(Path(flet_web.get_package_web_dir()))

    async def go():
        async with httpx.AsyncClient(transport=httpx.ASGITransport(files), base_url="http://here") as client:
            return [await client.get(path, headers={"accept-encoding": "identity", **headers}) for path in paths]

    return asyncio.run(go())


@pytest.mark.parametrize("path", ["/", "/index.html", "/settings", "/job/7/walk/A3"])
def test_an_address_of_a_screen_gets_the_page(path):
    (page,) = asked(path)
    assert page.headers["content-type"].startswith("text/html")
    assert say("page.no_connection") in page.text and "$" not in page.text


def test_the_page_runs_no_script_that_stands_in_it():
    (page,) = asked("/")
    assert [s for s in page.text.split("<script")[1:] if not s.lstrip().startswith("src=")] == []


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/page.js", "text/javascript"),
        ("/page.css", "text/css"),
        ("/flutter_bootstrap.js", "text/javascript"),
        ("/main.dart.mjs", "text/javascript"),
        ("/main.dart.wasm", "application/wasm"),
        ("/canvaskit/skwasm.wasm", "application/wasm"),
        ("/assets/FontManifest.json", "application/json"),
        ("/assets/fonts/Spanbook-Regular.ttf", "font/ttf"),
        ("/assets/fonts/MaterialIcons-Regular.otf", "font/otf"),
    ],
)
def test_a_file_of_the_page_comes_with_its_kind(path, kind):
    (file,) = asked(path)
    assert (file.status_code, file.headers["content-type"].split(";")[0]) == (200, kind)


@pytest.mark.parametrize(
    "path",
    ["/none.js", "/flutter.js.map", "/pyodide/pyodide.mjs", "/../pyproject.toml", "/%2e%2e/hosts/server.py", "/..%2f..%2fapp.py", "/assets/../page.py"],
)
def test_nothing_else_is_handed_out(path):
    (file,) = asked(path)
    assert file.status_code == 404 or file.text == asked("/")[0].text


def test_a_packed_file_is_the_same_file():
    plain, packed = asked("/page.js")[0], asked("/page.js", **{"accept-encoding": "gzip"})[0]
    assert packed.headers["content-encoding"] == "gzip" and packed.content == plain.content
    assert packed.headers["vary"] == "accept-encoding"


def test_a_file_that_the_browser_has_is_not_sent_again():
    (first,) = asked("/main.dart.mjs", **{"accept-encoding": "gzip"})
    (again,) = asked("/main.dart.mjs", **{"accept-encoding": "gzip", "if-none-match": first.headers["etag"]})
    assert (again.status_code, again.content) == (304, b"")


def test_nobody_writes_to_the_files():
    async def go():
        async with httpx.AsyncClient(transport=httpx.ASGITransport(ClientFiles(Path(flet_web.get_package_web_dir()))), base_url="http://here") as client:
            return await client.put("/page.js", content=b"x")

    assert asyncio.run(go()).status_code == 405
