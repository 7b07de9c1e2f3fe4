"""Facts in rows: words left, figures right, one line a fact; stacked when the text is large."""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from fieldapp.parts.space import column, rule
from fieldapp.parts.text import text
from fieldapp.theme import GRID, Look


def facts(look: Look, rows: Sequence[tuple[str, str]], ink: str | None = None) -> ft.Control:
    """ink: the verdict's ink for the hair lines, on its own ground."""
    mark = ft.Colors.with_opacity(0.35, ink or look.line)
    lines: list[ft.Control] = []
    for name, value in rows:
        lines += [rule(look, mark), _fact(look, name, value)]
    return column(lines, GRID)


def _fact(look: Look, name: str, value: str) -> ft.Control:
    if look.big:
        return ft.Column([text(look, name), text(look, value, bold=True)], spacing=0, tight=True)
    # A long value wraps in its own half instead of running out of the page.
    long = len(name) + len(value) > 38
    right = text(look, value, bold=True, align=ft.TextAlign.RIGHT, expand=3 if long else None)
    return ft.Row(
        [text(look, name, expand=2 if long else True), right], spacing=GRID, vertical_alignment=ft.CrossAxisAlignment.START
    )
