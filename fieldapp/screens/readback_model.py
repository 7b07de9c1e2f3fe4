"""Reading back on the same phone: which bay comes next, shuffled, and whether both figures agree. Pure."""

from __future__ import annotations

import hashlib
import secrets
from dataclasses import dataclass
from fractions import Fraction

from fieldapp.live_job import LiveJob
from fieldapp.parts.entry import Entry
from fieldapp.words import say
from measure.book import same_person
from measure.checks.presence import difference
from measure.length import NM_PER_INCH, NM_PER_MM, Length
from measure.plan import Bay
from measure.reading import Reading

ALOUD = "aloud-"
"""Begins the id of a read-back that was said aloud and confirmed: a job file has no other place for how it was done."""


@dataclass(frozen=True, slots=True)
class Said:
    """A kept figure: as text, as whole and fraction for the large figure, and its place on a blade in the job's unit."""

    text: str
    whole: str
    fraction: Fraction | None
    unit: str
    at: Fraction


@dataclass(frozen=True, slots=True)
class Outcome:
    """Both figures, once the second is in. agree: as lengths. aloud: it was said and heard, not typed."""

    agree: bool
    first: Said
    second: Said
    first_by: str
    second_by: str
    sentence: str
    marks: str
    aloud: bool = False


def first_span(live: LiveJob, bay: Bay) -> Reading | None:
    return live.book.counting("bay", bay.tag, "span") if bay.has_glass else None


def to_read(live: LiveJob, by: str) -> list[str]:
    """Bays whose span counts, was taped by somebody else, and has no read-back that agrees; shuffled, the same way all day."""
    open_ = []
    for bay in live.plan.bays:
        first = first_span(live, bay)
        if first is None or (by and same_person(first.by, by)):
            continue
        back = live.book.read_back(first)
        if back is None or difference(first, back):
            open_.append(bay.tag)
    return sorted(open_, key=lambda tag: hashlib.sha256(f"{live.id} {tag}".encode()).digest())


def any_span(live: LiveJob) -> bool:
    return any(first_span(live, bay) is not None for bay in live.plan.bays)


def figure_of(live: LiveJob, reading: Reading) -> Said:
    """A figure as it was typed, large."""
    entry = Entry.from_text(reading.text, live.plan.units)
    whole, fraction = entry.shown
    value = reading.value if isinstance(reading.value, Length) else Length(0)
    unit = NM_PER_INCH if live.units == "in" else NM_PER_MM
    shown = "" if entry.free else live.units
    return Said(reading.text, whole, fraction, shown, Fraction(value.nm, unit))


def outcome(live: LiveJob, tag: str) -> Outcome | None:
    """What came of the newest read-back of a bay; None where there is none."""
    first = first_span(live, live.bay(tag))
    back = None if first is None else live.book.read_back(first)
    if first is None or back is None:
        return None
    a, b = figure_of(live, first), figure_of(live, back)
    agree, aloud = not difference(first, back), was_aloud(back)
    if agree and aloud:
        sentence = say("readback.confirmed", first=first.by, a=a.text, second=back.by)
    elif agree:
        sentence = say("readback.agree", figure=a.text)
    else:
        sentence = f"{say('readback.differ', first=first.by, a=a.text, second=back.by, b=b.text)} {say('readback.differ_do')}"
    marks = say("readback.marks", first=first.by, a=a.text, second=back.by, b=b.text)
    return Outcome(agree, a, b, first.by, back.by, sentence, marks, aloud)


def words_of(live: LiveJob, tag: str, text: str) -> dict[str, object]:
    """The read-back as a job file says it; it takes start, case and the rest from what it repeats."""
    return {"bay": tag, "what": "span", "value": text, "role": "read-back"}


def confirmed_words(live: LiveJob, tag: str, text: str) -> dict[str, object]:
    """The same where the figure was said aloud and confirmed: its id says so, so that it stays on record wherever the job travels."""
    return {**words_of(live, tag, text), "id": f"{ALOUD}{secrets.token_hex(8)}"}


def was_aloud(reading: Reading) -> bool:
    """Whether this read-back was heard and confirmed, and not typed. Who said it is who took the first reading."""
    return reading.role == "read-back" and (reading.id or "").startswith(ALOUD)


def refusal(live: LiveJob, tag: str, by: str) -> str:
    """Why this person cannot read this bay back; empty where they can."""
    if not by.strip():
        return say("readback.no_name")
    first = first_span(live, live.bay(tag))
    if first is not None and same_person(first.by, by):
        return say("readback.mine_too", name=first.by)
    return ""
