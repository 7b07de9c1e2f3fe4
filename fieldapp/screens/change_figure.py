"""One figure of a bay, a post or a run of a plan that is being changed, with the keypad; and the few things said in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.choice import Choice
from fieldapp.parts.entry import Entry
from fieldapp.screens import plan_edit as edit
from fieldapp.screens.new_figure import FigureScreen
from fieldapp.screens.new_figures import FigureAsked, bare
from fieldapp.screens.words_page import WordsPage
from fieldapp.words import say
from measure.errors import SpanbookError
from measure.plan import SEEN_FROM
from measure.rounding import plain_text

if TYPE_CHECKING:
    from fieldapp.app import App

PLAN_FIGURES = {
    ("bay", "spacing"): FigureAsked("plan", "spacing", needed=True), ("bay", "height"): FigureAsked("plan", "height"),
    ("post", "face"): FigureAsked("plan", "face"), ("post", "height"): FigureAsked("plan", "post_height"),
    ("post", "angle"): FigureAsked("plan", "angle", "deg", most=359), ("run", "length"): FigureAsked("plan", "length", needed=True),
}  # fmt: skip
ONE, ALL = "one", "all"


class PlanFigureScreen(FigureScreen):
    """kind: `bay`, `post` or `run`. place: its tag, id or name. key: of `PLAN_FIGURES`."""

    def __init__(self, app: App, kind: str, place: str, key: str, job: str) -> None:
        super().__init__(app, "post_face", job)
        if (kind, key) not in PLAN_FIGURES:
            raise SpanbookError(say("new.not_asked"))
        self.asked = PLAN_FIGURES[kind, key]
        self._kind, self._place_name, self._key = kind, place, key
        self._scope = app.draft_of("scope") or ONE
        self.up = self._parent()
        units = "mm" if self.asked.kind == "deg" else self.form.units
        self.begin("", Entry.from_text(bare(self._said(), units), units))

    def _parent(self) -> tuple[str, dict[str, str]]:
        """The run, unless a bay was tapped in the plan."""
        now = self.plan_change.now
        if self._kind == "post":
            edit.post_of(now, self._place_name)
            return self.at("post", post=self._place_name)
        if self._kind == "run":
            return self.at("run", run=self._place_name)
        bay = edit.bay_of(now, self._place_name)
        return self.at("run", run=bay["run"]) if self._key == "spacing" else self.at("")

    def _said(self) -> str:
        now = self.plan_change.now
        if self._kind == "bay":
            bay = edit.bay_of(now, self._place_name)
            return edit.spacing_text(now, bay) if self._key == "spacing" else str(bay.get(self._key, ""))
        if self._kind == "post":
            return str(edit.post_of(now, self._place_name).get(self._key, ""))
        length = edit.run_length(now, self._place_name)
        return plain_text(length, now["job"]["units"]) if length is not None else ""

    def opened(self) -> str:
        now = self.plan_change.now
        if self._kind == "run":
            return self._place_name
        bays = [edit.bay_of(now, self._place_name)] if self._kind == "bay" else edit.bays_at(now, self._place_name)
        return str(bays[0]["run"]) if bays else ""

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def asks_name(self) -> str:
        name = {"post": say("change.post", post=self._place_name), "run": say("new.run", run=self._place_name)}
        return f"{name.get(self._kind, self._place_name)}, {say(f'change.key_{self.asked.key}')}"

    def asks_where(self) -> str:
        if self._key == "length":
            return say("change.length_where", n=len(edit.run_bays(self.plan_change.now, self._place_name)))
        if self._key == "spacing" and self.app.look.low and not self.app.look.wide:
            return ""  # on a low phone the choice below it needs the room
        return say(f"change.{self._kind}_{self._key}_where")

    def above_keys(self) -> list[ft.Control]:
        """Of a spacing: whether all bays of the run get it."""
        if (self._kind, self._key) != ("bay", "spacing"):
            return []
        run = edit.bay_of(self.plan_change.now, self._place_name)["run"]
        options = [(ONE, say("change.this_bay", tag=self._place_name)), (ALL, say("change.whole_run", run=run))]
        self._scopes = Choice(self.look, options, self._scope, self._pick_scope, keys=True)
        return [self._scopes.control]

    def _pick_scope(self, scope: str) -> None:
        self._scope = scope
        self.app.keep_draft_of("scope", scope)
        self._scopes.show(scope)
        self.update(self._scopes.control)

    # ---- what is kept --------------------------------------------------------------------------------------------------
    def take(self, words: str) -> None:
        change, now, place = self.plan_change, self.plan_change.now, self._place_name
        try:
            if self._key == "length":
                made = edit.with_length(now, place, words)
            elif self._key == "spacing":
                run = edit.bay_of(now, place)["run"]
                tags = [bay["tag"] for bay in edit.run_bays(now, run)] if self._scope == ALL else [place]
                made = edit.with_spacing(now, tags, words)
            elif self._kind == "bay":
                made = edit.with_bay(now, place, **{self._key: words or None})
            elif self._key == "angle":
                made = self._turned(int(words) if words else None)
            else:
                made = edit.with_post(now, place, **{self._key: words or None})
        except SpanbookError as refused:
            self.update(*self.shows(str(refused)))
            return
        change.keep(made)
        self.app.keep_draft_of("scope", "")
        self.app.back()

    def _turned(self, angle: int | None) -> dict[str, object]:
        now, post = self.plan_change.now, edit.post_of(self.plan_change.now, self._place_name)
        if angle is None or post["kind"] == "wall" or edit.place_of(now, self._place_name) != "shared":
            return edit.with_post(now, self._place_name, angle=angle)
        made = edit.turned_post(post, angle)
        return edit.with_post(now, self._place_name, kind=made["kind"], angle=angle)


class PlanWordsScreen(WordsPage):
    """kind, place, key: `bay A2 finish_face` or `run A seen_from`."""

    def __init__(self, app: App, kind: str, place: str, key: str, job: str) -> None:
        super().__init__(app, job)
        if (kind, key) not in (("bay", "finish_face"), ("run", "seen_from")):
            raise SpanbookError(say("new.not_asked"))
        self._kind, self._place, self._key = kind, place, key
        now = self.plan_change.now
        entry = edit.bay_of(now, place) if kind == "bay" else edit.run_of(now, place)
        self.begin(str(entry.get(key) or ""))
        self.up = self.at("") if kind == "bay" else self.at("run", run=place)

    def opened(self) -> str:
        return self._place if self._kind == "run" else str(edit.bay_of(self.plan_change.now, self._place)["run"])

    def asked(self) -> tuple[str, str]:
        name = self._place if self._kind == "bay" else say("new.run", run=self._place)
        return f"{name}, {say(f'change.key_{self._key}')}", say(f"change.{self._key}_told")

    def ready(self) -> list[tuple[str, str | None]]:
        if self._kind == "run":
            return [(SEEN_FROM, None)]
        return [(say("change.of_job_too"), None), (say("new.glass_face"), say("new.glass_face")), (say("change.plain"), "")]

    def take(self, words: str | None) -> None:
        now, said = self.plan_change.now, {self._key: words}
        self.plan_change.keep(edit.with_bay(now, self._place, **said) if self._kind == "bay" else edit.with_run(now, self._place, **said))
        self.app.back()
