"""What stands on the screen that sends a job to the office, and how an address is read. Pure."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime
from typing import Literal
from urllib.parse import urlsplit

from fieldapp.office import NEEDS_A_PERSON, Standing, Trouble
from fieldapp.words import day, hour, say
from measure.errors import SpanbookError

Sign = Literal["clear", "query", "hold", "todo"]
_HERE = ("127.0.0.1", "localhost", "[::1]")
_HOST = re.compile(r"([A-Za-z0-9]([A-Za-z0-9.-]*[A-Za-z0-9])?|\[[0-9A-Fa-f:]+\])(:[0-9]{1,5})?")


class AddressError(SpanbookError):
    """What was typed is no address of an office; the sentence says what to type."""


@dataclass(frozen=True, slots=True)
class OfficeView:
    """sign and words: the one thing to know. more: what stands below it. row: the same in one short line, for other screens."""

    sign: Sign
    words: str
    more: tuple[str, ...]
    row: str


def office_view(standing: Standing, now: datetime) -> OfficeView:
    """How a job stands with its office. now: for whether its last answer was of today."""
    sending, trouble = standing.sending, standing.trouble
    up_to = when(sending.at, now)
    if standing.busy:
        return OfficeView("todo", say("office.busy"), (), say("office.busy"))
    if standing.all_there and trouble is None:
        words = say("office.has", at=up_to)
        return OfficeView("clear", words, (say("office.by_itself"),) if sending.on else (), words)
    words = _lacking(standing)
    more = [trouble_words(trouble)] if trouble else []
    if trouble and sending.on:
        more.append(say("office.stopped" if trouble.kind in NEEDS_A_PERSON else "office.again_soon"))
    if up_to:
        more.append(say("office.has_until", at=up_to))
    elif not trouble:
        more.append(say("office.never_how"))
    sign: Sign = "todo" if trouble is None else "hold" if trouble.kind in NEEDS_A_PERSON else "query"
    if not trouble and sending.at and not sending.plan and not standing.waiting:
        sign, more = "query", [say("office.plan_how"), *more]
    return OfficeView(sign, words, tuple(more), _row(words, trouble, sending.on))


def _row(words: str, trouble: Trouble | None, on: bool) -> str:
    """What is lacking, and whether it goes by itself once there is a network, or waits for a person."""
    if trouble is None:
        return words
    waits = on and trouble.kind not in NEEDS_A_PERSON
    key = "network" if waits and trouble.kind == "unreachable" else "again" if waits else "stopped"
    return say(f"office.row_{key}", words=words)


def _lacking(standing: Standing) -> str:
    if not standing.sending.at:
        return say("office.never")
    if standing.waiting:
        return say("office.waiting", n=standing.waiting)
    return say("office.plan" if not standing.sending.plan else "office.something")


def when(at: str, now: datetime) -> str:
    """An RFC 3339 time as `14:02`; of another day as `2 May, 14:02`; empty for never."""
    if not at:
        return ""
    moment = datetime.fromisoformat(at)
    today = moment.astimezone().date() == now.astimezone().date()
    return hour(moment) if today else say("office.on_day", day=day(moment), hour=hour(moment))


def trouble_words(trouble: Trouble) -> str:
    """Why the last try did not get through, and what to do."""
    if trouble.kind == "wait":
        return say("office.trouble_wait", n=max(trouble.seconds, 1))
    if trouble.kind == "file":
        return say("office.trouble_file", told=trouble.told)
    if trouble.kind == "unreachable" and trouble.told:
        return say("office.trouble_unreachable_because", told=trouble.told)
    return say(f"office.trouble_{trouble.kind}")


def office_address(text: str, secure_page: bool = False) -> str:
    """An address as it was typed, as `https://host:port`. secure_page: the app itself came encrypted, nothing plain is let out.

    Raises AddressError with what to type instead.
    """
    typed = text.strip()
    if not typed:
        raise AddressError(say("office.address_needed"))
    has_scheme = "://" in typed
    split = urlsplit(typed if has_scheme else f"{'https' if secure_page else 'http'}://{typed}")
    host, scheme = split.netloc.lower(), split.scheme.lower()
    if (
        scheme not in ("http", "https")
        or not _HOST.fullmatch(host)
        or split.query
        or split.path.strip("/") not in ("", "join", "phone")
    ):
        raise AddressError(say("office.address_wrong"))
    if secure_page and scheme == "http" and host.rpartition(":")[0] not in _HERE and host not in _HERE:
        raise AddressError(say("office.address_mixed"))
    return f"{scheme}://{host}"
