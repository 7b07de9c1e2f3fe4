"""Jobs from phones: beside the office's machine, the code with which phones send their jobs, and where."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action, side_by_side, small_action
from fieldapp.parts.head import title_head
from fieldapp.parts.leaf import leaf
from fieldapp.parts.page import mid_sheet
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import heading, text
from fieldapp.screens.office_model import when
from fieldapp.screens.screen import Screen
from fieldapp.theme import EDGE, GRID, MARGIN
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App
    from fieldapp.intake import Intake


class IntakeScreen(Screen):
    """For the owner of a serving machine only."""

    title = say("intake.title")
    up = ("settings", {})

    def __init__(self, app: App) -> None:
        super().__init__(app)
        if app.host.intake is None:
            raise SpanbookError(say("app.no_such_page"))
        self._intake: Intake = app.host.intake

    def view(self) -> ft.Control:
        look = self.app.look
        head = title_head(look, say("intake.title"), "", say("app.back"), lambda _: self.app.back())
        if self._intake.code:
            work = [head, *self._open(), *self._came()]
            renew = small_action(look, say("intake.renew"), lambda _: self._do(self._intake.renew))
            actions: list[ft.Control] = [
                side_by_side(look, renew, small_action(look, say("intake.close"), lambda _: self._do(self._intake.close)))
            ]
        else:
            work = [head, self._words(say("intake.off"), bold=True), self._words(say("intake.off_how")), *self._came()]
            actions = [main_action(look, say("intake.open"), lambda _: self._do(self._intake.open))]
        return mid_sheet(look, [*work, gap(MARGIN)], actions)

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "intake", "everything") or any(topic.startswith("people ") for topic in topics):
            self.app.redraw()

    def _open(self) -> list[ft.Control]:
        look, sharing = self.app.look, self.app.desk.sharing
        address, code = sharing.address if sharing else "", self._intake.code
        shown = f"{code[:4]} {code[4:]}"
        plate = leaf(look, [ft.Row([text(look, shown, "figure", bold=True)], alignment=ft.MainAxisAlignment.CENTER)], margin=EDGE)
        spoken = ft.Semantics(
            identifier="code",
            container=True,
            exclude_semantics=True,
            label=say("intake.code_says", code=" ".join(code)),
            content=plate,
        )
        rows: list[ft.Control] = [inset(heading(look, say("intake.code")), top=14, bottom=6), spoken]
        if address:
            where = ft.Semantics(
                identifier="address", container=True, content=text(look, address, "lead", bold=True, selectable=True)
            )
            rows += [inset(heading(look, say("intake.address")), top=MARGIN, bottom=2), inset(where)]
        else:
            rows += [self._words(say("phones.unreached"), bold=True), self._words(say("phones.unreached_how"))]
        rows.append(self._words(say("intake.on_phone")))
        notes = ["intake.join_code", "intake.elsewhere", *([] if address.startswith("https:") else ["intake.plain"])]
        return [*rows, *(inset(text(look, say(key), "note", look.ink2), top=GRID) for key in notes)]

    def _came(self) -> list[ft.Control]:
        """What came in, each leads to its job; one that was thrown away since is only told."""
        look, now = self.app.look, self.app.host.clock.now()
        here = {card.id for card in self.app.desk.jobs()}
        rows: list[ft.Control] = []
        for one in self._intake.came:
            opens = (lambda _, job=one.job: self.app.open_job(job)) if one.job in here else None
            rows.append(
                open_row(look, one.name, when(one.at, now), say("intake.readings", n=one.readings), least=60, on_click=opens)
            )
        return [inset(heading(look, say("intake.came")), top=MARGIN, bottom=6), rule(look, look.line), *rows] if rows else []

    def _words(self, words: str, bold: bool = False) -> ft.Control:
        return inset(text(self.app.look, words, "lead" if bold else "body", bold=bold), top=MARGIN if bold else GRID)

    def _do(self, work: Callable[[], Awaitable[object]]) -> None:
        """Do it, and show what came of it: word of own changes does not come back to a page."""

        async def doing() -> None:
            await work()
            self.app.redraw()

        self.app.run(doing)
