"""The places of a plan: which of the things said have one. A merged plan may lack a bay that somebody measured."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from measure.said import Words

WordsByKey = Mapping[str, Words]
Place = tuple[str, ...]


def placed(plan: Mapping[str, Any], said: Mapping[str, WordsByKey]) -> dict[str, set[str]]:
    """The keys, by list, of all that the plan has a place for. A reading also needs the reading that it replaces, at its place."""
    known = _known(plan)
    here = {name: {key for key, words in by_key.items() if _fits(words, known)} for name, by_key in said.items()}
    readings = said["readings"]
    here["readings"] = _with_what_they_replace({k: readings[k] for k in here["readings"]})
    return here


def place_of(words: Words) -> Place:
    """A reading's place, and what was read there."""
    kind = next((k for k in ("bay", "post", "run") if k in words), "")
    return (kind, str(words.get(kind, "")), str(words.get("what", "")))


def _known(plan: Mapping[str, Any]) -> dict[str, set[str]]:
    bays = plan.get("bays") or ()
    return {
        "bay": {b["tag"] for b in bays},
        "post": {p["id"] for p in plan.get("posts") or ()},
        "run": {b["run"] for b in bays},
    }


def _fits(words: Words, known: Mapping[str, set[str]]) -> bool:
    return all(words[kind] in names for kind, names in known.items() if words.get(kind) is not None)


def _with_what_they_replace(readings: WordsByKey) -> set[str]:
    left = dict(readings)
    while True:
        ids = {w["id"]: place_of(w) for w in left.values() if "id" in w}
        lost = {k for k, w in left.items() if w.get("replaces") is not None and ids.get(w["replaces"]) != place_of(w)}
        if not lost:
            return set(left)
        left = {k: w for k, w in left.items() if k not in lost}
