"""One bay of a plan that is being changed: what stands in it, how far its panel is, its figures where they are its own."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import flet as ft

from fieldapp.parts.choice import Choice
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.screens import change_plan_model as model
from fieldapp.screens import plan_edit as edit
from fieldapp.theme import GRID
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.screens.new_page import NewPage

_PARTS = ("glass", "status", "shape")


def bay_part(page: NewPage, tag: str) -> list[ft.Control]:
    """The choices of a bay, and rows for its figures. page: where it stands; it is drawn anew after each choice."""
    look, change = page.look, page.plan_change
    bay = edit.bay_of(change.now, tag)
    glass = model.chosen(bay, "glass") != "none"
    spacing = edit.spacing_text(change.now, bay) or say("new.not_said")
    head = ft.Row([text(look, tag, "title", bold=True), text(look, spacing, "lead"), text(look, say("new.middle"), "note", look.ink2)], spacing=10, wrap=True)
    rows: list[ft.Control] = [inset(head, bottom=6)]
    for part in _PARTS + (("taller",) if model.chosen(bay, "shape") != "racked" else ()):
        if part != "glass" and not glass:
            continue
        rows += [*_titled(page, part), _choice(page, bay, part), gap(GRID)]
    rows.append(rule(look, look.line))
    rows.append(_row(page, "figure", tag, "spacing", spacing))
    if glass:
        rows.append(_row(page, "figure", tag, "height", str(bay.get("height") or say("change.of_job_too"))))
        rows.append(_row(page, "words", tag, "finish_face", _face(bay)))
    return [*rows, _post_row(page, bay, "left"), _post_row(page, bay, "right"), gap(GRID)]


def _post_row(page: NewPage, bay: dict[str, Any], side: str) -> ft.Control:
    post = edit.post_of(page.plan_change.now, bay[side])
    kind = say(f"change.kind_{post['kind']}")
    return open_row(page.look, say(f"change.{side}_post"), f"{post['id']}, {kind}", on_click=lambda _: page.to("post", post=post["id"]))


def _titled(page: NewPage, part: str) -> list[ft.Control]:
    return [inset(text(page.look, say("change.taller_asks"), "note", page.look.ink2), bottom=4)] if part == "taller" else []


def _choice(page: NewPage, bay: dict[str, Any], part: str) -> ft.Control:
    def pick(word: str) -> None:
        change = page.plan_change
        change.keep(model.choose(change.now, str(bay["tag"]), part, word))
        page.app.redraw()

    return Choice(page.look, model.options(part), model.chosen(bay, part), pick, height=56).control


def _row(page: NewPage, page_name: str, tag: str, key: str, value: str) -> ft.Control:
    to = lambda _: page.to(f"{page_name}-of", kind="bay", place=tag, key=key)  # noqa: E731
    return open_row(page.look, say(f"change.key_{key}"), value, on_click=to)


def _face(bay: dict[str, Any]) -> str:
    if "finish_face" not in bay or bay["finish_face"] is None:
        return say("change.of_job_too")
    return str(bay["finish_face"]) or say("change.plain")
