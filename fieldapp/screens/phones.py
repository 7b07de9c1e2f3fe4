"""Spanbook on a phone: beside the serving machine, make the folder for phones, show where a phone opens it, what to do there."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.hosts.phone_app import PhoneApp
from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.guide_pictures import filling_bay, ring
from fieldapp.parts.head import title_head
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.stroke import drawing
from fieldapp.parts.text import heading, text
from fieldapp.parts.verdict import sign, small_band
from fieldapp.screens.phones_model import PhonesView, Step, phones_view
from fieldapp.screens.screen import Screen
from fieldapp.screens.share_model import qr
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_QR, _PICTURE = 232, 150


class PhonesScreen(Screen):
    """For the owner of a serving machine only."""

    title = say("phones.title")
    up = ("settings", {})

    def __init__(self, app: App) -> None:
        super().__init__(app)
        if app.host.phone_app is None:
            raise SpanbookError(say("app.no_such_page"))
        self._phone_app: PhoneApp = app.host.phone_app

    def view(self) -> ft.Control:
        look, found = self.app.look, phones_view(self._phone_app.handing)
        head = title_head(look, say("phones.title"), say("phones.under"), say("app.back"), lambda _: self.app.back())
        work = [head, *self._picture(found), *self._standing(found), *self._address(found), *(self._step(s) for s in found.steps)]
        if found.here:
            work.append(inset(text(look, found.here, "note", look.ink2, selectable=True), top=MARGIN))
        kind = main_action if found.main else small_action
        actions = [kind(look, found.action, lambda _: self._make())] if found.action else []
        return mid_sheet(look, [*work, gap(MARGIN)], actions)

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "phone-app", "everything") or any(topic.startswith("people ") for topic in topics):
            self.app.redraw()

    def _make(self) -> None:
        self._phone_app.make()
        self.app.redraw()

    def _picture(self, found: PhonesView) -> list[ft.Control]:
        look = self.app.look
        if found.address:
            return []
        width = mid(look).width
        share = 0.5 if found.making else 1.0 if found.here else 0.0
        return [drawing(filling_bay(share)(look, width, _PICTURE), width, _PICTURE), gap(GRID)]

    def _standing(self, found: PhonesView) -> list[ft.Control]:
        look = self.app.look
        words = [text(look, found.words, "lead", bold=True)]
        if found.under:
            words.append(text(look, found.under, "body"))
        if found.sign is None:
            told = column(words, 4)
        else:
            told = ft.Row(
                [sign(look, found.sign, 48, 40), column(words, 4, expand=1)],
                spacing=12,
                vertical_alignment=ft.CrossAxisAlignment.START,
            )
        return [
            inset(
                ft.Semantics(identifier="told-phones", container=True, live_region=found.making, content=told),
                top=GRID,
                bottom=GRID,
            )
        ]

    def _address(self, found: PhonesView) -> list[ft.Control]:
        look = self.app.look
        if not found.address:
            return []
        picture = ft.Image(
            src=qr(found.address), width=_QR, height=_QR, semantics_label=say("phones.qr_says", address=found.address)
        )
        address = ft.Semantics(
            identifier="address", container=True, content=text(look, found.address, "lead", bold=True, selectable=True)
        )
        rows: list[ft.Control] = [
            inset(address), inset(ft.Row([picture], alignment=ft.MainAxisAlignment.CENTER), top=12, bottom=MARGIN)
        ]  # fmt: skip
        if found.warning:
            body = column(
                [text(look, found.warning[0], "body", bold=True), *(text(look, w, "body") for w in found.warning[1:])],
                4,
                expand=1,
            )
            rows += [small_band(look, "query", body), gap(MARGIN)]
        return rows

    def _step(self, step: Step) -> ft.Control:
        look = self.app.look
        words = column([heading(look, step.words), text(look, step.why, "body")], 0, expand=1)
        row = ft.Row([ring(look, step.number), words], spacing=12, vertical_alignment=ft.CrossAxisAlignment.START)
        return inset(row, bottom=12)
