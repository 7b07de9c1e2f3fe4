"""The picture that stands in for the bay in an answer: what was read, its figure and its side in words."""

from __future__ import annotations

import flet as ft

from fieldapp.parts import reading_pictures
from fieldapp.parts.figure import still_figure
from fieldapp.parts.space import column, gap
from fieldapp.parts.stroke import drawing
from fieldapp.parts.text import text
from fieldapp.parts.tile import Draw
from fieldapp.screens.answer_model import Answer
from fieldapp.screens.answer_pictured import Pictured
from fieldapp.screens.question_view import enlarged
from fieldapp.theme import GRID, MARGIN, Look
from fieldapp.words import say

_HIGH = 140.0


def picture(look: Look, answer: Answer, says: str) -> ft.Control | None:
    """None where the bay itself is drawn. says: the drawing in words."""
    found = answer.pictured
    if found is None:
        return None
    image = ft.Semantics(image=True, label=says, content=drawing(_draw(found)(look, look.width, _HIGH), look.width, _HIGH))
    room = look.width - 2 * MARGIN
    figure = still_figure(look, answer.whole, answer.fraction, answer.unit, answer.says, room, 56 if not look.big else 48)
    lines: list[ft.Control] = [figure]
    beside = " · ".join(part for part in (found.words, answer.beside) if part)
    if beside:
        lines.append(text(look, beside, "lead", align=ft.TextAlign.CENTER))
    under = ft.Column(lines, spacing=2, tight=True, horizontal_alignment=ft.CrossAxisAlignment.CENTER)
    return column([image, gap(GRID), ft.Container(under, width=look.width, alignment=ft.Alignment.CENTER)])


def _draw(found: Pictured) -> Draw:
    if found.kind == "plumb":
        over = (say("walk.level_long"), say("walk.plumb_over", level=found.level)) if found.level else ("", "")
        return reading_pictures.plumb(found.side, reading_pictures.PlumbWords("", over, (say("walk.lean_drawn"), say("walk.lean_times"))))
    if found.kind == "overall":
        return reading_pictures.run_overall(found.posts, found.hooked)
    if found.kind == "overall-rise":
        return reading_pictures.run_rise(found.posts, found.side, say("walk.not_to_scale"))
    if found.kind == "rise":
        return reading_pictures.run_rise(2, found.side, say("walk.not_to_scale"))
    return enlarged(reading_pictures.top_span if found.kind == "top-span" else reading_pictures.diagonals)
