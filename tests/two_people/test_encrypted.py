"""`--cert` and `--key`: everything goes over an encrypted line, the page's socket too, and the pass over no other."""

from __future__ import annotations

import re
import socket
import ssl
import subprocess
from collections.abc import Iterator
from pathlib import Path

import httpx
import pytest
import websockets
from playwright.sync_api import Browser, expect
from websockets.sync.client import connect

from fieldapp.words import say
from tests.fieldapp.browser import PHONE, Tab
from tests.two_people.conftest import PHONES, Shared
from tests.two_people.test_in_browsers import SLOW


def certificate(folder: Path) -> tuple[Path, Path]:
    """One of our own for both addresses of this machine, made for this test."""
    cert, key = folder / "cert.pem", folder / "key.pem"
    command = [
        "openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:prime256v1", "-nodes", "-days", "2", "-subj", "/CN=Spanbook test",
        "-addext", f"subjectAltName=IP:127.0.0.1,IP:{PHONES}", "-keyout", str(key), "-out", str(cert),
    ]  # fmt: skip
    ended = subprocess.run(command, capture_output=True, text=True)
    assert ended.returncode == 0, f"openssl made no certificate (apt install openssl): {ended.stderr}"
    return cert, key


class Encrypted(Shared):
    """The same server behind a certificate."""

    def __init__(self, folder: Path, cert: Path, key: Path) -> None:
        super().__init__(folder)
        self._more = (*self._more, "--cert", str(cert), "--key", str(key))
        self.scheme, self.trust = "https", str(cert)

    @property
    def phones(self) -> str:
        return f"https://{PHONES}:{self.port}/"


@pytest.fixture
def line(tmp_path: Path) -> Iterator[Encrypted]:
    with Encrypted(tmp_path / "book", *certificate(tmp_path)) as server:
        yield server


def test_page_and_socket_are_encrypted_and_the_pass_goes_over_no_other_line(line):
    trust = ssl.create_default_context(cafile=line.trust)
    with httpx.Client(base_url=line.phones, verify=trust) as phone:
        assert phone.get("/healthz").status_code == 401
        answer = phone.post("/join", data={"code": list(line.code), "name": "Kit", "role": "scribe"})
        assert answer.status_code == 303 and answer.headers["location"].startswith("/")
        cookie = answer.headers["set-cookie"]
        parts = {part.strip().lower() for part in cookie.split(";")}
        assert cookie.startswith("__Host-") and {"secure", "httponly", "samesite=strict", "path=/"} <= parts
        assert phone.get("/healthz").text == "here"
    token = cookie.split(";")[0]
    address = f"wss://{PHONES}:{line.port}/ws"
    with connect(address, ssl=trust, additional_headers={"cookie": token, "origin": line.phones.rstrip("/")}, proxy=None):
        pass  # open
    with pytest.raises(websockets.InvalidStatus):
        connect(address, ssl=trust, additional_headers={"origin": line.phones.rstrip("/")}, proxy=None)


def test_a_plain_request_at_the_encrypted_port_gets_nothing(line):
    with pytest.raises(httpx.HTTPError):
        httpx.get(f"http://{PHONES}:{line.port}/join")
    with socket.create_connection((PHONES, line.port), timeout=5) as plain:
        plain.sendall(b"GET /join HTTP/1.1\r\nHost: x\r\n\r\n")
        assert b"Spanbook" not in plain.recv(4096)


def test_who_does_not_trust_the_certificate_is_told_by_their_browser_and_old_ways_of_encrypting_are_refused(line):
    with pytest.raises(httpx.ConnectError, match="(?i)certificate"):
        httpx.get(f"{line.phones}join")
    old = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    old.check_hostname, old.verify_mode = False, ssl.CERT_NONE
    with pytest.warns(DeprecationWarning):
        old.maximum_version = ssl.TLSVersion.TLSv1_1
    with socket.create_connection((PHONES, line.port), timeout=5) as plain, pytest.raises((ssl.SSLError, ConnectionError)):
        old.wrap_socket(plain)


def test_a_phone_joins_and_keeps_a_figure_over_the_encrypted_line(browser: Browser, line):
    kit = Tab(browser, line.phones, PHONE, may_fail=True, trusting=True)
    sockets: list[str] = []
    kit.page.on("websocket", lambda one: sockets.append(one.url))
    try:
        kit.page.goto(f"{line.phones}join#{line.code}")
        kit.page.get_by_label(say("join.name")).fill("Kit")
        kit.page.get_by_role("radio", name=say("settings.role_tape")).check(force=True)
        with kit.page.expect_event("load"):
            kit.page.get_by_role("button", name=say("join.join_as", name="Kit", role=say("settings.role_tape"))).click()
        kit.ready()
        kit.page.goto(f"{line.phones}job/{line.job}/walk/A1")
        kit.ready()
        expect(kit.marked("question")).to_have_text(re.compile("^span"), timeout=SLOW)
        kit.tap("4", "0", "7/16", "Keep")
        expect(kit.marked("verdict")).to_be_attached(timeout=SLOW)
        assert sockets and all(url.startswith("wss://") for url in sockets)
        names = {c["name"]: c for c in kit.context.cookies()}
        assert all(c["secure"] and c["httpOnly"] for name, c in names.items() if "spanbook" in name) and names
    finally:
        kit.close()
    assert [(r["by"], r["value"]) for r in line.readings()] == [("Kit", "40 7/16")]
