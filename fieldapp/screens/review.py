"""The review of a whole job: what stands in the way first, then the railing from above, then each run with its sum."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import asdict
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import action, main_action, side_by_side
from fieldapp.parts.finding_row import finding_row
from fieldapp.parts.head import title_head
from fieldapp.parts.ledger import LedgerLine
from fieldapp.parts.page import DETAIL, Spread, page_sheet
from fieldapp.parts.plan_picture import PlanBay, PlanPicture, PlanRun, PlanWords
from fieldapp.parts.row import open_row
from fieldapp.parts.run_block import run_block, shared_scale
from fieldapp.parts.run_strip import StripBay
from fieldapp.parts.space import column, gap, inset, rule
from fieldapp.parts.table import Column, Table, TableRow
from fieldapp.parts.text import text
from fieldapp.parts.verdict import tally
from fieldapp.screens.answer_view import spoken
from fieldapp.screens.looks_on import looks_on
from fieldapp.screens.office_model import office_view
from fieldapp.screens.ordered import ordered_row
from fieldapp.screens.present_model import letters_on, on_bays
from fieldapp.screens.review_model import RunView, review
from fieldapp.screens.screen import Screen
from fieldapp.screens.sides import sides_row
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say
from measure.conflict import CHECK

if TYPE_CHECKING:
    from fieldapp.app import App

RISES = 10
MOST_WAYS = 40
MOST_IN_PICTURE = 60
"""A larger job is seen run by run only: signs would stand on one another."""


class ReviewScreen(Screen):
    """One scroll on a phone; on a wide screen the table and the sums at the left, what stands in the way at the right."""

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app)
        self.job = job
        self.title = app.desk.job(job).name

    def view(self) -> ft.Control:
        self._look_again()
        self._parts = {name: column(made()) for name, made in self._made().items()}
        return self._wide() if self.app.look.wide else self._phone()

    def _look_again(self) -> None:
        company = self.app.desk.company
        self.found = review(self.app.desk.job(self.job), letters_on(company, self.job, self.app))
        self.others = on_bays(company, self.job, self.app)
        self.sides = len(self.app.desk.conflicts(self.job))
        office = self.app.host.office
        self.office = office_view(office.standing(self.job), self.app.host.clock.now()).row if office else ""

    def on_change(self, topics: frozenset[str]) -> None:
        """What changed is set where it stands, so that the page stays where it was scrolled to."""
        if not self.concerns(topics, "everything", *(f"{what} {self.job}" for what in ("job", "orders", "people", "office"))):
            return
        if "everything" in topics or self.app.look.big:
            self.app.redraw()
            return
        before = self._rests_on()
        self._look_again()
        changed = [name for name, what in self._rests_on().items() if what != before[name]]
        for name, made in self._made().items():
            if name in changed:
                self._parts[name].controls = made()
        self.update(*(self._parts[name] for name in changed))

    def _rests_on(self) -> dict[str, object]:
        """What each part of the page shows: one that is as before is left alone."""
        f = self.found
        return {
            "head": (f.title, f.under, self.others), "ways": (f.ways, f.heading, f.tallies, self.sides), "picture": (f.plan, f.plan_says),
            "table": f.rows if self.app.look.wide else (), "runs": f.runs, "cautions": f.cautions, "rows": self.office, "foot": (f.go, f.go_words, f.order_words),
        }  # fmt: skip

    # ---- pages ---------------------------------------------------------------------------------------------------------
    def _made(self) -> dict[str, Callable[[], list[ft.Control]]]:
        """What makes each part of the page."""
        look = self.app.look
        room = look.width - DETAIL if look.wide else look.width
        return {
            "head": lambda: [self._head()], "ways": self._ways, "picture": lambda: self._picture(room, 320 if look.wide else 300),
            "table": lambda: [inset(self._table(), top=GRID)] if look.wide else [], "runs": lambda: self._runs(room - 2 * MARGIN, each=not look.wide),
            "cautions": self._cautions, "rows": self._more_rows, "foot": lambda: [column(self._actions(), GRID)],
        }  # fmt: skip

    def _phone(self) -> ft.Control:
        part = self._parts
        work = [part["head"], part["ways"], part["picture"], part["runs"], part["cautions"], gap(GRID), part["rows"], gap(MARGIN)]
        return page_sheet(self.app.look, work, self._foot())

    def _wide(self) -> ft.Control:
        look, part = self.app.look, self._parts
        left: list[ft.Control] = [part["picture"], part["table"], part["runs"], gap(MARGIN)]
        right = page_sheet(look, [part["ways"], part["cautions"], gap(GRID), part["rows"]], self._foot(), paper=look.leaf)
        return Spread(look, part["head"], left, right).control

    def _foot(self) -> list[ft.Control]:
        """With large letters all but the first action scrolls with the work."""
        return self._actions() if self.app.look.big else [self._parts["foot"]]

    def _head(self) -> ft.Control:
        back = say("review.back")
        under = f"{self.found.under} · {self.others}" if self.others else self.found.under
        return title_head(self.app.look, self.found.title, under, back, lambda _: self.app.back())

    # ---- what stands in the way ----------------------------------------------------------------------------------------
    def _ways(self) -> list[ft.Control]:
        look, found = self.app.look, self.found
        heading = ft.Semantics(header=True, content=text(look, found.heading, "lead", bold=True))
        rows: list[ft.Control] = [inset(ft.Row([tally(look, list(found.tallies))], wrap=True), top=GRID if look.wide else 0, bottom=GRID), inset(heading, bottom=GRID)]
        told = any(way.check == CHECK for way in found.ways)  # else something worse stands before it at every place
        rows += [*([] if told else sides_row(self.app, self.job)), *ordered_row(self.app, self.app.desk.job(self.job))]
        for way in found.ways[:MOST_WAYS]:
            rows.append(finding_row(look, way.verdict, way.word, way.place, way.sentence, self._to(way.bay, way.check, way.run)))
        return rows

    def _to(self, bay: str, check: str, run: str) -> Callable[[object], None]:
        if check == CHECK:
            return lambda _: self.app.go("sides", job=self.job)
        return lambda _: self.app.go("walk", job=self.job, bay=bay)

    def _cautions(self) -> list[ft.Control]:
        look = self.app.look
        if not self.found.cautions:
            return []
        rows: list[ft.Control] = [rule(look), text(look, say("review.cautions"), "lead", bold=True)]
        rows += [text(look, sentence, "note", look.ink2) for sentence in self.found.cautions]
        return [inset(column(rows, GRID), top=MARGIN)]

    def _more_rows(self) -> list[ft.Control]:
        look = self.app.look
        rows: list[ft.Control] = []
        if not self.app.host.connection.guest:  # the plan is the owner's
            to_plan = lambda _: self.app.go("plan", job=self.job)  # noqa: E731
            rows.append(open_row(look, say("change.row"), "", say("change.row_told"), on_click=to_plan))
        if self.app.desk.sharing:
            to_share = lambda _: self.app.go("share", job=self.job)  # noqa: E731
            rows.insert(0, open_row(look, say("share.title"), "", say("review.second_phone"), on_click=to_share))
        if self.app.host.office:
            to_office = lambda _: self.app.go("office", job=self.job)  # noqa: E731
            rows.append(open_row(look, say("office.title"), "", self.office, on_click=to_office))
        return rows

    # ---- pictures and sums ---------------------------------------------------------------------------------------------
    def _picture(self, width: float, height: float) -> list[ft.Control]:
        look, found = self.app.look, self.found
        if sum(len(run.bays) for run in found.plan) > MOST_IN_PICTURE or len(found.plan) < 2:
            return []
        words = PlanWords(say("review.deck"), say("review.wall"))
        picture = PlanPicture(look, width, height, words, lambda tag: self.app.go("walk", job=self.job, bay=tag), signs=True)
        gate = say("review.gate")
        runs = [
            PlanRun(
                run.name, tuple(PlanBay(b.tag, b.spacing, b.sign, b.glass, gate, b.says, b.here) for b in run.bays), run.turn, run.left, run.right  # type: ignore[arg-type]
            )
            for run in found.plan
        ]  # fmt: skip
        picture.show(runs, found.plan_says)
        return [picture.control]

    def _runs(self, room: float, each: bool = False) -> list[ft.Control]:
        """Every run at one scale, its strip, its sum, and what is found of it. each: with the way to its bays."""
        look = self.app.look
        strips = [[StripBay(**asdict(part)) for part in run.bays] for run in self.found.runs]
        scale = shared_scale(strips, room)
        rows: list[ft.Control] = []
        for run, bays in zip(self.found.runs, strips, strict=True):
            sums = [LedgerLine(s.words, s.whole, s.fraction, s.mark) for s in run.sums]  # type: ignore[arg-type]
            factor, under = _drawn(run)
            block = run_block(
                look, run.title, under, bays, scale, None, factor, sums, run.closing, [run.sentence], room, run.says
            )  # fmt: skip
            rows += [inset(rule(look), top=MARGIN), block]
            if each:
                to_bays = lambda _, name=run.name: self.app.go("bays", job=self.job, run=name)  # noqa: E731
                rows.append(open_row(look, say("bays.row", run=run.name), on_click=to_bays))
        return rows

    def _table(self) -> ft.Control:
        names = ("bay", "span", "rise", "panel", "rack", "high", "by")
        widths = (52, 92, 72, 168, 72, 48, 52)
        columns = [Column(say(f"review.table_{n}"), w, "left" if n in ("bay", "high", "by") else "right") for n, w in zip(names, widths, strict=True)]
        table = Table(self.app.look, columns, lambda tag: self.app.go("walk", job=self.job, bay=tag))
        table.show([TableRow(r.tag, r.cells, r.sign if r.word else None, r.word, r.here) for r in self.found.rows])
        return ft.Row([table.control], scroll=ft.ScrollMode.AUTO)

    def _actions(self) -> list[ft.Control]:
        look, found = self.app.look, self.found
        order = lambda _: self.app.go("order", job=self.job)  # noqa: E731
        if looks_on(self.app):
            return [main_action(look, found.order_words if found.some_free else say("review.order_all"), order, onward=True)]
        back = action(look, say("review.read_back"), lambda _: self.app.go("readback", job=self.job), height=56, role="body")
        if found.go is None:
            return [main_action(look, say("review.order_all"), order, onward=True), back]
        go = main_action(look, found.go_words, self._to(found.go.bay, found.go.check, found.go.run), onward=True)
        some = spoken(action(look, found.order_words, order, height=56, role="body"), say("review.order_all"))
        return [go, side_by_side(look, some, back) if found.some_free else back]


def _drawn(run: RunView) -> tuple[float, str]:
    """How often the rises of a run are drawn, and the note that says so. A stair is drawn level: ten times would leave the page."""
    climb, length = sum(abs(part.rise) for part in run.bays), sum(part.span for part in run.bays)
    if climb * RISES > length / 2:
        return 0, run.under
    note = say("review.rises_drawn", n=RISES) if climb else say("review.level")
    return RISES, f"{run.under} · {note}"
