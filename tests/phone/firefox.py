"""Firefox as a phone: driven over WebDriver BiDi, which it speaks itself; every other address is sent to a closed door."""

from __future__ import annotations

import contextlib
import json
import os
import shutil
import signal
import subprocess
import threading
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from websockets.sync.client import ClientConnection, connect

NAMES = ("firefox-esr", "firefox")
START = 180.0
"""Seconds a start may take on a busy machine."""
SETTINGS = {
    "network.proxy.type": 1, "network.proxy.http": "127.0.0.1", "network.proxy.http_port": 9, "network.proxy.ssl": "127.0.0.1",
    "network.proxy.ssl_port": 9, "network.proxy.no_proxies_on": "127.0.0.1", "browser.shell.checkDefaultBrowser": False,
    "datareporting.policy.dataSubmissionEnabled": False, "toolkit.telemetry.reportingpolicy.firstRun": False, "app.update.enabled": False,
    "browser.startup.page": 0, "browser.aboutwelcome.enabled": False, "remote.active-protocols": 1,
}  # fmt: skip
# A button is known by what a screen reader says of it.
FIND = """(kind, name) => {
    const all = [...document.querySelectorAll(kind === 'button' ? 'flt-semantics[role=button]' : `[flt-semantics-identifier="${name}"]`)];
    const said = (e) => (e.getAttribute('aria-label') ?? e.innerText ?? '').trim();
    const one = kind === 'button' ? all.find((e) => said(e) === name) ?? all.find((e) => name.endsWith('…') && said(e).includes(name.slice(0, -1))) : all[0];
    if (!one) return null;
    const box = one.getBoundingClientRect();
    return { said: said(one), x: Math.round(box.x + box.width / 2), y: Math.round(box.y + box.height / 2) };
}"""


def firefox() -> str:
    """A Firefox of this machine; a loud failure where there is none."""
    found = os.environ.get("SPANBOOK_FIREFOX") or next((p for name in NAMES if (p := shutil.which(name))), None)
    if not found:
        raise RuntimeError("No Firefox to test in. Install it (apt install firefox-esr), or name one in SPANBOOK_FIREFOX.")
    return found


class Firefox:
    """One profile. `open` starts a process, `kill` ends it by SIGKILL; the profile stays."""

    def __init__(self, profile: Path) -> None:
        self.profile = profile
        profile.mkdir(parents=True, exist_ok=True)
        lines = [f"user_pref({json.dumps(name)}, {json.dumps(value)});" for name, value in SETTINGS.items()]
        (profile / "user.js").write_text("\n".join(lines))
        self._process: subprocess.Popen[bytes] | None = None
        self._line: ClientConnection | None = None
        self._open = contextlib.ExitStack()
        self._number = 0

    def open(self) -> None:
        told = self.profile / "WebDriverBiDiServer.json"
        told.unlink(missing_ok=True)
        # An own home: it writes there too, and asks for a running one of the same user.
        command = [firefox(), "--headless", "--no-remote", "--profile", str(self.profile), "--remote-debugging-port", "0", "about:blank"]
        surroundings = {**os.environ, "HOME": str(self.profile), "MOZ_HEADLESS_WIDTH": "390", "MOZ_HEADLESS_HEIGHT": "900"}
        self._process = subprocess.Popen(command, env=surroundings, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True)
        place = _until(lambda: json.loads(told.read_text()) if told.exists() and told.stat().st_size else None, "Firefox opens its line")
        self._line = self._open.enter_context(connect(f"ws://{place['ws_host']}:{place['ws_port']}/session", max_size=None))
        self._ask("session.new", capabilities={})
        self._tab = self._ask("browsingContext.getTree")["contexts"][0]["context"]
        self._ask("browsingContext.setViewport", context=self._tab, viewport={"width": 390, "height": 844})

    def kill(self) -> None:
        """SIGKILL by its pid, and its helpers with it."""
        assert self._process is not None and self._line is not None
        os.kill(self._process.pid, signal.SIGKILL)
        self._process.wait()
        session = str(self._process.pid)
        _until(lambda: not subprocess.run(["ps", "-o", "pid=", "-s", session], capture_output=True, text=True).stdout.split(), "Firefox has ended")
        for name in ("lock", ".parentlock"):
            (self.profile / name).unlink(missing_ok=True)
        self._open.close()
        self._line, self._process = None, None

    def close(self) -> None:
        if self._process is not None:
            self.kill()

    def _ask(self, method: str, **given: Any) -> Any:
        assert self._line is not None
        self._number += 1
        self._line.send(json.dumps({"id": self._number, "method": method, "params": given}))
        while True:
            said = json.loads(self._line.recv(timeout=START))
            if said.get("id") == self._number:
                if "error" in said:
                    raise RuntimeError(f"{method}: {said['error']}: {said['message']}")
                return said["result"]

    # ---- what a person does --------------------------------------------------------------------------------------------
    def start(self, address: str) -> None:
        """Open the app and wait until its first view stands there, named for a screen reader."""
        self._ask("browsingContext.navigate", context=self._tab, url=address, wait="none")
        self.started(address)

    def reload(self) -> None:
        self.run("() => { document.body.dataset.old = '1'; }")
        self._ask("browsingContext.reload", context=self._tab, wait="none")
        _until(lambda: self.run("() => !document.body?.dataset.old"), "the page is loaded anew")
        self.started("")

    def started(self, address: str) -> None:
        ready = "(a) => location.href.startsWith(a) && !document.getElementById('start') && !!document.querySelector('flt-semantics-placeholder, flt-semantics')"
        _until(lambda: self.run(ready, address), "the app stands there", lambda: self.run("() => document.body?.innerText"))
        self.run("() => { document.querySelector('flt-semantics-placeholder')?.click(); }")

    def run(self, function: str, *given: str) -> Any:
        """Call a function of the page; its answer as JSON knows it. None while no page is there."""
        try:
            said = self._ask(
                "script.callFunction", functionDeclaration=f"(...given) => JSON.stringify(({function})(...given)) ?? 'null'", awaitPromise=True,
                target={"context": self._tab}, arguments=[{"type": "string", "value": v} for v in given],
            )  # fmt: skip
        except RuntimeError:  # between two pages
            return None
        return json.loads(said["result"]["value"]) if said["type"] == "success" else None

    def text(self, identifier: str) -> str:
        """What stands under this name; waited for."""
        return str(_until(lambda: self.run(FIND, "named", identifier), f"{identifier} is there", self._seen)["said"])

    def sees(self, identifier: str, seconds: float) -> bool:
        """Whether something of this name comes within so many seconds."""
        ends = time.monotonic() + seconds
        while time.monotonic() < ends:
            if self.run(FIND, "named", identifier):
                return True
            threading.Event().wait(0.1)
        return False

    def expect(self, identifier: str, text: str) -> None:
        _until(lambda: text in self.text(identifier), f"{identifier} says “{text}”", lambda: self.text(identifier))

    def tap(self, name: str) -> None:
        """Touch a button by its name (with … behind it: by a part of it)."""
        at = _until(lambda: self.run(FIND, "button", name), f"{name} can be tapped", self._seen)
        finger: list[dict[str, Any]] = [{"type": "pointerMove", "x": at["x"], "y": at["y"]}, {"type": "pointerDown", "button": 0}, {"type": "pointerUp", "button": 0}]
        touch = {"type": "pointer", "id": "finger", "parameters": {"pointerType": "touch"}, "actions": finger}
        self._ask("input.performActions", context=self._tab, actions=[touch])

    def type(self, text: str) -> None:
        """Type on a keyboard; \\n is Enter."""
        keys = [{"type": kind, "value": "\ue006" if c == "\n" else c} for c in text for kind in ("keyDown", "keyUp")]
        self._ask("input.performActions", context=self._tab, actions=[{"type": "key", "id": "keys", "actions": keys}])

    def _seen(self) -> Any:
        buttons = "[...document.querySelectorAll('flt-semantics[role=button]')].map((e) => e.getAttribute('aria-label') ?? e.innerText)"
        return self.run(f"() => [...{buttons}, document.querySelector('[flt-semantics-identifier=told]')?.innerText]")


def _until(look: Callable[[], Any], what: str, seen: Callable[[], Any] = lambda: "") -> Any:
    ends = time.monotonic() + START
    while time.monotonic() < ends:
        if found := look():
            return found
        threading.Event().wait(0.1)
    raise AssertionError(f"Not seen within {START:.0f} s: {what}. Seen: {seen()}")
