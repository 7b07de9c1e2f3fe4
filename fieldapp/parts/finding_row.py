"""What stands in the way, as a row to tap: sign and word, where, one sentence."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from fieldapp.parts.text import text
from fieldapp.parts.verdict import Sign, sign
from fieldapp.theme import MARGIN, Look


def finding_row(
    look: Look, verdict: Sign, word: str, place: str, sentence: str, on_click: Callable[[ft.Event], object] | None = None
) -> ft.Control:
    """word: the verdict's word. place: `A3, span`. Tapping goes there."""
    ink, ground = look.verdict(verdict)
    left = ft.Column(
        [sign(look, verdict, 48, 36), text(look, word, "body", ink, bold=True)], spacing=4, width=64 * min(look.text, 1.4),
        horizontal_alignment=ft.CrossAxisAlignment.CENTER, tight=True,
    )  # fmt: skip
    words = ft.Column([text(look, place, "lead", bold=True), text(look, sentence)], spacing=0, expand=True, tight=True)
    arrow = [ft.Icon(ft.Icons.ARROW_FORWARD, size=22, color=look.ink)] if on_click else []
    row = ft.Row([left, words, *arrow], spacing=12, vertical_alignment=ft.CrossAxisAlignment.CENTER)
    body = ft.Container(
        row, on_click=on_click, bgcolor=ground, border=ft.Border.only(top=ft.BorderSide(2, ink)),
        padding=ft.Padding.symmetric(horizontal=MARGIN, vertical=10),
    )  # fmt: skip
    return ft.Semantics(button=bool(on_click) or None, container=True, content=body)
