"""The pages of the guide, in words. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fieldapp.words import say

Mark = Literal["right", "wrong", "clear", "query", "hold", "todo"]
_PAGES: tuple[tuple[str, tuple[Mark, ...]], ...] = (
    ("tape", ("right", "wrong", "wrong", "wrong")),
    ("rise", ("right", "right", "wrong")),
    ("second", ("right", "wrong")),
    ("verdicts", ("clear", "query", "hold", "todo")),
    ("moved", ("right", "right")),
    ("phone", ("right", "right", "right")),
    ("keeps", ("right", "wrong", "wrong", "wrong")),
    ("site", ("right", "right", "right", "right")),
    ("glass", ("right", "right", "right", "right")),
)


@dataclass(frozen=True, slots=True)
class Line:
    """number as in the picture's ring; mark: a right or a wrong place, or a verdict's own sign."""

    number: str
    mark: Mark
    words: str
    why: str


@dataclass(frozen=True, slots=True)
class GuidePage:
    """key: its picture. onward: the words of the main action; after: the next page's key, None at the end."""

    key: str
    title: str
    under: str
    says: str
    lines: tuple[Line, ...]
    onward: str
    after: str | None


def keys() -> tuple[str, ...]:
    return tuple(key for key, _ in _PAGES)


def guide_page(key: str) -> GuidePage:
    """KeyError where there is no such page."""
    at = keys().index(key) if key in keys() else -1
    if at < 0:
        raise KeyError(key)
    marks = _PAGES[at][1]
    lines = tuple(Line(str(i), mark, say(f"guide.{key}_{i}"), say(f"guide.{key}_{i}_why")) for i, mark in enumerate(marks, 1))
    after = _PAGES[at + 1][0] if at + 1 < len(_PAGES) else None
    onward = say("guide.next", name=say(f"guide.{after}_name")) if after else say("guide.done")
    under = say("guide.under", at=at + 1, n=len(_PAGES))
    return GuidePage(key, say(f"guide.{key}"), under, say(f"guide.{key}_says"), lines, onward, after)
