"""What can be done with a job as a whole: open it, copy it out, put it in the bin. No single tap takes a job off the list."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import action, main_action, side_by_side, small_action
from fieldapp.parts.facts import facts
from fieldapp.parts.head import title_head
from fieldapp.parts.page import DETAIL, Spread, page_sheet
from fieldapp.parts.plan_picture import PlanBay, PlanPicture, PlanRun, PlanWords
from fieldapp.parts.row import open_row
from fieldapp.parts.space import column, gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.parts.verdict import small_band, tally
from fieldapp.parts.walk_stage import WIDEST
from fieldapp.screens import ROUTES
from fieldapp.screens.change_overview import MOST_IN_PICTURE
from fieldapp.screens.jobs_model import job_facts
from fieldapp.screens.order_model import file_name
from fieldapp.screens.review_model import review
from fieldapp.screens.screen import Screen
from fieldapp.theme import GRID, MARGIN, Look
from fieldapp.words import say
from measure.documents import dump
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_HEIGHT = 420
BINNED = "binned"
"""The draft of the list of jobs that names the one put in the bin last, to bring it back."""


class JobMenuScreen(Screen):
    """job: one of this book; a guest has no such page."""

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app)
        self.id = job
        self.card = next((card for card in app.desk.jobs() if card.id == job), None)
        self.name = self.card.name if self.card else app.desk.job(job).name
        self.title = self.name
        self._asks = False

    def view(self) -> ft.Control:
        full = self.app.look
        look = full.on(DETAIL if full.wide else min(full.width, WIDEST))
        head = title_head(full if full.wide else look, self.name, say("jobs.menu"), say("app.back"), lambda _: self.app.back())
        rows = [
            self._to("jobs.menu_review", "review"), self._to("change.row", "plan"), self._to("jobs.menu_order", "order"),
            open_row(look, say("jobs.menu_copy"), sentence=say("jobs.menu_copy_told"), on_click=self._copy, least=0),
        ]  # fmt: skip
        told = [inset(facts(look, job_facts(self.card), look.ink), bottom=MARGIN)] if self.card else []
        work = [*told, rule(look, look.line), *rows, gap(20), *self._bin(), gap(MARGIN)]
        opens = main_action(look, say("jobs.menu_open"), lambda _: self.app.open_job(self.id), onward=True)
        if full.wide:
            right = page_sheet(look, [gap(MARGIN), *work], [opens], paper=full.leaf)
            return Spread(full, head, self._picture(full.on(full.width - DETAIL)), right).control
        page = page_sheet(look, [head, *work], [opens])
        side = (full.width - look.width) / 2
        return ft.Container(page, padding=ft.Padding.symmetric(horizontal=side), bgcolor=full.paper, expand=True)

    def _picture(self, look: Look) -> list[ft.Control]:
        """The whole railing with its verdicts, where it can be drawn."""
        try:
            live = self.app.desk.job(self.id)
        except SpanbookError:  # a later version wrote it: it can be put in the bin all the same
            return []
        found = review(live)
        if len(live.plan.bays) > MOST_IN_PICTURE:
            return []
        picture = PlanPicture(look, look.width, _HEIGHT, PlanWords(say("review.deck"), say("review.wall")), signs=True)
        runs = [
            PlanRun(run.name, tuple(PlanBay(b.tag, b.spacing, b.sign, b.glass, say("review.gate"), b.says) for b in run.bays), run.turn, run.left, run.right)  # type: ignore[arg-type]
            for run in found.plan
        ]  # fmt: skip
        picture.show(runs, found.plan_says)
        return [gap(MARGIN), picture.control, inset(ft.Row([tally(look, list(found.tallies))], wrap=True), top=MARGIN)]

    def _to(self, words: str, page: str) -> ft.Control:
        return open_row(self.app.look, say(words), on_click=lambda _: self.app.go(page, job=self.id))

    def _bin(self) -> list[ft.Control]:
        """First asked, then done; the answer that keeps it stands first."""
        look = self.app.look
        if self.app.host.connection.guest:
            return []
        if not self._asks:
            return [inset(column([small_action(look, say("jobs.to_bin"), self._ask)]), GRID, GRID)]
        words = text(look, say("jobs.bin_asks", name=self.name), "body", bold=True)
        stay = action(look, say("jobs.bin_no"), self._ask, height=56, role="body")
        go = action(look, say("jobs.bin_yes"), self._remove, height=56, role="body")
        return [small_band(look, "query", column([words, side_by_side(look, stay, go)], 12))]

    def _ask(self, event: ft.Event[ft.Control]) -> None:
        self._asks = not self._asks
        self.app.redraw()

    async def _remove(self, event: ft.Event[ft.Control]) -> None:
        await self.app.desk.remove_job(self.id)
        self.app.keep_draft_of(BINNED, self.id, ROUTES["jobs"].address())
        self.app.follow("jobs")  # Back leads nowhere into a job that is in the bin
        self.app.go("jobs")

    async def _copy(self, event: ft.Event[ft.Control]) -> None:
        """The whole job as a file, for another device or to keep."""
        await self.app.host.files.save(file_name(self.name, "job.json"), dump(self.app.desk.words(self.id)))
        self.app.desk.was_copied(self.id)
        self._look_again()
        self.app.tell(say("jobs.menu_copied"), "clear")

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "jobs", f"job {self.id}", "everything"):
            self._look_again()

    def _look_again(self) -> None:
        self.card = next((card for card in self.app.desk.jobs() if card.id == self.id), None)
        self.app.redraw()
