"""What the tool makes of a kept figure: the bay as it now stands, the verdict, what to do. Takes the place of the keys at once.

Built before it is needed and shown by changing `visible`, so that the answer comes as fast as a figure.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

import flet as ft

from fieldapp.parts.bay_picture import BayNames, BayPicture
from fieldapp.parts.bay_shape import BayShape
from fieldapp.parts.figure import Figure
from fieldapp.parts.page import page_sheet
from fieldapp.parts.space import column, gap
from fieldapp.parts.verdict import Sign, VerdictBand
from fieldapp.parts.walk_stage import WIDEST, QuestionLines
from fieldapp.theme import GRID, Look


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer. tag, done: `A3`, `span kept`. verdict, word, sentence: the band; body: facts, a slip's drawing.

    The bay with its kept figure: shape, names (kept: the other unit), whole, fraction, unit, figure_says; says: all in words.
    actions: at the foot, the main one first. picture: stands in for the bay where the figure is of a post or a run.
    """

    tag: str
    done: str
    verdict: Sign
    word: str
    sentence: str
    shape: BayShape
    names: BayNames
    says: str
    whole: str = ""
    fraction: Fraction | None = None
    unit: str = ""
    figure_says: str = ""
    body: list[ft.Control] = field(default_factory=list)
    actions: list[ft.Control] = field(default_factory=list)
    picture: ft.Control | None = None


class AnswerPage:
    """head: the control above. `show` sets the answer; the caller updates `control`, or makes it visible in the same update."""

    def __init__(self, look: Look, head: ft.Control, high: float = 216) -> None:
        self._full = look.width
        look = self._look = look.on(min(look.width, WIDEST))
        self._head, self._high = head, high if not look.low else 190
        self._lines = QuestionLines(look)
        self._figure = Figure(look, look.width - 110, 64 if not look.big else 56, identifier="")
        self._picture = BayPicture(look, look.width, self._high, self._figure.control, foot=52)
        self._band = VerdictBand(look)
        self.control = ft.Container(bgcolor=look.paper, expand=True)

    def show(self, answer: Answer) -> None:
        """The caller updates `control`."""
        look = self._look
        self._lines.show(answer.tag, answer.done, "")
        self._figure.show(answer.whole, answer.fraction, answer.unit, answer.figure_says, caret=False)
        if answer.picture is None:
            self._picture.show(answer.shape, "kept", answer.names, answer.says)
        self._band.show(answer.verdict, answer.word, answer.sentence, answer.body)
        _, ground = look.verdict(answer.verdict)
        # The band's ground runs down to the actions, so what stands above it keeps the paper.
        above = ft.Container(
            column([self._head, self._lines.control, answer.picture or self._picture.control, gap(GRID)]), bgcolor=look.paper
        )
        page = page_sheet(look, [above, self._band.control], answer.actions, ground=ground)
        side = (self._full - look.width) / 2
        self.control.content = column([page], expand=True)
        self.control.padding = ft.Padding.symmetric(horizontal=side)
