"""`spanbook bench app`: the touch app by real pixels in a headless Chromium, beside a bare Flet counter app of the same run.

Needs Playwright and a Chromium, which come with the `test` extra. Taps are rested: half a second and more between two of them.
"""

from __future__ import annotations

import importlib.util
import random
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Any, TextIO

from fieldapp.bench_kept import on_disk, ratio, resident_mb, told
from fieldapp.bench_tab import ARGUMENTS, NEEDS, SCREEN, SCRIPT, STILL, await_view, bare_tab, chromium, taps, walk_tab
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

PHONES = 5


def run(times: int, out: TextIO) -> int:
    """All of it. times: measured taps on each page."""
    if importlib.util.find_spec("playwright") is None:
        raise SpanbookError(NEEDS)
    from playwright.sync_api import sync_playwright

    random.seed(7)
    with tempfile.TemporaryDirectory() as name:
        with sync_playwright() as playwright, _browser(playwright) as browser:
            _in_browser(browser, Path(name) / "book", times, out)
        on_disk(Path(name), times * 5, out)  # a loop of its own, once the browser's has ended
    return 0


def _in_browser(browser: Browser, folder: Path, times: int, out: TextIO) -> None:
    walk = _fill(folder)
    ours = ("fieldapp.command", "--port", "0", "--data", str(folder), "--no-browser")
    with _started(*ours) as (app, app_pid), _started("fieldapp.hosts.bare") as (bare, bare_pid):
        _first_pages(browser, app + walk, bare, max(3, times // 10), out)
        _taps(browser, app + walk, bare, times, out)
        _phones(browser, (("the app", app + walk, app_pid), ("bare", bare, bare_pid)), out)


# ---- what is started ---------------------------------------------------------------------------------------------------
@contextmanager
def _browser(playwright: Any) -> Iterator[Browser]:
    browser = playwright.chromium.launch(executable_path=chromium(playwright), args=ARGUMENTS)
    try:
        yield browser
    finally:
        browser.close()


@contextmanager
def _started(*command: str) -> Iterator[tuple[str, int]]:
    """Run a module that tells its address; the address without its last stroke, and the process's number."""
    process = subprocess.Popen([sys.executable, "-m", *command], stdout=subprocess.PIPE, text=True)
    try:
        assert process.stdout is not None
        _, at, address = process.stdout.readline().partition(" is at ")
        if not at:
            raise SpanbookError(f"{command[0]} did not start; what it said stands above.")
        yield address.strip().rstrip("/"), process.pid
    finally:
        process.terminate()
        process.wait(20)


def _fill(folder: Path) -> str:
    """A book with a sample to tape and somebody who tapes it; the address of its first bay."""
    from fieldapp.samples import samples
    from fieldapp.screens import samples_model
    from measure.documents import read_job
    from measure.store import Store

    folder.mkdir()
    with Store.open(folder) as store:
        job = store.merge(None, read_job(samples_model.chosen(samples(), samples_model.FRESH)).as_dict()).job
        store.set_setting("here person", "M")
        return f"/job/{job}/walk/A1"


def _open(browser: Browser, address: str) -> Page:
    context = browser.new_context(**SCREEN)
    context.add_init_script(path=SCRIPT)
    page = context.new_page()
    page.goto(address)
    await_view(page)
    return page


def _taps(browser: Browser, walk: str, bare: str, times: int, out: TextIO) -> None:
    tabs = bare_tab(_open(browser, bare)), walk_tab(_open(browser, walk))
    for line in taps(tabs[1], tabs[0], times):
        out.write(line + "\n")
        out.flush()
    for tab in tabs:
        tab.page.context.close()


# ---- first pages, phones -----------------------------------------------------------------------------------------------
def _first_pages(browser: Browser, walk: str, bare: str, times: int, out: TextIO) -> None:
    """From the address to the picture that then stands still; each time in a profile of its own, nothing in its cache."""
    took: dict[str, list[float]] = {walk: [], bare: []}
    for _ in range(times):
        for address in random.sample(list(took), len(took)):
            page = _open(browser, address)
            page.wait_for_timeout(STILL)
            pictures: list[list[float]] = page.evaluate("() => spanbookBench.pictures")
            took[address].append(next(at for at, mark in pictures if mark == pictures[-1][1]))
            page.context.close()
    out.write(f"first page: {told(took[walk])}; bare {told(took[bare])}; {ratio(took[walk], took[bare])} × its median\n")
    out.flush()


def _phones(browser: Browser, servers: Sequence[tuple[str, str, int]], out: TextIO) -> None:
    """Memory of each server, in all and for every further open page."""
    for name, address, process in servers:
        before = resident_mb(process)
        pages = [_open(browser, address) for _ in range(PHONES)]
        pages[-1].wait_for_timeout(STILL)
        after = resident_mb(process)
        out.write(f"memory of {name}: {after:.0f} MB with {PHONES} more phones, {(after - before) / PHONES:.1f} MB a phone\n")
        out.flush()
        for page in pages:
            page.context.close()
