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
    said: list[ft.Control] = [sign(look, verdict, 48, 36), text(look, word, "body", ink, bold=True)]
    told: list[ft.Control] = [text(look, place, "lead", bold=True), text(look, sentence)]
    arrow: list[ft.Control] = [ft.Icon(ft.Icons.ARROW_FORWARD, size=22, color=look.ink)] if on_click else []
    row: ft.Control
    if look.big:  # one above the other: a narrow column of large letters breaks every word
        row = ft.Column([ft.Row([*said, ft.Container(expand=True), *arrow], spacing=12), *told], spacing=4, tight=True)
    else:
        left = ft.Column(said, spacing=4, width=64, horizontal_alignment=ft.CrossAxisAlignment.CENTER, tight=True)
        words = ft.Column(told, spacing=0, expand=True, tight=True)
        row = ft.Row([left, words, *arrow], spacing=12, vertical_alignment=ft.CrossAxisAlignment.CENTER)
    body = ft.Container(
        row, on_click=on_click, bgcolor=ground, border=ft.Border.only(top=ft.BorderSide(2, ink)),
        padding=ft.Padding.symmetric(horizontal=MARGIN, vertical=10),
    )  # fmt: skip
    return ft.Semantics(button=bool(on_click) or None, container=True, content=body)
