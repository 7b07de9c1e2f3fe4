"""The list of jobs: open one, start one, take one in from a file or from the samples."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from dataclasses import asdict

import flet as ft

from fieldapp.hosts.ports import PickedFile
from fieldapp.parts.action import action, main_action, side_by_side, sign_action
from fieldapp.parts.leaf import leaf
from fieldapp.parts.page import page_sheet
from fieldapp.parts.row import open_row
from fieldapp.parts.run_strip import RunStrip, StripBay
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import text
from fieldapp.parts.verdict import sign, small_band
from fieldapp.samples import samples
from fieldapp.screens import samples_model
from fieldapp.screens.job_menu import BINNED
from fieldapp.screens.jobs_model import JobCard, counted, job_card
from fieldapp.screens.phone import pressing_row
from fieldapp.screens.screen import Screen
from fieldapp.screens.take_in import take_in
from fieldapp.theme import EDGE, GRID, LINE, MARGIN
from fieldapp.words import say
from measure.errors import SpanbookError

_STRIP_HEIGHT, _MENU = 28, 28


class JobsScreen(Screen):
    """A card a job. Jobs that were not looked into yet get their strip one after the other, the page stays usable."""

    up = None

    def view(self) -> ft.Control:
        look, rows = self.app.look, self.app.desk.jobs()
        self._slots = {row.id: ft.Container() for row in rows}
        for row in rows:
            self._slots[row.id].content = self._card(row.id) if self.app.desk.is_open(row.id) else self._blank(row.id, row.name)
        count = text(look, counted(len(rows), self.app.host.connection.host), "body", look.ink2)
        work = [self._head(), inset(count, bottom=GRID), *self._undo(), *pressing_row(self.app), *self._in_columns(list(self._slots.values()))]
        if not rows:
            work.append(self._first())
        work += self._bin_row()
        return page_sheet(look, [*work, gap(MARGIN)], self._actions())

    def shown(self) -> None:
        self.app.run(self._fill)

    def on_change(self, topics: frozenset[str]) -> None:
        self.app.redraw()
        self.app.run(self._fill)

    def on_size(self) -> None:
        self.on_change(frozenset())

    # ---- the page ------------------------------------------------------------------------------------------------------
    def _head(self) -> ft.Control:
        look = self.app.look
        other = "shade" if look.theme == "sun" else "sun"
        name = ft.Semantics(header=True, content=text(look, say("app.name"), "word", bold=True), expand=True)
        turn = sign_action(look, ft.Icons.CONTRAST, say(f"jobs.to_{other}"), lambda _: self._turn(other))
        settings = sign_action(look, ft.Icons.TUNE, say("jobs.settings"), lambda _: self.app.go("settings"))
        return ft.Container(ft.Row([name, turn, settings]), padding=ft.Padding.only(left=MARGIN, right=EDGE, top=10))

    def _in_columns(self, cards: list[ft.Container]) -> list[ft.Control]:
        """One under the other; two abreast on a wide screen."""
        if not self.app.look.wide:
            return [inset(card, EDGE + 8, EDGE + 8, bottom=12) for card in cards]
        for card in cards:
            card.expand = 1
        rows = [cards[i : i + 2] for i in range(0, len(cards), 2)]
        rows = [row if len(row) == 2 else [*row, ft.Container(expand=1)] for row in rows]
        return [inset(ft.Row(row, spacing=12, vertical_alignment=ft.CrossAxisAlignment.START), bottom=12) for row in rows]

    def _first(self) -> ft.Control:
        """An empty book says what to do first, and does it: one tap, and a deck of nobody's waits for its first figure."""
        look = self.app.look
        row = samples_model.fresh(samples())
        opens = lambda _: self.app.run(self._try)  # noqa: E731
        return open_row(look, row.name, sentence=say("jobs.first"), least=88, picture=sign(look, "todo", 48, 40), on_click=opens)

    def _undo(self) -> list[ft.Control]:
        """The job that went into the bin just now, and the way back."""
        binned = self.app.draft_of(BINNED)
        found = next((card for card in self.app.desk.binned_jobs() if card.id == binned), None) if binned else None
        if found is None:
            return []
        look = self.app.look
        words = text(look, say("jobs.is_in_bin", name=found.name), "body", bold=True)
        back = action(look, say("jobs.bring_back"), lambda _: self.app.run(self._bring_back, found.id), height=48, role="body")
        return [ft.Container(small_band(look, "clear", column([words, back], GRID)), padding=ft.Padding.only(bottom=GRID))]

    def _bin_row(self) -> list[ft.Control]:
        """The bin, where something lies in it."""
        if self.app.host.connection.guest:
            return []
        jobs = self.app.desk.binned_jobs()
        return [open_row(self.app.look, say("jobs.bin"), say("jobs.in_bin", n=len(jobs)), on_click=lambda _: self.app.go("bin"))] if jobs else []

    async def _bring_back(self, id: str) -> None:
        await self.app.desk.restore_job(id)
        self.app.keep_draft_of(BINNED, "")
        self.on_change(frozenset())

    def leave(self) -> None:
        """From then on the bin itself has it."""
        if self.app.draft_of(BINNED):
            self.app.keep_draft_of(BINNED, "")

    def _actions(self) -> list[ft.Control]:
        look = self.app.look
        sample = action(look, say("jobs.sample"), lambda _: self.app.go("samples"), height=56, role="body")
        file = action(look, say("jobs.file"), height=56, role="body")
        file.action = self.app.host.files.picking(self._picked, "json", "txt", several=True)
        start = main_action(look, say("jobs.start"), lambda _: self.app.go("new"))
        if look.wide and not look.big:
            return [side_by_side(look, start, sample, file)]
        return [start, side_by_side(look, sample, file)]

    # ---- cards ---------------------------------------------------------------------------------------------------------
    async def _fill(self) -> None:
        """Look into the jobs whose card is still blank."""
        for id, slot in tuple(self._slots.items()):
            if self.app.desk.is_open(id):
                continue
            await asyncio.sleep(0)  # a page that waits for its own turn
            if self.app.screen is not self or self._slots.get(id) is not slot:
                return
            slot.content = self._card(id)
            self.update(slot)

    def _card(self, id: str) -> ft.Control:
        try:
            card = job_card(self.app.desk.job(id))
        except SpanbookError as problem:  # a job that a later version wrote stays in the list, and says why it does not open
            return self._with_menu(id, leaf(self.app.look, [text(self.app.look, str(problem), color=self.app.look.hold), gap(_MENU)]))
        return self._leaf(id, card.name, card.units, card.says, self._strip(card), card)

    def _blank(self, id: str, name: str) -> ft.Control:
        return self._leaf(id, name, "", name, gap(_STRIP_HEIGHT), None)

    def _leaf(self, id: str, name: str, units: str, says: str, middle: ft.Control, card: JobCard | None) -> ft.Control:
        look = self.app.look
        about = f"{card.run}, {units}" if card and card.run else units
        words = [text(look, name, "lead", bold=True, expand=None if look.big else True), text(look, about, "note", look.ink2)]
        menu = gap(0 if self.app.host.connection.guest else _MENU)
        head: list[ft.Control] = [ft.Column(list(words), spacing=0, tight=True, expand=True)] if look.big else list(words)
        top = ft.Row([*head, menu], spacing=GRID)
        kept = text(look, card.kept if card else say("jobs.loading"), "body")
        go_on = text(look, card.onward if card else "", "body", bold=True)
        onward = ft.Row([go_on, ft.Icon(ft.Icons.ARROW_FORWARD, size=20, color=look.ink)], spacing=6, tight=True)
        foot = ft.Row([kept, onward], alignment=ft.MainAxisAlignment.SPACE_BETWEEN, wrap=True, run_spacing=4)
        card_leaf = leaf(look, [top, middle, foot], on_click=lambda _: self.app.open_job(id), spacing=10, says=says)
        return self._with_menu(id, card_leaf)

    def _with_menu(self, id: str, card: ft.Control) -> ft.Control:
        """The card, and at its corner the way to what can be done with the job as a whole. It is heard right after the card."""
        if self.app.host.connection.guest:
            return card
        says = say("jobs.menu_says", number=list(self._slots).index(id) + 1)
        menu = sign_action(self.app.look, ft.Icons.MORE_HORIZ, says, lambda _: self.app.go("job", job=id))
        return ft.Stack([card, ft.Container(menu, right=4, top=2)], fit=ft.StackFit.PASS_THROUGH)

    def _strip(self, card: JobCard) -> ft.Control:
        look = self.app.look
        whole = (look.width - 2 * MARGIN - 12) / 2 if look.wide else look.width - 2 * MARGIN
        room = whole - 2 * MARGIN - 2 * LINE
        return RunStrip(look, [StripBay(**asdict(b)) for b in card.bays], room, _STRIP_HEIGHT, card.now, tags=False).control

    # ---- what a tap does -----------------------------------------------------------------------------------------------
    def _turn(self, theme: str) -> None:
        self.app.run(lambda: self.app.restyle(theme=theme))

    async def _try(self) -> None:
        self.app.open_job(await self.app.desk.take_sample(samples_model.chosen(samples(), samples_model.FRESH)))

    async def _picked(self, files: Sequence[PickedFile]) -> None:
        await take_in(self.app, files)
