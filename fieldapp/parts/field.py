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
        edge = lambda weight, ink: ft.OutlineInputBorder(  # noqa: E731
            border_radius=RADIUS, side=ft.BorderSide(weight, ink), gap_padding=0
        )
        # A box is heard by its own label alone: it has one, faint, under the line that is read. The outline is cut where
        # a label floats into it, as wide as the label is: this one has no width.
        faint = ft.TextStyle(size=0.01, color=ft.Colors.TRANSPARENT, letter_spacing=0)
        self.box = ft.TextField(
            value=value, label=label, label_style=faint, text_size=look.size(role), color=look.ink, bgcolor=look.leaf,
            cursor_color=look.ink, min_lines=lines, max_lines=lines,
            content_padding=ft.Padding.symmetric(horizontal=12, vertical=14),
            border={ft.ControlState.FOCUSED: edge(3, look.ink), ft.ControlState.DEFAULT: edge(1.5, look.line)}, **more,
        )  # fmt: skip
        self._wrong = text(look, "", "note", look.hold, bold=True)
        above = ft.Semantics(exclude_semantics=True, content=text(look, f"{label}, {hint}" if hint else label, "note", look.ink2))
        # Hidden as a whole: a Semantics around a text that is not there is drawn as an error.
        self._told = ft.Semantics(live_region=True, content=self._wrong, visible=False)
        self.control = column([inset(above, 8, 0), self.box, inset(self._told, 8, 0)], 4, expand=expand)

    def show(self, wrong: str = "") -> None:
        """Say what is wrong with it, or nothing. The caller updates `control`."""
        self._wrong.value, self._told.visible = wrong, bool(wrong)
