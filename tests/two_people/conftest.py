"""A shared job: a server that also answers at a second address of this machine, where it takes everybody for a stranger."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from measure.store import Store
from tests.fieldapp.browser import Served
from tests.fieldapp.deck_file import deck_file

PHONES = "127.0.0.2"
"""Another address of this machine: the way in of phones, whose Host is not that of the owner."""


class Shared(Served):
    """`spanbook --share` on a folder with one job, open to phones under a known code."""

    def __init__(self, folder: Path, code: str = "7A3K", *more: str) -> None:
        super().__init__(folder, "--share", PHONES, *more)
        self.code = code
        folder.mkdir(parents=True, exist_ok=True)
        with Store.open(folder) as store:
            self.job = store.add_job(deck_file())
            self.other = store.add_job(deck_file(name="Another terrace"))
            store.set_setting("sharing", {"codes": {self.job: code}, "guests": []})

    @property
    def phones(self) -> str:
        return f"http://{PHONES}:{self.port}/"

    def readings(self) -> list[dict]:
        """What is kept, read beside the running server."""
        with Store.open(self.folder, read_only=True) as store:
            return store.document(self.job)["readings"]


class NoReadBack(Shared):
    """A shared job that asks for no read-back: what is taped on it can be ordered."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        with Store.open(folder) as store:
            self.job = store.add_job(deck_file(read_back="no"))
            store.set_setting("sharing", {"codes": {self.job: self.code}, "guests": []})


@pytest.fixture
def shared(tmp_path: Path) -> Iterator[Shared]:
    with Shared(tmp_path / "book") as server:
        yield server


@pytest.fixture(scope="module")
def door(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shared]:
    """The same, one for all tests of a file that leave it as they found it."""
    with Shared(tmp_path_factory.mktemp("door") / "book") as server:
        yield server
