"""A time with its zone, as RFC 3339 writes it: `2026-05-02T09:31:00Z`, `2026-05-02T11:31:00.250+02:00`."""

from __future__ import annotations

import re
from datetime import date, datetime

from measure.errors import EntryError

_written = re.compile(
    r"[0-9]{4}-[0-9]{2}-[0-9]{2}[Tt ][0-9]{2}:[0-9]{2}:[0-9]{2}(?:\.[0-9]{1,9})?(?:[Zz]|[+-][0-9]{2}:[0-9]{2})", re.ASCII
).fullmatch
_day = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})(.*)", re.ASCII | re.DOTALL).fullmatch
FIRST_YEAR, LAST_YEAR = 1970, 2999
_EXAMPLE = "Write it as 2026-05-02T09:31:00Z, or with its zone as 2026-05-02T11:31:00+02:00."


def parse_moment(text: str) -> datetime:
    """RFC 3339 date and time with zone; finer than a microsecond is cut off. Raises EntryError."""
    if _written(text) is None:
        raise EntryError(text, "this is no date and time with a zone", _EXAMPLE)
    try:
        at = datetime.fromisoformat(text if text[10] == "T" and text[-1] != "z" else text.upper())
    except ValueError:
        raise EntryError(text, "there is no such date, time or zone", _EXAMPLE) from None
    if not FIRST_YEAR <= at.year <= LAST_YEAR:
        raise EntryError(text, f"nobody measured in the year {at.year}", "Check the clock of the device. " + _EXAMPLE)
    return at


def date_trouble(text: str) -> str | None:
    """Why this is neither a date such as 2026-04-20 nor a date with a time; None where it is."""
    found = _day(text)
    try:
        if found is None:
            raise EntryError(text, "this is no date", "Write it as 2026-04-20.")
        if found[2]:
            parse_moment(text)
        else:
            date.fromisoformat(text)
    except EntryError as problem:
        return str(problem)
    except ValueError:
        return str(EntryError(text, "there is no such date", "Write it as 2026-04-20."))
    return None
