"""A version of the plan: everything of a job file but its lists of what was said.

A changed plan is a new version that names all it was made from, so two copies can tell a newer plan from one that was changed
on both sides.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from measure.said import SECTIONS, digest, instant_us

PlanWords = dict[str, Any]
"""A job file without its lists and its `history`."""
ID_LENGTH = 16
NOT_PLAN = (*SECTIONS, "history")


@dataclass(frozen=True, slots=True)
class PlanVersion:
    """before: the ids of every older version it stems from. by and at are empty for a plan as it came in a file.

    id: made from all of that, so the same file has the same first version on every device.
    """

    id: str
    plan: PlanWords
    by: str
    at: str
    before: frozenset[str]

    @property
    def order(self) -> tuple[int, str]:
        """Of several newest versions the last in this order is shown."""
        return (instant_us(self.at) if self.at else -(10**18), self.id)


def version_of(plan: PlanWords, by: str = "", at: str = "", before: Iterable[str] = ()) -> PlanVersion:
    """A version with the id that it has on every device."""
    older = frozenset(before)
    return PlanVersion(digest([plan, by, at, sorted(older)])[:ID_LENGTH], plan, by, at, older)


def plan_of(document: dict[str, Any]) -> PlanWords:
    """The plan's part of a job file."""
    return {k: v for k, v in document.items() if k not in NOT_PLAN}


def newest(versions: Iterable[PlanVersion]) -> tuple[PlanVersion, ...]:
    """Those that no other stems from, the one to show last. More than one: changed on both sides."""
    by_id = {v.id: v for v in versions}
    older = frozenset[str]().union(*(v.before for v in by_id.values()))
    return tuple(sorted((v for v in by_id.values() if v.id not in older), key=lambda v: v.order))


def plans_of(document: dict[str, Any]) -> tuple[PlanVersion, ...]:
    """The newest plans that a job file holds, the shown one last."""
    history: dict[str, Any] = document.get("history") or {}
    others = [version_of(o["plan"], o["by"], o["at"], o["before"]) for o in history.get("other_plans", ())]
    return newest([*others, _shown(plan_of(document), history.get("plan") or {})])


def _shown(plan: PlanWords, words: dict[str, Any]) -> PlanVersion:
    version = version_of(plan, words.get("by", ""), words.get("at", ""), words.get("before", ()))
    told = words.get("id")
    if told is None or told == version.id:
        return version
    # The file was changed by hand after it was written: a newer plan that stems from the one it names.
    return version_of(plan, before=version.before | {told})


def next_version(current: Iterable[PlanVersion], plan: PlanWords, by: str, at: str) -> PlanVersion:
    """The plan as changed by a person who saw all the current ones."""
    before = frozenset[str]().union(*(v.before | {v.id} for v in current))
    return version_of(plan, by, at, before)


def differing(one: object, other: object, place: str = "") -> list[str]:
    """The places, as `glass.height` or `bays[3].spacing`, at which two plans differ."""
    if isinstance(one, dict) and isinstance(other, dict):
        names = [*one, *(k for k in other if k not in one)]
        return [p for k in names for p in differing(one.get(k), other.get(k), f"{place}.{k}".lstrip("."))]
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        return [p for i, (a, b) in enumerate(zip(one, other, strict=True)) for p in differing(a, b, f"{place}[{i}]")]
    return [] if one == other else [place]
