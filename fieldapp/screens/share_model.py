"""What stands on the screen beside the serving machine: code, address, who is here. Pure."""

from __future__ import annotations

import io
from dataclasses import dataclass

import segno

from fieldapp.company import Company, Present
from fieldapp.sharing import Sharing
from fieldapp.words import say


@dataclass(frozen=True, slots=True)
class Line:
    """One guest. id: to put them out by."""

    id: str
    name: str
    under: str


@dataclass(frozen=True, slots=True)
class Shared:
    """link: what the QR code says; the code stands behind its #, so that it never leaves the phone by itself."""

    address: str
    code: str
    link: str
    encrypted: bool
    people: tuple[Line, ...]
    warning: str


def shared(sharing: Sharing, company: Company, job: str) -> Shared:
    """How a job is shared just now."""
    code, address = sharing.code(job), sharing.address
    people = tuple(Line(g.id, g.name, _under(g.role, company.here(g.id))) for g in sharing.guests(job))
    tried = sharing.wrong_lately()
    warning = say("share.guessing", n=tried) if tried else ""
    return Shared(address, code, f"{address}join#{code}" if code else "", address.startswith("https:"), people, warning)


def _under(role: str, here: Present | None) -> str:
    word = say(f"settings.role_{role}")
    if here is None:
        return say("share.away", role=word)
    return say("share.at_bay", role=word, bay=here.bay) if here.bay else say("share.in_job", role=word)


def qr(text: str) -> bytes:
    """A QR code as PNG, with its quiet zone, dark on light in every theme: cameras want it so."""
    picture = io.BytesIO()
    segno.make(text, error="m", micro=False).save(picture, kind="png", scale=8, border=4)
    return picture.getvalue()
