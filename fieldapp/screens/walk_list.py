"""Beside the walk on a wide screen: the bays of the run, each with its sign and what was read, one tap from its place; and the review."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.live_job import LiveJob
from fieldapp.parts.action import small_action
from fieldapp.parts.page import DETAIL
from fieldapp.parts.row import open_row
from fieldapp.parts.space import column, inset
from fieldapp.parts.text import text
from fieldapp.parts.verdict import sign
from fieldapp.screens.bays_model import BayLine, bay_line
from fieldapp.theme import EDGE, GRID, LINE
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App

_MOST = 40
"""Bays of a run that are listed; of a longer run those around the one that is measured."""


class WalkList:
    """`show` sets its rows; `beside` lays the walk at its right. The figure of the bay that is asked stays covered."""

    def __init__(self, app: App, job: str, live: LiveJob) -> None:
        self._app, self._job, self._live = app, job, live
        self._shown: tuple[object, ...] = ()
        self._rows = column([], scroll=ft.ScrollMode.AUTO, expand=True)
        self._run, self._under = (text(app.look, "", role, bold=bold) for role, bold in (("title", True), ("note", False)))
        self._head = inset(column([self._run, self._under], 1), top=GRID, bottom=GRID)

    def beside(self, walk: ft.Control) -> ft.Control:
        look = self._app.look
        review = small_action(look, say("walk.to_review"), lambda _: self._app.go("review", job=self._job))
        left = column([self._head, self._rows, inset(review, EDGE, EDGE, top=GRID, bottom=GRID)], expand=True)
        edge = ft.Border.only(left=ft.BorderSide(LINE, look.line))
        pages = [ft.Container(left, expand=True), ft.Container(walk, width=DETAIL, border=edge)]
        row = ft.Row(pages, spacing=0, expand=True, vertical_alignment=ft.CrossAxisAlignment.STRETCH)
        return ft.Container(ft.SafeArea(row, expand=True), bgcolor=look.paper, expand=True)

    def show(self, tag: str, asked: bool) -> list[ft.Control]:
        """tag: the bay that the walk is on. asked: a figure of it is being read. Returns what changed, mostly nothing."""
        run = self._live.bay(tag).run
        bays = self._live.book.run_bays[run]
        at = next(number for number, bay in enumerate(bays) if bay.tag == tag)
        first = max(0, min(at - _MOST // 2, len(bays) - _MOST))
        lines = [bay_line(self._live, bay) for bay in bays[first : first + _MOST]]
        now = (run, tag, asked, *lines)
        if now == self._shown:
            return []
        self._shown = now
        under = say("bays.under", n=len(bays), first=bays[0].left, last=bays[-1].right)
        self._run.value, self._under.value = say("review.run", run=run), under
        self._rows.controls = [self._row(line, line.tag == tag, asked) for line in lines]
        return [self._head, self._rows]

    def _row(self, line: BayLine, here: bool, asked: bool) -> ft.Control:
        look = self._app.look
        covered = here and asked
        return open_row(
            look, line.tag, line.word, say("walk.list_here") if covered else line.sentence, sign(look, line.sign, 40, 30),
            lambda _: self._app.go("walk", job=self._job, bay=line.tag), least=0, lit=here,
            says=say("bays.says", tag=line.tag, word=line.word, told=say("walk.list_here")) if covered else line.says,
        )  # fmt: skip
