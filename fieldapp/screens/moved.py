"""A post was shimmed or moved: which one, and what grows old with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.reading_pictures import moved_post
from fieldapp.parts.space import gap, inset
from fieldapp.parts.stroke import drawing
from fieldapp.parts.text import heading, text
from fieldapp.screens import more_model as model
from fieldapp.screens.looks_on import looks_on, looks_on_page
from fieldapp.screens.name_pick import NamePick
from fieldapp.screens.of_bay import BayScreen
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import listed, say

if TYPE_CHECKING:
    from fieldapp.app import App

_PICTURE = (152, 104)


class MovedScreen(BayScreen):
    """No post is chosen beforehand."""

    def __init__(self, app: App, job: str, bay: str) -> None:
        super().__init__(app, job, bay)
        self._post = app.draft

    def view(self) -> ft.Control:
        if looks_on(self.app):
            return looks_on_page(self.app, self.head(say("more.moved_title")), self.id, self.tag)
        look, bay = mid(self.app.look), self.live.bay(self.tag)
        posts = [(bay.left, say("more.post_left", post=bay.left)), (bay.right, say("more.post_right", post=bay.right))]
        self._posts = Choice(look, posts, self._post or None, self._pick, height=64)
        self._told = text(look, "", "body", bold=True)
        self._missing = text(look, "", "body", look.hold, bold=True, visible=False)
        self._who = NamePick(self.app, self.names(), say("more.who"), self._named, self.app.person)
        self._tell()
        work = [
            self.head(say("more.moved_title")), inset(drawing(moved_post(look, *_PICTURE), *_PICTURE), top=GRID),
            inset(heading(look, say("more.which_post")), top=GRID, bottom=GRID), self._posts.control, inset(self._told, top=GRID),
            gap(MARGIN), self._who.control, inset(self._missing, top=GRID), gap(MARGIN),
        ]  # fmt: skip
        return mid_sheet(self.app.look, work, [main_action(look, say("more.it_was_moved"), self._keep, height=64)])

    def _tell(self) -> None:
        self._told.value = say("more.grows_old", bays=listed(model.grown_old(self.live, self._post))) if self._post else ""

    def _pick(self, post: str) -> None:
        self._post = post
        self.app.keep_draft(post)
        self._posts.show(post)
        self._tell()
        self.update(self._posts.control, self._told)

    def _named(self) -> None:
        self._missing.visible = False
        self.update(self._missing)

    async def _keep(self, event: ft.Event[ft.Control]) -> None:
        wrong = "" if self._post else say("more.post_needed")
        wrong = wrong or self._who.refused()
        if wrong:
            self._missing.value, self._missing.visible = wrong, True
            self.update(self._missing)
            return
        if self.busy:
            return
        self.busy = True
        try:
            await self.app.desk.keep_moved(self.id, self._who.name, self._post)
        finally:
            self.busy = False
        self.app.keep_draft("")
        self.app.keep_draft_of("name", "")
        self.app.go("walk", job=self.id, bay=self.tag)
