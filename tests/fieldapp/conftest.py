"""One browser for all tests that need one; a server and a tab for each of them."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Playwright

from tests.fieldapp.browser import PHONE, Served, Tab, launch


@pytest.fixture(scope="session")
def browser(playwright: Playwright) -> Iterator[Browser]:
    """The browser. Where there is none the tests that need it fail, and say how to get one."""
    found = launch(playwright)
    yield found
    found.close()


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    """`spanbook`, running on a fresh folder."""
    folder = tmp_path / "book"
    with Served(folder) as server:
        yield server


@pytest.fixture
def tab(browser: Browser, served: Served) -> Iterator[Callable[..., Tab]]:
    """Opens a page of the server: `tab()`, `tab("/settings", DESK)`. All are looked through at the end."""
    opened: list[Tab] = []

    def open_tab(path: str = "", size: tuple[int, int] = PHONE, may_fail: bool = False) -> Tab:
        one = Tab(browser, served.address, size, may_fail)
        opened.append(one)
        return one.open(path)

    yield open_tab
    for one in opened:
        one.close()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_call(item: pytest.Item) -> Iterator[None]:
    """Playwright leaves its loop running in this thread; tests without a browser run loops of their own."""
    running = asyncio._get_running_loop()
    if "playwright" not in getattr(item, "fixturenames", ()):
        asyncio._set_running_loop(None)
    try:
        return (yield)
    finally:
        asyncio._set_running_loop(running)
