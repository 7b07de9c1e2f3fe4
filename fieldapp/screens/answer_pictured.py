"""What an answer draws in place of the bay with its span: a post's plumb, a rise, a diagonal, a whole run. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fieldapp.live_job import LiveJob
from fieldapp.words import say
from measure.as_read import with_unit
from measure.plan import Bay
from measure.reading import Reading

Kind = Literal["plumb", "rise", "top-span", "diagonals", "overall", "overall-rise"]
_KINDS: dict[str, Kind] = {
    "plumb-left": "plumb", "plumb-right": "plumb", "top-span": "top-span", "diagonal-rising": "diagonals",
    "diagonal-falling": "diagonals", "overall-outside": "overall", "overall-inside": "overall", "overall-rise": "overall-rise",
}  # fmt: skip
_RISES = ("rise", "base-rise")


@dataclass(frozen=True, slots=True)
class Pictured:
    """side: to which the head leans or which end is high, empty for neither; words: the same in words, empty where there is no side.

    level: the length of the level, with its unit. posts, hooked: of a run.
    """

    kind: Kind
    side: str = ""
    words: str = ""
    level: str = ""
    posts: int = 2
    hooked: str = "inside"


def pictured(live: LiveJob, bay: Bay, told: str, reading: Reading | None) -> Pictured | None:
    """What is drawn with this reading; None where it is the bay's span."""
    if reading is None:
        return None
    if reading.what in _RISES:
        return Pictured("rise", reading.high or "", _high(reading))
    kind = _KINDS.get(told)
    if kind is None:
        return None
    if kind == "plumb":
        side = reading.toward or ""
        words = say(f"answer.head_{side}" if side else "answer.head_plumb")
        return Pictured(kind, side, words, with_unit(reading.over_text, live.units) if reading.over_text else "")
    posts = len(live.book.run_bays[bay.run]) + 1
    if kind == "overall-rise":
        return Pictured(kind, reading.high or "", _high(reading), posts=posts)
    return Pictured(kind, posts=posts, hooked=reading.hooked or "inside")


def _high(reading: Reading) -> str:
    return say(f"walk.{reading.high}_higher") if reading.high else say("walk.level")
