"""One page of the book: the work above, what the thumb needs below. On a wide screen: list and detail side by side."""

from __future__ import annotations

import flet as ft

from fieldapp.parts.space import column, inset
from fieldapp.theme import EDGE, GRID, LINE, Look

DETAIL = 468
"""Width of the right-hand page on a wide screen, at 1280 px."""
COLUMN = 560
"""A page of words, or of one question, is no wider on any screen."""
LEAST_HIGH = 553
"""What a page with keys needs, in pixels."""


def reached(look: Look, page: ft.Container, high: float = LEAST_HIGH) -> ft.Container:
    """A page with keys as it is; on a phone that lies on its side it is scrolled, so that Keep can be reached."""
    if look.height >= LEAST_HIGH:
        return page
    page.expand, page.height = None, high
    return ft.Container(column([page], expand=True, scroll=ft.ScrollMode.AUTO), expand=True)


def page_sheet(
    look: Look,
    controls: list[ft.Control],
    actions: list[ft.Control] | None = None,
    scrolls: bool = True,
    keys: bool = False,
    ground: str | None = None,
    paper: str | None = None,
) -> ft.Container:
    """A page. actions: at the foot, the main one first. keys: the foot is a keypad and always stays whole.
    ground: what is seen below the last of the work, as the ground of a verdict's band that fills the page.
    paper: of the page itself; the detail of a wide screen is a leaf.

    Large text: all but the first action scrolls with the work. Low phones always scroll.
    """
    foot = list(actions or [])
    if look.big and not keys:
        controls = [*controls, *(inset(one, EDGE, EDGE, 8) for one in foot[1:])]
        foot, scrolls = foot[:1], True
    scrolls = scrolls or (look.low and not keys)
    work = column(controls, expand=True, scroll=ft.ScrollMode.AUTO if scrolls else None)
    bottom = column(foot, GRID)
    parts: list[ft.Control] = [ft.Container(work, bgcolor=ground, expand=True) if ground else work]
    if foot:
        parts.append(bottom if keys else inset(bottom, EDGE, EDGE, top=8))
    page = ft.Container(
        ft.SafeArea(column(parts, expand=True), expand=True, maintain_bottom_view_padding=True), bgcolor=paper or look.paper,
        expand=True, padding=ft.Padding.only(bottom=16 if foot else 0),
    )  # fmt: skip
    return reached(look, page) if keys else page


def mid(full: Look) -> Look:
    """The room that a page of words or of one question takes: the phone, or a column in the middle of a wide screen."""
    return full.on(min(full.width, COLUMN))


def mid_sheet(
    full: Look, controls: list[ft.Control], actions: list[ft.Control] | None = None, scrolls: bool = True, keys: bool = False, ground: str | None = None
) -> ft.Container:
    """`page_sheet` for what was drawn in the room of `mid(full)`, in its place on any screen."""
    sheet = page_sheet(mid(full), controls, actions, scrolls, keys, ground)
    return ft.Container(sheet, padding=ft.Padding.symmetric(horizontal=max(0.0, (full.width - COLUMN) / 2)), bgcolor=full.paper, expand=True)


class Spread:
    """Two facing pages on a wide screen: the list at the left, its detail at the right; on a phone one at a time.

    head: across both. `show` puts another detail there; `open` says which page a phone shows.
    """

    def __init__(
        self, look: Look, head: ft.Control, left: list[ft.Control], right: ft.Control | None = None, detail: float = DETAIL
    ) -> None:
        self._look = look
        self._detail = ft.Container(
            right, bgcolor=look.leaf if look.wide else look.paper, expand=look.wide is False, width=detail if look.wide else None,
            border=ft.Border.only(left=ft.BorderSide(LINE, look.line)) if look.wide else None, visible=look.wide,
        )  # fmt: skip
        self._list = ft.Container(column(left, scroll=ft.ScrollMode.AUTO, expand=True), expand=True)
        pages = ft.Row([self._list, self._detail], spacing=0, expand=True, vertical_alignment=ft.CrossAxisAlignment.STRETCH)
        self._head = ft.Container(head, border=ft.Border.only(bottom=ft.BorderSide(LINE, look.line)) if look.wide else None)
        self.control = ft.Container(
            ft.SafeArea(column([self._head, pages], expand=True), expand=True), bgcolor=look.paper, expand=True
        )

    def show(self, right: ft.Control) -> None:
        """Another detail. The caller updates `control`."""
        self._detail.content = right
        self.open(True)

    def open(self, detail: bool) -> None:
        """On a phone: show the detail (True) or the list. A wide screen always shows both."""
        if not self._look.wide:
            self._detail.visible, self._list.visible, self._head.visible = detail, not detail, not detail
