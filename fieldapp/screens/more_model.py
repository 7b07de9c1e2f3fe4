"""What else a bay can be asked, and what was read there so far. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from fieldapp.live_job import LiveJob
from fieldapp.screens.answer_model import reading_of
from fieldapp.screens.readback_model import was_aloud
from fieldapp.screens.walk_order import Ask, next_ask, rise_of
from fieldapp.words import day, hour, say
from measure.as_read import rise_as_read, span_as_read, with_unit
from measure.plan import Bay
from measure.reading import Reading
from measure.rounding import plain_text
from measure.slope import Slope

AGAIN = ("span", "rise")
"""Said again only where they were said."""


@dataclass(frozen=True, slots=True)
class MoreRow:
    """to: a question (a key of asking.ASKED), or `moved`, `note`, `history`. picture: names its drawing. value: its figure if read."""

    to: str
    name: str
    sentence: str
    picture: str
    value: str = ""


def more_rows(live: LiveJob, tag: str, notes: int) -> list[MoreRow]:
    """The lines of the page, what is asked for most first. notes: how many this bay has."""
    bay = live.bay(tag)
    rows = [_row(live, bay, what, what, post=post) for what, post in _asks(live, bay)]
    rows.append(MoreRow("moved", say("more.moved"), say("more.moved_told"), "moved"))
    rows.append(MoreRow("note", say("more.note"), say("more.note_told"), "note", say("more.notes", n=notes) if notes else ""))
    read = len(readings_at(live, tag))
    rows.append(MoreRow("history", say("more.history"), say("more.history_told"), "note", say("more.read", n=read) if read else ""))
    return rows


def _asks(live: LiveJob, bay: Bay) -> list[tuple[str, str]]:
    spans = [("span", ""), (rise_of(live, bay.tag), "")] if bay.has_glass else [("span", "")]
    spans = [(what, post) for what, post in spans if not (bay.has_glass and what in AGAIN) or live.book.counting("bay", bay.tag, what)]  # type: ignore[arg-type]
    further = [("second-span", ""), ("top-span", ""), ("plumb-left", bay.left), ("plumb-right", bay.right), ("diagonal-rising", "")]
    feet = [] if rise_of(live, bay.tag) == "base-rise" else [("base-rise", "")]
    runs = [("overall-outside", ""), ("overall-inside", ""), ("overall-rise", "")]
    return [*further, *feet, *runs, *spans] if bay.has_glass else [*spans, *runs]


def _row(live: LiveJob, bay: Bay, what: str, picture: str, post: str) -> MoreRow:
    reading = reading_of(live, bay, what)
    if what in ("span", "rise", "base-rise"):
        reading = live.book.counting("bay", bay.tag, what)  # type: ignore[arg-type]
    if what in ("overall-outside", "overall-inside") and reading is not None and (reading.hooked or "inside") != what[8:]:
        reading = None
    name = say(f"more.{what}", post=post, run=bay.run)
    return MoreRow(what, name, say(f"more.{what}_told"), picture, figure(live, reading) if reading else "")


def figure(live: LiveJob, reading: Reading) -> str:
    """A reading's figure with its unit and its side."""
    said = reading.text if isinstance(reading.value, Slope) else with_unit(reading.text, live.plan.units)
    side = reading.high or reading.toward
    return say("more.sided", figure=said, side=side) if side else said


def onward_words(live: LiveJob, tag: str, from_right: bool) -> tuple[str, str]:
    """The main action: on with the walk. The bay it leads to, empty for the review, and its words."""
    ahead: Ask | None = next_ask(live, tag, from_right)
    if ahead is None:
        return "", say("walk.review")
    return ahead.bay, say("more.go_on", bay=ahead.bay, what=say(f"answer.what_{ahead.what}"))


# ---- what was read here ------------------------------------------------------------------------------------------------
@dataclass(frozen=True, slots=True)
class ReadRow:
    """again: the reading can be made to count again, by a new reading that says the same."""

    reading: Reading
    name: str
    value: str
    said: str
    again: bool


def readings_at(live: LiveJob, tag: str) -> list[Reading]:
    """Everything read at a bay, the newest first."""
    return sorted((r for r in live.readings if r.bay == tag), key=lambda r: r.at, reverse=True)


def read_rows(live: LiveJob, tag: str, now: datetime) -> list[ReadRow]:
    """All readings of a bay: who, when, and whether each counts."""
    return [_read_row(live, r, now) for r in readings_at(live, tag)]


def _read_row(live: LiveJob, reading: Reading, now: datetime) -> ReadRow:
    book = live.book
    counting = book.counting("bay", reading.bay or "", reading.what, reading.role)
    stale = book.moved_since(reading)
    state = "counts" if counting is reading else "moved" if stale else "replaced" if book.replaced(reading) else "older"
    when = hour(reading.at) if reading.at.astimezone().date() == now.astimezone().date() else f"{day(reading.at)} {hour(reading.at)}"
    what = say(f"more.what_{reading.what}")
    name = say("readback.was_aloud", what=what) if was_aloud(reading) else say(f"more.read_{reading.role}", what=what)
    again = state in ("replaced", "older") and reading.role == "first"
    said = say(f"more.state_{state}", by=reading.by, when=when, post=stale or "")
    return ReadRow(reading, name, _as_read(live, reading), said, again)


def _as_read(live: LiveJob, reading: Reading) -> str:
    if "rise" in reading.what:
        return rise_as_read(reading, live.plan.units)
    return span_as_read(reading, live.plan.units)


def again_words(live: LiveJob, reading: Reading) -> dict[str, object]:
    """A new reading that says what an older one said, in the place of the one that counts now."""
    now = live.book.counting("bay", reading.bay or "", reading.what)
    words = {
        "bay": reading.bay, "what": reading.what, "value": reading.text, "high": reading.high, "taped": reading.taped, "how": reading.how,
        "start": reading.start_text or None, "case": reading.case_text or None,
        "over": reading.over_text or (reading.over if isinstance(reading.over, str) else None),
        "mark": _mark(live, reading), "replaces": now.id if now is not None else None,
    }  # fmt: skip
    return {k: v for k, v in words.items() if v is not None}


def _mark(live: LiveJob, reading: Reading) -> str | None:
    """A diagonal's mark, as text that is read back to the same length."""
    return plain_text(reading.mark, live.plan.units) if reading.mark is not None else None


# ---- a post was moved --------------------------------------------------------------------------------------------------
def grown_old(live: LiveJob, post: str) -> list[str]:
    """The bays whose readings grow old when a post is moved."""
    return [b.tag for b in live.book.job.bays if post in (b.left, b.right)]
