"""A page of the plan that asks for words: ready ones to tap, or own ones to write."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import action, main_action
from fieldapp.parts.space import column, inset
from fieldapp.screens.new_page import NewPage
from fieldapp.theme import EDGE, GRID
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App


class WordsPage(NewPage):
    """`begin` once it is known what stands there now; half-written words come back."""

    def __init__(self, app: App, job: str = "") -> None:
        super().__init__(app, job)
        self._own = ""

    def begin(self, now: str) -> None:
        """now: the words that are said."""
        self._own = self.app.draft or now

    def asked(self) -> tuple[str, str]:
        """The question, and one sentence below it."""
        raise NotImplementedError

    def ready(self) -> list[tuple[str, str | None]]:
        """What can be tapped: its name, and the words that it means; None takes them out."""
        raise NotImplementedError

    def take(self, words: str | None) -> None:
        """These words; None where nothing is said."""
        raise NotImplementedError

    def view(self) -> ft.Control:
        look = self.look
        taps = [action(look, name, lambda _, w=words: self._keep(w), height=56, role="body") for name, words in self.ready()]
        field = self.field(say("new.own_words"), self._own, self._write)
        work = [self.asks(*self.asked()), inset(column(list(taps), GRID), EDGE, EDGE, bottom=GRID), inset(field.control, EDGE, EDGE)]
        return self.sheet(work, [main_action(look, say("new.keep"), lambda _: self._keep(" ".join(self._own.split()) or None))])

    def _write(self, words: str) -> None:
        self._own = words
        self.app.keep_draft(words)

    def _keep(self, words: str | None) -> None:
        self.app.keep_draft("")
        self.take(words)
