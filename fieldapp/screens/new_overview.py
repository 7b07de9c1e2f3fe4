"""A new job as far as it is said, for the left page of a wide screen: its four steps as rows, and the railing that comes of them."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from fieldapp.parts.plan_picture import PlanPicture, PlanWords
from fieldapp.parts.post_section import section_picture
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset
from fieldapp.parts.text import heading, text
from fieldapp.parts.verdict import sign
from fieldapp.screens import new_model, runs_model, system_model
from fieldapp.screens.new_form import NewForm
from fieldapp.screens.section_words import section_words
from fieldapp.theme import MARGIN, Look
from fieldapp.words import say

_HEIGHT, _FLAT = 380, 190
_STEP_WORDS = {"clear": "new.step_said", "todo": "new.step_open"}


def new_overview(
    look: Look, form: NewForm, step: new_model.Step, go: Callable[[new_model.Step], object], picture: bool = True
) -> list[ft.Control]:
    """step: the one that is asked at the right. go: called with the step that is tapped. picture: where the page has none."""
    rows = [_row(look, form, one, one == step, go) for one in new_model.STEPS]
    name = form.of("job", "name").strip() or say("new.title")
    return [inset(heading(look, name, "title"), top=MARGIN, bottom=6), *rows, *(_picture(look, form) if picture else [])]


def _row(look: Look, form: NewForm, step: new_model.Step, lit: bool, go: Callable[[new_model.Step], object]) -> ft.Control:
    said = not new_model.missing(form, step)
    mark, word = ("clear" if said else "todo"), say(f"new.step_{step}")
    reached = new_model.STEPS.index(step) <= new_model.STEPS.index(new_model.reached(form))
    sentence = new_model.step_told(form, step)
    return open_row(
        look, word, sentence=sentence, picture=sign(look, mark, 44, 32), on_click=(lambda _: go(step)) if reached else None,
        least=68, lit=lit, says=f"{say(_STEP_WORDS[mark], step=word)}, {sentence}",
    )  # fmt: skip


def _picture(look: Look, form: NewForm) -> list[ft.Control]:
    """The plan once a run is said; before that, once it can be, the cut through the posts."""
    if form.runs and all(run.said for run in form.runs):
        height = _FLAT if runs_model.straight(form) else _HEIGHT
        picture = PlanPicture(look, look.width, height, PlanWords(say("new.deck"), say("new.wall")))
        sums = runs_model.sums(form)
        picture.show(runs_model.drawn(form), say("new.whole_plan_says", bays=sums.bays, panels=sums.panels))
        return [gap(MARGIN), picture.control, inset(text(look, sums.kinds, "body", look.ink2))]
    if system_model.six_said(form):
        drawn = section_picture(look, system_model.drawn(form), None, section_words(), look.width, say("new.section_plain"))
        return [gap(MARGIN), drawn]
    return []
