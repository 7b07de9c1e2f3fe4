"""Who says so: a name of the crew to tap, or one to write. Nobody is chosen beforehand unless this phone is known to be theirs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.choice import Choice
from fieldapp.parts.field import Field
from fieldapp.parts.page import mid
from fieldapp.parts.space import column, inset
from fieldapp.parts.text import heading
from fieldapp.screens import settings_model
from fieldapp.theme import EDGE, GRID
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App

_ABREAST = 3


class NamePick:
    """name: who was chosen or written; empty while nobody was. changed: called whenever that changes."""

    def __init__(self, app: App, names: Sequence[str], title: str, changed: Callable[[], None], name: str = "") -> None:
        self._app, self._names, self._changed = app, list(names), changed
        look = mid(app.look)
        self.name = name or app.draft_of("name")
        chosen = self.name if self.name in self._names else None
        rows = [self._names[i : i + _ABREAST] for i in range(0, len(self._names), _ABREAST)]
        self._choices = [Choice(look, [(n, n) for n in row], chosen, self._pick, height=56) for row in rows]
        self._field = Field(
            look, say("name.own" if rows else "name.first"), "" if chosen else self.name, say("name.hint"), role="body",
            on_change=lambda e: self._wrote(e.control.value or ""), on_focus=app.field_on, on_blur=app.field_off,
        )  # fmt: skip
        parts: list[ft.Control] = [inset(heading(look, title), bottom=6), *(c.control for c in self._choices)]
        self.control = column([*parts, inset(self._field.control, EDGE, EDGE)], GRID)

    def refused(self) -> str:
        """Why the name cannot stand there; empty when it can."""
        known = any(settings_model.same_name(self.name, n) for n in self._names)
        return "" if known else settings_model.refused_name(self.name, ())

    def _pick(self, name: str) -> None:
        self._field.box.value = ""
        self._set(name)

    def _wrote(self, name: str) -> None:
        self._set(" ".join(name.split()))

    def _set(self, name: str) -> None:
        self.name = name
        self._app.keep_draft_of("name", name)
        for choice in self._choices:
            choice.show(name)
        self._app.update(*(c.control for c in self._choices), self._field.control)
        self._changed()
