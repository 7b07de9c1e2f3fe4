"""Text in the one family of the app, in the sizes of the look."""

from __future__ import annotations

import flet as ft

from fieldapp.theme import LINE_HEIGHT, Look, SizeRole

BOLD, NORMAL = ft.FontWeight.BOLD, ft.FontWeight.NORMAL
Run = str | tuple[str, bool]


def text(
    look: Look, value: str, role: SizeRole = "body", color: str | None = None, bold: bool = False,
    align: ft.TextAlign | None = None, size: float | None = None, height: float = LINE_HEIGHT, **more: object,
) -> ft.Text:  # fmt: skip
    """One kind of text. color: ink unless said. size: pixels, in place of the kind's own."""
    return ft.Text(
        value, size=size or look.size(role), weight=BOLD if bold else NORMAL, color=color or look.ink,
        text_align=align or ft.TextAlign.START, style=ft.TextStyle(height=height), **more,
    )  # fmt: skip


def rich(look: Look, runs: list[Run], role: SizeRole = "body", color: str | None = None, **more: object) -> ft.Text:
    """One paragraph of plain and bold: `["A panel: ", ("26 kg", True), "."]`."""
    parts = [r if isinstance(r, tuple) else (r, False) for r in runs]
    spans = [ft.TextSpan(s, ft.TextStyle(weight=BOLD if bold else NORMAL)) for s, bold in parts]
    return ft.Text(spans=spans, size=look.size(role), color=color or look.ink, style=ft.TextStyle(height=LINE_HEIGHT), **more)


def heading(look: Look, value: str, role: SizeRole = "lead") -> ft.Control:
    """A bold line that starts a part of the page, found as a heading by people who hear the screen."""
    return ft.Semantics(header=True, content=text(look, value, role, bold=True))
