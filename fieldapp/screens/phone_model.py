"""What a phone that runs the app alone says of itself: what is in danger, what to do before leaving and before going home. Pure."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from fieldapp.hosts.keeping import NO_ROOM, Keeping
from fieldapp.words import day, say

Sign = Literal["clear", "query", "hold", "todo"]
Do = Literal["", "understood", "copy", "newer", "again", "stay", "install"]


@dataclass(frozen=True, slots=True)
class Copied:
    """Of one job: when a copy last left this phone (RFC 3339, empty: never), and whether something came since."""

    at: str
    is_old: bool


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that is so. do: what a tap on it does. pressing: told on the list of jobs too."""

    sign: Sign
    words: str
    under: str
    do: Do = ""
    pressing: bool = False


def lines(keeping: Keeping, copies: Iterable[Copied]) -> tuple[Line, ...]:
    """Everything worth knowing, what is lost or in danger first."""
    found = (*_danger(keeping), *_newer(keeping), _ready(keeping), *_copies(tuple(copies)), *_staying(keeping))
    order = {"hold": 0, "query": 1, "todo": 2, "clear": 3}
    return tuple(sorted(found, key=lambda line: (not line.pressing, order[line.sign])))


def pressing(keeping: Keeping, copies: Iterable[Copied]) -> Line | None:
    """The one line that belongs on the list of jobs; None when all is well."""
    first = lines(keeping, copies)[0]
    return first if first.pressing else None


def _line(sign: Sign, key: str, do: Do = "", pressing: bool = False, **figures: object) -> Line:
    return Line(sign, say(f"phone.{key}", **figures), say(f"phone.{key}_under", **figures), do, pressing)


def _danger(keeping: Keeping) -> Iterable[Line]:
    if keeping.gone is not None:
        yield _line("hold", "gone", "understood", pressing=True, day=day(keeping.gone))
    if keeping.how == "nowhere":
        yield _line("hold", "nowhere", "copy", pressing=True)
    if keeping.nearly_full:
        yield _line("hold", "full", "copy", pressing=True, left=max(keeping.room - keeping.used, 0) // 1_000_000)


def _newer(keeping: Keeping) -> Iterable[Line]:
    if keeping.newer:
        yield _line("todo", "newer", "newer", pressing=True)
    elif keeping.newer_failed:
        yield _line("query", "newer_no_room" if keeping.newer_failed == NO_ROOM else "newer_failed", "again")


def _ready(keeping: Keeping) -> Line:
    if keeping.ready:
        return _line("clear", "ready")
    why = keeping.why_not or "line"
    return _line("query", why, pressing=True)


def _copies(copies: tuple[Copied, ...]) -> Iterable[Line]:
    """Nothing is said of copies while there is no job."""
    lacking = sum(copy.is_old or not copy.at for copy in copies)
    if lacking:
        yield _line("query", "not_copied", "copy", n=lacking)
    elif copies:
        yield _line("clear", "copied", day=day(min(datetime.fromisoformat(copy.at) for copy in copies)))


def _staying(keeping: Keeping) -> Iterable[Line]:
    if keeping.how == "record":
        yield _line("query", "record")
    if keeping.how != "nowhere":
        yield _line("clear", "stays") if keeping.stays else _line("query", "may_go", "stay")
    if keeping.may_install and not keeping.installed:
        yield _line("todo", "install", "install")
