"""All bays of a run, one below the other: its sign, what was read there, the panel that follows. A tap goes there."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.head import title_head
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap
from fieldapp.parts.text import text
from fieldapp.parts.verdict import sign
from fieldapp.screens.bays_model import BayLine, bays_of
from fieldapp.screens.screen import Screen
from fieldapp.theme import MARGIN, Look
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_SIGN = 56
"""Room of a sign with its word, in pixels."""


class BaysScreen(Screen):
    """run: its name."""

    def __init__(self, app: App, job: str, run: str) -> None:
        super().__init__(app)
        self.job, self.run, self.live = job, run, app.desk.job(job)
        if run not in self.live.book.run_bays:
            raise SpanbookError(say("bays.no_run", run=run, job=self.live.name))
        self.up = ("review", {"job": job})
        self.title = self.live.name

    def view(self) -> ft.Control:
        look, found = mid(self.app.look), bays_of(self.live, self.run)
        head = title_head(look, found.title, found.under, say("app.back"), lambda _: self.app.back())
        rows = [
            open_row(
                look, row.tag, row.word if look.big else "", _broken(row.sentence) if look.big else row.sentence, self._sign(look, row),
                lambda _, tag=row.tag: self.app.go("walk", job=self.job, bay=tag), least=0, says=row.says,
            )  # fmt: skip
            for row in found.rows
        ]
        return mid_sheet(self.app.look, [head, *rows, gap(MARGIN)])

    def _sign(self, look: Look, row: BayLine) -> ft.Control:
        """The sign over its word."""
        ink, _ = look.verdict(row.sign)
        word = text(look, row.word, "note", ink, bold=True, align=ft.TextAlign.CENTER)
        parts = [sign(look, row.sign, 40, 30), word]
        return ft.Column(parts, spacing=2, width=_SIGN, horizontal_alignment=ft.CrossAxisAlignment.CENTER, tight=True)

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "everything", f"job {self.job}"):
            if self.run in self.live.book.run_bays:
                self.app.redraw()
            else:
                self.app.go("review", job=self.job)


def _broken(sentence: str) -> str:
    """In large letters each figure has a line of its own, with its unit."""
    return sentence.replace(", ", ",\n").replace(" × ", " ×\n")
