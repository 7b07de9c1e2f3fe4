"""The first phone, when its camera opened the answer of the other one as a link: whose answer it is, and one tap to take it in."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.letter import Answer, LetterError
from fieldapp.parts.action import main_action
from fieldapp.parts.head import title_head
from fieldapp.parts.page import page_sheet
from fieldapp.parts.space import column, inset
from fieldapp.parts.text import text
from fieldapp.screens import letter_model as model
from fieldapp.screens.screen import Screen
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import listed, say

if TYPE_CHECKING:
    from fieldapp.app import App


class TakeLetterScreen(Screen):
    """letter: as scanned. Raises LetterError for what is none, and where its job is not on this phone."""

    title = say("letter.take")

    def __init__(self, app: App, letter: str) -> None:
        super().__init__(app)
        self.answer = Answer.read(letter)
        if all(card.id != self.answer.job for card in app.desk.jobs()):
            raise LetterError(say("letter.other_job"))
        self.job = self.answer.job
        self.live = app.desk.job(self.job)
        self.up = ("ask", {"job": self.job})
        self._busy = False

    def view(self) -> ft.Control:
        look = self.app.look
        head = title_head(look, say("letter.take"), self.live.name, say("app.back"), lambda _: self.app.back())
        bays = listed([tag for tag, _, _ in self.answer.figures], 8)
        lines: list[ft.Control] = [text(look, say("letter.from", by=self.answer.by, bays=bays), "lead", bold=True), text(look, say("letter.from_do"), "body")]
        take = main_action(look, say("letter.take_in"), lambda _: self.app.run(self._take), onward=True)
        return page_sheet(look, [head, inset(column(lines, GRID), top=MARGIN)], [take])

    async def _take(self) -> None:
        if self._busy:
            return
        self._busy = True
        try:
            found = await model.take_in(self.app.desk, self.live, self.job, self.answer)
        finally:
            self._busy = False
        self.app.go("review", job=self.job)
        self.app.tell(found.sentence, found.sign, found=True)

    def on_change(self, topics: frozenset[str]) -> None:
        """It says what the letter says."""
