"""Room between things: gaps, margins, hair lines."""

from __future__ import annotations

import flet as ft

from fieldapp.theme import MARGIN, Look


def gap(size: float) -> ft.Control:
    """Empty room, both ways."""
    return ft.Container(width=size, height=size)


def rule(look: Look, color: str | None = None, weight: float = 1) -> ft.Control:
    """A line across."""
    return ft.Container(height=weight, bgcolor=color or look.rule)


def inset(
    content: ft.Control, left: float = MARGIN, right: float = MARGIN, top: float = 0, bottom: float = 0, **more: object
) -> ft.Container:
    """The content inside the page's margins."""
    return ft.Container(content, padding=ft.Padding.only(left=left, right=right, top=top, bottom=bottom), **more)


def column(controls: list[ft.Control], spacing: float = 0, **more: object) -> ft.Column:
    """Things one under the other, each as wide as the column."""
    return ft.Column(controls, spacing=spacing, horizontal_alignment=ft.CrossAxisAlignment.STRETCH, **more)
