"""What several folders of tests share: the flag that rewrites expected outputs, one Playwright and one Chromium, and a watch over hanging tests."""

import asyncio
import sys

import pytest


def pytest_configure(config):
    if sys.platform != "emscripten":  # the phone's Python has neither threads nor processes
        from tests.watch import watch

        config.pluginmanager.register(watch(), "watch")


def pytest_addoption(parser):
    parser.addoption(
        "--rewrite-golden", action="store_true", help="write the sample jobs' expected outputs anew, to be read in the diff"
    )


@pytest.fixture
def rewrite_golden(request) -> bool:
    return bool(request.config.getoption("--rewrite-golden"))


@pytest.fixture(scope="session")
def playwright():
    """A second Playwright in the same process would not start. Imported here only: the phone's Python runs tests without it."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def chromium(playwright):
    """The one Chromium: `living()` is it, or a new one when it has died. Where there is none the tests that need it fail, and say how to get one."""
    from tests.fieldapp.browser import Chromium

    one = Chromium(playwright)
    yield one
    one.close()


@pytest.fixture
def browser(chromium):
    return chromium.living()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_call(item):
    """Playwright leaves its loop running in this thread; tests without a browser run loops of their own."""
    running = asyncio._get_running_loop()
    if "playwright" not in getattr(item, "fixturenames", ()):
        asyncio._set_running_loop(None)
    try:
        return (yield)
    finally:
        asyncio._set_running_loop(running)
