"""Actions: what a thumb does at the foot of a page. Buttons, so that the keyboard reaches them; number keys are in key.py."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

import flet as ft

from fieldapp.parts.space import column
from fieldapp.parts.text import BOLD, NORMAL
from fieldapp.theme import ACTION, GRID, LINE, RADIUS, TOUCH, Look, SizeRole

Kind = Literal["main", "side", "bare"]
Click = Callable[[ft.Event], object]


def button_style(
    look: Look, face: str, ink: str, edge: str, weight: float = LINE, padding: ft.PaddingValue = 0
) -> ft.ButtonStyle:
    """A flat button: no shadow, no tint, an edge."""
    return ft.ButtonStyle(
        bgcolor=face, color=ink, elevation=0, shadow_color=ft.Colors.TRANSPARENT, padding=padding,
        side={ft.ControlState.FOCUSED: ft.BorderSide(3, look.tape_edge), ft.ControlState.DEFAULT: ft.BorderSide(weight, edge)},
        overlay_color=ft.Colors.with_opacity(0.12, ink), shape=ft.RoundedRectangleBorder(radius=RADIUS),
    )  # fmt: skip


def _colours(look: Look, kind: Kind) -> tuple[str, str, str]:
    clear = ft.Colors.TRANSPARENT
    return {
        "main": (look.main, look.on_main, look.main),
        "side": (look.leaf, look.ink, look.line),
        "bare": (clear, look.ink, clear),
    }[kind]


def action(
    look: Look, label: str, on_click: Click | None = None, kind: Kind = "side", icon: ft.IconData | None = None,
    icon_last: bool = False, height: float = ACTION, width: float | None = None, role: SizeRole = "lead",
    expand: int | None = None,
) -> ft.Button:  # fmt: skip
    """main: solid ink, one a page. side: outlined. bare: words alone. At large text the label wraps and the height is free."""
    face, ink, edge = _colours(look, kind)
    words = ft.Text(
        label, size=look.size(role), weight=NORMAL if kind == "bare" else BOLD, color=ink,
        text_align=ft.TextAlign.CENTER, style=ft.TextStyle(height=1.15),
    )  # fmt: skip
    content: ft.Control = words
    if icon is not None:
        sign = ft.Icon(icon, size=24, color=ink)
        pair_of = [words, sign] if icon_last else [sign, words]
        content = ft.Row(pair_of, spacing=GRID, alignment=ft.MainAxisAlignment.CENTER, tight=True)
        if look.big:  # the words wrap and the sign stays beside them
            words.expand, words.expand_loose = True, True
    padding = ft.Padding.symmetric(horizontal=GRID, vertical=16 if look.big else 0)
    return ft.Button(
        content=content, height=None if look.big else height, width=width, expand=expand, on_click=on_click,
        style=button_style(look, face, ink, edge, padding=padding),
    )  # fmt: skip


def main_action(look: Look, label: str, on_click: Click | None = None, onward: bool = False, height: float = 72) -> ft.Button:
    """The one main action of a page. onward: with an arrow to the right."""
    return action(look, label, on_click, "main", ft.Icons.ARROW_FORWARD if onward else None, True, height, role="title")


def small_action(look: Look, label: str, on_click: Click | None = None) -> ft.Button:
    """A second action of a page, under the main one."""
    return action(look, label, on_click, height=56, role="body")


def sign_action(
    look: Look, icon: ft.IconData, says: str, on_click: Click | None = None, color: str | None = None
) -> ft.IconButton:
    """A sign alone, with its spoken name."""
    return ft.IconButton(
        icon=ft.Icon(icon, color=color or look.ink, size=26, semantics_label=says), width=TOUCH, height=TOUCH, on_click=on_click,
        style=ft.ButtonStyle(
            shape=ft.RoundedRectangleBorder(radius=RADIUS), padding=0,
            side={
                ft.ControlState.FOCUSED: ft.BorderSide(3, look.tape_edge),
                ft.ControlState.DEFAULT: ft.BorderSide(0, ft.Colors.TRANSPARENT),
            },
        ),
    )  # fmt: skip


def side_by_side(look: Look, *actions: ft.Button) -> ft.Control:
    """Actions side by side, of one height and with words that fit; one above the other when the text is large."""
    high = max(float(one.height or 0) for one in actions)
    for one in actions:
        one.expand = None if look.big else 1
        one.height = high or None
        if len(actions) > 1 and isinstance(one.content, ft.Text):
            one.content.size = min(one.content.size, look.size("lead"))
    return column(list(actions), GRID) if look.big else ft.Row(list(actions), spacing=GRID)
