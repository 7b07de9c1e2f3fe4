"""The plan of a job that is there, to be changed: the railing to tap in, its parts as rows, and what is changed so far."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.space import column, gap, inset, rule
from fieldapp.parts.text import heading, text
from fieldapp.screens import change_plan_model as model
from fieldapp.screens.change_bay import bay_part
from fieldapp.screens.change_overview import change_overview, plan_picture
from fieldapp.screens.new_page import NewPage
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say
from measure.plan_version import PlanWords

if TYPE_CHECKING:
    from fieldapp.app import App

_MOST_TOLD = 12


class ChangePlanScreen(NewPage):
    """Changes are a draft of this device until somebody keeps them; what was read stays whatever the plan becomes."""

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app, job)
        self.up = ("review", {"job": job})
        self._dropped: PlanWords | None = None
        if self.plan_change.clashes:
            app.tell(say("change.clashed", places=", ".join(self.plan_change.clashes)))

    @property
    def _tag(self) -> str:
        """The bay that was tapped in the plan."""
        kept = self.app.draft_of("bay")
        return kept if any(bay["tag"] == kept for bay in self.plan_change.now["bays"]) else ""

    def view(self) -> ft.Control:
        look, change = self.look, self.plan_change
        told = inset(text(look, say("change.told"), "body", look.ink2), top=GRID, bottom=6)
        bay = bay_part(self, self._tag) if self._tag else []
        if self.app.look.wide:
            work = [told, *bay, *self._changes()]
        else:
            work = [told, *plan_picture(self.app, look, change), *bay, *change_overview(self.app, look, change, picture=False), *self._changes()]
        actions = [main_action(look, say("change.see"), lambda _: self._see(), onward=True)]
        if change.draft.changed:
            actions.append(small_action(look, say("change.drop"), lambda _: self._drop()))
        elif self._dropped is not None:
            actions.append(small_action(look, say("change.take_up"), lambda _: self._take_up()))
        return self.sheet([*work, gap(MARGIN)], list(actions))

    def _changes(self) -> list[ft.Control]:
        """What is changed so far, a line each."""
        look, found = self.look, model.told(self.plan_change.draft)
        if not found:
            return [inset(text(look, say("change.nothing"), "body", look.ink2), top=MARGIN)]
        lines = [text(look, one, "body") for one in found[:_MOST_TOLD]]
        if more := len(found) - len(lines):
            lines.append(text(look, say("change.and_more", n=more), "note", look.ink2))
        return [gap(MARGIN), rule(look, look.line), inset(heading(look, say("change.so_far")), top=GRID, bottom=4), inset(column(list(lines), 4))]

    def _see(self) -> None:
        if self.plan_change.draft.changed:
            self.to("keep")
        else:
            self.app.tell(say("change.nothing"))

    def _drop(self) -> None:
        """Back to the plan as it is. Until this page is left the changes can be had again."""
        self._dropped = self.plan_change.now
        self.plan_change.forget()
        self.app.keep_draft_of("bay", "")
        self.app.redraw()

    def _take_up(self) -> None:
        if self._dropped is not None:
            self.plan_change.keep(self._dropped)
        self._dropped = None
        self.app.redraw()

    def on_change(self, topics: frozenset[str]) -> None:
        """A plan that somebody else kept meanwhile is taken in when the next page is opened."""
