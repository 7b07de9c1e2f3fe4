"""This phone: ready with no signal, newer versions, room, copies. Only where the app runs alone in a browser."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import replace
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.hosts.keeping import Keeper
from fieldapp.parts.head import title_head
from fieldapp.parts.page import page_sheet
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap
from fieldapp.parts.verdict import sign
from fieldapp.screens.copy_all import copy_all
from fieldapp.screens.phone_model import Copied, Do, Line, lines, pressing
from fieldapp.screens.screen import Screen
from fieldapp.theme import GRID
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App


class PhoneScreen(Screen):
    """A line a thing; a tap does what the line says."""

    title = say("phone.title")
    up = ("settings", {})

    def __init__(self, app: App) -> None:
        super().__init__(app)
        if app.host.keeper is None:
            raise SpanbookError(say("app.no_such_page"))
        self._keeper: Keeper = app.host.keeper

    def view(self) -> ft.Control:
        look, version = self.app.look, self._keeper.keeping.version
        head = title_head(look, say("phone.title"), say("phone.version", version=version), say("app.back"), lambda _: self.app.back())
        rows = [line_row(self.app, line, self._doing(line.do)) for line in lines(self._keeper.keeping, copies(self.app))]
        rows.append(open_row(look, say("guide.phone"), sentence=say("phone.guide_under"), least=0, on_click=lambda _: self.app.go("guide", page="phone")))
        return page_sheet(look, [head, *rows, gap(GRID)], [])

    def shown(self) -> None:
        self.app.run(self._keeper.look_again)

    def on_change(self, topics: frozenset[str]) -> None:
        """What reached the office counts as a copy."""
        self.app.redraw()

    def _doing(self, do: Do) -> Callable[[], object] | None:
        """What a tap does; None where the line only tells."""
        acts: dict[str, Callable[[], Awaitable[object]]] = {
            "understood": self._understood, "newer": self._keeper.take_newer, "again": self._keeper.look_again, "stay": self._stay,
            "install": self._keeper.install, "copy": lambda: copy_all(self.app),
        }  # fmt: skip
        return (lambda: self.app.run(acts[do])) if do else None

    async def _understood(self) -> None:
        await self._keeper.understood()
        self.app.redraw()

    async def _stay(self) -> None:
        promised = await self._keeper.ask_to_stay()
        self.app.tell(say("phone.kept_longer" if promised else "phone.not_promised"))


def copies(app: App) -> list[Copied]:
    """How the copies of all jobs stand."""
    return [Copied(card.copied_at, card.copy_is_old) for card in app.desk.jobs()]


def pressing_row(app: App) -> list[ft.Control]:
    """For the list of jobs: the one thing about this phone that cannot wait, a tap leads to the rest; empty when all is well."""
    line = pressing(app.host.keeper.keeping, copies(app)) if app.host.keeper else None
    if line is not None and line.do == "newer":  # a tap here does not take it yet
        line = replace(line, under=say("phone.newer_there"))
    return [line_row(app, line, lambda: app.go("phone"))] if line else []


def line_row(app: App, line: Line, act: Callable[[], object] | None) -> ft.Control:
    look = app.look
    tapped = (lambda _: act()) if act else None
    return open_row(look, line.words, sentence=line.under, picture=sign(look, line.sign, 48, 40), least=0, on_click=tapped)
