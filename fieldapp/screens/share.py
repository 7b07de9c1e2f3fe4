"""Beside the serving machine: open a job to phones, its code as plates and as a QR code, who is here and who has to leave."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action, side_by_side, small_action
from fieldapp.parts.head import title_head
from fieldapp.parts.leaf import letter
from fieldapp.parts.page import Spread, mid_sheet, page_sheet
from fieldapp.parts.row import open_row
from fieldapp.parts.space import column, gap, inset, rule
from fieldapp.parts.text import heading, text
from fieldapp.screens.screen import Screen
from fieldapp.screens.share_model import Shared, qr, shared
from fieldapp.theme import EDGE, GRID, LINE, MARGIN, RADIUS
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_QR, _WIDE_QR = 232, 400
"""Side of the code on a phone, and on a desk, where it is scanned from further away."""
_BESIDE = 330
"""What stands above and below it there."""


class ShareScreen(Screen):
    """For the owner only: a guest, and a phone alone, have nothing to share from here."""

    title = say("share.title")

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app)
        if app.desk.sharing is None:
            raise SpanbookError(say("join.owners"))
        self.job, self.sharing, self.live = job, app.desk.sharing, app.desk.job(job)
        self.up = ("review", {"job": job})
        self._sure = ""
        """Whom the next tap puts out: the first one asks, so that a row which slides under the finger puts nobody out."""

    def view(self) -> ft.Control:
        look = self.app.look
        found = shared(self.sharing, self.app.desk.company, self.job)
        head = title_head(look, say("share.title"), self.live.name, say("app.back"), lambda _: self.app.back())
        if not found.address:
            switch = main_action(look, say("share.let_in"), lambda _: self._do(self.sharing.let_phones_in))
            return mid_sheet(look, [head, self._words("share.off"), self._words("share.off_how")], [switch])
        if not found.code:
            opens = main_action(look, say("share.open"), lambda _: self._do(self.sharing.open))
            return mid_sheet(look, [head, self._words("share.closed")], [opens])
        if not look.wide:
            return page_sheet(look, [head, *self._way_in(found), *self._people(found), gap(MARGIN)], [self._actions()])
        right = page_sheet(look, [*self._people(found), gap(MARGIN)], [self._actions()], paper=look.leaf)
        return Spread(look, head, [*self._way_in(found), gap(MARGIN)], right).control

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "everything", f"people {self.job}"):
            self.app.redraw()

    def _words(self, key: str) -> ft.Control:
        return inset(text(self.app.look, say(key), "lead"), top=MARGIN)

    def _way_in(self, found: Shared) -> list[ft.Control]:
        look = self.app.look
        plates = [
            ft.Container(
                text(look, sign, "figure", bold=True), bgcolor=look.leaf, border=ft.Border.all(LINE, look.line), height=84 * min(look.text, 1.4),
                border_radius=RADIUS, expand=True, alignment=ft.Alignment.CENTER,
            )
            for sign in found.code
        ]  # fmt: skip
        code = ft.Semantics(
            identifier="code", container=True, exclude_semantics=True, label=say("share.code_says", code=" ".join(found.code)), content=ft.Row(plates, spacing=GRID)
        )
        side = _QR if not look.wide else min(_WIDE_QR, look.height - _BESIDE)
        picture = ft.Image(src=qr(found.link), width=side, height=side, fit=ft.BoxFit.CONTAIN, semantics_label=say("share.qr_says", address=found.address))
        address = ft.Semantics(identifier="address", container=True, content=text(look, found.address, "lead", bold=True, selectable=True))
        rows = [
            inset(code, EDGE, EDGE, top=GRID), inset(ft.Row([picture], alignment=ft.MainAxisAlignment.CENTER), top=12),
            inset(address, top=GRID), inset(text(look, say("share.scan"), "body", look.ink2)),
        ]  # fmt: skip
        if not found.encrypted:
            rows.append(inset(text(look, say("share.plain"), "note", look.ink2), top=GRID))
        if found.warning:
            rows.append(inset(text(look, found.warning, "body", look.hold, bold=True), top=GRID))
        return rows

    def _people(self, found: Shared) -> list[ft.Control]:
        look = self.app.look
        self._outs: dict[str, ft.Button] = {}
        rows: list[ft.Control] = [inset(heading(look, say("share.here")), top=14, bottom=6), rule(look, look.line)]
        for one in found.people:
            out = self._outs[one.id] = small_action(look, self._out_words(one.id, one.name), lambda _, id=one.id: self._put_out(id))
            row = open_row(look, one.name, sentence=one.under, picture=letter(look, one.name[:1].upper()), least=60, says=f"{one.name}, {one.under}")
            rows += [row, inset(out, EDGE, EDGE, top=4, bottom=GRID)]
        return rows if found.people else [*rows, self._words("share.nobody")]

    def _actions(self) -> ft.Control:
        look = self.app.look
        renew = small_action(look, say("share.renew"), lambda _: self._do(self.sharing.renew))
        close = small_action(look, say("share.close"), lambda _: self._do(self.sharing.close))
        shut = [small_action(look, say("share.shut"), lambda _: self._do(self.sharing.shut_phones_out))]
        return column([side_by_side(look, renew, close), *(shut if self.sharing.line else [])], GRID)

    def _out_words(self, guest: str, name: str) -> str:
        return say("share.put_out_sure" if guest == self._sure else "share.put_out", name=name)

    def _put_out(self, guest: str) -> None:
        """The first tap turns the words where they stand: the page stays where it was scrolled to."""
        if guest == self._sure:
            self._do(self.sharing.put_out, guest)
            return
        self._sure = guest
        for one in self.sharing.guests(self.job):
            if one.id in self._outs:
                self._outs[one.id].content.value = self._out_words(one.id, one.name)
        self.update(*self._outs.values())

    def _do(self, work: Callable[[str], Awaitable[object]], of: str = "") -> None:
        """Do it, and show what came of it: word of own changes does not come back to a page."""

        async def doing() -> None:
            await work(of or self.job)
            self.app.redraw()

        self.app.run(doing)
