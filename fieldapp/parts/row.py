"""A line of the book that can be opened: picture, name, figure, arrow."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from fieldapp.parts.text import text
from fieldapp.theme import MARGIN, Look


def open_row(
    look: Look, name: str, value: str = "", sentence: str = "", picture: ft.Control | None = None,
    on_click: Callable[[ft.Event], object] | None = None, least: float = 56, lit: bool = False, says: str = "",
) -> ft.Control:  # fmt: skip
    """The name is bold where a sentence stands under it, the figure bold at the right. Large text: the figure goes below.

    Without `on_click` it is a line to read: no arrow, no button. lit: the row that is open beside it.
    least: its height; 0 lets a longer sentence have as many lines as it needs.
    """
    words = [text(look, name, "body", bold=bool(sentence) or not value)]
    if sentence:
        words.append(text(look, sentence, "note", look.ink2))
    figure = [text(look, value, "body", bold=True)] if value else []
    if look.big:
        words += figure
    parts: list[ft.Control] = [picture] if picture and not look.big else []
    parts.append(ft.Column(words, spacing=1, expand=True, tight=True))
    parts += [] if look.big else figure
    if on_click:
        parts.append(ft.Icon(ft.Icons.ARROW_FORWARD, size=20, color=look.ink))
    inner = ft.Row(parts, spacing=12, vertical_alignment=ft.CrossAxisAlignment.CENTER)
    body = ft.Container(
        inner,
        on_click=on_click,
        padding=ft.Padding.symmetric(horizontal=MARGIN, vertical=6),
        bgcolor=look.tape2 if lit else None,
        border=ft.Border.only(bottom=ft.BorderSide(1, look.rule)),
        height=None if look.big or not least else least,
        alignment=ft.Alignment.CENTER_LEFT,
    )
    return ft.Semantics(button=bool(on_click) or None, container=True, label=says or None, content=body)
