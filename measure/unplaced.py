"""Which of the things said a plan has a place for. A merged plan may lack a bay that somebody measured: that waits, unplaced.

The rules are those by which a job file is judged (places.py), so what is placed can be read.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from measure.said import Words

WordsByKey = Mapping[str, Words]
KINDS = ("bay", "post", "run")


def placed(plan: Mapping[str, Any], said: Mapping[str, WordsByKey]) -> dict[str, set[str]]:
    """The keys, by list, of all that has a place. A reading also needs the reading that it replaces, at its own place."""
    posts_of_run: dict[str, set[str]] = {}
    for bay in plan["bays"]:
        posts_of_run.setdefault(bay["run"], set()).update((bay["left"], bay["right"]))
    known = {
        "bay": {bay["tag"] for bay in plan["bays"]},
        "post": {post["id"] for post in plan["posts"]},
        "run": set(posts_of_run),
    }
    here = {
        name: {key for key, words in by_key.items() if _has_place(words, known, posts_of_run)} for name, by_key in said.items()
    }
    readings = said["readings"]
    here["readings"] = _with_what_they_replace({k: readings[k] for k in readings if k in here["readings"]})
    return here


def kind_and_place(words: Words) -> tuple[str, str]:
    """`bay`, `post` or `run`, and its name."""
    kind = next(k for k in KINDS if words.get(k) is not None)
    return kind, words[kind]


def _has_place(words: Words, known: Mapping[str, set[str]], posts_of_run: Mapping[str, set[str]]) -> bool:
    if any(words.get(kind) is not None and words[kind] not in known[kind] for kind in KINDS):
        return False
    post, run = words.get("post"), words.get("run")
    return post is None or run is None or post in posts_of_run[run]


def _with_what_they_replace(readings: WordsByKey) -> set[str]:
    left = dict(readings)
    while True:
        by_id = {words["id"]: words for words in left.values() if "id" in words}
        lost = [key for key, words in left.items() if "replaces" in words and not _replaces_well(words, by_id)]
        if not lost:
            return set(left)
        for key in lost:
            del left[key]


def _replaces_well(words: Words, by_id: Mapping[str, Words]) -> bool:
    old = by_id.get(words["replaces"])
    return old is not None and _same_place(old, words) and not _in_circle(words, by_id)


def _same_place(one: Words, other: Words) -> bool:
    """A post's two runs are two places; a plumb reading that names no run is for both."""
    if any(one.get(kind) != other.get(kind) for kind in ("bay", "post")):
        return False
    runs = one.get("run"), other.get("run")
    return runs[0] == runs[1] or (one.get("post") is not None and None in runs)


def _in_circle(words: Words, by_id: Mapping[str, Words]) -> bool:
    own, step, seen = words.get("id"), words.get("replaces"), set()
    while step is not None and step not in seen:
        if step == own:
            return True
        seen.add(step)
        step = by_id[step].get("replaces") if step in by_id else None
    return False
