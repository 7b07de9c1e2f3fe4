"""The lighter read-back: one says the figure sign by sign, the other listens, looks at the tape and confirms; the figure stays covered there."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.figure import still_figure
from fieldapp.parts.leaf import Plate
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import gap, inset
from fieldapp.parts.spelled import spelled
from fieldapp.parts.text import text
from fieldapp.parts.verdict import small_band
from fieldapp.screens.both_view import both_figures
from fieldapp.screens.looks_on import looks_on, looks_on_page
from fieldapp.screens.of_bay import BayScreen
from fieldapp.screens.readback_model import Outcome, confirmed_words, figure_of, first_span, outcome
from fieldapp.screens.say_model import words_to_say
from fieldapp.screens.tape_anew import tape_anew
from fieldapp.theme import MARGIN
from fieldapp.words import say
from measure.as_read import with_unit
from measure.book import same_person
from measure.reading import Reading

if TYPE_CHECKING:
    from fieldapp.app import App


class SayScreen(BayScreen):
    """Whoever wrote the figure says it; anybody else confirms, which is kept as their read-back. What is confirmed is not asked again."""

    def __init__(self, app: App, job: str, bay: str) -> None:
        super().__init__(app, job, bay)
        if app.host.connection.role == "scribe":
            self.up = ("readback", {"job": job})

    def view(self) -> ft.Control:
        look, first = mid(self.app.look), first_span(self.live, self.live.bay(self.tag))
        self._other = self._who_hears()
        if first is None:
            return mid_sheet(self.app.look, [self.head(say("share.say_what")), inset(text(look, say("share.say_none"), "lead"), top=MARGIN)])
        if looks_on(self.app):
            return looks_on_page(self.app, self.head(say("share.say")), self.id, self.tag)
        found = outcome(self.live, self.tag)
        found = found if found is not None and found.agree else None
        if same_person(first.by, self.app.person):
            return self._say(first, found)
        return self._confirm(first) if found is None else self._confirmed(found)

    def _say(self, first: Reading, found: Outcome | None) -> ft.Control:
        """found: somebody read it back already, and both agree."""
        look, said = mid(self.app.look), figure_of(self.live, first)
        large = still_figure(look, said.whole, said.fraction, said.unit, said.text, look.width - 2 * MARGIN, size=140)
        words = spelled(look, words_to_say(said.whole, said.fraction, said.unit))
        work = [self.head(say("share.say_what")), inset(large, top=MARGIN, bottom=MARGIN), words]
        if found is None:
            do = say("share.say_do", name=self._other) if self._other else say("share.say_do_other")
            on = small_action(look, say("share.go_on"), lambda _: self.app.back())
            return mid_sheet(self.app.look, [*work, inset(text(look, do, "body", look.ink2), top=MARGIN)], [on])
        key, figure = ("heard", with_unit(found.first.text, self.live.plan.units)) if found.aloud else ("agree", found.first.text)
        told = text(look, say(f"share.{key}", bay=self.tag, by=found.second_by, figure=figure), "lead", bold=True)
        live = ft.Semantics(identifier="told", container=True, live_region=True, content=told)
        on = main_action(look, say("share.go_on"), lambda _: self.app.back(), onward=True)
        return mid_sheet(self.app.look, [*work, gap(MARGIN), small_band(look, "clear", live)], [on])

    def _confirm(self, first: Reading) -> ft.Control:
        look = mid(self.app.look)
        cover = Plate(look, say("readback.tape", name=first.by), gap(0), 124, say("share.confirm_covered"))
        work = [self.head(say("share.say")), cover.control, inset(text(look, say("share.confirm", by=first.by), "lead", bold=True), top=MARGIN)]
        yes = main_action(look, say("share.confirmed"), lambda _: self.app.run(self._agree, first))
        no = small_action(look, say("share.not_so"), lambda _: tape_anew(self.app, self.id, self.tag))
        return mid_sheet(self.app.look, work, [yes, no])

    def _confirmed(self, found: Outcome) -> ft.Control:
        look = mid(self.app.look)
        on = main_action(look, say("share.go_on"), lambda _: self.app.back(), onward=True)
        work = [self.head(say("share.both")), *both_figures(look, self.live.plan.units, found)]
        return mid_sheet(self.app.look, work, [on], ground=look.verdict("clear")[1])

    async def _agree(self, first: Reading) -> None:
        """Kept as the figure that was said and heard. first: the one that stood there when it was asked. Back leads to where they came from."""
        if self.busy or first_span(self.live, self.live.bay(self.tag)) != first:
            return
        self.busy = True
        try:
            await self.app.desk.keep_reading(self.id, self.app.person, **confirmed_words(self.live, self.tag, first.text))
        finally:
            self.busy = False
        self.app.up("both", job=self.id, bay=self.tag)

    def _who_hears(self) -> str:
        """The other one who has this bay's page open; empty where nobody has."""
        there = [p.name for p in self.app.desk.company.of(self.id, self.app) if p.screen == "say" and p.bay == self.tag and p.name]
        return there[-1] if there else ""

    def on_change(self, topics: frozenset[str]) -> None:
        if f"people {self.id}" in topics and self._other != self._who_hears():
            self.app.redraw()
        else:
            super().on_change(topics)
