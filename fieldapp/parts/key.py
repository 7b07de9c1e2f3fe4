"""One key of the keypad, and how it lights.

A key is a Container without ink, never a Button: a Button's ripple makes frames that stand before ours in the queue, and an
update above a Button sends its whole style again. The figure, the blade and the lit key are the answer to a press.
Spoken names are fixed by the contract: `0` … `9`, `1/16` … `15/16`, `Erase`, `Keep`.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import flet as ft

from fieldapp.parts.text import BOLD, NORMAL
from fieldapp.theme import KEY, LINE, RADIUS, Look

Press = Callable[[str], None]
_TICK = {2: 40, 4: 30, 8: 20, 16: 10}
"""Length of a sixteenth's tick by its denominator, in pixels of a 64 px key: longer as on a tape."""


class Key(ft.Container):
    """name: what `press` is called with. inks: the texts and strokes that turn when the key is lit."""

    def __init__(
        self, look: Look, name: str, content: ft.Control, press: Press, height: float = KEY, expand: int = 1,
        face: str | None = None, edge: str | None = None, inks: tuple[ft.Control, ...] = (),
    ) -> None:  # fmt: skip
        self.name, self._look, self._inks = name, look, inks
        self._face, self._edge = face or look.leaf, edge or look.line
        super().__init__(
            content, height=height, expand=expand, bgcolor=self._face, border=ft.Border.all(LINE, self._edge),
            border_radius=RADIUS, alignment=ft.Alignment.CENTER, ink=False, on_click=lambda _: press(name),
        )  # fmt: skip

    def light(self, on: bool) -> None:
        """Lit: the tape's yellow with an ink edge. Sets values only; the caller updates the key."""
        look = self._look
        self.bgcolor = look.tape if on else self._face
        self.border = ft.Border.all(3, look.ink) if on else ft.Border.all(LINE, self._edge)
        ink = look.on_tape if on else look.ink
        for part in self._inks:
            if isinstance(part, ft.Text):
                part.color = ink
            else:
                part.bgcolor = ink


def _label(look: Look, value: str, size: float, bold: bool = True, says: str | None = None, color: str | None = None) -> ft.Text:
    return ft.Text(
        value, size=look.key_size(size), weight=BOLD if bold else NORMAL, color=color or look.ink, semantics_label=says,
        text_align=ft.TextAlign.CENTER, style=ft.TextStyle(height=1.0), no_wrap=True,
    )  # fmt: skip


def digit_key(look: Look, digit: str, press: Press, height: float = KEY, size: float = 30) -> Key:
    """A whole figure, spoken as itself."""
    return Key(look, digit, _label(look, digit, size), press, height)


def word_key(
    look: Look, name: str, shown: str, says: str, press: Press, height: float = KEY, size: float = 20, bold: bool = False
) -> Key:
    """A sign or a short word: `ft`, the decimal point."""
    return Key(look, name, _label(look, shown, size, bold, says), press, height)


def sixteenth_key(look: Look, n: int, press: Press, height: float = KEY) -> Key:
    """A slice of the blade: n/16 in lowest terms, with its tick as long as on a tape; eighths and more are bold.

    One text of two lines, the bar between them: fifteen texts less to paint in every frame.
    """
    f = Fraction(n, 16)
    bold = f.denominator <= 8
    size = (22 if bold else 19) * min(look.text, 1.3) * min(height / KEY * 1.06, 1)
    line = 1.16 if size < 24 else 1.06
    figure = ft.Text(
        f"{f.numerator}\n{f.denominator}", semantics_label=f"{n}/16", size=size, weight=BOLD if bold else NORMAL, color=look.ink,
        style=ft.TextStyle(height=line), text_align=ft.TextAlign.CENTER, left=0, right=0, top=height / 2 - line * size - LINE,
    )  # fmt: skip
    bar = ft.Container(width=size * (1.5 if f.denominator > 9 else 1.0), height=2, bgcolor=look.ink)
    middle = ft.Container(bar, left=0, right=0, top=0, bottom=0, alignment=ft.Alignment.CENTER)
    tick = ft.Container(width=2, height=_TICK[f.denominator] * height / KEY, bgcolor=look.ink, left=9, top=0)
    face = ft.Stack([tick, figure, middle], expand=True)
    return Key(look, f"{n}/16", face, press, height, face=look.tape2, inks=(figure, bar, tick))


def erase_key(look: Look, says: str, press: Press, height: float = KEY, expand: int = 1) -> Key:
    """Takes back the last press."""
    sign = ft.Icon(ft.Icons.BACKSPACE_OUTLINED, size=min(look.key_size(26), 34), color=look.ink, semantics_label=says)
    return Key(look, "erase", sign, press, height, expand)


def keep_key(look: Look, shown: str, press: Press, height: float = KEY, expand: int = 3) -> Key:
    """The one main action beside the keys: solid ink."""
    label = _label(look, shown, 24, color=look.on_main)
    return Key(look, "keep", label, press, height, expand, face=look.main, edge=look.main)
