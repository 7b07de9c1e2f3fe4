"""A page of one bay beside the walk: its job, its bay, the way back, and who says something there."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.head import tag_head
from fieldapp.screens import settings_model
from fieldapp.screens.screen import Screen
from fieldapp.screens.walk_model import names_offered
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App


class BayScreen(Screen):
    """Base of such a page. Raises SpanbookError where there is no such bay."""

    def __init__(self, app: App, job: str, bay: str) -> None:
        super().__init__(app)
        self.id, self.live, self.tag = job, app.desk.job(job), bay
        if bay not in self.live.book.bays:
            raise SpanbookError(say("walk.no_bay", tag=bay, job=self.live.name))
        self.title, self.up = self.live.name, ("walk", {"job": job, "bay": bay})
        self.busy = False

    def head(self, what: str) -> ft.Control:
        return tag_head(self.app.look, self.tag, what, "", say("app.back"), lambda _: self.app.back())

    def names(self) -> list[str]:
        """Names to choose from: the crew's, and those of the job's readings."""
        crew = settings_model.crew_of(self.app.desk.setting("crew", []))
        return names_offered(self.live, (p.name for p in crew))

    def on_change(self, topics: frozenset[str]) -> None:
        """Drawn anew where this job is concerned, unless somebody is writing."""
        if not self.app.typing and ("everything" in topics or self.concerns(topics, f"job {self.id}")):
            self.app.redraw()
