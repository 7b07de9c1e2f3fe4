"""The guide: one picture a page, right places solid, wrong places open; read in the app, no network."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts import guide_phones, guide_pictures, reading_pictures
from fieldapp.parts.action import main_action
from fieldapp.parts.head import title_head
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.stroke import Shapes, drawing
from fieldapp.parts.text import text
from fieldapp.parts.verdict import sign
from fieldapp.screens.guide_model import GuidePage, Line, guide_page, keys
from fieldapp.screens.screen import Screen
from fieldapp.theme import MARGIN, Look
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

Draw = Callable[[Look, float, float], Shapes]
_PICTURES: dict[str, tuple[Draw, float]] = {
    "tape": (guide_pictures.foot_of_post, 350),
    "rise": (guide_pictures.straightedge_over_posts, 300),
    "glass": (guide_pictures.filling_bay(0.7), 150),
    "phone": (guide_phones.onto_the_phone, 206),
    "keeps": (guide_phones.what_it_keeps, 206),
    "site": (guide_phones.both_ends_of_the_day, 206),
}
_SMALL: dict[str, Draw] = {"second": reading_pictures.second_tape, "moved": reading_pictures.moved_post}


class GuideScreen(Screen):
    """One page; the main action leads on."""

    def __init__(self, app: App, page: str = "tape") -> None:
        super().__init__(app)
        if page not in keys():
            raise SpanbookError(say("app.no_such_page"))
        self.key = page

    def view(self) -> ft.Control:
        look, page = self.app.look, guide_page(self.key)
        head = title_head(look, page.title, page.under, say("guide.back"), lambda _: self.app.back())
        rows: list[ft.Control] = [head, *self._picture(page)]
        rows += [inset(self._line(line), bottom=12) for line in page.lines]
        return mid_sheet(look, [*rows, gap(MARGIN)], [main_action(look, page.onward, lambda _: self._onward(page), onward=True)])

    def _picture(self, page: GuidePage) -> list[ft.Control]:
        look = self.app.look
        width = mid(look).width
        if page.key in _PICTURES:
            draw, height = _PICTURES[page.key]
            return [drawing(draw(look, width, height), width, height, page.says), gap(MARGIN)]
        if page.key in _SMALL:  # drawn for a row of 92 by 60: shown at its own size, in the middle
            small = drawing(_SMALL[page.key](look, 92, 60), 92, 60, page.says)
            return [ft.Container(ft.Container(small, scale=2.2), height=150, alignment=ft.Alignment.CENTER), gap(MARGIN)]
        return [gap(MARGIN)]

    def _line(self, line: Line) -> ft.Control:
        look = self.app.look
        placed = line.mark in ("right", "wrong")
        mark = guide_pictures.ring(look, line.number, line.mark == "right") if placed else sign(look, line.mark, 56, 42)  # type: ignore[arg-type]
        ink = None if line.mark != "wrong" else look.ink2
        words = column([text(look, line.words, "body", bold=True), text(look, line.why, "body", ink)], 0, expand=1)
        return ft.Row([mark, words], spacing=12, vertical_alignment=ft.CrossAxisAlignment.START)

    def _onward(self, page: GuidePage) -> None:
        if page.after is None:
            self.app.go("jobs")
        else:
            self.key = page.after
            self.app.follow("guide", page=page.after)
            self.app.redraw()
