"""The office sees all and changes no reading: a page that would ask it for one says so at once. The desk refuses it in any case."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.leaf import over_leaf
from fieldapp.parts.page import mid, mid_sheet, page_sheet
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import text
from fieldapp.parts.walk_stage import QuestionLines
from fieldapp.screens.answer_model import Act, Answer
from fieldapp.screens.more_model import readings_at
from fieldapp.theme import GRID, MARGIN, Look
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App

_LOOKS = ("stands", "sides", "more", "review")
"""What an answer offers that changes no reading."""


def looks_on(app: App) -> bool:
    """Whether whoever holds this device changes no reading."""
    return app.host.connection.role == "office"


def looks_on_leaf(app: App, look: Look, job: str, bay: str, tag: str, what: str) -> ft.Control:
    """In the place of the keys. bay: where it is; tag, what: what is not read there yet."""
    lines = QuestionLines(look)
    lines.show(tag, what, say("walk.not_read"))
    leaf = over_leaf(look, say("walk.looks_on"), [inset(text(look, say("join.not_office"), "body"), bottom=GRID)])
    asked = ft.Container(column([lines.control, gap(GRID)]), bgcolor=look.paper)
    return page_sheet(look, [asked, leaf], _ways(app, look, job, bay), ground=look.leaf)


def looks_on_page(app: App, head: ft.Control, job: str, bay: str = "") -> ft.Control:
    """In the place of a page that asks for a reading, with the ways to what the office may look at."""
    look = mid(app.look)
    words = [text(look, say("walk.looks_on"), "lead", bold=True), text(look, say("join.not_office"), "body", look.ink2)]
    return mid_sheet(app.look, [head, inset(column(list(words), GRID), top=MARGIN)], _ways(app, look, job, bay))


def _ways(app: App, look: Look, job: str, bay: str) -> list[ft.Control]:
    review = main_action(look, say("walk.review"), lambda _: app.go("review", job=job), onward=True)
    read = small_action(look, say("walk.read_at", tag=bay), lambda _: app.go("history", job=job, bay=bay))
    return [review, read] if bay and readings_at(app.desk.job(job), bay) else [review]


def only_to_look(made: Answer) -> Answer:
    """An answer without what would change a reading: the review is its main action, unless it is to be settled in writing."""
    review = Act("review", say("answer.review"), say("answer.review"))
    left = [act for act in made.acts if act.name in _LOOKS and act.name != "review"]
    return replace(made, acts=(review, *left))
