"""What a plan says at the places where two plans differ, in the trade's words: `A4: glass, shape of the opening`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from measure.as_read import with_unit
from measure.job import Job, Units
from measure.plan_version import PlanWords

Names = Mapping[str, Sequence[str]]
"""Tags of the bays, ids of the posts and names of the runs of a plan, in its order."""
MOST_PLACES, MOST_VALUES = 4, 8
_IN_LIST = re.compile(r"(bays|posts|runs)\[(\d+)\](?:\.(.*))?")
_NAMED_BY = {"bays": "tag", "posts": "id", "runs": "run"}
_PLACE = {"bays": "{}", "posts": "post {}", "runs": "run {}"}
_PARTS = {"job": "job", "tape": "tape", "system": "post system", "glass": "glass", "limits": "limits"}
_WHOLE = {"bays": "the row of bays", "posts": "the row of posts", "runs": "the runs", **{k: f"the {v}" for k, v in _PARTS.items()}}
WORDS = {
    "order_step": "cut to", "po": "order number", "plumb": "plumb of posts", "site": "site", "contact": "contact on site", "division": "finest marks",
    "from_hook": "from its hook", "turn_axis": "turning axis", "confirmed": "who confirmed it", "size_tolerance": "shop cuts within",
    "edge": "edges", "least_width": "narrowest panel", "greatest_width": "widest panel", "least_height": "lowest panel",
    "greatest_height": "highest panel", "least_corner_angle": "sharpest corner", "greatest_mass_kg": "heaviest panel",
    "plan_tolerance": "off plan", "span": "planned span", "shape": "shape of the opening", "taller": "glass above its posts",
    "status": "whether it is ordered", "left": "left post", "right": "right post", "face": "post face", "trimmed": "top cut off",
    "rack_follows": "what the glass follows", "tag": "name", "id": "name", "read_back": "read-back",
}  # fmt: skip
"""What a key is called where it is called otherwise than it is written."""
_SAID = {
    ("glass", None): "glass", ("glass", "none"): "no glass", ("shape", None): "racked", ("shape", "racked"): "racked",
    ("shape", "level-top"): "level top", ("status", None): "to order", ("status", "to order"): "to order", ("status", "ordered"): "ordered",
    ("status", "on site"): "on site", ("taller", None): "glass not above its posts", ("taller", False): "glass not above its posts",
    ("taller", True): "glass above its posts", ("trimmed", None): "top not cut off", ("trimmed", False): "top not cut off",
    ("trimmed", True): "top cut off", ("height", None): "height as the job's", ("finish_face", None): "finish face as the job's",
}  # fmt: skip
"""Values that say all by themselves; None: left out."""
_PLAIN = ("angle", "least_corner_angle", "greatest_mass_kg", "slope", "slope_step", "each", "grooves")
_UNIT = {"angle": "°", "least_corner_angle": "°", "greatest_mass_kg": " kg"}
_TEXTS = (
    "name", "site", "customer", "po", "wanted_by", "deliver_to", "contact", "phone", "unloading", "kind", "edge", "corners", "holes", "stamp",
    "standard", "finish_face", "class", "seen_from", "rack_follows", "tag", "id", "run", "left", "right", "read_back", "plumb", "units",
)  # fmt: skip


def names_of(plan: PlanWords) -> Names:
    """The names in a plan as its job file says it."""
    return {part: [str(one[key]) for one in plan.get(part) or ()] for part, key in _NAMED_BY.items()}


def names_in(job: Job) -> Names:
    """The same of a job that was read."""
    return {"bays": [b.tag for b in job.bays], "posts": [p.id for p in job.posts], "runs": [r.name for r in job.runs]}


def places_told(places: Iterable[str], names: Names) -> str:
    """Where two plans differ: `A4: glass, shape of the opening. Glass: height.` places: as `bays[3].glass`."""
    grouped = _grouped(places, names)
    told = [f"{place[:1].upper()}{place[1:]}{': ' if keys else ''}{', '.join(keys)}." for place, keys in list(grouped.items())[:MOST_PLACES]]
    return " ".join([*told, *(["And more."] if len(grouped) > MOST_PLACES else [])])


def plan_says(plan: PlanWords, places: Iterable[str]) -> str:
    """What one plan says there, a line a place: `A4: no glass, racked.` and `Glass: height 38 in.`"""
    names, units = names_of(plan), plan["job"]["units"]
    found: dict[str, dict[str, None]] = {}
    for place in places:
        where, _, keys = _parted(place, names)
        found.setdefault(where, {})[_said_at(plan, place, keys, units)] = None
    told = [f"{where[:1].upper()}{where[1:]}: {', '.join(list(said)[:MOST_VALUES])}." for where, said in list(found.items())[:MOST_PLACES]]
    return "\n".join([*told, *(["And more."] if len(found) > MOST_PLACES else [])])


def _grouped(places: Iterable[str], names: Names) -> dict[str, list[str]]:
    grouped: dict[str, dict[str, None]] = {}
    for place in places:
        where, word, _ = _parted(place, names)
        grouped.setdefault(where, {}).update({word: None} if word else {})
    return {where: list(words) for where, words in grouped.items()}


def _parted(place: str, names: Names) -> tuple[str, str, list[str]]:
    """Where it is, what it is called there, and the keys that lead to its value."""
    found = _IN_LIST.fullmatch(place)
    if found is not None:
        part, index, keys = found[1], int(found[2]), (found[3] or "").split(".")
        known = names.get(part) or ()
        where = _PLACE[part].format(known[index] if index < len(known) else index + 1)
        return where, _word(keys[0]), [part, str(index), keys[0]]
    part, _, rest = place.partition(".")
    if not rest:
        return _WHOLE.get(part, part), "", [part]
    key = rest.split(".")[0]
    return _PARTS.get(part, part), _word(key), [part, key]


def _word(key: str) -> str:
    return WORDS.get(key, key.replace("_", " "))


def _said_at(plan: PlanWords, place: str, keys: list[str], units: Units) -> str:
    said: Any = plan
    for key in keys:
        said = said[int(key)] if isinstance(said, list) and int(key) < len(said) else said.get(key) if isinstance(said, dict) else None
    if keys[0] in _NAMED_BY and len(keys) == 1:
        names = names_of(plan)[keys[0]]
        return f"{', '.join(names[:MOST_VALUES])}{' and more' if len(names) > MOST_VALUES else ''}" if names else "none"
    return _value(keys[-1], said, units, of_bay=keys[0] == "bays")


def _value(key: str, said: Any, units: Units, of_bay: bool) -> str:
    alone = _SAID.get((key, said)) if isinstance(said, (str, bool, type(None))) and (of_bay or key in ("taller", "trimmed")) else None
    if alone is not None:
        return alone
    word = _word(key)
    if said is None or said == "":
        return f"{word} not said"
    if isinstance(said, bool):
        return f"{word}: {'yes' if said else 'no'}"
    if key == "confirmed" and isinstance(said, dict):
        return f"confirmed by {said.get('by', '')}, {said.get('sheet', '')}".strip(" ,")
    if isinstance(said, dict):
        return ", ".join([f"{word} {k.replace('_', ' ')} {_inner(v)}" for k, v in said.items()]) or f"{word} not said"
    if isinstance(said, list):
        return word
    if key in _TEXTS:
        return f"{word} {said}"
    return f"{word} {said}{_UNIT.get(key, '')}" if key in _PLAIN else f"{word} {with_unit(str(said), units)}"


def _inner(said: Any) -> str:
    return " ".join(f"{k} {v}°" for k, v in said.items()) if isinstance(said, dict) else str(said)
