"""A plain static server, and a browser that is a phone: its own process and profile, every other address blocked."""

from __future__ import annotations

import functools
import hashlib
import http.server
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import BrowserContext, Locator, Page, Playwright, expect

SWITCHES = [
    "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync", "--remote-debugging-port=0", "--window-size=390,844",
    "--host-resolver-rules=MAP phone.test 127.0.0.1 , MAP * ~NOTFOUND , EXCLUDE 127.0.0.1",
]  # fmt: skip
OURS = ("http://127.0.0.1:", "http://phone.test:", "blob:", "data:", "file:")
"""phone.test is this machine under a name: to the browser a place beyond it, and so not secure without https."""
START = 120_000
"""Milliseconds a start may take on a busy machine."""


NAMES = ("chromium", "chromium-browser", "google-chrome")


def chromium() -> str:
    """A Chromium of this machine; a loud failure where there is none."""
    found = os.environ.get("SPANBOOK_CHROMIUM") or next((p for name in NAMES if (p := shutil.which(name))), None)
    if not found:
        raise RuntimeError("No browser to test in. Install Chromium (apt install chromium), or name one in SPANBOOK_CHROMIUM.")
    return found


class StaticServer:
    """A folder as a plain web server hands it out: no rules, no packing, no headers of ours. Stops and starts on one port."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.asked: list[tuple[str, int]] = []
        self.broken: dict[str, int | bytes] = {}
        self.posted: dict[str, Callable[[bytes], bytes]] = {}
        self.before_answer: Callable[[str], None] = lambda path: None
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.port = free.getsockname()[1]
        self._server: http.server.ThreadingHTTPServer | None = None
        self.start()

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}/"

    def start(self) -> None:
        handler = functools.partial(_Handler, server_=self)
        self._server = _Server(("127.0.0.1", self.port), handler)
        self._server.daemon_threads = True
        threading.Thread(target=self._server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()

    def stop(self) -> None:
        if self._server:
            self._server.shutdown()
            self._server.server_close()
            self._server = None

    def paths(self, status: int) -> list[str]:
        return [path for path, said in self.asked if said == status]


def add_to(site: StaticServer, name: str, script: str, under: str = "") -> None:
    """Another version of the folder, in which a script has one more line. Its list of files says so."""
    change(site, name, (site.folder / under / name).read_bytes() + script.encode(), under)


def change(site: StaticServer, name: str, data: bytes, under: str = "") -> None:
    """Another version of the folder, in which a file has other bytes, and the list of files says so. under: where the app lies."""
    keeper = site.folder / under / "sw.js"
    listing = re.sub(rf'("{re.escape(name)}": \[")[0-9a-f]+', rf"\g<1>{hashlib.sha256(data).hexdigest()}", keeper.read_text())
    for file, content in ((site.folder / under / name, data), (keeper, listing.encode())):
        file.unlink()  # it may be another folder's too
        file.write_bytes(content)


class _Server(http.server.ThreadingHTTPServer):
    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that is killed leaves half an answer behind; anything else is told as ever."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)


class _Handler(http.server.SimpleHTTPRequestHandler):
    """broken: a path's status, or the bytes that it gives instead of its own."""

    extensions_map = {**http.server.SimpleHTTPRequestHandler.extensions_map, ".mjs": "text/javascript", ".wasm": "application/wasm"}

    def __init__(self, *args: object, server_: StaticServer) -> None:
        self._ours = server_
        super().__init__(*args, directory=str(server_.folder))  # type: ignore[arg-type]

    def do_GET(self) -> None:
        path = self.path.split("?")[0]
        self._ours.before_answer(path)
        instead = self._ours.broken.get(path)
        if isinstance(instead, int):
            self.send_error(instead)
        elif instead is not None:
            self.send_response(200)
            self.send_header("Content-Length", str(len(instead)))
            self.end_headers()
            self.wfile.write(instead)
        else:
            super().do_GET()

    def do_POST(self) -> None:
        """What a test answers itself; a plain web server answers nothing."""
        answer = self._ours.posted.get(self.path)
        body = self.rfile.read(int(self.headers.get("Content-Length", "0")))
        if answer is None:
            self.send_error(405)
            return
        told = answer(body)
        self.send_response(200)
        self.send_header("Content-Length", str(len(told)))
        self.end_headers()
        self.wfile.write(told)

    def log_request(self, code: int | str = "-", size: int | str = "-") -> None:
        self._ours.asked.append((self.path, int(code)))

    def log_message(self, format: str, *args: object) -> None:
        pass


class Phone:
    """One browser profile. `open` starts a process, `kill` ends it by SIGKILL; the profile stays."""

    def __init__(self, playwright: Playwright, profile: Path) -> None:
        self._playwright, self.profile = playwright, profile
        self.foreign: list[str] = []
        """Every request that would have left for another address and was not stopped by the page's own policy."""
        self.said: list[str] = []
        self._process: subprocess.Popen[bytes] | None = None

    def open(self) -> BrowserContext:
        told = self.profile / "DevToolsActivePort"
        told.unlink(missing_ok=True)
        command = [chromium(), *SWITCHES, f"--user-data-dir={self.profile}", "about:blank"]
        self._process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
        for _ in range(600):
            if told.exists() and "\n" in told.read_text():
                break
            threading.Event().wait(0.05)
        port = told.read_text().split()[0]
        self.browser = self._playwright.chromium.connect_over_cdp(f"http://127.0.0.1:{port}")
        self.context = self.browser.contexts[0]
        self.page = self.context.pages[0]
        self._watch(self.page)
        return self.context

    def _watch(self, page: Page) -> None:
        page.on("request", lambda r: None if r.url.startswith(OURS) else self.foreign.append(r.url))
        page.on("requestfailed", lambda r: self.foreign.remove(r.url) if r.url in self.foreign and r.failure == "csp" else None)
        page.on("console", lambda m: self.said.append(m.text))

    def new_tab(self) -> Page:
        page = self.context.new_page()
        self._watch(page)
        return page

    def kill(self) -> None:
        """SIGKILL by its pid: nothing of the browser gets to say goodbye."""
        assert self._process is not None
        os.kill(self._process.pid, signal.SIGKILL)
        self._process.wait()
        self._rest()
        self._process = None

    def end(self) -> None:
        """Closed as a person closes it: the browser writes down what it still holds."""
        assert self._process is not None
        self.browser.new_browser_cdp_session().send("Browser.close")
        self._process.wait(60)
        self._rest()
        self._process = None

    def _rest(self) -> None:
        """Its children go by themselves; what they leave locked must be free for the next start."""
        assert self._process is not None
        for _ in range(600):
            alive = subprocess.run(["ps", "-o", "pid=", "-s", str(self._process.pid)], capture_output=True, text=True).stdout.split()
            if not alive:
                break
            threading.Event().wait(0.05)
        for name in ("SingletonLock", "SingletonSocket", "SingletonCookie"):
            (self.profile / name).unlink(missing_ok=True)

    def close(self) -> None:
        if self._process is not None:
            self.kill()

    # ---- what a person does --------------------------------------------------------------------------------------------
    def start(self, address: str, page: Page | None = None) -> Page:
        """Open the app and wait until its first view stands there, named for a screen reader."""
        page = page or self.page
        page.goto(address)
        started(page)
        return page


def started(page: Page) -> None:
    expect(page.locator("#start")).to_have_count(0, timeout=START)
    semantics(page)


def semantics(page: Page) -> None:
    page.wait_for_selector("flt-semantics-placeholder", state="attached", timeout=START)
    page.evaluate("document.querySelector('flt-semantics-placeholder').click()")
    page.wait_for_selector("flt-semantics-host flt-semantics[role=button]", state="attached", timeout=START)


def named(page: Page, name: str) -> Locator:
    return page.locator(f'[flt-semantics-identifier="{name}"]')


def tap(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()
