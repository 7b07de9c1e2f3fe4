"""`spanbook order`: check the job, then write the order, or say what stands in the way."""

from __future__ import annotations

from pathlib import Path
from typing import TextIO

from measure.errors import OrderError
from measure.job import Job
from measure.order import Order, make_order
from measure.order_files import write_order
from measure.pane_text import area_text, mass_text
from measure.report import evaluate

FINE, IN_THE_WAY, WRONG = 0, 1, 2
_TOLD_EVERY = 500


def run(job: Job, out: Path, partial: bool, drawings: bool, stdout: TextIO, stderr: TextIO) -> int:
    """Write the order of a job into a folder.

    0 written; 1 nothing written, since a hold or an unanswered query stands in the way or no panel is left; 2 the folder
    cannot be written. partial: leave those panels out and list them. drawings: an SVG a panel too.
    """
    order = make_order(evaluate(job))
    if order.left_out and not partial:
        stderr.write(_told(order))
        stderr.write("Nothing was written. Settle these, or order the other panels with --partial.\n")
        return IN_THE_WAY
    if not order.lines:
        stderr.write(_told(order) + "No panel is left to order: nothing was written.\n")
        return IN_THE_WAY
    try:
        paths = write_order(order, out, drawings, _Progress(stderr, len(order.lines)) if stderr.isatty() else None)
    except OrderError as wrong:
        stderr.write(f"{wrong}\n")
        return WRONG
    stdout.write(_told(order, "left out: ") + _summary(order, out, len(paths)))
    return FINE


def _told(order: Order, lead: str = "") -> str:
    """A line a finding in the way, tab-separated: where, verdict, check, sentence."""
    return "".join(
        f"{lead}{where}\t{finding.word}\t{finding.check}\t{' '.join(finding.sentence.split())}\n"
        for where, finding in order.in_the_way
    )


def _summary(order: Order, out: Path, files: int) -> str:
    panels = f"{len(order.lines)} {'panel' if len(order.lines) == 1 else 'panels'}"
    panes = f"{len(order.groups)} different {'pane' if len(order.groups) == 1 else 'panes'}"
    left = f", {len(order.left_out)} left out" if order.left_out else ""
    weighs = f"{area_text(order.double_area)} m², {mass_text(order.double_volume)} kg"
    return f"{panels} ({panes}), {weighs}{left}: {files} files in {out}\n"


class _Progress:
    """Says on a terminal how far a large order has come."""

    def __init__(self, stream: TextIO, panels: int) -> None:
        self._stream, self._panels, self._begun = stream, panels, 0

    def __call__(self, name: str) -> None:
        if name.endswith(".svg"):
            self._begun += 1
            if self._begun % _TOLD_EVERY == 0:
                self._stream.write(f"drawing {self._begun} of {self._panels}\n")
        elif self._panels >= _TOLD_EVERY:
            self._stream.write(f"writing {name}\n")
