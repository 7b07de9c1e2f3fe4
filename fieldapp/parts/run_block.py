"""One run in the review: its name, its strip to the scale of all runs, its sum as on paper, what would close it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import flet as ft

from fieldapp.parts.ledger import LedgerLine, ledger
from fieldapp.parts.run_strip import RunStrip, StripBay
from fieldapp.parts.space import column, inset
from fieldapp.parts.text import Run, heading, rich, text
from fieldapp.parts.verdict import Sign, sign
from fieldapp.theme import MARGIN, Look

MOST_IN_ROW = 12


def shared_scale(runs: Sequence[Sequence[StripBay]], width: float) -> float:
    """Pixels a unit at which the longest row of bays fills the width, so that all runs stand at one scale."""
    rows = (bays[first : first + MOST_IN_ROW] for bays in runs for first in range(0, len(bays), MOST_IN_ROW))
    longest = max((row[0].post + sum(bay.span + bay.post for bay in row) for row in rows), default=1.0)
    return width / max(longest, 1e-9)


def run_block(
    look: Look, name: str, under: str, bays: list[StripBay], scale: float, on_bay: Callable[[str], object] | None = None,
    factor: float = 0, lines: Sequence[LedgerLine] = (), verdict: Sign | None = None, closing: list[Run] | None = None,
    room: float | None = None, says: str = "",
) -> ft.Control:  # fmt: skip
    """name, under: `Run A`, `P1 to P6 · rises drawn 10 times`. factor: how often rises are drawn, as `under` says. 0 for level.

    lines: the sum. verdict, closing: its sign and one sentence, plain and bold. room: the strip's width; says: it in words.
    """
    room = room or look.width - 2 * MARGIN
    words = ft.Row([heading(look, name), text(look, under, "note", look.ink2)], spacing=12, run_spacing=0, wrap=True)
    parts: list[ft.Control] = [words]
    for first in range(0, len(bays), MOST_IN_ROW):  # a long run goes on in the next row
        row = bays[first : first + MOST_IN_ROW]
        strip = RunStrip(look, row, room, 40, on_bay=on_bay, factor=factor, scale=scale, says="" if first else says)
        parts.append(ft.Row([strip.control]))  # in a row, so that the strip keeps its own width
    if lines:
        parts.append(ledger(look, lines))
    if closing:
        seal = [sign(look, verdict, 40, 30)] if verdict else []
        parts.append(ft.Row([*seal, rich(look, closing, expand=True)], spacing=12))
    return inset(column(parts, 6), top=12)
