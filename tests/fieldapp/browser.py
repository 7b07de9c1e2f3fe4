"""A real server and a real browser: `Served` starts `spanbook` as a user would, `Tab` is one open page on a phone.

Every address that a page asks for is noted; `Tab.close` fails when one of them is not the server's own, or when the page put
an error on its console. Waiting is Playwright's own: a sleeping test blocks the browser too.
"""

from __future__ import annotations

import os
import re
import shutil
import signal
import ssl
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Self
from urllib.parse import urlsplit
from urllib.request import urlopen

from playwright.sync_api import Browser, BrowserContext, Locator, Page, Playwright, expect

ARGUMENTS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip
PHONE, DESK = (390, 844), (1280, 800)
NAMES = ("chromium", "chromium-browser", "google-chrome")
HARMLESS = re.compile("GPU stall|Automatic fallback to software WebGL|Cross-Origin-Opener-Policy", re.ASCII)
"""What a browser without a graphics card says of itself."""


def launch(playwright: Playwright) -> Browser:
    """A Chromium; a loud failure where there is none."""
    found = os.environ.get("SPANBOOK_CHROMIUM") or next((p for n in NAMES if (p := shutil.which(n))), None)
    if found is None and not Path(playwright.chromium.executable_path).exists():
        raise RuntimeError("No browser to test in. Install Chromium (apt install chromium), or: playwright install chromium.")
    return playwright.chromium.launch(executable_path=found, args=ARGUMENTS)


class Chromium:
    """One Chromium for a whole run of tests. `living` is it, or a new one when it has died."""

    def __init__(self, playwright: Playwright) -> None:
        self._playwright = playwright
        self._now: Browser | None = None

    def living(self) -> Browser:
        if self._now is None or not self._now.is_connected():
            self._now = launch(self._playwright)
        return self._now

    def close(self) -> None:
        if self._now is not None:
            self._now.close()


class Served:
    """`spanbook` on a free port, its jobs in a folder. `kill` ends it as a power cut would; `start` again finds the same port.

    scheme, trust: of an encrypted line, with the certificate that is trusted.
    """

    scheme = "http"
    trust: str | None = None
    program: tuple[str, ...] = ("-m", "fieldapp.command")

    def __init__(self, folder: Path, *more: str) -> None:
        self.folder, self._more = folder, more
        self.port = 0
        self.address = ""
        self._process: subprocess.Popen[str] | None = None

    def start(self, seconds: float = 30) -> Self:
        command = [sys.executable, *self.program, "--port", str(self.port), "--data", str(self.folder), "--no-browser", *self._more]
        self.log = (self.folder.parent / f"{self.folder.name}.log").open("a+")
        self._process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=self.log, text=True)
        assert self._process.stdout is not None
        line = self._process.stdout.readline()
        found = re.fullmatch(rf"Spanbook is at ({self.scheme}://127\.0\.0\.1:(\d+)/)\n", line)
        if found is None:
            told = f"spanbook did not start: {line!r}, and said: {self.said()}"
            self.kill()
            raise AssertionError(told)
        self.address, self.port = found[1], int(found[2])
        end = time.monotonic() + seconds
        trusted = ssl.create_default_context(cafile=self.trust) if self.trust else None
        with urlopen(f"{self.address}healthz", timeout=max(1.0, end - time.monotonic()), context=trusted) as answer:
            assert answer.status == 200
        return self

    def said(self) -> str:
        """What it wrote on standard error."""
        self.log.flush()
        return Path(self.log.name).read_text()

    @property
    def pid(self) -> int:
        assert self._process is not None
        return self._process.pid

    def kill(self) -> None:
        """End it without a chance to tidy up."""
        self._end(signal.SIGKILL)

    def stop(self, number: signal.Signals = signal.SIGTERM) -> int:
        """End it as a user would; its exit code."""
        return self._end(number)

    def _end(self, number: signal.Signals) -> int:
        process, self._process = self._process, None
        if process is None:
            return 0
        process.send_signal(number)
        code = process.wait(20)
        assert process.stdout is not None
        process.stdout.close()
        self.log.close()
        return code

    def __enter__(self) -> Self:
        return self.start()

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self.stop()


class Tab:
    """One page in a profile of its own. Names are those that people hear."""

    def __init__(self, browser: Browser, address: str, size: tuple[int, int] = PHONE, may_fail: bool = False, trusting: bool = False) -> None:
        # trusting: of a certificate that nobody vouches for
        self.address, self._may_fail = address, may_fail
        touch = size[0] < 700
        self.context: BrowserContext = browser.new_context(
            viewport={"width": size[0], "height": size[1]}, device_scale_factor=2 if touch else 1, has_touch=touch, accept_downloads=True, locale="en-GB",
            ignore_https_errors=trusting,
        )
        self.page: Page = self.context.new_page()
        self.asked: list[str] = []
        self.complaints: list[str] = []
        self.page.on("request", lambda request: self.asked.append(request.url))
        self.page.on("console", lambda message: message.type == "error" and self.complaints.append(message.text))
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))

    def open(self, path: str = "") -> Tab:
        self.page.goto(self.address + path.lstrip("/"))
        return self.ready()

    def ready(self) -> Tab:
        """Wait for the app and let it tell what it shows; once for each time the page was loaded."""
        self.page.wait_for_selector("flt-semantics-placeholder", state="attached", timeout=30_000)
        self.page.evaluate("() => document.querySelector('flt-semantics-placeholder').click()")  # 1 px, beside the page
        self.page.wait_for_selector("flt-semantics-host flt-semantics[role=button]", state="attached", timeout=20_000)
        return self

    @contextmanager
    def reloading(self) -> Iterator[None]:
        """Around what makes the page start anew by itself; afterwards it is ready."""
        with self.page.expect_event("load", timeout=30_000):
            yield
        self.ready()
        self.page.wait_for_timeout(1000)  # the tree for screen readers is still being set up: a tap through it can be lost, and no finger is that fast

    def at(self, path: str) -> None:
        """Fails unless the page comes to stand at this path."""
        expect(self.page).to_have_url(self.address + path.lstrip("/"))

    def button(self, name: str | re.Pattern[str]) -> Locator:
        return self.page.get_by_role("button", name=name, exact=True)

    def tap(self, *names: str) -> None:
        for name in names:
            self.button(name).click()

    def marked(self, identifier: str) -> Locator:
        """The part with this identifier: `place`, `question`, `entry`, `verdict`, `finding`, `told`."""
        return self.page.locator(f'[flt-semantics-identifier="{identifier}"]')

    def sees(self, words: str) -> None:
        """Fails unless the words stand on the page, or come to stand there."""
        expect(self.page.get_by_text(words).first).to_be_attached(timeout=10_000)

    def picture(self, path: Path) -> None:
        self.page.screenshot(path=path)

    def strangers(self) -> list[str]:
        """Addresses asked for that are not the server's own."""
        own = urlsplit(self.address).netloc
        return [url for url in self.asked if urlsplit(url).scheme not in ("data", "blob") and urlsplit(url).netloc != own]

    def close(self) -> None:
        self.context.close()
        complaints = [c for c in self.complaints if not HARMLESS.search(c)]
        assert self.strangers() == []
        assert self._may_fail or complaints == []
