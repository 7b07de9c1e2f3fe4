"""Leaves: a sheet of the book with an edge, a leaf laid over the walk, a plate for one figure."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from fieldapp.parts.space import column, inset
from fieldapp.parts.stroke import drawing, hatch
from fieldapp.parts.text import heading, text
from fieldapp.theme import GRID, LINE, MARGIN, Look


def leaf(
    look: Look, controls: list[ft.Control], margin: float = 0, padding: float = MARGIN,
    on_click: Callable[[ft.Event], object] | None = None, spacing: float = GRID, says: str = "",
) -> ft.Control:  # fmt: skip
    """A square sheet with an edge. With `on_click` the whole leaf is one button, spoken as `says`, or by its own words."""
    inner: ft.Control = column(controls, spacing, tight=True)
    if says:  # inside what is tapped: a name around it would make a second button, without a name
        inner = ft.Semantics(label=says, button=True, exclude_semantics=True, content=inner)
    body = ft.Container(
        inner, bgcolor=look.leaf, border=ft.Border.all(LINE, look.line), padding=padding,
        margin=ft.Margin.symmetric(horizontal=margin), on_click=on_click,
    )  # fmt: skip
    return ft.Semantics(button=True, container=True, content=body) if on_click and not says else body


def over_leaf(look: Look, title: str, body: list[ft.Control]) -> ft.Container:
    """A leaf laid over the walk: an ink edge, no dimming; the question and its figure stay in sight above."""
    return ft.Container(
        column([inset(heading(look, title), top=14, bottom=8), *body]), bgcolor=look.leaf,
        border=ft.Border.only(top=ft.BorderSide(3, look.ink)), expand=None if look.big else True,
    )  # fmt: skip


class Plate:
    """One person's figure, or its cover: hatched until the second figure is in."""

    def __init__(self, look: Look, who: str, inner: ft.Control, h: float, covered: str = "", width: float | None = None) -> None:
        w = width or look.width - 2 * MARGIN
        ground = ft.Container(bgcolor=look.leaf, border=ft.Border.all(LINE, look.line), left=0, top=0, right=0, bottom=0)
        under = [drawing(hatch(0, 0, w, h, look.line, 9, 1.2), w, h)] if covered else []
        name = ft.Container(
            text(look, who, "note", bold=True), left=10, top=6, bgcolor=look.leaf, padding=ft.Padding.symmetric(horizontal=4)
        )
        middle = ft.Container(
            self._cover(look, covered) if covered else inner,
            left=0,
            right=0,
            top=30 if look.big else 0,
            bottom=0,
            alignment=ft.Alignment.CENTER,
        )
        self.control = ft.Container(ft.Stack([ground, *under, middle, name], width=w, height=h), alignment=ft.Alignment.CENTER)

    @staticmethod
    def _cover(look: Look, words: str) -> ft.Control:
        return ft.Container(
            text(look, words, bold=True), bgcolor=look.leaf, padding=ft.Padding.symmetric(horizontal=12, vertical=6),
            border=ft.Border.all(LINE, look.line),
        )  # fmt: skip


def badge(look: Look, words: str, icon: ft.IconData | None = None) -> ft.Control:
    """A small plate: a role, a letter, `frozen`."""
    sign = [ft.Icon(icon, size=18 * min(look.text, 1.5), color=look.ink)] if icon else []
    return ft.Container(
        ft.Row([*sign, text(look, words, bold=True)], spacing=4, tight=True), border=ft.Border.all(LINE, look.line),
        padding=ft.Padding.symmetric(horizontal=GRID, vertical=4),
    )  # fmt: skip


def letter(look: Look, one: str) -> ft.Control:
    """A person's letter in a square."""
    side = 40 * min(look.text, 1.5)
    return ft.Container(
        text(look, one, "lead", bold=True),
        width=side,
        height=side,
        alignment=ft.Alignment.CENTER,
        border=ft.Border.all(LINE, look.ink),
    )


def quoted(look: Look, above: str, words: ft.Control) -> ft.Control:
    """Words as they will stand somewhere else: on the order, in the file."""
    return ft.Container(
        ft.Column([text(look, above, "note", look.ink2), words], spacing=0, tight=True),
        border=ft.Border.only(left=ft.BorderSide(3, look.ink)), padding=ft.Padding.only(left=12, top=2, bottom=2),
    )  # fmt: skip
