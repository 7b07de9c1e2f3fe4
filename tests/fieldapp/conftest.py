"""A server and a tab for each test that needs them.

What drives a browser is imported where it is needed: the models are tested on the phone's own Python too, which has none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser

    from tests.fieldapp.browser import Served, Tab


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    """`spanbook`, running on a fresh folder."""
    from tests.fieldapp.browser import Served

    folder = tmp_path / "book"
    with Served(folder) as server:
        yield server


@pytest.fixture
def tab(browser: Browser, served: Served) -> Iterator[Callable[..., Tab]]:
    """Opens a page of the server: `tab()`, `tab("/settings", DESK)`. All are looked through at the end."""
    from tests.fieldapp.browser import PHONE, Tab

    opened: list[Tab] = []

    def open_tab(path: str = "", size: tuple[int, int] = PHONE, may_fail: bool = False) -> Tab:
        one = Tab(browser, served.address, size, may_fail)
        opened.append(one)
        return one.open(path)

    yield open_tab
    for one in opened:
        one.close()
