"""The app for phones as this machine hands it out: whether its folder is there, and how it comes to be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, Protocol

PATH = "/phone"
"""Where a Spanbook hands it out."""
Stage = Literal["none", "making", "there", "failed"]


@dataclass(frozen=True, slots=True)
class Handing:
    """stage: `none` yet, being made, `there`, or `failed`. told: the last line of whoever makes it, or why it failed.

    there: a folder is handed out, an earlier one too while a newer one is made. given: it is the person's own, nothing is made.
    address: where phones open it; empty where this machine is not on the network. here: where this machine itself does.
    """

    stage: Stage
    told: str = ""
    there: bool = False
    given: bool = False
    address: str = ""
    here: str = ""

    @property
    def secure(self) -> bool:
        """Whether a browser will let the page stay on the phone: elsewhere it gives neither files nor a worker to it."""
        return self.address.startswith("https:")


class PhoneApp(Protocol):
    """Only where a server stands, and only for its owner. Word of a change comes by the desk, as `phone-app`."""

    @property
    def handing(self) -> Handing:
        """How things stand now."""

    def make(self) -> None:
        """Begin to make the folder, anew where there is one already; it goes on in the background."""
