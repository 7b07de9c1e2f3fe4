"""The walk as it is drawn: head, then one of question, answer or a leaf in their place. Built once for a bay's look; a press sets values."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import asdict

import flet as ft

from fieldapp.parts.action import action
from fieldapp.parts.answer_page import AnswerPage
from fieldapp.parts.head import Signal, WalkHead
from fieldapp.parts.layer import Layer
from fieldapp.parts.run_strip import StripBay
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.walk_stage import WIDEST, WalkStage
from fieldapp.screens.answer_model import Act, Answer
from fieldapp.screens.answer_view import drawn, spoken
from fieldapp.screens.question_view import pad_words, question, typed
from fieldapp.screens.strip_model import StripPart
from fieldapp.screens.typing_state import Typing
from fieldapp.theme import EDGE, GRID, TOUCH, Look
from fieldapp.words import say

Run = Callable[[], None]
_QUIET = 132
"""What the way to more readings takes beside a name in large letters."""


class WalkTaps:
    """What the walk's controls call. press: keys; pick: a side; do: an action of the answer; how, more: the two quiet words."""

    def __init__(
        self, press: Callable[[str], None], pick: Callable[[str], None], do: Callable[[Act], None], how: Run, more: Run, back: Run,
        review: Run,
    ) -> None:  # fmt: skip
        self.press, self.pick, self.do, self.how, self.more, self.back, self.review = press, pick, do, how, more, back, review


class WalkView:
    """`ask`, `tell` and `lay_leaf` set what stands below the head; each returns the controls to update."""

    def __init__(self, look: Look, units: str, taps: WalkTaps, signal: tuple[str, str]) -> None:
        self._full, self._units, self._taps = look.width, units, taps
        self.look = look = look.on(min(look.width, WIDEST))
        self._head = WalkHead(
            look, say("app.back"), lambda _: taps.back(), say("walk.review"), lambda _: taps.review(),
            Signal(look, *signal) if any(signal) else None,
        )  # fmt: skip
        self._how, self._more = self._word(taps.how), self._word(taps.more)
        self._words = ft.Row([self._more] if look.big else [self._how, self._more], spacing=0, tight=True)
        self._over = ft.Container(self._words, right=0, top=0)
        self._aside = ft.Row([self._how, self._word(taps.review)], spacing=0, tight=True)
        extra = [inset(self._aside, EDGE, EDGE)] if look.big else []
        self._stage = WalkStage(look, gap(0), taps.press, pad_words(units), taps.pick, extra)
        self._answer = AnswerPage(look, gap(0))
        self._layers = {
            "ask": Layer(self._stage.control, expand=True), "tell": Layer(self._answer.control, expand=True, visible=False),
            "leaf": Layer(expand=True, visible=False),
        }  # fmt: skip
        side = (self._full - look.width) / 2
        self._place = column(list(self._layers.values()), expand=True)
        body: ft.Control = self._place if look.tight else ft.Stack([self._place, self._over], expand=True, fit=ft.StackFit.EXPAND)
        page = column([self._top(), body], expand=True)
        self.control = ft.Container(
            ft.SafeArea(page, expand=True), bgcolor=look.paper, expand=True, padding=ft.Padding.symmetric(horizontal=side)
        )

    def _top(self) -> ft.Control:
        """On a low phone the two quiet words stand in the head; of large letters one does, beside the name."""
        if not self.look.tight:
            return self._head.control
        return ft.Row([ft.Container(self._head.control, expand=True), self._words], spacing=0)

    def _word(self, tap: Run) -> ft.Button:
        """A quiet word, underlined; on the line of the question's name where there is room for it."""
        look = self.look
        word = action(look, " ", lambda _: tap(), "bare", height=TOUCH, role="note" if not look.big else "body")
        word.content.style = ft.TextStyle(height=1.15, decoration=ft.TextDecoration.UNDERLINE)
        if not look.tight:
            word.style.alignment, word.style.padding = ft.Alignment.TOP_CENTER, ft.Padding.only(left=GRID, right=GRID, top=6)
        return word

    # ---- what stands below the head ------------------------------------------------------------------------------------
    def ask(self, typing: Typing, other_unit: bool, how: str, more: bool) -> list[ft.Control]:
        """Pose a question, as far as it is typed. how: the word for how it is taken, empty for none. more: the way to more readings."""
        asked = question(self.look, typing)
        changed = self._stage.ask(asked, typing.side)
        changed += self._stage.show(typed(typing.shown(other_unit)))
        return [*_once(changed), *self._quiet(how, more), *self._only("ask")]

    def typed(self, typing: Typing, other_unit: bool) -> list[ft.Control]:
        """After a press: only what changed."""
        return self._stage.show(typed(typing.shown(other_unit)))

    def sided(self, typing: Typing, other_unit: bool) -> list[ft.Control]:
        """After a side was chosen: the drawing turns with it."""
        return [*self._stage.show_side(typing.side, question(self.look, typing)), *self.typed(typing, other_unit)]

    def tell(self, answer: Answer, more: bool) -> list[ft.Control]:
        """The answer in the place of the keys."""
        changed = self._answer.show(drawn(self.look, answer, self._units, self._taps.do))
        return [*changed, *self._quiet("", more and not self.look.big), *self._only("tell")]

    def lay_leaf(self, leaf: ft.Control) -> list[ft.Control]:
        """A leaf in the place of the keys: which way the tape lay, who measures."""
        self._layers["leaf"].content = leaf
        return [self._layers["leaf"], *self._quiet("", False), *self._only("leaf")]

    def _quiet(self, how: str, more: bool) -> list[ft.Control]:
        """The two quiet words; an empty one is not there."""
        self._how.visible, self._more.visible = bool(how), more
        _label(self._how, how, say("walk.how_says", how=how))
        _label(self._more, say("walk.more"), say("walk.more_says"))
        if self.look.big:
            _label(self._aside.controls[-1], say("walk.review"), say("walk.review"))
            return [self._words, self._aside]
        return [self._words]

    def head(self, bays: Sequence[StripPart], now: str | None, what: str, others: str, named: bool) -> list[ft.Control]:
        """The run as a strip, where in it, and who else is on which bay. named: the bay and what is asked in the strip's place."""
        self._head.room = self.look.width - TOUCH - GRID - (_QUIET if self._more.visible else 24)
        return self._head.show([StripBay(**asdict(bay)) for bay in bays], now, what, others, named)

    def _only(self, shown: str) -> list[ft.Control]:
        """Show one layer: what is on them was sent before, so this is a value each."""
        if self._layers[shown].visible:
            return []
        for name, layer in self._layers.items():
            layer.visible = name == shown
        return [self._place]


def _once(controls: Sequence[ft.Control]) -> list[ft.Control]:
    """Each control once, in the order of their first mention."""
    return list({id(one): one for one in controls}.values())


def _label(button: ft.Button, label: str, says: str) -> None:
    words = button.content
    words.value, words.semantics_label = label, None
    spoken(button, says)
