"""An office: a shared server with jobs of its own, which takes in what phones send."""

from __future__ import annotations

from pathlib import Path

from measure.store import Store
from tests.two_people.conftest import Shared

OWN_CODE = "ACDEFGHJ"
"""The office's own code."""


class OfficeServer(Shared):
    """`spanbook --share` with a job under a join code, and the office's own code."""

    def __init__(self, folder: Path, *more: str) -> None:
        super().__init__(folder, "7A3K", *more)
        with Store.open(folder) as store:
            store.set_setting("intake", {"code": OWN_CODE})

    @property
    def at(self) -> str:
        return self.phones.rstrip("/")

    def jobs(self) -> dict[str, int]:
        """Name -> how many readings, of everything that is kept."""
        with Store.open(self.folder, read_only=True) as store:
            return {card.name: len(store.document(card.id).get("readings", [])) for card in store.jobs()}
