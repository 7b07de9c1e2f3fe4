"""The line on a page of the plan that leads to what the crew used before."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.row import open_row
from fieldapp.screens import presets_model as model
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.screens.new_page import NewPage


def known_row(page: NewPage, kind: str) -> list[ft.Control]:
    """The line at the top of a page, once something is kept that could be used; else it stands at the end (`new_row`)."""
    return [preset_row(page, kind)] if page.app.desk.presets(kind) else []


def new_row(page: NewPage, kind: str) -> list[ft.Control]:
    """The line at the end of a page while nothing is kept: to keep what is said there."""
    return [] if page.app.desk.presets(kind) else [preset_row(page, kind)]


def preset_row(page: NewPage, kind: str) -> ft.Control:
    """It says under which name just this is kept, or how many there are."""
    presets = page.app.desk.presets(kind)
    name = model.name_of(page.form, kind, presets)
    told = say("new.preset_is", name=name) if name else say("new.preset_count", n=len(presets)) if presets else say("new.preset_none")
    return open_row(page.look, say(f"new.presets_{kind}"), sentence=told, on_click=lambda _: page.to("presets", kind=kind), least=0)
