"""The band of the app itself, on every screen: one sentence, until it is closed or the next one comes. It never lies on a page's title."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from fieldapp.parts.action import action, sign_action
from fieldapp.parts.run_strip import Sign
from fieldapp.parts.text import text
from fieldapp.parts.verdict import sign
from fieldapp.theme import GRID, MARGIN, TOUCH, Look

To = tuple[str, Callable[[], object]]
"""What a tap in the band does: its words, and the way there."""


class Told:
    """Stands above the screen, which gives way; over a screen with keys, whose parts all have their place, it lies instead.

    control: the screen with the band.
    """

    def __init__(self, screen: ft.Control, close_says: str, update: Callable[[ft.Control], None]) -> None:
        self._close_says, self._update = close_says, update
        self.sentence, self._verdict, self._signed = "", "hold", False
        self._to: To | None = None
        self._above = ft.Container(visible=False)
        self._over = ft.Container(left=0, right=0, top=0, visible=False)
        self._band = self._above
        self.control = ft.Column([self._above, ft.Stack([screen, self._over], expand=True)], spacing=0, expand=True)

    def lie(self, top: float | None) -> None:
        """How far from the top it lies over the screen; None: it stands above it. To be drawn after."""
        self._band = self._above if top is None else self._over
        self._over.top = top or 0

    def say(self, sentence: str, look: Look, verdict: Sign = "hold", to: To | None = None, found: bool = False) -> None:
        """Say it, now. verdict: `clear` for good news. to: a call, with the way to follow it.

        found: it tells what was found at bays. That and good news have their sign before them where there is room.
        """
        self.sentence, self._verdict, self._to, self._signed = sentence, verdict, to, found or verdict == "clear"
        self.draw(look)
        self._update(self._band)

    def draw(self, look: Look) -> None:
        """The band in this look, without sending it."""
        for band in (self._above, self._over):
            band.visible = bool(self.sentence) and band is self._band
            band.content = None
        if not self.sentence:
            return
        ink, ground = look.verdict(self._verdict)
        before = [sign(look, self._verdict, 44, 32)] if self._signed and not look.big else []
        words = ft.Semantics(
            identifier="told", container=True, live_region=True,
            content=text(look, self.sentence, "body", ink, bold=True),
        )  # fmt: skip
        close = sign_action(look, ft.Icons.CLOSE, self._close_says, self._close, ink)
        follow = [action(look, self._to[0], self._follow, height=TOUCH, role="body")] if self._to else []
        row = ft.Row([*before, ft.Container(words, expand=True), *([] if look.big else follow), close], vertical_alignment=ft.CrossAxisAlignment.CENTER)
        lines = ft.Column([row, *follow], spacing=GRID, tight=True) if look.big and follow else row
        self._band.content = ft.SafeArea(lines, avoid_intrusions_bottom=False)
        self._band.bgcolor = ground
        self._band.border = ft.Border.only(bottom=ft.BorderSide(3, ink))
        air = 8 if self._band is self._above else 2  # what it lies on is not hidden by more than it needs
        self._band.padding = ft.Padding.only(left=MARGIN, right=4, top=air, bottom=air)

    def leave(self) -> None:
        """Another screen comes: what was wrong on the one before is not said there, good news and a call are. Sent with the screen."""
        if self._verdict != "clear" and self._to is None:
            self.sentence = ""

    def close(self) -> None:
        """Take it away."""
        self.sentence, self._band.visible = "", False
        self._update(self._band)

    def _follow(self, event: ft.Event[ft.Button]) -> None:
        if self._to is not None:
            self.close()
            self._to[1]()

    def _close(self, event: ft.Event[ft.IconButton]) -> None:
        self.close()
