"""One run of a plan that is being changed: its posts and bays as they stand, how long it is, more bays or fewer at its ends."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import action, main_action, small_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.post_pictures import turn
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import heading, text
from fieldapp.parts.tile import Tiles
from fieldapp.parts.verdict import small_band
from fieldapp.screens import plan_edit as edit
from fieldapp.screens.new_page import NewPage
from fieldapp.screens.runs_model import TURNS
from fieldapp.theme import EDGE, GRID, MARGIN
from fieldapp.words import say
from measure.errors import SpanbookError
from measure.plan import SEEN_FROM
from measure.plan_version import PlanWords
from measure.rounding import plain_text

if TYPE_CHECKING:
    from fieldapp.app import App

_MOST_ROWS = 60
FOLLOWS = ("posts", "slope")


class RunPlanScreen(NewPage):
    """run: its name."""

    def __init__(self, app: App, run: str, job: str) -> None:
        super().__init__(app, job)
        if run not in edit.run_names(self.plan_change.now):
            raise SpanbookError(say("change.no_run", run=run))
        self._run = run
        self._shown = _MOST_ROWS
        self._refused = ""
        self._told = ""

    def opened(self) -> str:
        return self._run

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def view(self) -> ft.Control:
        look, words, run = self.look, self.plan_change.now, self._run
        bays = edit.run_bays(words, run)
        length = edit.run_length(words, run)
        ends = ft.Row(
            [self._end_action("left", "remove", "−"), self._end_action("left", "add", "+"), ft.Container(expand=True),
             self._end_action("right", "remove", "−"), self._end_action("right", "add", "+")], spacing=GRID,
        )  # fmt: skip
        labels = [text(look, say("change.left_end"), "note", look.ink2), ft.Container(expand=True), text(look, say("change.right_end"), "note", look.ink2)]
        work: list[ft.Control] = [self.asks(say("new.run", run=run), say("change.run_told", n=len(bays)))]
        if self._refused:
            work.append(small_band(look, "hold", text(look, self._refused, "body", bold=True)))
        elif self._told:
            work.append(small_band(look, "clear", text(look, self._told, "body", bold=True)))
        work += [inset(ft.Row(labels), bottom=4, top=GRID), inset(ends, EDGE, EDGE, bottom=GRID), rule(look, look.line)]
        work.append(self._to_length(plain_text(length, words["job"]["units"]) if length else say("new.not_said")))
        work += [gap(GRID), *self._line(bays), gap(GRID), *self._follows(), *self._seen(), gap(MARGIN)]
        return self.sheet(work, [main_action(look, say("change.so"), lambda _: self.back()), small_action(look, say("new.take_off", run=run), lambda _: self._take_off())])

    def _end_action(self, side: edit.Side, what: str, sign: str) -> ft.Button:
        tag = edit.run_bays(self.plan_change.now, self._run)[0 if side == "left" else -1]["tag"]
        button = action(self.look, sign, lambda _: self._change_end(side, what), height=56, width=64, role="title")
        button.content.semantics_label = say(f"change.{what}_{side}", tag=tag)
        return button

    def _to_length(self, length: str) -> ft.Control:
        to = lambda _: self.to("figure-of", kind="run", place=self._run, key="length")  # noqa: E731
        return open_row(self.look, say("change.key_length"), length, on_click=to)

    def _line(self, bays: list[dict[str, object]]) -> list[ft.Control]:
        """Posts and bays in their order, as they stand."""
        look, words = self.look, self.plan_change.now
        rows = [self._post_row(words, str(bays[0]["left"]))]
        for bay in bays[: self._shown]:
            rows += [self._bay_row(words, bay), self._post_row(words, str(bay["right"]))]
        if (more := len(bays) - self._shown) > 0:
            rows.append(inset(small_action(look, say("change.more_bays", n=more), lambda _: self._more()), EDGE, EDGE, top=GRID))
        return [rule(look, look.line), *rows]

    def _post_row(self, words: PlanWords, id: str) -> ft.Control:
        post = edit.post_of(words, id)
        angle = f", {post['angle']}°" if "angle" in post else ""
        kind = say(f"change.kind_{post['kind']}")
        return open_row(self.look, say("change.post", post=id), f"{kind}{angle}", on_click=lambda _: self.to("post", post=id), least=48)

    def _bay_row(self, words: PlanWords, bay: dict[str, object]) -> ft.Control:
        tag = str(bay["tag"])
        spacing = edit.spacing_text(words, bay) or say("new.not_said")
        without = say("change.glass_none") if "glass" in bay else ""
        to = lambda _: self.to("figure-of", kind="bay", place=tag, key="spacing")  # noqa: E731
        return open_row(self.look, f"{tag}, {without}" if without else tag, spacing, on_click=to)

    def _follows(self) -> list[ft.Control]:
        """What the glass follows on a slope; on a fall it is nearly the same."""
        look = self.look
        now = edit.run_of(self.plan_change.now, self._run).get("rack_follows")
        pick = lambda word: self._say(rack_follows=None if word == now else word)  # noqa: E731
        options = [(word, say(f"change.follows_{word}")) for word in FOLLOWS]
        return [inset(heading(look, say("taken.follows", run=self._run)), bottom=6), Choice(look, options, now, pick, height=56).control, gap(GRID)]

    def _seen(self) -> list[ft.Control]:
        said = edit.run_of(self.plan_change.now, self._run).get("seen_from", SEEN_FROM)
        to = lambda _: self.to("words-of", kind="run", place=self._run, key="seen_from")  # noqa: E731
        return [rule(self.look, self.look.line), open_row(self.look, say("change.key_seen_from"), sentence=said, on_click=to, least=0)]

    # ---- what a tap does -----------------------------------------------------------------------------------------------
    def _change_end(self, side: edit.Side, what: str) -> None:
        change = self.plan_change
        bays = edit.run_bays(change.now, self._run)
        tag = bays[0 if side == "left" else -1]["tag"]
        self._refused = self._told = ""
        try:
            if what == "add":
                back = edit.with_bay_back(change.draft.was, change.now, self._run, side)
                change.keep(back or edit.with_bay_added(change.now, self._run, side, change.read, change.taken))
                new = edit.run_bays(change.now, self._run)[0 if side == "left" else -1]["tag"]
                self._told = say("change.bay_back" if back else "change.bay_added", tag=new)
            else:
                change.keep(edit.with_bay_removed(change.now, self._run, side, change.read))
                self._told = say("change.bay_off_read" if tag in change.read else "change.bay_off", tag=tag)
        except SpanbookError as refused:
            self._refused = str(refused)
        self.app.redraw()

    def _say(self, **said: object) -> None:
        self.plan_change.keep(edit.with_run(self.plan_change.now, self._run, **said))
        self.app.redraw()

    def _more(self) -> None:
        self._shown += _MOST_ROWS
        self.app.redraw()

    def _take_off(self) -> None:
        try:
            self.plan_change.keep(edit.with_run_removed(self.plan_change.now, self._run))
        except SpanbookError as refused:
            self._refused = str(refused)
            self.app.redraw()
            return
        self.back()


class AddRunScreen(NewPage):
    """One run more: where it turns from the last one, or that it stands alone. Its length is said on its own page."""

    def opened(self) -> str:
        return "add-run"

    def view(self) -> ft.Control:
        look = self.look
        last = edit.run_names(self.plan_change.now)[-1]
        turns = [(str(a), f"{a}°", turn(a)) for a in TURNS]
        alone = small_action(look, say("change.alone"), lambda _: self._add(""))
        work = [
            self.asks(say("change.where_adds", run=last), say("new.turn_told")), Tiles(look, turns, None, self._add, 3, 116).control, gap(GRID),
            inset(text(look, say("change.other_turn"), "body", look.ink2), bottom=GRID),
        ]  # fmt: skip
        return self.sheet(work, [alone])

    def _add(self, turn: str) -> None:
        change = self.plan_change
        change.keep(edit.with_run_added(change.now, turn, change.taken))
        self.to("run", run=edit.run_names(change.now)[-1])
