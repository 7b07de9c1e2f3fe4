"""The answer as it is drawn: facts, the slip, further findings, and what to do."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from fieldapp.parts.action import action, main_action, side_by_side
from fieldapp.parts.answer_page import Answer as Drawn
from fieldapp.parts.bay_picture import BayNames
from fieldapp.parts.facts import facts
from fieldapp.parts.slip_picture import hook_end, other_mark
from fieldapp.parts.space import column
from fieldapp.parts.text import text
from fieldapp.parts.verdict import verdict_word
from fieldapp.screens.answer_model import Act, Answer
from fieldapp.screens.answer_picture import picture
from fieldapp.theme import MARGIN, TOUCH, Look
from fieldapp.words import say

Do = Callable[[Act], None]
_ONWARD = ("next", "review")



def drawn(look: Look, answer: Answer, units: str, do: Do) -> Drawn:
    """The answer as parts/answer_page.py takes it. do: what a tap on one of its actions calls."""
    names = BayNames(
        answer.left, answer.right, lambda times: say("walk.drawn", times=times) if times > 1 else say("walk.drawn_1"), kept=answer.beside
    )
    says = say("answer.picture", tag=answer.tag, figure=answer.says, left=answer.left, right=answer.right)
    if answer.pictured is not None:
        says = ", ".join(part for part in (answer.tag, answer.says, answer.pictured.words) if part)
    return Drawn(
        answer.tag, answer.title, answer.sign, answer.word, answer.sentence, answer.shape, names, says, answer.whole, answer.fraction,
        answer.unit, answer.says, _body(look, answer, units), _actions(look, answer, do), picture(look, answer, says),
    )  # fmt: skip


def _body(look: Look, answer: Answer, units: str) -> list[ft.Control]:
    ink, _ = look.verdict(answer.sign)
    body: list[ft.Control] = []
    if answer.slip is not None:
        body.append(_slip(look, answer, units))
    if answer.facts:
        body.append(facts(look, answer.facts, ink))
    body += [
        column([verdict_word(look, word, word), text(look, sentence)], 4)  # type: ignore[arg-type]
        for word, sentence in answer.others
    ]
    return body


def _slip(look: Look, answer: Answer, units: str) -> ft.Control:
    """Across the whole band, beyond its margins."""
    slip = answer.slip
    if slip is None:
        raise ValueError("an answer without a slip draws none")
    if slip.kind == "start":
        picture = hook_end(look, units, look.width, int(slip.start), slip.says)  # type: ignore[arg-type]
    else:
        picture = other_mark(look, units, slip.read, slip.was, ("", "?"), look.width, slip.says)  # type: ignore[arg-type]
    return ft.Container(picture, margin=ft.Margin.symmetric(horizontal=-MARGIN))


def _actions(look: Look, answer: Answer, do: Do) -> list[ft.Control]:
    """The main one; then what else can be said of the figure; then the ways on."""
    main, *rest = answer.acts
    said = [_side(look, act, do) for act in rest if act.name not in _ONWARD]
    onward = [act for act in rest if act.name in _ONWARD]
    found: list[ft.Control] = [_main(look, main, do, 72 if answer.finding is None else 64)]
    if said:
        found.append(side_by_side(look, *said))
    kind, high = ("side", 56) if answer.sign == "hold" else ("bare", TOUCH)
    more = [Act("more", say("walk.more_says"), say("walk.more_says"))] if look.big else []  # elsewhere a quiet word beside the title
    return found + [_side(look, act, do, high, kind) for act in (*onward, *more)]


def _main(look: Look, act: Act, do: Do, height: float) -> ft.Button:
    return spoken(main_action(look, act.label, lambda _: do(act), act.name == "next", height), act.says)


def _side(look: Look, act: Act, do: Do, height: float = 64, kind: str = "side") -> ft.Button:
    return spoken(action(look, act.label, lambda _: do(act), kind, height=height, role="body"), act.says)  # type: ignore[arg-type]


def spoken(button: ft.Button, says: str) -> ft.Button:
    """The same button, spoken by this name."""
    words = button.content if isinstance(button.content, ft.Text) else button.content.controls[0]
    if words.value != says:
        words.semantics_label = says
    return button


