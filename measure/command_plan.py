"""`spanbook plan`: a job file from run lengths, with the system, glass, tape and limits of another job file."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path
from typing import Any, TextIO, get_args

from measure.documents import dump, read_words
from measure.errors import EntryError, SpanbookError
from measure.job import Job
from measure.layout import RunPlan, lay_out, post_counts
from measure.parse import parse_length
from measure.rounding import plain_text
from measure.system import PostKind
from measure.units import JobUnits

EXAMPLE = "Say it as NAME:LENGTH or NAME:LENGTH:ANGLE, such as A:20 ft or B:4.5 m:90."


def read_run(text: str, units: JobUnits, first: bool) -> RunPlan:
    """`A:20 ft`, `B:4500:90` (turned 90° from the run before), `C:3 m::wall` (ends at a wall). Raises SpanbookError."""
    parts = [part.strip() for part in text.split(":")]
    if not 2 <= len(parts) <= 4 or not parts[0]:
        raise SpanbookError(f"“{text}” is not read as a run. {EXAMPLE}")
    try:
        length = parse_length(parts[1], units)
    except EntryError as wrong:
        raise SpanbookError(f"Run {parts[0]}: {wrong}") from None
    turn = None
    if len(parts) > 2 and parts[2]:
        if first:
            raise SpanbookError(f"Run {parts[0]} comes first, so there is no run that it could turn from. {EXAMPLE}")
        if not parts[2].isdecimal() or not 0 < int(parts[2]) < 360:
            raise SpanbookError(f"“{parts[2]}” is no angle: whole degrees on the deck side, such as 90 or 135.")
        turn = Fraction(parts[2])
    kind = parts[3] if len(parts) > 3 and parts[3] else "end"
    if kind not in get_args(PostKind):
        raise SpanbookError(f"“{kind}” is no kind of post: end, line, corner or wall.")
    return RunPlan(parts[0], length, "end", kind, turn)  # type: ignore[arg-type]


def run(like: Job, words: dict[str, Any], name: str, runs: list[str], out: Path | None, stdout: TextIO, stderr: TextIO) -> int:
    """Write the job file (to a file that is not there yet, or standard output) and tell posts and bays on standard error."""
    read = [read_run(text, like.units, not i) for i, text in enumerate(runs)]
    laid = lay_out(read, like.system.greatest_spacing, like.order_step, like.units)
    kept: dict[str, Any] = {key: words[key] for key in ("format", "job", "tape", "system", "glass", "limits") if key in words}
    kept["job"] = {**kept["job"], "name": name}
    made = {**kept, **laid, "readings": []}
    read_words(made)
    data = dump(made)
    if out is None:
        stdout.write(data.decode())
    else:
        _write_new(out, data)
    for plan in read:
        own = [b for b in laid["bays"] if b["run"] == plan.name]
        stderr.write(f"run {plan.name}: {len(own)} bays in {plain_text(plan.length, like.units)}, spacing {own[0]['spacing']}\n")
    counts = ", ".join(f"{n} {kind}" for kind, n in post_counts(laid["posts"]).items())
    stderr.write(f"{len(laid['bays'])} bays, {len(laid['posts'])} posts: {counts}\n")
    return 0


def _write_new(out: Path, data: bytes) -> None:
    try:
        with out.open("xb") as file:
            file.write(data)
    except FileExistsError:
        raise SpanbookError(f"{out} is there already: give another name, a job file is never written over.") from None
    except OSError as wrong:
        raise SpanbookError(f"{out} cannot be written ({wrong.strerror}): give another folder.") from None
