"""One name of the crew: as it will stand on the order, what they do, whether this device is theirs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import action, main_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.field import Field
from fieldapp.parts.head import title_head
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import gap, inset
from fieldapp.parts.text import heading, text
from fieldapp.screens import settings_model as model
from fieldapp.screens.screen import Screen
from fieldapp.theme import EDGE, GRID, MARGIN
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App

NEW = "+"
"""In the place of a name in the address: somebody new."""


class PersonScreen(Screen):
    """name: of somebody on the crew, or `NEW`."""

    title = say("settings.crew")
    up = ("settings", {})

    def __init__(self, app: App, name: str) -> None:
        super().__init__(app)
        crew = self._crew()
        found = next((p for p in crew if model.same_name(p.name, name)), None)
        self._before = found.name if found else ""
        self._name = app.draft or self._before
        self._role = found.role if found else model.ROLES[0]
        self._mine = bool(found) and model.same_name(name, app.person)

    def view(self) -> ft.Control:
        look = mid(self.app.look)
        self._field = Field(
            look, say("settings.name"), self._name, say("settings.name_hint"), on_change=self._typed,
            on_focus=self.app.field_on, on_blur=self.app.field_off, on_submit=self._keep,
        )  # fmt: skip
        roles = [(r, say(f"settings.role_{r}")) for r in model.ROLES]
        self._roles = Choice(look, roles, self._role, self._pick_role)
        mine = [(True, say("settings.mine")), (False, say("settings.not_mine"))]
        self._mines = Choice(look, mine, self._mine, self._pick_mine, height=56, stacked=True)
        head = title_head(
            look, self._before or say("settings.new_person"), say("settings.crew"), say("app.back"), lambda _: self.app.back()
        )
        part = lambda words: inset(heading(look, words), top=MARGIN, bottom=6)  # noqa: E731
        work = [
            head, gap(GRID), inset(self._field.control, EDGE, EDGE), part(say("settings.who_is_it")), self._roles.control,
            gap(MARGIN), self._mines.control,
        ]  # fmt: skip
        actions = [main_action(look, say("settings.change" if self._before else "settings.save"), self._keep)]
        if self._before:
            work.append(inset(text(look, say("settings.take_off_told"), "note", look.ink2), top=MARGIN))
            actions.append(action(look, say("settings.take_off"), self._take_off, height=56, role="body"))
        return mid_sheet(self.app.look, work, actions)

    def on_change(self, topics: frozenset[str]) -> None:
        """Somebody else's change of the crew waits until this one is kept."""

    def _crew(self) -> list[model.Person]:
        return model.crew_of(self.app.desk.setting("crew", []))

    def _typed(self, event: ft.Event[ft.TextField]) -> None:
        self._name = event.control.value or ""
        self.app.keep_draft(self._name)

    def _pick_role(self, role: str) -> None:
        self._role = role
        self._roles.show(role)
        self.update(self._roles.control)

    def _pick_mine(self, mine: bool) -> None:
        self._mine = mine
        self._mines.show(mine)
        self.update(self._mines.control)

    async def _keep(self, event: ft.Event[ft.Control]) -> None:
        crew = self._crew()
        wrong = model.refused_name(self._name, crew, self._before)
        if wrong:
            self._field.show(wrong)
            self.update(self._field.control)
            return
        person = model.Person(" ".join(self._name.split()), self._role)
        await self.app.desk.keep_setting("crew", [p.as_dict() for p in model.changed(crew, self._before, person)])
        theirs = model.same_name(self._before or person.name, self.app.person)
        if self._mine or theirs:
            await self.app.device.keep_person(person.name if self._mine else "")
        self.app.keep_draft("")
        self.app.back()

    async def _take_off(self, event: ft.Event[ft.Control]) -> None:
        await self.app.desk.keep_setting("crew", [p.as_dict() for p in model.changed(self._crew(), self._before, None)])
        if model.same_name(self._before, self.app.person):
            await self.app.device.keep_person("")
        self.app.keep_draft("")
        self.app.back()
