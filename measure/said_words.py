"""Readings, moved posts and answers of a job file turned into values: what each kind of reading may say, and must."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from measure.figures import STAND_IN, Figures, Typed, Words, text_of
from measure.finding import CAUTIONS, CHECKS
from measure.json_path import Path, shown
from measure.length import ZERO, Length
from measure.places import PlaceKind
from measure.reading import Answer, Moved, Reading
from measure.slope import Slope

LEAST_KEYS = 5
"""What every reading says; with more, there may be further lengths."""
_ALWAYS = frozenset(("what", "value", "by", "at", "role", "id", "replaces", "how", "start", "case"))
CHECK_NAMES = frozenset((*CHECKS, *CAUTIONS))


@dataclass(frozen=True, slots=True)
class Kind:
    """place: what it is a reading of. zero: 0 makes sense. slope: it may be a slope. keys: all that it may say."""

    place: PlaceKind
    zero: bool
    slope: bool
    keys: frozenset[str]


def _kind(place: PlaceKind, *more: str, zero: bool = False, slope: bool = False) -> Kind:
    return Kind(place, zero, slope, _ALWAYS | {place, *more})


KINDS: Mapping[str, Kind] = {
    "span": _kind("bay", "taped"),
    "top-span": _kind("bay", "taped"),
    "rise": _kind("bay", "high", "over", zero=True, slope=True),
    "base-rise": _kind("bay", "high", "over", zero=True, slope=True),
    "diagonal-rising": _kind("bay", "mark"),
    "diagonal-falling": _kind("bay", "mark"),
    "plumb": _kind("post", "run", "over", "toward", zero=True),
    "overall": _kind("run", "from", "taped"),
    "overall-rise": _kind("run", "high", "over", zero=True, slope=True),
}
_ELSEWHERE = {
    "high": "Only a rise has a high end: take it out, or was a rise read?",
    "over": "Only a rise or a plumb reading is taken over a length: take it out.",
    "taped": "Only a span or an overall is taped level or along: take it out.",
    "mark": "Only a diagonal goes to a mark: take it out.",
    "toward": "Only a plumb reading says to which side the heads stand: take it out, or say high for a rise.",
    "from": "Only an overall is taped from inside or outside: take it out.",
}
_TO_A_MARK = {"mark": "A diagonal goes from a foot to a mark up the other post: say how high the mark is, such as 36 in."}
_WHO = "say who read it"
_NEEDS: Mapping[str, Mapping[str, str]] = {
    "diagonal-rising": _TO_A_MARK,
    "diagonal-falling": _TO_A_MARK,
    "plumb": {
        "over": "Plumb is read over the length of a level: say how long it is, such as 40 in.",
        "toward": "Out of plumb to which side? Say whether the heads stand toward left or right.",
    },
}
_WITH_A_SLOPE = {
    "over": "A slope is no length over something: take it out.",
    "start": "A slope has no start on a tape: take it out.",
    "case": "A slope has no tape case: take it out.",
}


def reading(words: Words, place: Path, figures: Figures) -> Reading:
    """One reading. Where its `what` is not known, which was told with the shape, a stand-in with its place and names."""
    what = words.get("what")
    if what is None:
        return _stand_in(words, place, figures)
    kind = KINDS[what]
    if not words.keys() <= kind.keys or kind.place not in words:
        _refuse_elsewhere(words, what, kind, place, figures)
    typed: Typed | None = words.get("value")
    value = STAND_IN if typed is None else _value(typed, kind, place, figures)
    lengths = _lengths(words, kind, value, place, figures) if len(words) > LEAST_KEYS else {}
    # A read-back takes what it leaves out from what it repeats.
    if what in _NEEDS and words.get("role") != "read-back":
        _refuse_unsaid(words, what, value, place, figures)
    get = words.get
    return Reading(
        what,
        value,
        "" if typed is None else text_of(typed),
        figures.name(words, "by", place, _WHO),
        figures.moment(words, place),
        *(get("bay"), get("post"), get("run"), get("role", "first"), get("id"), get("replaces"), get("high")),
        taped=get("taped"),
        how=get("how"),
        toward=get("toward"),
        hooked=get("from"),
        **lengths,
    )


def _value(typed: Typed, kind: Kind, place: Path, figures: Figures) -> Length | Slope:
    return figures.rise(typed, place, "value") if kind.slope else figures.length(typed, place, "value", kind.zero)


def _lengths(words: Words, kind: Kind, value: Length | Slope, place: Path, figures: Figures) -> dict[str, Any]:
    """What a reading says in lengths beside its value: over, mark, start and case."""
    over, mark = _over(words, kind, place, figures), figures.maybe(words, "mark", place)
    start, case = figures.maybe(words, "start", place, zero=True), figures.maybe(words, "case", place, zero=True)
    if isinstance(value, Slope):
        _refuse_with_a_slope(words, place, figures)
    elif start is not None:
        _refuse_start(value, start, case, kind, words, place, figures)
    said: dict[str, Any] = {"over": over, "mark": mark, "start": start, "case": case}
    if isinstance(over, Length):
        said["over_text"] = text_of(words["over"])
    if start is not None:
        said["start_text"] = text_of(words["start"])
    if case is not None:
        said["case_text"] = text_of(words["case"])
    return said


def moved(words: Words, place: Path, figures: Figures) -> Moved:
    """One moved post."""
    by = figures.name(words, "by", place, "say who moved it")
    return Moved(words.get("post", ""), figures.moment(words, place), by)


def answer(words: Words, place: Path, figures: Figures) -> Answer:
    """One written answer to a query."""
    check = words.get("check")
    if check is not None and check not in CHECK_NAMES:
        figures.refuse((*place, "check"), f"{shown(check)} is no check: say one of {', '.join(CHECKS)}.")
    if "bay" in words and "run" in words:
        figures.refuse((*place, "run"), "An answer is for a bay or for a run: keep one of them.")
    elif "bay" not in words and "run" not in words:
        figures.refuse((*place, "bay"), "An answer is for a bay or for a run: say which one.")
    return Answer(
        check=check or "",
        reason=figures.name(words, "reason", place, "say in writing why it stands"),
        by=figures.name(words, "by", place, "say who answers for it"),
        at=figures.moment(words, place),
        bay=words.get("bay"),
        run=words.get("run"),
    )


def note(words: Words, place: Path, figures: Figures) -> None:
    """Judges one note; no check looks at it."""
    figures.name(words, "by", place, "say who noted it")
    figures.moment(words, place)
    if not words.get("text", "").strip() and not words.get("photo", "").strip():
        figures.refuse(place, "A note without a text and without a photo: write one, or take the note out.")


def _stand_in(words: Words, place: Path, figures: Figures) -> Reading:
    names = words.get("bay"), words.get("post"), words.get("run"), words.get("role", "first"), words.get("id")
    return Reading("span", STAND_IN, "", figures.name(words, "by", place, _WHO), figures.moment(words, place), *names)


def _refuse_elsewhere(words: Words, what: str, kind: Kind, place: Path, figures: Figures) -> None:
    for key in words.keys() - kind.keys:
        figures.refuse((*place, key), _ELSEWHERE.get(key) or f"A reading of {what} is of a {kind.place}, not of a {key}: take it out.")
    if kind.place not in words:
        figures.refuse((*place, kind.place), f"A reading of {what} is of a {kind.place}: say which one.")


def _over(words: Words, kind: Kind, place: Path, figures: Figures) -> Literal["centres", "faces"] | Length | None:
    over = words.get("over")
    if over is None or "over" not in kind.keys:
        return None
    if over == "centres" or over == "faces":
        if kind.place == "post":
            figures.refuse((*place, "over"), "Plumb is read over the length of a level: give that length, such as 40 in.")
            return None
        return "centres" if over == "centres" else "faces"
    return figures.length(over, place, "over")


def _refuse_with_a_slope(words: Words, place: Path, figures: Figures) -> None:
    for key, sentence in _WITH_A_SLOPE.items():
        if key in words:
            figures.refuse((*place, key), sentence)


def _refuse_start(
    value: Length, start: Length, case: Length | None, kind: Kind, words: Words, place: Path, figures: Figures
) -> None:
    """The tape's start may not eat up the figure: a rise would change its high end."""
    left = value.nm - start.nm + (0 if case is None else case.nm)
    if left < 0 or not left and not kind.zero:
        told = f"{shown(text_of(words['value']))} less a start of {shown(text_of(words['start']))}"
        figures.refuse((*place, "start"), f"{told} leaves nothing: say again where the tape began, or what it showed.")


def _refuse_unsaid(words: Words, what: str, value: Length | Slope, place: Path, figures: Figures) -> None:
    for key, sentence in _NEEDS[what].items():
        if key not in words and (key != "toward" or value != ZERO):
            figures.refuse((*place, key), sentence)
