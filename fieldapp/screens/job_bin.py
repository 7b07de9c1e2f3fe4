"""The jobs in the bin: nothing in them is lost, and one tap brings a job back."""

from __future__ import annotations

import flet as ft

from fieldapp.parts.action import action
from fieldapp.parts.head import title_head
from fieldapp.parts.leaf import leaf
from fieldapp.parts.page import page_sheet
from fieldapp.parts.space import gap, inset
from fieldapp.parts.text import text
from fieldapp.screens.jobs_model import binned_told
from fieldapp.screens.screen import Screen
from fieldapp.theme import EDGE, GRID, MARGIN
from fieldapp.words import say
from measure.job_shelf import JobCard

_ABREAST = 2


class JobBinScreen(Screen):
    """A leaf a job, the one worked on last first."""

    title = say("jobs.bin")

    def view(self) -> ft.Control:
        look, jobs = self.app.look, self.app.desk.binned_jobs()
        head = title_head(look, say("jobs.bin"), say("jobs.bin_told"), say("app.back"), lambda _: self.app.back())
        leaves = [self._leaf(card) for card in jobs]
        if not leaves:
            return page_sheet(look, [head, inset(text(look, say("jobs.bin_empty"), "body", look.ink2), top=MARGIN)])
        if not look.wide:
            return page_sheet(look, [head, *(inset(one, EDGE + 8, EDGE + 8, top=12) for one in leaves), gap(MARGIN)])
        rows = [ft.Row(leaves[i : i + _ABREAST], spacing=12, vertical_alignment=ft.CrossAxisAlignment.START) for i in range(0, len(leaves), _ABREAST)]
        return page_sheet(look, [head, *(inset(row, top=12) for row in rows), gap(MARGIN)])

    def _leaf(self, card: JobCard) -> ft.Control:
        look = self.app.look
        back = action(look, say("jobs.bring_back"), lambda _: self.app.run(self._restore, card.id), height=56, role="body")
        back.content.semantics_label = say("jobs.bring_back_says", name=card.name)
        told = text(look, binned_told(card), "body", look.ink2)
        made = leaf(look, [text(look, card.name, "lead", bold=True), told, back], spacing=GRID)
        return ft.Container(made, expand=1 if look.wide else None)

    async def _restore(self, id: str) -> None:
        await self.app.desk.restore_job(id)
        self.app.redraw()

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "jobs", "everything"):
            self.app.redraw()
