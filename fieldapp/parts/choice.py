"""A row of keys to choose one from, the chosen one in solid ink. Nothing need be chosen beforehand."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

import flet as ft

from fieldapp.parts.action import button_style
from fieldapp.parts.space import column
from fieldapp.parts.text import BOLD
from fieldapp.theme import EDGE, GRID, TOUCH, Look

V = TypeVar("V")


class Choice:
    """options: (value, word). says: spoken names where they differ from the words. `show` changes the choice in place.

    stacked: one above the other; left out, they stack when the text is large. keys: beside number keys, labels stay in their row.
    """

    def __init__(
        self, look: Look, options: Sequence[tuple[V, str]], now: V | None, pick: Callable[[V], object], height: float = TOUCH,
        margin: float = EDGE, stacked: bool | None = None, keys: bool = False, says: Sequence[str] = (),
    ) -> None:  # fmt: skip
        self._look, self._values = look, [value for value, _ in options]
        stacked = (look.big and not keys) if stacked is None else stacked
        self._room = (look.width - 2 * margin - GRID * (len(options) - 1)) / len(options) - 14
        self._longest = max((len(word) for _, word in options), default=1)
        self._texts: list[ft.Text] = []
        self._buttons: list[ft.Button] = []
        self._marks: list[ft.Semantics] = []
        for i, (value, word) in enumerate(options):
            self._add(value, word, says[i] if says else None, pick, None if look.big and not keys else height, stacked)
        row: ft.Control = column(list(self._marks), GRID) if stacked else ft.Row(list(self._marks), spacing=GRID)
        self.control = ft.Container(row, padding=ft.Padding.symmetric(horizontal=margin))
        self.now: V | None = None
        self.show(now)

    def _add(
        self, value: V, word: str, says: str | None, pick: Callable[[V], object], height: float | None, stacked: bool
    ) -> None:
        size = self._look.key_size(16) if height else self._look.size("body")
        if height:  # labels of keys keep to their row, all of one size
            size = max(min(size, self._room / (0.58 * self._longest)), 14)
        label = ft.Text(
            word, size=size, weight=BOLD, semantics_label=says, text_align=ft.TextAlign.CENTER, style=ft.TextStyle(height=1.15)
        )
        button = ft.Button(content=label, height=height, on_click=lambda _: pick(value))
        self._texts.append(label)
        self._buttons.append(button)
        self._marks.append(ft.Semantics(content=button, expand=None if stacked else 1))

    def show(self, now: V | None) -> None:
        """Choose this one, or none. The caller updates `control`."""
        look, self.now = self._look, now
        padding = ft.Padding.symmetric(horizontal=4, vertical=16 if self._buttons and self._buttons[0].height is None else 0)
        for value, label, button, mark in zip(self._values, self._texts, self._buttons, self._marks, strict=True):
            on = value == now
            face, ink, edge = (look.main, look.on_main, look.main) if on else (look.leaf, look.ink, look.line)
            label.color, mark.selected = ink, on
            button.style = button_style(look, face, ink, edge, padding=padding)
