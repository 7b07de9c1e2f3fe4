"""One ordered panel a leaf: its drawing, from where it is seen in bold, how often its slope is drawn, its facts."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import flet as ft

from fieldapp.parts.action import sign_action
from fieldapp.parts.facts import facts
from fieldapp.parts.leaf import leaf
from fieldapp.parts.panel_drawing import PanelShape, PanelWords, panel_drawing
from fieldapp.parts.space import column, inset
from fieldapp.parts.text import text
from fieldapp.theme import EDGE, Look

HIGH = 236
WIDEST = 526


@dataclass(frozen=True, slots=True)
class OrderPanel:
    """name, count: `Panel A1`, `1 of 6, run A`. seen_from: `Seen from the deck, looking out.` drawn: how the factor is printed.

    rows: the facts below. says: the drawing in words, with its sizes and its high end.
    """

    name: str
    count: str
    shape: PanelShape
    words: PanelWords
    seen_from: str
    drawn: Callable[[int], str]
    rows: Sequence[tuple[str, str]]
    says: str


class OrderLeaf:
    """turn: called with -1 and 1; before_says, next_says: the two arrows' names. Without `turn` the leaf has no arrows."""

    def __init__(
        self,
        look: Look,
        turn: Callable[[int], object] | None = None,
        before_says: str = "",
        next_says: str = "",
        margin: float = EDGE,
    ) -> None:
        self._look, self._turn, self._says, self._margin = look, turn, (before_says, next_says), margin
        self.control = ft.Container()

    def show(self, panel: OrderPanel) -> None:
        """Lay out this panel. The caller updates `control`."""
        look, center = self._look, ft.TextAlign.CENTER
        width = min(look.width - 2 * self._margin - 2 * EDGE - 2, WIDEST)
        drawn, factor = panel_drawing(look, panel.shape, panel.words, width, HIGH, panel.says)
        lines: list[ft.Control] = [
            self._pager(panel),
            ft.Row([drawn], alignment=ft.MainAxisAlignment.CENTER),
            text(look, panel.seen_from, bold=True, align=center),
        ]
        if panel.shape.rack and panel.drawn(factor):
            lines.append(text(look, panel.drawn(factor), "note", look.ink2, align=center))
        lines.append(inset(facts(look, panel.rows), 8, 8, 4))
        self.control.content = leaf(look, lines, self._margin, EDGE, spacing=6)

    def _pager(self, panel: OrderPanel) -> ft.Control:
        look, turn = self._look, self._turn
        words = column(
            [
                text(look, panel.name, "lead", bold=True, align=ft.TextAlign.CENTER),
                text(look, panel.count, "note", look.ink2, align=ft.TextAlign.CENTER),
            ],
            expand=True,
            tight=True,
        )
        if turn is None:
            return ft.Row([words])
        before = sign_action(look, ft.Icons.CHEVRON_LEFT, self._says[0], lambda _: turn(-1))
        after = sign_action(look, ft.Icons.CHEVRON_RIGHT, self._says[1], lambda _: turn(1))
        return ft.Row([before, words, after])
