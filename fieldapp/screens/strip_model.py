"""A run as a strip: its bays with their signs and widths, for every screen that shows one. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from fieldapp.live_job import LiveJob, Sign
from fieldapp.words import say
from measure.length import NM_PER_INCH
from measure.plan import Bay

USUAL_SPAN_MM = 1000.0
"""The width drawn for a bay of which nothing is known yet."""


@dataclass(frozen=True, slots=True)
class StripPart:
    """One bay of a strip: the fields of the strip that parts/run_strip.py draws. span, post and rise in inches, as drawn only."""

    tag: str
    span: float
    sign: Sign
    rise: float
    post: float
    glass: bool
    says: str
    here: str = ""
    begun: bool = False
    at: bool = False


def strip(live: LiveJob, bays: Sequence[Bay], here: Mapping[str, str] | None = None) -> tuple[StripPart, ...]:
    """Neighbouring bays of one run. Widths and rises as read where they are, else as planned, else level and usual.

    here: letters of those who are on a bay, by its tag.
    """
    return tuple(_part(live, bay, (here or {}).get(bay.tag, "")) for bay in bays)


def around(bays: Sequence[Bay], tag: str | None, most: int) -> Sequence[Bay]:
    """At most so many bays in a row, with the one that is meant among them, a third of the way in."""
    at = next((i for i, bay in enumerate(bays) if bay.tag == tag), 0)
    first = max(0, min(at - most // 3, len(bays) - most))
    return bays[first : first + most]


def _part(live: LiveJob, bay: Bay, here: str) -> StripPart:
    opening = live.opening(bay.tag)
    planned = live.book.planned_span(bay)
    taped = live.book.counting("bay", bay.tag, "span")
    nm = taped.corrected.nm if taped is not None else planned.nm if planned is not None else USUAL_SPAN_MM * 1e6
    span = max(float(nm), 1e6)
    sign = live.sign(bay.tag)
    begun = sign == "todo" and taped is not None and not any(f.stands_in_the_way and not f.unread for f in live.findings_of_bay(bay.tag))
    says = say(f"app.bay_{'begun' if begun else sign}", tag=bay.tag) if bay.has_glass else say("app.bay_gate", tag=bay.tag)
    return StripPart(
        bay.tag, span / NM_PER_INCH, sign, span * opening.tan / NM_PER_INCH if opening else 0.0,
        live.book.face(bay.right).nm / NM_PER_INCH, bay.has_glass, says, here, begun,
    )  # fmt: skip
