"""A plan while it is being changed: as it was, as it is to be, and both again on top of what somebody else kept meanwhile. Pure.

It is kept as text (a draft) at every change, and becomes a version of the job's plan only when somebody keeps it by name.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from measure.errors import SpanbookError
from measure.plan_version import PlanWords, differing
from measure.said import from_text, to_text

_NAMES = ("tag", "id", "run")
"""What an entry of a plan's list is known by."""
_GONE = object()


@dataclass(frozen=True, slots=True)
class PlanDraft:
    """base: the version that the changes began from. was: its words; now: with the changes."""

    base: str
    was: PlanWords
    now: PlanWords

    @classmethod
    def begin(cls, base: str, words: PlanWords) -> PlanDraft:
        """Nothing changed yet."""
        return cls(base, words, words)

    @classmethod
    def from_text(cls, text: str, base: str, versions: Mapping[str, PlanWords]) -> PlanDraft:
        """A draft brought back; where nothing is left of it, a fresh one of the version that holds now. versions: by id."""
        fresh = cls.begin(base, versions[base])
        if not text:
            return fresh
        try:
            kept = from_text(text)
            return cls(kept["base"], versions[kept["base"]], kept["now"])
        except (SpanbookError, ValueError, KeyError, TypeError):
            return fresh

    @property
    def text(self) -> str:
        """The draft; empty where nothing is changed."""
        return to_text({"base": self.base, "now": self.now}) if self.changed else ""

    @property
    def changed(self) -> bool:
        return self.now != self.was

    @property
    def places(self) -> list[str]:
        """What is changed, as `system.allowance` or `bays[3].spacing`."""
        return differing(self.was, self.now)

    def to(self, words: PlanWords) -> PlanDraft:
        """With these words as they are to be."""
        return replace(self, now=words)

    def onto(self, base: str, words: PlanWords) -> tuple[PlanDraft, list[str]]:
        """The same changes on a newer version; and the places that were changed on both sides, where the newer version stands."""
        clashes: list[str] = []
        merged = _merged(self.was, self.now, words, "", clashes)
        return PlanDraft(base, words, merged), clashes


def _merged(was: Any, mine: Any, theirs: Any, place: str, clashes: list[str]) -> Any:
    if mine in (was, theirs):
        return theirs
    if theirs == was:
        return mine
    if isinstance(mine, dict) and isinstance(theirs, dict) and isinstance(was, dict):
        return _merged_keys(was, mine, theirs, place, clashes)
    if isinstance(mine, list) and isinstance(theirs, list) and isinstance(was, list) and _names(was) == _names(mine) == _names(theirs):
        trios = zip(was, mine, theirs, strict=True)
        return [_merged(a, b, c, f"{place}[{i}]", clashes) for i, (a, b, c) in enumerate(trios)]
    clashes.append(place)
    return theirs


def _merged_keys(was: PlanWords, mine: PlanWords, theirs: PlanWords, place: str, clashes: list[str]) -> PlanWords:
    made = {}
    for key in (*theirs, *(k for k in mine if k not in theirs)):
        found = _merged(was.get(key, _GONE), mine.get(key, _GONE), theirs.get(key, _GONE), f"{place}.{key}".lstrip("."), clashes)
        if found is not _GONE:
            made[key] = found
    return made


def _names(entries: Sequence[Any]) -> list[Any]:
    return [next((e.get(k) for k in _NAMES if k in e), None) if isinstance(e, dict) else e for e in entries]
