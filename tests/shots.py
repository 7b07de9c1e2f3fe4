"""Pictures of every part, for looking at them:  python tests/shots.py FOLDER [address …] [--looks phone-sun,wide-shade …]

Starts the gallery, opens each address in each look and writes FOLDER/<address>-<look>.png. The folder is not committed.
"""

from __future__ import annotations

import argparse
import shutil
import socket
import subprocess
import sys
import time
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

LOOKS = {
    "phone-sun": (390, 844, "theme=sun"),
    "phone-shade": (390, 844, "theme=shade"),
    "phone-200": (390, 844, "theme=sun&text=2"),
    "low-sun": (375, 667, "theme=sun"),
    "large-sun": (390, 844, "theme=sun&large=1"),
    "left-shade": (390, 844, "theme=shade&hand=left"),
    "wide-sun": (1280, 800, "theme=sun"),
    "wide-shade": (1280, 800, "theme=shade"),
    "wide-200": (1280, 800, "theme=sun&text=2"),
}
ARGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
]  # fmt: skip


def free_port() -> int:
    """A port that nobody listens on just now."""
    with socket.socket() as s:
        s.bind(("127.0.0.1", 0))
        return s.getsockname()[1]


def wait_for(port: int, seconds: float = 40) -> None:
    """Until the gallery answers. TimeoutError after that."""
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        with socket.socket() as s:
            s.settimeout(0.5)
            if s.connect_ex(("127.0.0.1", port)) == 0:
                return
        time.sleep(0.3)
    raise TimeoutError(f"the gallery did not answer on port {port}")


def settle(page: Page, path: str) -> bytes:
    """The picture once the board is there (the gallery names the page after it) and two pictures in a row are the same."""
    page.wait_for_function("path => document.title === path", arg=path, timeout=60_000)
    picture = b""
    for _ in range(20):
        page.wait_for_timeout(700)
        before, picture = picture, page.screenshot()
        if before == picture:
            break
    return picture


def addresses() -> list[str]:
    """Every address of the gallery."""
    from fieldapp.parts.gallery import boards

    return list(boards())


def shoot(port: int, folder: Path, paths: list[str], looks: list[str], scale: float) -> None:
    """One picture an address and look."""
    with sync_playwright() as pw:
        browser = pw.chromium.launch(executable_path=shutil.which("chromium"), args=ARGS)
        for look in looks:
            width, height, query = LOOKS[look]
            context = browser.new_context(viewport={"width": width, "height": height}, device_scale_factor=scale)
            for path in paths:
                # A tab of its own each time: a new load in the same tab would bring back the session before.
                page = context.new_page()
                page.goto(f"http://127.0.0.1:{port}{path}?{query}")
                (folder / f"{path.strip('/')}-{look}.png").write_bytes(settle(page, path))
                page.close()
            context.close()
        browser.close()


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folder", type=Path)
    parser.add_argument("paths", nargs="*", help="addresses such as /walk-span; all when left out")
    parser.add_argument("--looks", default="phone-sun,phone-shade,phone-200")
    parser.add_argument("--scale", type=float, default=1.5)
    parser.add_argument("--port", type=int, default=0, help="a gallery that already runs")
    asked = parser.parse_intermixed_args()
    asked.folder.mkdir(parents=True, exist_ok=True)
    port = asked.port or free_port()
    gallery = None if asked.port else subprocess.Popen([sys.executable, "-m", "fieldapp.parts.gallery", str(port)])
    try:
        wait_for(port)
        shoot(port, asked.folder, asked.paths or addresses(), asked.looks.split(","), asked.scale)
    finally:
        if gallery is not None:
            gallery.terminate()
            gallery.wait(10)


if __name__ == "__main__":
    main()
