"""A plan from run lengths: how many bays, where the posts go, how many posts of each kind.

Equal bays, n = ceil(length / greatest spacing), spacing = length / n, centre to centre (practice). A spacing is a whole order
step, so bays of one run may differ by one step; together they are the run's length exactly.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from measure.errors import SpanbookError
from measure.length import Length
from measure.rounding import plain_text
from measure.system import PostKind
from measure.units import JobUnits

MOST_BAYS = 2000


@dataclass(frozen=True, slots=True)
class RunPlan:
    """A run to be laid out. length: from the middle of its first post to the middle of its last.

    turn: degrees on the deck side between this run and the one before it, whose last post they share; None: it stands alone.
    start, end: the kinds of its end posts (start is not used where it shares a post). laid: its spacings where they are
    given one by one; without them they follow from the length.
    """

    name: str
    length: Length
    start: PostKind = "end"
    end: PostKind = "end"
    turn: Fraction | None = None
    laid: tuple[Length, ...] = ()


def spacings(length: Length, greatest: Length, step: Length) -> tuple[Length, ...]:
    """Spacings of whole steps that add up to the length, none above the greatest, none apart by more than a step.

    Where the length is no whole number of steps the last one takes what is left over. Raises SpanbookError.
    """
    if length.nm <= 0 or greatest.nm <= 0:
        raise SpanbookError("A run and the greatest spacing are longer than nothing: give both.")
    bays = -(-length.nm // greatest.nm)
    while bays <= MOST_BAYS:
        steps, rest = divmod(length.nm, step.nm)
        each, more = divmod(steps, bays)
        laid = [Length((each + (i < more)) * step.nm) for i in range(bays)]
        laid[-1] = Length(laid[-1].nm + rest)
        if max(laid) <= greatest:
            return tuple(laid)
        bays += 1
    raise SpanbookError(f"A run of more than {MOST_BAYS} bays: check its length and the greatest spacing.")


def lay_out(runs: Sequence[RunPlan], greatest: Length, step: Length, units: JobUnits) -> dict[str, Any]:
    """The `runs`, `posts` and `bays` of a job file, as typed text."""
    posts: list[dict[str, Any]] = []
    bays: list[dict[str, Any]] = []
    for run in runs:
        laid = run.laid or spacings(run.length, greatest, step)
        if run.turn is not None and posts:
            corner = abs(run.turn - 180) > 45
            posts[-1] = {"id": posts[-1]["id"], "kind": "corner" if corner else "line", "angle": _plain(run.turn)}
        else:
            posts.append({"id": f"P{len(posts) + 1}", "kind": run.start})
        for number, spacing in enumerate(laid, 1):
            posts.append({"id": f"P{len(posts) + 1}", "kind": run.end if number == len(laid) else "line"})
            tag = {"tag": f"{run.name}{number}", "run": run.name}
            ends = {"left": posts[-2]["id"], "right": posts[-1]["id"]}
            bays.append({**tag, **ends, "spacing": plain_text(spacing, units)})
    return {"runs": [{"run": r.name} for r in runs], "posts": posts, "bays": bays}


def _plain(angle: Fraction) -> int | str:
    return int(angle) if angle.denominator == 1 else str(float(angle))


def post_counts(posts: Sequence[Mapping[str, Any]]) -> dict[str, int]:
    """How many posts of each kind to buy."""
    found = Counter(str(p["kind"]) for p in posts)
    return {kind: found[kind] for kind in ("end", "line", "corner", "wall") if found[kind]}
