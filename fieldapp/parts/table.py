"""A table that can be copied: selectable text, rows of 48 px, one row open beside it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

import flet as ft

from fieldapp.parts.here import person_plates
from fieldapp.parts.text import text
from fieldapp.parts.verdict import Sign, verdict_word
from fieldapp.theme import TOUCH, Look


@dataclass(frozen=True, slots=True)
class Column:
    """name as printed, width in pixels at 100 %, figures stand right."""

    name: str
    width: float
    side: Literal["left", "right"] = "left"


@dataclass(frozen=True, slots=True)
class TableRow:
    """key: what `on_row` is called with. cells: one text a column. A verdict with its word closes the row. here: letters of those who are on it."""

    key: str
    cells: tuple[str, ...]
    verdict: Sign | None = None
    word: str = ""
    here: str = ""


class Table:
    """`show` sets the rows and the one that is open. Large text: a row becomes a block of named values."""

    def __init__(
        self, look: Look, columns: Sequence[Column], on_row: Callable[[str], object] | None = None, selectable: bool = True
    ) -> None:
        self._look, self._columns, self._on_row, self._selectable = look, list(columns), on_row, selectable
        self._rows = ft.Column([], spacing=0)
        self.control = ft.Column([self._head(), self._rows] if not look.big else [self._rows], spacing=0)

    def show(self, rows: Sequence[TableRow], now: str | None = None) -> None:
        """The caller updates `control`."""
        self._rows.controls = [self._row(row, row.key == now) for row in rows]

    def _cell(self, value: str, one: Column, bold: bool, color: str | None = None) -> ft.Control:
        at = ft.Alignment.CENTER_RIGHT if one.side == "right" else ft.Alignment.CENTER_LEFT
        shown = text(self._look, value, "note", color, bold, selectable=self._selectable and color is None)
        return ft.Container(shown, width=one.width * self._look.text, alignment=at)

    def _head(self) -> ft.Control:
        cells = [self._cell(one.name, one, False, self._look.ink2) for one in self._columns]
        return ft.Container(
            ft.Row(cells, spacing=10), height=36, padding=ft.Padding.only(left=24, right=16),
            border=ft.Border.only(bottom=ft.BorderSide(2, self._look.ink)),
        )  # fmt: skip

    def _row(self, row: TableRow, on: bool) -> ft.Control:
        look = self._look
        if look.big:
            cells: list[ft.Control] = [
                text(look, f"{one.name} {value}".strip(), "body", bold=i == 0)
                for i, (one, value) in enumerate(zip(self._columns, row.cells, strict=True))
            ]
        else:
            cells = [
                self._cell(value, one, on or i == 0) for i, (one, value) in enumerate(zip(self._columns, row.cells, strict=True))
            ]
        if row.verdict:
            cells.append(verdict_word(look, row.verdict, row.word))
        if row.here:
            cells.append(person_plates(look, row.here))
        content = (
            ft.Column(cells, spacing=2)
            if look.big
            else ft.Row(cells, spacing=10, vertical_alignment=ft.CrossAxisAlignment.CENTER)
        )
        press = self._on_row
        body = ft.Container(
            content,
            height=None if look.big else TOUCH,
            bgcolor=look.tape2 if on else None,
            border=ft.Border.only(
                bottom=ft.BorderSide(1, look.rule), left=ft.BorderSide(4, look.tape_edge if on else look.paper)
            ),
            padding=ft.Padding.only(left=20, right=16, top=8 if look.big else 0, bottom=8 if look.big else 0),
            on_click=(lambda _: press(row.key)) if press else None,
        )
        return ft.Semantics(button=bool(press) or None, container=True, selected=on, content=body)
