"""What `spanbook pack` writes, checked without a browser."""

import ast
import gzip
import hashlib
import io
import json
import re
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

from fieldapp.hosts import pack_wheels
from fieldapp.hosts.pack import PackError, pack
from fieldapp.hosts.pack_client import web_folder
from fieldapp.hosts.pack_wheels import LIST, fetched, listed
from tests.phone.conftest import STAND_IN

PROJECT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def listing(whole_app):
    keeper = (whole_app / "sw.js").read_text()
    return json.loads(re.search(r"const FILES = (\{.*\});", keeper).group(1))


@pytest.fixture(scope="module")
def carried(whole_app):
    with tarfile.open(fileobj=io.BytesIO(gzip.decompress((whole_app / "app.tar.packed").read_bytes()))) as archive:
        return {member.name: member for member in archive}


def test_the_list_names_every_file_that_a_phone_needs_with_its_checksum(whole_app, listing):
    for name, (sha256, on_the_line, packed, renderer) in listing.items():
        data = (whole_app / name).read_bytes()
        assert hashlib.sha256(data).hexdigest() == sha256, name
        carrier = whole_app / (name + ".packed" if packed else name)
        assert carrier.stat().st_size == on_the_line
        assert not packed or gzip.decompress(carrier.read_bytes()) == data
        assert renderer in ("", "skwasm", "canvaskit")
    left_out = {p.relative_to(whole_app).as_posix() for p in whole_app.rglob("*") if p.is_file()} - set(listing)
    assert {name for name in left_out if not name.endswith(".packed")} == {"sw.js", "licences-client.txt", "licences-packages.txt"}


def test_the_same_code_packs_to_the_same_bytes(whole_app, tmp_path):
    again = pack(tmp_path / "again")
    assert (whole_app / "sw.js").read_bytes() == (tmp_path / "again/sw.js").read_bytes()
    assert again.version in (whole_app / "index.html").read_text()


def test_no_server_and_no_test_goes_to_the_phone(carried):
    strange = [n for n in carried if re.search(r"hosts/(server|pack|phone_mount|client_files|data_folder)|/tests?/|fieldapp/command|uvicorn|fastapi", n)]
    assert strange == []
    assert "fieldapp/hosts/browser.pyc" in carried and "measure/store.pyc" in carried


ELSEWHERE = {"flet_js", "spanbook_phone", "js", "pyodide"}
"""Modules that the page gives."""
NOT_CARRIED = {
    ("measure/units.py", "pint"),  # the app turns no figure into further units
    ("fieldapp/hosts/qr_reader.py", "zxingcpp"),  # where a server stands; alone the browser reads codes or nobody does
    ("fieldapp/hosts/qr_reader.py", "PIL"),
    ("fieldapp/parts/blade_tiles.py", "PIL"),  # draws the tapes' pictures, which lie in the folder already
}


def imports(path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            yield node.module


def library(folder):
    with zipfile.ZipFile(folder / "pyodide/python_stdlib.zip") as archive:
        return {info.filename: info.compress_type for info in archive.infolist()}


def test_whatever_our_code_on_the_phone_imports_now_or_later_is_carried(carried, whole_app):
    there = {name.removeprefix("wheels/") for name in carried} | set(library(whole_app))
    sources = {name.split("/")[0].removesuffix(".py") for name in library(web_folder())}
    machine_code = sys.stdlib_module_names - sources

    def is_there(name):
        path, top = name.replace(".", "/"), name.split(".")[0]
        return name == "collections.abc" or top in ELSEWHERE | machine_code or f"{path}.pyc" in there or f"{path}/__init__.pyc" in there

    own = [Path(name).with_suffix(".py") for name in carried if name.startswith(("fieldapp/", "measure/")) and name.endswith(".pyc")]
    lacking = {(path.as_posix(), name) for path in own for name in imports(PROJECT / path) if not is_there(name)}
    assert lacking == NOT_CARRIED


def test_everything_is_byte_compiled_where_node_is_there(carried):
    assert [n for n in carried if n.endswith(".py")] == []


def test_pythons_own_library_is_byte_compiled_too_and_read_as_it_lies(whole_app):
    names = library(whole_app)
    assert set(names.values()) == {zipfile.ZIP_STORED}
    assert [n for n in names if n.endswith(".py")] == []
    assert {"asyncio/__init__.pyc", "sqlite3/__init__.pyc", "encodings/utf_8.pyc", "encodings/idna.pyc"} <= set(names)
    assert not set(names) & {"pdb.pyc", "unittest/__init__.pyc", "encodings/big5.pyc"}


def test_the_start_page_forbids_every_other_address(whole_app):
    page = (whole_app / "index.html").read_text()
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', page).group(1)
    assert "default-src 'self'" in policy and "http" not in policy and "'unsafe-eval'" not in policy
    assert "'unsafe-inline'" not in policy.split("script-src")[1].split(";")[0]
    assert re.findall(r'(?:src|href)="(?:https?:)?//', page) == []


def test_every_icon_that_the_manifest_names_is_there(whole_app):
    manifest = json.loads((whole_app / "manifest.json").read_text())
    assert {icon["sizes"] for icon in manifest["icons"]} == {"192x192", "512x512"}
    assert all((whole_app / icon["src"]).is_file() for icon in manifest["icons"])
    assert (manifest["start_url"], manifest["scope"], manifest["display"]) == ("./", "./", "standalone")


@pytest.mark.parametrize("base", ["../x", "/a b/", "https://x.example/", "/x/?y", '/"/'])
def test_a_base_that_is_no_path_is_refused(tmp_path, base):
    with pytest.raises(PackError, match="is no path of an address"):
        pack(tmp_path / "site", base, cargo=STAND_IN)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_with_other_things_in_it_is_left_alone(tmp_path):
    (tmp_path / "site").mkdir()
    (tmp_path / "site/letter.txt").write_text("mine")
    with pytest.raises(PackError, match="holds other things"):
        pack(tmp_path / "site", cargo=STAND_IN)
    assert [p.name for p in tmp_path.rglob("*")] == ["site", "letter.txt"]


def test_an_earlier_folder_is_replaced_whole(tmp_path):
    site = tmp_path / "site"
    pack(site, cargo=STAND_IN)
    (site / "left-over.txt").write_text("old")
    pack(site, "/x/", cargo=STAND_IN)
    assert not (site / "left-over.txt").exists()
    assert '<base href="/x/">' in (site / "index.html").read_text()
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


def test_a_failed_packing_leaves_the_earlier_folder_and_no_crumbs(tmp_path, monkeypatch):
    site = tmp_path / "site"
    site.mkdir()
    monkeypatch.setattr(pack_wheels, "_download", lambda *_: None)
    monkeypatch.setenv("SPANBOOK_CACHE", str(tmp_path / "empty"))
    with pytest.raises(PackError, match="did not come as listed: flet, "):
        pack(site, cargo=STAND_IN)
    assert [p.name for p in tmp_path.iterdir()] == ["site"] and list(site.iterdir()) == []


def test_a_place_that_cannot_be_written_is_said(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(PackError, match="cannot be written: .*Give a folder that you may write to"):
        pack(tmp_path / "file/site", cargo=STAND_IN)


def test_every_wheel_is_pinned_with_its_checksum():
    wheels = listed(LIST.read_text())
    assert len(wheels) > 10 and len({w.name for w in wheels}) == len(wheels)


@pytest.mark.parametrize("line", ["flet>=1", "flet==1.0.5", "flet==1.0.5 --hash=md5:00", "git+https://x.example/y"])
def test_a_line_that_pins_nothing_is_refused(line):
    with pytest.raises(PackError, match="no pinned package"):
        listed(line)


def test_without_the_package_index_it_says_what_is_needed(tmp_path, monkeypatch):
    monkeypatch.setenv("SPANBOOK_CACHE", str(tmp_path))
    monkeypatch.setenv("PIP_NO_INDEX", "1")
    monkeypatch.setenv("PIP_FIND_LINKS", str(tmp_path))
    monkeypatch.setenv("PIP_CONFIG_FILE", "/dev/null")
    with pytest.raises(PackError, match="A connection to the package index is needed once"):
        fetched(LIST, "3.14", "pyemscripten_2026_0_wasm32", lambda said: None)
