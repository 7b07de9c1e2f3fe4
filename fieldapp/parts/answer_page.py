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
from fieldapp.parts.question_lines import QuestionLines
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.verdict import Sign, VerdictBand
from fieldapp.parts.walk_stage import WIDEST
from fieldapp.theme import EDGE, GRID, Look


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
    """head: the control above. Built once; `show` sets the answer and returns what changed, the caller updates it.

    Large text: all but the first action scrolls with the work.
    """

    def __init__(self, look: Look, head: ft.Control, high: float = 216) -> None:
        full = look.width
        look = self._look = look.on(min(look.width, WIDEST))
        self._lines = QuestionLines(look)
        self._figure = Figure(look, look.width - 110, 64 if not look.big else 56, identifier="")
        self._picture = BayPicture(look, look.width, high if not look.low else 190, self._figure.control, foot=52)
        self._band = VerdictBand(look)
        self._own, self._more, self._foot = ft.Container(visible=False), column([], GRID), column([], GRID)
        pictures = column([self._picture.control, self._own])
        above = ft.Container(column([head, self._lines.control, pictures, gap(GRID)]), bgcolor=look.paper)
        more = inset(self._more, EDGE, EDGE, 8)
        # The band's ground runs down to the actions, so what stands above it keeps the paper.
        self._work = ft.Container(column([above, self._band.control, more], expand=True, scroll=ft.ScrollMode.AUTO), expand=True)
        page = column([self._work, inset(self._foot, EDGE, EDGE, top=8)], expand=True)
        side = (full - look.width) / 2
        self.control = ft.Container(
            ft.SafeArea(page, expand=True, maintain_bottom_view_padding=True), bgcolor=look.paper, expand=True,
            padding=ft.Padding.only(left=side, right=side, bottom=16),
        )  # fmt: skip

    def show(self, answer: Answer) -> list[ft.Control]:
        """Set the answer. Returns the controls to update."""
        look, own = self._look, answer.picture is not None
        self._lines.show(answer.tag, answer.done, "")
        self._figure.show(answer.whole, answer.fraction, answer.unit, answer.figure_says, caret=False)
        self._own.content, self._own.visible, self._picture.control.visible = answer.picture, own, not own
        if not own:
            self._picture.show(answer.shape, "kept", answer.names, answer.says)
        self._band.show(answer.verdict, answer.word, answer.sentence, answer.body)
        _, self._work.bgcolor = look.verdict(answer.verdict)
        at_foot = 1 if look.big else len(answer.actions)
        self._foot.controls, self._more.controls = answer.actions[:at_foot], answer.actions[at_foot:]
        return [self._work, self._foot]
