"""All bays of one run in words: what was read, what follows. Pure."""

from __future__ import annotations

from dataclasses import dataclass

from fieldapp.live_job import LiveJob, Sign
from fieldapp.words import say
from measure.as_read import with_unit
from measure.opening import rise_reading
from measure.plan import Bay
from measure.rounding import order_text


@dataclass(frozen=True, slots=True)
class BayLine:
    """word: the verdict's. sentence: its readings and panel. says: all of it, as it is spoken."""

    tag: str
    sign: Sign
    word: str
    sentence: str
    says: str


@dataclass(frozen=True, slots=True)
class RunBays:
    title: str
    under: str
    rows: tuple[BayLine, ...]


def bays_of(live: LiveJob, run: str) -> RunBays:
    """KeyError where there is no such run."""
    bays = live.book.run_bays[run]
    under = say("bays.under", n=len(bays), first=bays[0].left, last=bays[-1].right)
    return RunBays(say("review.run", run=run), under, tuple(bay_line(live, bay) for bay in bays))


def bay_line(live: LiveJob, bay: Bay) -> BayLine:
    """One bay: its sign, what was read of it, its panel."""
    sentence = _told(live, bay)
    if not bay.has_glass:
        word = say("review.gate")
        return BayLine(bay.tag, "todo", word, sentence, say("bays.says", tag=bay.tag, word=word, told=sentence.replace("\n", " ")))
    sign = live.sign(bay.tag)
    word = say(f"review.verdict_{sign}")
    return BayLine(bay.tag, sign, word, sentence, say("bays.says", tag=bay.tag, word=word, told=sentence.replace("\n", " ")))


def _told(live: LiveJob, bay: Bay) -> str:
    """`Span 40 7/16 in, rise 5/16 in.` over `Panel 41 3/4 in × 38 in.`; what is not there is left out."""
    units = live.plan.units
    span, rise = live.book.counting("bay", bay.tag, "span"), rise_reading(live.book, bay)
    if span is None:
        return say("bays.nothing") if bay.has_glass else say("bays.way_through")
    read = say("bays.span", span=with_unit(span.text, units))
    if rise is not None:
        read = say("bays.both", span=with_unit(span.text, units), rise=with_unit(rise.text, units))
    opening = live.opening(bay.tag) if bay.has_glass else None
    if opening is None:
        return read
    panel = opening.panel
    size = f"{order_text(panel.width, units)} × {order_text(max(panel.left_edge, panel.right_edge), units)}"
    return f"{read}\n{say('bays.panel', size=size)}"
