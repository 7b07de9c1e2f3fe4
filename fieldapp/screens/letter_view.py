"""A letter as it is shown: its QR code, and the same as text to send."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import small_action
from fieldapp.parts.space import inset
from fieldapp.parts.text import text
from fieldapp.screens.hand_over import hand_over
from fieldapp.screens.share_model import qr
from fieldapp.theme import EDGE, GRID
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App

_SIDE = 300


def letter_view(app: App, content: str, do: str) -> list[ft.Control]:
    """content: what the code says. do: what to do with it."""
    look = app.look
    send = small_action(look, say("letter.send"), lambda _: app.run(hand_over, app, (), content))
    picture = ft.Image(src=qr(content), width=_SIDE, height=_SIDE, semantics_label=say("letter.qr_says"))
    whole = ft.Semantics(identifier="letter", container=True, content=text(look, content, "note", look.ink2, selectable=True))
    return [
        inset(text(look, do, "body"), top=GRID), inset(ft.Row([picture], alignment=ft.MainAxisAlignment.CENTER), top=GRID),
        inset(text(look, say("letter.text"), "note", bold=True), top=GRID), inset(whole), inset(send, EDGE, EDGE, top=GRID),
    ]  # fmt: skip


def link_to(app: App, route: str, letter: str) -> str:
    """The address at which another phone opens this letter: that of this very app, as phones find it. route: `letter` or `answer`."""
    sharing, page = app.desk.sharing, app.page.url or ""
    start = sharing.address if sharing is not None else page.split("#")[0].split("?")[0].removesuffix("index.html")
    alone = app.host.connection.host == "alone"
    return f"{start.rstrip('/')}/{'#/' if alone else ''}{route}/{letter}" if start.startswith("http") else letter
