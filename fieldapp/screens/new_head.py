"""What stands at the head of the order: for whom, where to, by when."""

from __future__ import annotations

import flet as ft

from fieldapp.parts.action import main_action
from fieldapp.parts.space import gap, inset
from fieldapp.screens.new_page import NewPage
from fieldapp.theme import EDGE, GRID
from fieldapp.words import say

HEAD_KEYS = ("customer", "po", "wanted_by", "deliver_to", "contact", "phone", "unloading")


class HeadScreen(NewPage):
    """All of it may be left out; it is kept while it is written."""

    step = "name"
    row = "head"

    def view(self) -> ft.Control:
        look = self.look
        fields = [inset(self._field(key), EDGE, EDGE, bottom=GRID) for key in HEAD_KEYS]
        work = [self.asks(say("new.head"), say("new.head_told")), *fields, gap(GRID)]
        return self.sheet(work, [main_action(look, say("new.limits_done"), lambda _: self.back())])

    def _field(self, key: str) -> ft.Control:
        return self.field(say(f"change.key_{key}"), self.form.of("job", key), lambda words: self._write(key, words)).control

    def _write(self, key: str, words: str) -> None:
        self.keep(self.form.say("job", **{key: words}))
