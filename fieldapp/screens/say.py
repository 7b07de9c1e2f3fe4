"""The lighter read-back: one says the figure sign by sign, the other listens, looks at the tape and confirms; the figure stays covered there."""

from __future__ import annotations

import flet as ft

from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.figure import still_figure
from fieldapp.parts.leaf import Plate
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import text
from fieldapp.screens.of_bay import BayScreen
from fieldapp.screens.readback_model import confirmed_words, figure_of, first_span
from fieldapp.screens.say_model import words_to_say
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say
from measure.book import same_person
from measure.reading import Reading


class SayScreen(BayScreen):
    """Whoever wrote the figure says it; anybody else confirms, which is kept as their read-back."""

    def view(self) -> ft.Control:
        look, first = mid(self.app.look), first_span(self.live, self.live.bay(self.tag))
        if first is None:
            return mid_sheet(self.app.look, [self.head(say("share.say_what")), inset(text(look, say("share.say_none"), "lead"), top=MARGIN)])
        return self._say(first) if same_person(first.by, self.app.person) else self._confirm(first)

    def _say(self, first: Reading) -> ft.Control:
        look, said = mid(self.app.look), figure_of(self.live, first)
        large = still_figure(look, said.whole, said.fraction, said.unit, said.text, look.width - 2 * MARGIN, size=140)
        words = [
            ft.Row([text(look, sign, "title", look.ink2, width=4 * look.size("title"), no_wrap=True), text(look, word, "word", bold=True, expand=True)], spacing=GRID)
            for sign, word in words_to_say(said.whole, said.fraction, said.unit)
        ]
        work = [self.head(say("share.say_what")), inset(large, top=MARGIN, bottom=MARGIN), inset(column(words, 4))]
        return mid_sheet(self.app.look, [*work, inset(text(look, say("share.say_do"), "body", look.ink2), top=MARGIN)])

    def _confirm(self, first: Reading) -> ft.Control:
        look = mid(self.app.look)
        cover = Plate(look, say("readback.tape", name=first.by), gap(0), 124, say("share.confirm_covered"))
        work = [self.head(say("share.say")), cover.control, inset(text(look, say("share.confirm", by=first.by), "lead", bold=True), top=MARGIN)]
        yes = main_action(look, say("share.confirmed"), lambda _: self.app.run(self._agree, first))
        no = small_action(look, say("share.not_so"), lambda _: self.app.go("walk", job=self.id, bay=self.tag))
        return mid_sheet(self.app.look, work, [yes, no])

    async def _agree(self, first: Reading) -> None:
        """Kept as the figure that was said and heard. first: the one that stood there when it was asked."""
        if self.busy or first_span(self.live, self.live.bay(self.tag)) != first:
            return
        self.busy = True
        try:
            await self.app.desk.keep_reading(self.id, self.app.person, **confirmed_words(self.live, self.tag, first.text))
        finally:
            self.busy = False
        self.app.go("both", job=self.id, bay=self.tag)
