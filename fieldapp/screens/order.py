"""The order: one panel a leaf, what stays out, issue it, its files, and what has changed since it went out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.hosts.ports import PickedFile
from fieldapp.parts.action import action, main_action, side_by_side
from fieldapp.parts.head import title_head
from fieldapp.parts.leaf import badge
from fieldapp.parts.order_leaf import OrderLeaf, OrderPanel
from fieldapp.parts.page import DETAIL, Spread, page_sheet
from fieldapp.parts.panel_drawing import PanelShape, PanelWords
from fieldapp.parts.space import column, gap, inset, rule
from fieldapp.parts.table import Column, Table, TableRow
from fieldapp.parts.text import text
from fieldapp.parts.verdict import sign, small_band, verdict_band
from fieldapp.screens.hand_over import hand_over
from fieldapp.screens.order_model import ChangeView, IssuedView, OutLine, PanelView, file_name, order_view
from fieldapp.screens.ordered import all_issued
from fieldapp.screens.screen import Screen
from fieldapp.screens.sides import sides_row
from fieldapp.theme import GRID, MARGIN, TOUCH
from fieldapp.words import say
from measure.documents import dump
from measure.order import Order
from measure.order_files import order_bytes

if TYPE_CHECKING:
    from fieldapp.app import App

MOST_CHANGES = 8


class OrderScreen(Screen):
    """The panel that is open is kept as this screen's draft."""

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app)
        self.job = job
        self.live = app.desk.job(job)
        self.title = self.live.name
        self.up = ("review", {"job": job})
        self._files_of: tuple[Order, dict[str, bytes]] | None = None
        self.at = int(app.draft) if app.draft.isdecimal() else 0

    def view(self) -> ft.Control:
        self.order = self.app.desk.order(self.job)
        self.found = order_view(self.order)
        self.issued = all_issued(self.app, self.live)
        last = self.issued[-1] if self.issued else None
        self._otherwise = last is not None and (bool(last.changed) or any(p.tag not in last.tags for p in self.found.panels))
        self.at = min(self.at, max(len(self.found.panels) - 1, 0))
        self._leaf = ft.Container()
        self._fill_leaf()
        return self._wide() if self.app.look.wide else self._phone()

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "everything", f"job {self.job}", f"orders {self.job}"):
            self.app.redraw()

    def on_key(self, event: ft.KeyboardEvent) -> None:
        if event.key in ("Arrow Left", "Arrow Right"):
            self._turn(-1 if event.key == "Arrow Left" else 1)

    # ---- pages ---------------------------------------------------------------------------------------------------------
    def _head(self) -> ft.Control:
        last = self.issued[-1] if self.issued else None
        title = last.title if last else say("order.title")
        under = last.under if last else say("order.under", job=self.live.name)
        tail = [badge(self.app.look, say("order.frozen"), ft.Icons.LOCK_OUTLINE)] if last else []
        return title_head(self.app.look, title, under, say("order.back"), lambda _: self.app.back(), tail)

    def _phone(self) -> ft.Control:
        work = [self._head(), *self._sides(), *self._since(), *self._as_now(), self._leaf, *self._totals(), *self._out(), *self._warned(), *self._files(), gap(MARGIN)]
        return page_sheet(self.app.look, work, self._actions())

    def _wide(self) -> ft.Control:
        look = self.app.look
        left = [*self._sides(), *self._since(), *self._as_now(), *([inset(self._table(), top=GRID)] if self.found.panels else []), *self._totals(), *self._out(), *self._warned(), *self._files(), gap(MARGIN)]
        right = page_sheet(look, [self._leaf, gap(GRID)], self._actions(), paper=look.leaf)
        return Spread(look, self._head(), left, right).control

    def _table(self) -> ft.Control:
        names = (("panel", 76), ("width", 140), ("left", 130), ("right", 130), ("rack_row", 110), ("high_row", 90))
        columns = [Column(say("order.panel", tag="").strip() if n == "panel" else say(f"order.{n}"), w, "left" if n in ("panel", "high_row") else "right") for n, w in names]
        self._rows = Table(self.app.look, columns, self._open)
        self._show_rows()
        return ft.Row([self._rows.control], scroll=ft.ScrollMode.AUTO)

    def _show_rows(self) -> None:
        signs = {change.tag: change.sign for change in self.issued[-1].changed} if self.issued else {}
        rows = [
            TableRow(p.tag, (p.tag, *p.figures, p.high), signs.get(p.tag), say("order.differs") if p.tag in signs else "")
            for p in self.found.panels
        ]
        self._rows.show(rows, self.found.panels[self.at].tag if self.found.panels else None)

    def _as_now(self) -> list[ft.Control]:
        """What stands below is not what went out: it is said."""
        look = self.app.look
        return [inset(text(look, say("order.as_now"), "lead", bold=True), top=MARGIN, bottom=GRID)] if self._otherwise else []

    # ---- one panel -----------------------------------------------------------------------------------------------------
    def _fill_leaf(self) -> None:
        look = self.app.look
        if not self.found.panels:
            self._leaf.content = inset(text(look, say("order.none"), "body", look.ink2), top=MARGIN)
            return
        paper = look.on(DETAIL, look.height) if look.wide else look
        shown = OrderLeaf(paper, self._turn, say("order.before"), say("order.after"))
        panel = self.found.panels[self.at]
        if self.issued and panel.tag in self.issued[-1].differs:
            panel = replace(panel, under=say("order.differs_from", under=panel.under, number=self.issued[-1].number))
        shown.show(_leaf_of(panel))
        self._leaf.content = shown.control

    def _turn(self, by: int) -> None:
        if self.found.panels:
            self._set((self.at + by) % len(self.found.panels))

    def _open(self, tag: str) -> None:
        self._set(next(i for i, p in enumerate(self.found.panels) if p.tag == tag))

    def _set(self, at: int) -> None:
        self.at = at
        self.app.keep_draft(str(at))
        self._fill_leaf()
        if self.app.look.wide:
            self._show_rows()
            self.update(self._rows.control)
        self.update(self._leaf)

    # ---- totals, what stays out, cautions ------------------------------------------------------------------------------
    def _sides(self) -> list[ft.Control]:
        """What two sides said differently, where no line below tells of it."""
        return [] if any(line.sides for line in self.found.left_out) else sides_row(self.app, self.job)

    def _totals(self) -> list[ft.Control]:
        look = self.app.look
        if not self.found.panels:
            return []
        row = ft.Row([text(look, self.found.count, bold=True), text(look, self.found.totals)], alignment=ft.MainAxisAlignment.SPACE_BETWEEN, wrap=True)
        return [inset(row, top=12, bottom=GRID)]

    def _out(self) -> list[ft.Control]:
        look = self.app.look
        if not self.found.left_out:
            return []
        rows: list[ft.Control] = [text(look, say("order.stays_out"), bold=True)]
        rows += [self._out_line(line) for line in self.found.left_out]
        return [inset(column(rows, 0), top=MARGIN, bottom=GRID)]

    def _out_line(self, line: OutLine) -> ft.Control:
        """A line to tap, to where it is settled."""
        look = self.app.look
        row = ft.Row([sign(look, line.sign, 36, 27), text(look, line.sentence, "note", expand=True)], spacing=10)
        if line.sides or not line.tag:
            to = lambda _: self.app.go("sides", job=self.job)  # noqa: E731
        else:
            to = lambda _: self.app.go("walk", job=self.job, bay=line.tag)  # noqa: E731
        body = ft.Container(row, on_click=to, padding=ft.Padding.symmetric(vertical=(TOUCH - 27) / 2))
        return ft.Semantics(button=True, container=True, content=body)

    def _warned(self) -> list[ft.Control]:
        look = self.app.look
        if not self.found.cautions:
            return []
        rows: list[ft.Control] = [rule(look), text(look, say("order.cautions"), bold=True)]
        return [inset(column(rows + [text(look, c, "note", look.ink2) for c in self.found.cautions], GRID), top=GRID)]

    # ---- issued orders and what changed --------------------------------------------------------------------------------
    def _since(self) -> list[ft.Control]:
        if not self.issued:
            return []
        look, last = self.app.look, self.issued[-1]
        if not last.changed:
            return [small_band(look, "clear", column([text(look, last.heading, bold=True), text(look, last.mark, "note", look.ink2)], 4))]
        heading = inset(text(look, last.heading, "lead", bold=True), top=GRID, bottom=GRID)
        return [heading, *(self._changed(c) for c in last.changed[:MOST_CHANGES])]

    def _changed(self, change: ChangeView) -> ft.Control:
        look = self.app.look
        names, shares = ("", say("order.ordered"), say("order.now"), say("order.apart")), (21, 22, 22, 20)
        cells = [[text(look, n, "note", look.ink2) for n in names], *([text(look, c, "note", bold=i == 0) for i, c in enumerate(row)] for row in change.rows)]
        lines: list[ft.Control] = [
            ft.Row(
                [ft.Container(c, expand=shares[i], alignment=ft.Alignment.CENTER_RIGHT if i else ft.Alignment.CENTER_LEFT) for i, c in enumerate(line)],
                spacing=6,
            )
            for line in cells
        ]  # fmt: skip
        if look.big:  # side by side, large figures would break apart
            lines = [text(look, say("order.row_told", what=what, was=was, now=now, apart=apart)) for what, was, now, apart in change.rows]
        table = column(list(lines), 4) if change.rows else gap(0)
        word = say(f"review.verdict_{change.sign}")
        return verdict_band(look, change.sign, word, change.sentence, [table])

    # ---- files ---------------------------------------------------------------------------------------------------------
    def _files(self) -> list[ft.Control]:
        look = self.app.look
        rows: list[ft.Control] = [rule(look), text(look, say("order.files"), bold=True)]
        if self.found.panels and not self.issued:
            rows.append(self._downloads(self._made, ""))
        for one in reversed(self.issued):
            rows.append(text(look, f"{one.title}, {one.under}", "note", look.ink2))
            rows.append(self._downloads(lambda o=one: self.app.desk.order_files(o.order_no, o.revision), f" {one.number}"))  # type: ignore[misc]
        job = action(look, file_name(self.live.name, "job.json"), lambda _: self.app.run(self._save_job), height=48, role="note")
        share = action(look, say("order.share_job"), lambda _: self.app.run(self._share_job), height=48, role="note")
        rows += [side_by_side(look, job, share)]
        return [inset(column(rows, GRID), top=GRID)]

    def _made(self) -> dict[str, bytes]:
        """The files of the order as it would go out now, made once: a browser opens its share sheet only soon after a tap."""
        if self._files_of is None or self._files_of[0] is not self.order:
            self._files_of = (self.order, order_bytes(self.order))
        return self._files_of[1]

    def _downloads(self, files: Callable[[], dict[str, bytes]], after: str) -> ft.Control:
        look = self.app.look
        names = ("order.csv", "order.html", "order-summary.csv", "order-head.csv", "order.schema.json")
        keys = [action(look, f"{name}{after}", lambda _, n=name: self.app.run(self._save, n, files), height=48, role="note") for name in names]
        share = action(look, say("order.share"), lambda _: self.app.run(self._share, files), height=48, role="note")
        pairs = [side_by_side(look, *keys[i : i + 2]) for i in range(0, 4, 2)]
        return column([*pairs, side_by_side(look, keys[4], share)], GRID)

    async def _save(self, name: str, files: Callable[[], dict[str, bytes]]) -> None:
        await self.app.host.files.save(name, files()[name])

    async def _share(self, files: Callable[[], dict[str, bytes]]) -> None:
        given = [PickedFile(name, data) for name, data in files().items() if name.endswith((".csv", ".html"))]
        await hand_over(self.app, given, self.live.name)

    def _job_file(self) -> PickedFile:
        return PickedFile(file_name(self.live.name, "job.json"), dump(self.app.desk.words(self.job)))

    async def _save_job(self) -> None:
        file = self._job_file()
        await self.app.host.files.save(file.name, file.data)
        self.app.desk.was_copied(self.job)

    async def _share_job(self) -> None:
        if await hand_over(self.app, [self._job_file()], self.live.name):
            self.app.desk.was_copied(self.job)

    # ---- issue ---------------------------------------------------------------------------------------------------------
    def _actions(self) -> list[ft.Control]:
        look = self.app.look
        last: IssuedView | None = self.issued[-1] if self.issued else None
        if not self.found.panels:
            return [main_action(look, say("order.to_review"), lambda _: self.app.go("review", job=self.job))]
        if last is not None and not self._otherwise:
            return []
        words = say("order.issue") if last is None else last.change
        return [main_action(look, f"{words} …", lambda _: self.app.go("issue", job=self.job))]


def _leaf_of(panel: PanelView) -> OrderPanel:
    width, left, right, rack = panel.figures
    words = PanelWords(panel.tag, width, left, right, say("order.rack", rack=rack), say("order.high_end"))
    shape = PanelShape(panel.width, panel.left, panel.right, panel.rack, panel.high)  # type: ignore[arg-type]
    drawn = lambda times: say("order.drawn", n=times) if times > 1 else ""  # noqa: E731
    return OrderPanel(panel.title, panel.under, shape, words, panel.seen, drawn, panel.facts, panel.says)
