"""The band on top of every screen: one sentence from the app itself, until it is closed or the next one comes."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from fieldapp.parts.action import sign_action
from fieldapp.parts.run_strip import Sign
from fieldapp.parts.text import text
from fieldapp.parts.verdict import sign
from fieldapp.theme import MARGIN, Look


class Told:
    """Lies over the screen at its top; nothing is there until something is said."""

    def __init__(self, close_says: str, update: Callable[[ft.Control], None]) -> None:
        self._close_says, self._update = close_says, update
        self.sentence, self._verdict = "", "hold"
        self.control = ft.Container(left=0, right=0, top=0, visible=False)

    def say(self, sentence: str, look: Look, verdict: Sign = "hold") -> None:
        """Say it, now. verdict: `clear` for good news, which has its sign before it."""
        self.sentence, self._verdict = sentence, verdict
        self.draw(look)
        self._update(self.control)

    def draw(self, look: Look) -> None:
        """The band in this look, without sending it."""
        self.control.visible = bool(self.sentence)
        if not self.sentence:
            self.control.content = None
            return
        ink, ground = look.verdict(self._verdict)
        before = [sign(look, "clear", 44, 32)] if self._verdict == "clear" else []
        words = ft.Semantics(
            identifier="told", container=True, live_region=True,
            content=text(look, self.sentence, "body", ink, bold=True),
        )  # fmt: skip
        close = sign_action(look, ft.Icons.CLOSE, self._close_says, self._close, ink)
        self.control.content = ft.SafeArea(
            ft.Row([*before, ft.Container(words, expand=True), close], vertical_alignment=ft.CrossAxisAlignment.CENTER),
            avoid_intrusions_bottom=False,
        )
        self.control.bgcolor = ground
        self.control.border = ft.Border.only(bottom=ft.BorderSide(3, ink))
        self.control.padding = ft.Padding.only(left=MARGIN, right=4, top=8, bottom=8)

    def leave(self) -> None:
        """Another screen comes: what was wrong on the one before is not said there, good news is. Sent with the screen."""
        if self._verdict != "clear":
            self.sentence = ""

    def close(self) -> None:
        """Take it away."""
        self.sentence, self.control.visible = "", False
        self._update(self.control)

    def _close(self, event: ft.Event[ft.IconButton]) -> None:
        self.close()
