"""No test hangs for ever: what takes longer than SPANBOOK_TEST_MINUTES (10) loses its browser, and fails as any other test does.

Some questions to a browser know no limit of their own. When the time is up every thread's place is printed, then the browsers that
this run started are ended, so that the question comes back with an error; a minute later everything else that it started; a minute
after that the run itself, with exit code 70. A count set in the environment (SPANBOOK_KILLS …) asks for long loops: then there is no
limit, unless one is set.
"""

from __future__ import annotations

import faulthandler
import os
import sys
import threading
from collections.abc import Iterator

import psutil
import pytest

COUNTS = ("SPANBOOK_FUZZ", "SPANBOOK_KILLS", "SPANBOOK_PHONES", "SPANBOOK_LONG_CUTS")
BROWSERS = ("chrom", "firefox")
GRACE = 60.0
"""Seconds from one step to the next."""
GAVE_UP = 70


def limit() -> float | None:
    """Seconds that a step of a test may take; None for as long as it likes."""
    minutes = os.environ.get("SPANBOOK_TEST_MINUTES")
    if minutes is None:
        return None if any(name in os.environ for name in COUNTS) else 600.0
    return float(minutes) * 60 or None


class Watch:
    """Stands beside each step of a test: setting up, the test itself, tidying up.

    out: the number of an open file that takes what is said, the real standard error, since pytest keeps the other for itself.
    """

    def __init__(self, seconds: float | None, out: int, grace: float = GRACE) -> None:
        self.seconds, self.out, self.grace = seconds, out, grace

    @pytest.hookimpl(wrapper=True, tryfirst=True)
    def pytest_runtest_setup(self, item: pytest.Item) -> Iterator[None]:
        return (yield from self._beside(f"setting up {item.nodeid}"))

    @pytest.hookimpl(wrapper=True, tryfirst=True)
    def pytest_runtest_call(self, item: pytest.Item) -> Iterator[None]:
        return (yield from self._beside(item.nodeid))

    @pytest.hookimpl(wrapper=True, tryfirst=True)
    def pytest_runtest_teardown(self, item: pytest.Item) -> Iterator[None]:
        return (yield from self._beside(f"tidying up {item.nodeid}"))

    def _beside(self, what: str) -> Iterator[None]:
        if self.seconds is None:
            return (yield)
        over = threading.Event()
        watcher = threading.Thread(target=self._watch, args=(what, over), daemon=True)
        watcher.start()
        try:
            return (yield)
        finally:
            over.set()
            watcher.join()

    def _watch(self, what: str, over: threading.Event) -> None:
        assert self.seconds is not None
        if over.wait(self.seconds):
            return
        self._say(f"\n{what} takes longer than {self.seconds:g} s. Its browsers are ended now.")
        faulthandler.dump_traceback(self.out)
        self._end(BROWSERS)
        if over.wait(self.grace):
            return
        self._say(f"\n{what} still does not end. All that it started is ended now.")
        self._end(("",))
        if over.wait(self.grace):
            return
        self._say(f"\n{what} does not end. The run is given up.")
        os._exit(GAVE_UP)

    def _say(self, words: str) -> None:
        os.write(self.out, f"{words}\n".encode())

    def _end(self, names: tuple[str, ...]) -> None:
        for process in psutil.Process().children(recursive=True):
            try:
                if any(name in process.name().lower() for name in names):
                    process.kill()
            except psutil.NoSuchProcess:
                continue


def watch() -> Watch:
    """Asked for while pytest does not take standard error for itself."""
    return Watch(limit(), os.dup(sys.__stderr__.fileno() if sys.__stderr__ else 2))
