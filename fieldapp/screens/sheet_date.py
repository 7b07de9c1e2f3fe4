"""The date on a maker's sheet, as people write it: `20 Apr 2026`, `April 20, 2026`, `2026-04-20`. Pure.

`4/5/2026` is not read: it is another day on either side of the ocean.
"""

from __future__ import annotations

import re
from datetime import date, datetime

from fieldapp.words import day

_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_DAY_FIRST = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?\.?\s+([a-z]{3,9})\.?,?\s+(\d{4})")
_MONTH_FIRST = re.compile(r"([a-z]{3,9})\.?\s+(\d{1,2})(?:st|nd|rd|th)?,?\s+(\d{4})")
_MONTHS = (
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
)
_EARLIEST = 1970


def read_date(text: str) -> str:
    """As a job file says it, `2026-04-20`; empty where it is no date that can be read in one way only."""
    plain = " ".join(text.split()).lower()
    if found := _ISO.fullmatch(plain):
        year, month, day = (int(part) for part in found.groups())
    elif found := _DAY_FIRST.fullmatch(plain):
        year, month, day = int(found[3]), _month(found[2]), int(found[1])
    elif found := _MONTH_FIRST.fullmatch(plain):
        year, month, day = int(found[3]), _month(found[1]), int(found[2])
    else:
        return ""
    try:
        return date(year, month, day).isoformat() if year >= _EARLIEST else ""
    except ValueError:
        return ""


def date_text(said: str) -> str:
    """A date of a job file as people say it, `20 Apr 2026`; what is no such date stays as it was written."""
    iso = read_date(said)
    if not iso:
        return said
    when = datetime.fromisoformat(f"{iso}T12:00")
    return f"{day(when)} {when.year}"


def _month(name: str) -> int:
    """1 to 12 for a month's name or its beginning of three letters or more; 0 for anything else."""
    return next((n for n, month in enumerate(_MONTHS, 1) if month.startswith(name) or name == "sept" == month[:4]), 0)
