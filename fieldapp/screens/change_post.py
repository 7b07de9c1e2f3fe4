"""One post of a plan that is being changed: its kind, how it turns, and what of it is other than the system says."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.post_pictures import corner_post, end_post, turn, wall_post
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.parts.tile import Tiles
from fieldapp.screens import plan_edit as edit
from fieldapp.screens import runs_model
from fieldapp.screens.new_page import NewPage
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App


class PostPlanScreen(NewPage):
    """post: its id."""

    def __init__(self, app: App, post: str, job: str) -> None:
        super().__init__(app, job)
        self._id = post
        edit.post_of(self.plan_change.now, post)
        runs = [bay["run"] for bay in edit.bays_at(self.plan_change.now, post)]
        self.up = self.at("run", run=runs[0]) if runs else self.at("")

    def opened(self) -> str:
        bays = edit.bays_at(self.plan_change.now, self._id)
        return str(bays[0]["run"]) if bays else ""

    def view(self) -> ft.Control:
        look, words = self.look, self.plan_change.now
        post, place = edit.post_of(words, self._id), edit.place_of(words, self._id)
        tags = edit.named([bay["tag"] for bay in edit.bays_at(words, self._id)])
        trimmed = [(False, say("change.not_trimmed")), (True, say("change.trimmed"))]
        work = [
            self.asks(say("change.post", post=self._id), say("change.post_told", tags=tags)), *self._kind(post, place), rule(look, look.line),
            self._figure(post, "face"), self._figure(post, "height"), gap(14),
            inset(text(look, say("change.trimmed_asks"), "body", bold=True), bottom=6),
            Choice(look, trimmed, bool(post.get("trimmed")), lambda t: self._say(trimmed=t or None), height=56).control,
            inset(text(look, say("change.trimmed_told"), "note", look.ink2), top=6), gap(MARGIN),
        ]  # fmt: skip
        return self.sheet(work, [main_action(look, say("change.so"), lambda _: self.back())])

    def _kind(self, post: dict[str, object], place: str) -> list[ft.Control]:
        look = self.look
        if place == "inside":
            return [inset(text(look, say("change.inside"), "body", look.ink2), bottom=GRID)]
        if place == "shared":
            now = str(post.get("angle", 90 if post["kind"] == "corner" else 180))
            turns = [(str(a), f"{a}°", turn(a)) for a in runs_model.TURNS]
            value = f"{now}°"
            told = text(look, runs_model.turned(now), "body", look.ink2)
            return [Tiles(look, turns, now, self._turn, 3, 112).control, self._angle(value), inset(told, top=GRID, bottom=GRID)]
        kinds = [
            ("end", say("new.end_post"), end_post), ("corner", say("new.end_corner"), corner_post), ("wall", say("new.end_wall"), wall_post),
        ]  # fmt: skip
        tiles = Tiles(look, kinds, str(post["kind"]), self._become, 3, 132).control
        angle = [self._angle(f"{post.get('angle', 90)}°")] if post["kind"] != "end" else []
        return [tiles, gap(GRID), *angle]

    def _angle(self, value: str) -> ft.Control:
        key = "angle_wall" if edit.post_of(self.plan_change.now, self._id)["kind"] == "wall" else "angle"
        return open_row(self.look, say(f"change.key_{key}"), value, on_click=lambda _: self.to("figure-of", kind="post", place=self._id, key="angle"))

    def _figure(self, post: dict[str, object], key: str) -> ft.Control:
        value = str(post.get(key) or say("change.as_the_system"))
        return open_row(self.look, say(f"change.key_{key}"), value, on_click=lambda _: self.to("figure-of", kind="post", place=self._id, key=key))

    def _become(self, kind: str) -> None:
        self._say(kind=kind, angle=None)

    def _turn(self, angle: str) -> None:
        made = edit.turned_post(edit.post_of(self.plan_change.now, self._id), int(angle))
        self._say(**{k: v for k, v in made.items() if k != "id"})

    def _say(self, **said: object) -> None:
        self.plan_change.keep(edit.with_post(self.plan_change.now, self._id, **said))
        self.app.redraw()
