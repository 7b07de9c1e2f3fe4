"""Which question comes next: bay by bay from either end, span then rise, and how the tape lay where that matters. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from fieldapp.live_job import LiveJob
from measure.geometry import mean_faces
from measure.opening import needs_base_rise, rise_reading, slope_of
from measure.plan import Bay

Asked = Literal["span", "rise", "base-rise", "lay"]
"""`lay`: which way the tape lay, asked where the slope makes it matter and nobody said so."""
ASK_LAY_ABOVE = Fraction(3, 100)
"""tan θ above which level and along differ by half a millimetre and more in a usual bay."""


@dataclass(frozen=True, slots=True)
class Ask:
    """One question of the walk: which bay, and what of it."""

    bay: str
    what: Asked


def open_asks(live: LiveJob, tag: str) -> tuple[Asked, ...]:
    """What a bay still has to be asked, in the order of work. A way through is asked nothing."""
    bay = live.bay(tag)
    if not bay.has_glass:
        return ()
    found: list[Asked] = []
    if live.book.counting("bay", tag, "span") is None:
        found.append("span")
    if rise_reading(live.book, bay) is None:
        found.append(rise_of(live, tag))
    if not found and lay_matters(live, tag):
        found.append("lay")
    return tuple(found)


def rise_of(live: LiveJob, tag: str) -> Asked:
    """The rise that a bay needs: at the feet where a post was trimmed, since the tops tell the slope no longer."""
    return "base-rise" if needs_base_rise(live.book, live.bay(tag)) else "rise"


def lay_matters(live: LiveJob, tag: str) -> bool:
    """Whether the slope is above 3 % and the span that counts does not say which way the tape lay."""
    bay = live.bay(tag)
    span, rise = live.book.counting("bay", tag, "span"), rise_reading(live.book, bay)
    if span is None or rise is None or span.taped is not None or span.corrected.nm <= 0:
        return False
    sloped = slope_of(span, rise, mean_faces(live.book.face(bay.left).nm, live.book.face(bay.right).nm))
    return sloped is not None and abs(sloped.tan) > ASK_LAY_ABOVE


def next_ask(live: LiveJob, after: str | None = None, from_right: bool = False) -> Ask | None:
    """The next open question: of the same bay, then on along the run, back to what its beginning left, then the other runs.

    after: the bay where the person stands; None begins the job. from_right: the walk goes from right to left.
    """
    for bay in _on_from(live, after, from_right):
        asks = open_asks(live, bay.tag)
        if asks:
            return Ask(bay.tag, asks[0])
    return None


def _on_from(live: LiveJob, after: str | None, from_right: bool) -> Iterator[Bay]:
    """All bays, beginning where the person stands."""
    runs = list(live.book.run_bays)
    if from_right:
        runs.reverse()
    here = live.bay(after).run if after is not None else runs[0] if runs else None
    at = runs.index(here) if here is not None else 0
    for run in (*runs[at : at + 1], *runs[at + 1 :], *runs[:at]):
        yield from _turned(live.book.run_bays[run], after if run == here else None, from_right)


def _turned(bays: Sequence[Bay], first: str | None, from_right: bool) -> Iterator[Bay]:
    order = list(reversed(bays)) if from_right else list(bays)
    at = next((i for i, bay in enumerate(order) if bay.tag == first), 0)
    yield from order[at:]
    yield from order[:at]
