"""What a scribe waits for while there is nothing to read back: what somebody does just now, and what is still to come. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fieldapp.live_job import LiveJob
from fieldapp.screens.readback_model import any_span, first_span
from fieldapp.screens.walk_order import open_asks
from fieldapp.words import listed, say
from measure.book import same_person
from measure.checks.presence import difference


@dataclass(frozen=True, slots=True)
class Waiting:
    """sign: `clear` only where every bay is taped and read back. more: further sentences, below."""

    title: str
    sentence: str
    more: tuple[str, ...]
    sign: Literal["clear", "todo"]


def waiting(live: LiveJob, by: str, taping: tuple[str, str] | None, together: bool) -> Waiting:
    """taping: name and bay of who tapes just now; the name is empty where nobody said it. together: somebody else is in this job."""
    untaped, own = to_tape(live), _own(live, by)
    more = _more(live, untaped, own)
    if taping is not None:
        return Waiting(say("readback.what"), _of_taping(live, *taping, own), more, "todo")
    if not any_span(live):
        return Waiting(say("readback.what"), say("readback.first" if together else "readback.none"), (), "todo")
    if untaped or own:
        return Waiting(say("readback.what"), more[0], more[1:], "todo")
    return Waiting(say("readback.done"), say("readback.done_words"), (), "clear")


def to_tape(live: LiveJob) -> list[str]:
    """Bays that have glass and no span yet."""
    return [bay.tag for bay in live.plan.bays if bay.has_glass and first_span(live, bay) is None]


def _own(live: LiveJob, by: str) -> list[str]:
    """Bays that this person taped, and that nobody read back so far."""
    found = []
    for bay in live.plan.bays:
        first = first_span(live, bay)
        if first is not None and by and same_person(first.by, by):
            back = live.book.read_back(first)
            if back is None or difference(first, back):
                found.append(bay.tag)
    return found


def _more(live: LiveJob, untaped: list[str], own: list[str]) -> tuple[str, ...]:
    lines = []
    if any_span(live):
        lines.append(say("readback.yours", bays=listed(own)) if own else say("readback.so_far"))
    if untaped:
        lines.append(say("readback.to_tape", n=len(untaped)))
    return tuple(lines)


def _of_taping(live: LiveJob, name: str, bay: str, own: list[str]) -> str:
    """What whoever stands at a bay does there: its span, its rise, which nobody reads back, or neither."""
    name = name or say("readback.somebody")
    asked = next(iter(open_asks(live, bay)), "")
    if asked == "span":
        return say("share.wait", name=name, bay=bay)
    key = "at_rise" if asked in ("rise", "base-rise") else "at_bay"
    return say(f"readback.{key}_yours" if bay in own else f"readback.{key}", name=name, bay=bay)
