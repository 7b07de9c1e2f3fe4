"""The figure being typed, as large as its room allows, its unit always visible."""

from __future__ import annotations

from fractions import Fraction

import flet as ft

from fieldapp.parts.text import BOLD
from fieldapp.theme import Look

_UP = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_DOWN = str.maketrans("0123456789", "₀₁₂₃₄₅₆₇₈₉")
# Advances of our bold face in em, asserted against the font by tests/fieldapp/test_figure.py.
_FIGURE_EM, _SMALL_EM, _BAR_EM = 0.66, 0.34, 0.26
_NARROW = dict.fromkeys(" .,:′ft", 0.4) | {"m": 0.9, "%": 0.9}
_LEAST = 20


def raised(fraction: Fraction) -> str:
    """7/16 as `⁷⁄₁₆`: for figures above 28 px only; running text says `7/16` in ordinary figures."""
    return f"{str(fraction.numerator).translate(_UP)}⁄{str(fraction.denominator).translate(_DOWN)}"


def width_em(whole: str, fraction: Fraction | None) -> float:
    """Width of the figure without its unit, in em."""
    wide = sum(_NARROW.get(c, _FIGURE_EM) for c in whole)
    if fraction:
        wide += 0.06 + _BAR_EM + _SMALL_EM * (len(str(fraction.numerator)) + len(str(fraction.denominator)))
    return wide


class Figure:
    """Spoken as `entry`: the figure with its unit and its echo. room: the width it may take, in pixels.

    `show` sets it; the caller updates `control`. caret: a waiting slot where nothing is chosen yet.
    """

    def __init__(
        self, look: Look, room: float, size: float | None = None, unit_size: float = 24, identifier: str = "entry"
    ) -> None:
        self._look, self._room, self._size, self._unit_size = look, room, size or look.size("hero"), unit_size
        self._whole, self._part, self._unit = (_text(look, s) for s in (self._size, self._size, unit_size))
        self._gap = ft.Container(width=self._size * 0.06, visible=False)
        self._caret = ft.Container(width=4, bgcolor=look.tape_edge, margin=ft.Margin.only(left=4))
        self._slot = ft.Container(self._unit, margin=ft.Margin.only(left=8, top=self._size * 0.34))
        row = ft.Row(
            [self._whole, self._gap, self._part, self._caret, self._slot],
            spacing=0,
            alignment=ft.MainAxisAlignment.CENTER,
            vertical_alignment=ft.CrossAxisAlignment.CENTER,
            tight=True,
        )
        self.control = ft.Semantics(
            identifier=identifier or None,
            live_region=bool(identifier) or None,
            container=True,
            exclude_semantics=True,
            label="",
            content=row,
        )

    def show(self, whole: str, fraction: Fraction | None, unit: str, says: str, caret: bool = True) -> None:
        """whole: all before the fraction, as typed. says: what is spoken, the unit in it."""
        size = self._fit(whole, fraction, unit)
        self._whole.value, self._whole.size = whole, size
        self._part.value, self._part.size = (raised(fraction) if fraction else ""), size
        self._gap.visible = bool(whole and fraction)
        self._caret.visible, self._caret.height = caret and fraction is None, size * 0.78
        self._unit.value = unit
        self.control.label = says

    def _fit(self, whole: str, fraction: Fraction | None, unit: str) -> float:
        unit_wide = 12 + self._unit_size * width_em(unit, None) + 8
        return max(min(self._size, (self._room - unit_wide) / max(width_em(whole, fraction), 0.6)), _LEAST)


def _text(look: Look, size: float) -> ft.Text:
    return ft.Text("", size=size, weight=BOLD, color=look.ink, no_wrap=True, style=ft.TextStyle(height=1.0))


def still_figure(
    look: Look,
    whole: str,
    fraction: Fraction | None,
    unit: str,
    says: str,
    room: float,
    size: float | None = None,
    unit_size: float = 24,
) -> ft.Control:
    """A kept figure: no caret, not the entry."""
    figure = Figure(look, room, size, unit_size, identifier="")
    figure.show(whole, fraction, unit, says, caret=False)
    return figure.control
