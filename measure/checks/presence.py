"""Was everything read, and said: spans, rises, high ends, read-backs, plumb posts."""

from __future__ import annotations

from collections.abc import Iterator

from measure.checks.case import BayCase
from measure.checks.slips import between
from measure.finding import Finding
from measure.length import Length
from measure.opening import needs_base_rise, rise_reading
from measure.reading import Reading, What
from measure.slope import Slope


def missing(case: BayCase) -> Iterator[Finding]:
    """Hold: no span or no rise that counts (0 is said, not left out). Read-back and plumb as the job asks for them."""
    yield from _missing_span(case)
    yield from _missing_rise(case)
    yield from _missing_read_back(case)
    yield from _missing_plumb(case)


def _missing_span(case: BayCase) -> Iterator[Finding]:
    span = case.book.counting("bay", case.bay.tag, "span")
    if span is None:
        yield case.found("missing", "hold", _why(case, "span", "the span", "inside to inside, just above the base plates"), unread="span")
    elif span.corrected.nm <= 0:
        say = f"The span {span.text} less where the tape began leaves nothing. Say again where the tape began, or tape the span again."
        yield case.found("missing", "hold", say, [span], unread="span")
    else:
        yield from case.clear("missing", lambda: f"Span read: {case.read(span)}, by {span.by}.")


def _missing_rise(case: BayCase) -> Iterator[Finding]:
    if rise_reading(case.book, case.bay) is not None:
        return
    if needs_base_rise(case.book, case.bay):
        posts = " and ".join(p for p in (case.bay.left, case.bay.right) if case.book.posts[p].trimmed)
        where = f"at the feet: {posts} was trimmed, so the tops no longer tell the slope. 0 is said, not left out"
        yield case.found("missing", "hold", _why(case, "base-rise", "the base rise", where), unread="base-rise")
        return
    yield case.found("missing", "hold", _why(case, "rise", "the rise", "straightedge over both post tops. 0 is said, not left out"), unread="rise")


def _why(case: BayCase, what: What, name: str, where: str) -> str:
    stale = case.book.stale("bay", case.bay.tag, what)
    if stale is not None:
        return f"{stale.post} was moved after {name} {stale.reading.text} was read: read it again, {where}."
    return f"{name[:1].upper()}{name[1:]} is not read yet: {where}."


def _missing_read_back(case: BayCase) -> Iterator[Finding]:
    span = case.book.counting("bay", case.bay.tag, "span")
    if span is None or case.job.read_back == "no":
        return
    back = case.book.read_back(span)
    if back is not None:
        yield from case.clear("missing", lambda: f"Read back by {back.by}.")
        return
    say = f"The span {case.read(span)} was not read back by a second person: have somebody other than {span.by} read it again."
    yield case.found("missing", "hold" if case.job.read_back == "required" else "query", say, [span], unread="read-back")


def _missing_plumb(case: BayCase) -> Iterator[Finding]:
    if case.job.plumb != "asked":
        return
    unread = [p for p in (case.bay.left, case.bay.right) if case.book.plumb(p, case.bay.run) is None]
    if unread:
        say = f"Plumb is not read at {' and '.join(unread)}: hold a level to the post, in line with the run."
        yield case.found("missing", "query", say, unread="plumb")
    else:
        yield from case.clear("missing", lambda: "Both posts were read for plumb.")


def high_end(case: BayCase) -> Iterator[Finding]:
    """Hold: a rise above 0 without its high end."""
    rise = rise_reading(case.book, case.bay)
    if rise is None:
        return
    if _size(rise) and rise.high is None:
        say = f"The rise {rise.text} does not say which end is high: say left or right, as seen from {_view(case)}."
        yield case.found("high-end", "hold", say, [rise])
    elif _size(rise):
        yield from case.clear("high-end", lambda: f"{str(rise.high).capitalize()} end high.")


def _view(case: BayCase) -> str:
    return case.book.runs[case.bay.run].seen_from


def _size(reading: Reading) -> bool:
    return bool(reading.value.value if isinstance(reading.value, Slope) else reading.value.nm)


def read_backs(case: BayCase) -> Iterator[Finding]:
    """Hold: any difference between a figure and its read-back, compared as lengths."""
    bay = case.bay
    kinds: tuple[What, ...] = ("span", "top-span", "diagonal-rising", "diagonal-falling")
    firsts = [case.book.counting("bay", bay.tag, what) for what in kinds]
    firsts.insert(2, rise_reading(case.book, bay))  # a rise that a base rise replaces counts no more
    firsts += [case.book.plumb(p, bay.run) for p in (bay.left, bay.right)]
    for first in firsts:
        back = None if first is None else case.book.read_back(first)
        if first is None or back is None:
            continue
        apart = difference(first, back)
        if not apart:
            yield from case.clear("read-back", lambda f=first, b=back: f"{_name(f)} {case.read(f)}: {b.by} read the same.")  # type: ignore[misc]
            continue
        both_lengths = isinstance(first.value, Length) and isinstance(back.value, Length)
        hint = between(first.corrected, back.corrected, case.job.tape.division) if both_lengths else ""
        say = f"{_name(first)}: {first.by} read {case.read(first)}, {back.by} read back {case.read(back)}: {apart}. {hint} Read it again, or tape it anew."
        say = " ".join(say.split())
        yield case.found("read-back", "hold", say, [first, back])


def _name(reading: Reading) -> str:
    place = f" of {reading.post}" if reading.post is not None else ""
    return f"{reading.what[:1].upper()}{reading.what[1:].replace('-', ' ')}{place}"


def difference(first: Reading, back: Reading) -> str:
    """How a read-back differs from what it repeats, in words; empty where it agrees.

    The read-back takes start, case, over, high, taped and what else it leaves out from the first.
    """
    if isinstance(first.value, Slope) or isinstance(back.value, Slope):
        if not (isinstance(first.value, Slope) and isinstance(back.value, Slope)):
            return "one is a slope, the other a length"
        if first.value.tan != back.value.tan:
            return "the slopes differ"
    elif _length_as_read(first, first) != _length_as_read(back, first):
        return "the figures differ"
    if _size(first) and back.high is not None and first.high is not None and back.high != first.high:
        return f"{first.high} high against {back.high} high"
    if _size(first) and back.toward is not None and back.toward != first.toward:
        return f"heads {first.toward} against heads {back.toward}"
    if back.over is not None and back.over != (first.over or _usual_over(first)):
        return "taken over another length"
    if back.mark is not None and back.mark != first.mark:
        return "taken to another mark"
    if back.hooked is not None and back.hooked != (first.hooked or "inside"):
        return "one was taped inside, the other outside"
    if back.taped is not None and back.taped != (first.taped or "level"):
        return "one was taped level, the other along the slope"
    return ""


def _usual_over(first: Reading) -> str | None:
    return {"rise": "centres", "overall-rise": "centres", "base-rise": "faces"}.get(first.what)


def _length_as_read(reading: Reading, first: Reading) -> Length:
    if isinstance(reading.value, Slope):
        raise TypeError("a slope is not compared as a length")
    start = reading.start if reading.start is not None else first.start
    case = reading.case if reading.case is not None else first.case
    return Length(reading.value.nm - (start.nm if start else 0) + (case.nm if case else 0))
