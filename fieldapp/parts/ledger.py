"""A sum as on paper: wholes and fractions in columns of their own, a line above the sum, a double rule under what is apart."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import flet as ft

from fieldapp.parts.text import text
from fieldapp.theme import GRID, Look


@dataclass(frozen=True, slots=True)
class LedgerLine:
    """words, whole and fraction (or unit) as they stand on paper. mark: `sum` has a line above, `apart` a double rule below."""

    words: str
    whole: str
    fraction: str = ""
    mark: Literal["", "sum", "apart"] = ""


def ledger(look: Look, lines: Sequence[LedgerLine], whole: float = 52, fraction: float = 56) -> ft.Control:
    """whole, fraction: widths of the two columns in pixels at 100 %."""
    widths = whole * look.text, fraction * look.text
    return ft.Column([_line(look, one, *widths) for one in lines], spacing=3, tight=True)


def _line(look: Look, one: LedgerLine, whole: float, fraction: float) -> ft.Control:
    bold = bool(one.mark)
    cells = ft.Row(
        [
            text(look, one.words, "body", look.ink if bold else look.ink2, bold, expand=True),
            ft.Container(text(look, one.whole, bold=bold), width=whole, alignment=ft.Alignment.CENTER_RIGHT),
            ft.Container(text(look, one.fraction, bold=bold), width=fraction, alignment=ft.Alignment.CENTER_LEFT),
        ],
        spacing=GRID,
    )
    rules = {"": 0, "sum": 1, "apart": 2}[one.mark]
    bar = ft.Column(
        [ft.Container(height=1.5, width=whole + fraction + GRID, bgcolor=look.ink) for _ in range(rules)], spacing=2, tight=True
    )
    under = ft.Row([ft.Container(expand=True), bar])
    parts: list[ft.Control] = {"": [cells], "sum": [under, cells], "apart": [cells, under]}[one.mark]
    return ft.Column(parts, spacing=3, tight=True)
