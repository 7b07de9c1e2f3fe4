"""The steps of the walk at one bay: asked, told, or how the tape lay; and what a reload finds again. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal

from fieldapp.live_job import LiveJob
from fieldapp.screens.answer_model import reading_of, walk_sign
from fieldapp.screens.asking import ASKED
from fieldapp.screens.strip_model import StripPart, around, strip
from fieldapp.screens.taken import START, Taken
from fieldapp.screens.typing_state import Typing
from fieldapp.screens.walk_order import lay_matters, open_asks, rise_of
from fieldapp.words import say
from measure.reading import Reading

MOST_IN_STRIP = 8
"""Bays in the head's strip; a longer run shows those around the one being measured."""
MOST_NAMES = 6
_OF_BAY = ("span", "rise", "base-rise")


@dataclass(frozen=True, slots=True)
class Step:
    """kind `ask`: a question that is open; `again`: one that was answered before; `told`: its answer; `lay`: how the tape lay."""

    kind: Literal["ask", "again", "told", "lay"]
    what: str = ""

    @property
    def draft(self) -> str:
        """As it is kept with the half-typed figure, so that the same screen comes back."""
        return f"{self.kind} {self.what}".strip()


def step_of(live: LiveJob, tag: str, draft: str = "", what: str = "") -> Step:
    """Where a bay stands: as it was left, where that still makes sense; else what is open there; else what was found.

    what: a further reading that the address names.
    """
    kind, _, left = draft.partition(" ")
    if kind == "told" and left in ASKED and reading_of(live, live.bay(tag), left) is not None:
        return Step("told", left)
    if kind in ("ask", "again") and left in ASKED:
        return Step(kind, left)  # type: ignore[arg-type]
    if kind == "lay" and lay_matters(live, tag):
        return Step("lay")
    return asked(live, tag, what) if what else _first(live, tag)


def asked(live: LiveJob, tag: str, what: str) -> Step:
    """The step that asks something, new or again."""
    return Step("ask" if reading_of(live, live.bay(tag), what) is None else "again", what)


def before(live: LiveJob, tag: str, step: Step) -> Step | None:
    """Where Back leads within the bay: from a figure that is measured again to what is known of it; None leaves the bay."""
    known = step.kind == "again" and reading_of(live, live.bay(tag), step.what) is not None
    return Step("told", step.what) if known else None


def after(live: LiveJob, tag: str, what: str) -> Step:
    """The step after something was kept: its answer, but first how the tape lay where that matters now."""
    return Step("lay") if what in _OF_BAY and lay_matters(live, tag) else Step("told", what)


def _first(live: LiveJob, tag: str) -> Step:
    open_ = open_asks(live, tag)
    if open_:
        return Step("lay") if open_[0] == "lay" else Step("ask", open_[0])
    if live.bay(tag).has_glass:
        return Step("told", rise_of(live, tag))
    return Step("told", "span") if live.book.counting("bay", tag, "span") else Step("ask", "span")


def replaced(live: LiveJob, tag: str, step: Step) -> str | None:
    """The id of the reading that a new one takes the place of: only where it is measured again on purpose.

    What another phone kept while this one was typing is not replaced: the newer of the two counts, and both stay.
    """
    reading = _measured_again(live, tag, step)
    return reading.id if reading is not None else None


def stood(live: LiveJob, tag: str, step: Step) -> frozenset[str | None]:
    """The ids of all that stands where something is measured again: what comes to stand there meanwhile was not known to whoever did."""
    reading = _measured_again(live, tag, step)
    if reading is None:
        return frozenset()
    kind, place = next((k, p) for k, p in (("bay", reading.bay), ("post", reading.post), ("run", reading.run)) if p is not None)
    return frozenset(r.id for r in live.book.standing(kind, place, reading.what, reading.role))


def _measured_again(live: LiveJob, tag: str, step: Step) -> Reading | None:
    if step.kind != "again":
        return None
    if step.what in _OF_BAY:
        return live.book.counting("bay", tag, step.what)  # type: ignore[arg-type]
    return reading_of(live, live.bay(tag), step.what)


def strip_of(live: LiveJob, tag: str, here: Mapping[str, str] | None = None) -> tuple[StripPart, ...]:
    """The run's strip in the head: signs of what was measured, level and untaped bays of a usual width.

    here: letters of the others who are on a bay, by its tag.
    """
    bays = around(live.book.run_bays[live.bay(tag).run], tag, MOST_IN_STRIP)
    return tuple(replace(part, sign=walk_sign(live, part.tag), at=part.tag == tag) for part in strip(live, bays, here))


def names_offered(live: LiveJob, crew: Iterable[str]) -> list[str]:
    """Names to choose from when it is asked who measures: the crew's, then whoever read something in this job or confirmed its sheet.

    None is chosen.
    """
    sheet = live.plan.system.confirmed
    found: dict[str, str] = {}
    for name in (*crew, *(r.by for r in live.readings), *([sheet.by] if sheet else [])):
        found.setdefault(" ".join(name.split()).casefold(), name)
    return list(found.values())[:MOST_NAMES]


def lay_words(live: LiveJob, tag: str, lay: str) -> dict[str, Any]:
    """The span that counts, said anew with the way its tape lay."""
    span = live.book.counting("bay", tag, "span")
    if span is None:
        raise KeyError(tag)
    return {**_said_of_span(span), "taped": lay}


def start_words(live: LiveJob, tag: str, start: str, case: str) -> dict[str, Any]:
    """The span that counts, said anew with where its tape began, or with its case."""
    span = live.book.counting("bay", tag, "span")
    if span is None:
        raise KeyError(tag)
    said = _said_of_span(span)
    return {**said, **({"start": start} if start else {}), **({"case": case} if case else {})}


def _said_of_span(span: Any) -> dict[str, Any]:
    """A span's own words, for a new reading that takes its place."""
    words = {
        "bay": span.bay, "what": span.what, "value": span.text, "start": span.start_text or None, "case": span.case_text or None,
        "how": span.how, "taped": span.taped, "replaces": span.id,
    }  # fmt: skip
    return {k: v for k, v in words.items() if v is not None}


def remembered(taken: Taken, run: str, what: str, key: str, text: str) -> Taken:
    """What this device knows after the length of a tool was typed. what: the question that needed it."""
    if key == "mark-height":
        return replace(taken, mark=text)
    if key == "case-length":
        return taken.with_span(run, replace(taken.span(run), how="case", case=text))
    if what.startswith("plumb"):
        return replace(taken, level=text)
    return taken.with_rise(run, replace(taken.rise(run), over="level", level=text))


def how_word(typing: Typing) -> str:
    """The quiet word for how this figure is taken; empty where there is nothing to choose."""
    span, over = typing.asking.span, typing.asking.over
    if span is not None:
        return say(f"walk.how_{span.how}", start=START[typing.asking.units])
    return say(f"walk.how_{over.over}") if over is not None else ""
