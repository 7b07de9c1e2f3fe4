"""Changes of a plan that is there: what stands in a bay, how far its panel is, what its top does. Pure.

They are collected first and kept together, by a name: the changed plan is a new version of the job's plan.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from fieldapp.words import say

GLASS = ("panel", "none")
STATUSES = ("to order", "ordered", "on site")
SHAPES = ("racked", "level-top")
_PARTS: dict[str, tuple[str, ...]] = {"glass": GLASS, "status": STATUSES, "shape": SHAPES}
"""What can be changed of a bay; the first one is what a job file means by leaving it out."""


@dataclass(frozen=True, slots=True)
class Changes:
    """bays: tag -> part (`glass`, `status`, `shape`) -> its new word."""

    bays: Mapping[str, Mapping[str, str]] = field(default_factory=dict)

    @classmethod
    def from_text(cls, text: str, tags: Mapping[str, Any]) -> Changes:
        """A draft brought back, as far as the plan still has its bays."""
        try:
            kept = json.loads(text) if text else {}
            found = {
                tag: {p: w for p, w in parts.items() if w in _PARTS.get(p, ())} for tag, parts in kept.items() if tag in tags
            }
        except (ValueError, AttributeError):
            return cls()
        return cls({tag: parts for tag, parts in found.items() if parts})

    @property
    def text(self) -> str:
        """The draft; empty where nothing is changed."""
        return json.dumps(dict(self.bays)) if self.bays else ""


def now(bay: Mapping[str, Any], changes: Changes, part: str) -> str:
    """What a bay of the job file says, its change counted in."""
    return changes.bays.get(bay["tag"], {}).get(part) or bay.get(part, _PARTS[part][0])


def change(bay: Mapping[str, Any], changes: Changes, part: str, word: str) -> Changes:
    """One more change; back to what the plan says it is none."""
    own = {p: w for p, w in changes.bays.get(bay["tag"], {}).items() if p != part}
    if word != bay.get(part, _PARTS[part][0]):
        own[part] = word
    others = {tag: parts for tag, parts in changes.bays.items() if tag != bay["tag"]}
    return Changes({**others, bay["tag"]: own} if own else others)


def changed(words: Mapping[str, Any], changes: Changes) -> dict[str, Any]:
    """The job file with its changes in; the plan as it was is left alone."""
    return {**words, "bays": [_bay(bay, changes.bays.get(bay["tag"], {})) for bay in words["bays"]]}


def _bay(bay: Mapping[str, Any], parts: Mapping[str, str]) -> dict[str, Any]:
    made = {**bay, **parts}
    return {key: value for key, value in made.items() if key not in parts or value != _PARTS[key][0]}


def told(changes: Changes) -> str:
    """All changes in one sentence: `A2: no glass. B1: on site.`"""
    said = (f"{tag}: {', '.join(say(_word(p, w)) for p, w in parts.items())}." for tag, parts in changes.bays.items())
    return " ".join(said) or say("change.nothing")


def _word(part: str, word: str) -> str:
    return f"change.{part}_{word.replace(' ', '_').replace('-', '_')}"


def options(part: str) -> list[tuple[str, str]]:
    """The choices for a part: value and word."""
    return [(word, say(_word(part, word))) for word in _PARTS[part]]
