"""The sample jobs: tap one, and it is a job of this book."""

from __future__ import annotations

import flet as ft

from fieldapp.parts.head import title_head
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.row import open_row
from fieldapp.parts.space import inset, rule
from fieldapp.parts.text import text
from fieldapp.parts.verdict import sign
from fieldapp.samples import samples
from fieldapp.screens import samples_model
from fieldapp.screens.screen import Screen
from fieldapp.theme import GRID
from fieldapp.words import say


class SamplesScreen(Screen):
    """One row a sample."""

    title = say("samples.title")

    def view(self) -> ft.Control:
        look = mid(self.app.look)
        head = title_head(look, say("samples.title"), say("samples.under"), say("app.back"), lambda _: self.app.back())
        told = inset(text(look, say("samples.told"), "body", look.ink2), top=GRID, bottom=GRID)
        rows = [self._row(row) for row in samples_model.rows(samples())]
        return mid_sheet(self.app.look, [head, told, rule(look, look.line), *rows])

    def _row(self, row: samples_model.SampleRow) -> ft.Control:
        look = mid(self.app.look)
        picture = sign(look, row.sign)
        opens = lambda _: self.app.run(self._open, row.key)  # noqa: E731
        return open_row(look, row.name, sentence=row.sentence, least=72, picture=picture, on_click=opens)

    async def _open(self, key: str) -> None:
        self.app.open_job(await self.app.desk.take_sample(samples_model.chosen(samples(), key)))
