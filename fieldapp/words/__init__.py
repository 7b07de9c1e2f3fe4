"""All words that the app shows, in one place: `say("jobs.kept", kept=2, bays=8)`.

A table a language, a file a screen (`english/jobs.py`: `WORDS = {"jobs.title": …}`). A value is a sentence with `{names}`, or
two of them, for one and for more, chosen by the first number given: `("{n} job", "{n} jobs")`. A key begins with the name of its
file. For another language copy the folder, translate the values, and enter it in `LANGUAGES`.

What `measure` finds (sentences of findings and refusals) comes from there, already worded.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime

from fieldapp.words.english import TABLE as ENGLISH

Words = Mapping[str, str | tuple[str, str]]
LANGUAGES: dict[str, Words] = {"en": ENGLISH}
LANGUAGE = "en"
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "June", "July", "Aug", "Sept", "Oct", "Nov", "Dec")


def say(key: str, /, **figures: object) -> str:
    """The words of a key, its figures filled in. KeyError for a key that no table has, or a figure that is missing."""
    words = LANGUAGES[LANGUAGE][key]
    if isinstance(words, tuple):
        count = next(n for n in figures.values() if isinstance(n, int))
        words = words[0] if count == 1 else words[1]
    return words.format(**figures)


def day(when: datetime) -> str:
    """A day as people say it on site: `2 May`."""
    local = when.astimezone()
    return f"{local.day} {_MONTHS[local.month - 1]}"


def hour(when: datetime) -> str:
    """A time of day: `14:02`."""
    return f"{when.astimezone():%H:%M}"


def listed(names: list[str], most: int = 6) -> str:
    """`A3`, `A3 and B2`, `A3, B2 and C1`; beyond `most` it says how many more there are."""
    if len(names) > most:
        return say("app.and_more", names=", ".join(names[:most]), n=len(names) - most)
    if len(names) < 2:
        return "".join(names)
    return say("app.and", names=", ".join(names[:-1]), last=names[-1])
