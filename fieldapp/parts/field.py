"""Own words to write in: the label stands above, nothing floats; the edge is 3 px when it has the keyboard."""

from __future__ import annotations

import flet as ft

from fieldapp.parts.space import column, inset
from fieldapp.parts.text import text
from fieldapp.theme import RADIUS, Look, SizeRole


class Field:
    """value: read and set by the screen through `box`. `show` sets a sentence of what is wrong below it, or takes it away."""

    def __init__(
        self, look: Look, label: str, value: str = "", hint: str = "", role: SizeRole = "lead", lines: int = 1,
        expand: int | None = None, **more: object,
    ) -> None:  # fmt: skip
        edge = lambda weight, ink: ft.OutlineInputBorder(border_radius=RADIUS, side=ft.BorderSide(weight, ink))  # noqa: E731
        self.box = ft.TextField(
            value=value, hint_text=hint, text_size=look.size(role), color=look.ink, bgcolor=look.leaf, cursor_color=look.ink,
            min_lines=lines, max_lines=lines, hint_style=ft.TextStyle(color=look.ink2, size=look.size("body")),
            content_padding=ft.Padding.symmetric(horizontal=12, vertical=14),
            border={ft.ControlState.FOCUSED: edge(3, look.ink), ft.ControlState.DEFAULT: edge(1.5, look.line)}, **more,
        )  # fmt: skip
        self._wrong = text(look, "", "note", look.hold, bold=True, visible=False)
        # The label is spoken with the box, so the line above it is silent.
        above = ft.Semantics(exclude_semantics=True, content=text(look, label, "note", look.ink2))
        spoken = ft.Semantics(label=label, content=self.box)
        wrong = ft.Semantics(live_region=True, content=self._wrong)
        self.control = column([inset(above, 8, 0), spoken, inset(wrong, 8, 0)], 4, expand=expand)

    def show(self, wrong: str = "") -> None:
        """Say what is wrong with it, or nothing. The caller updates `control`."""
        self._wrong.value, self._wrong.visible = wrong, bool(wrong)
