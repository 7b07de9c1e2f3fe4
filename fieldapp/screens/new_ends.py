"""How a run ends, and where the next one turns: tiles drawn as plans."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.plan_picture import PlanPicture, PlanWords
from fieldapp.parts.post_pictures import corner_post, end_post, other, turn, wall_post
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.parts.tile import Tiles
from fieldapp.screens import runs_model as model
from fieldapp.screens.new_page import NewPage
from fieldapp.theme import EDGE, GRID
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_OTHER = "other"


class EndsScreen(NewPage):
    """The right end of the last run, and the left end of one that stands alone. number: of the run, 0 for the first."""

    step = "runs"

    def __init__(self, app: App, number: str, job: str = "") -> None:
        super().__init__(app, job)
        if not number.isdecimal() or int(number) >= len(self.form.runs):
            raise SpanbookError(say("new.no_run", number=number))
        self._number = int(number)
        self.up = self.at("run", number=number)

    def view(self) -> ft.Control:
        look, run = self.look, self.form.runs[self._number]
        name = model.run_name(self._number)
        picture = PlanPicture(
            look, self.picture_width, self._height(), PlanWords("", say("new.wall"))
        )
        picture.show(model.drawn(self.form), say("new.plan_says", run=name), lit=name, tags=False)
        ends = [
            ("end", say("new.end_post"), end_post),
            ("corner", say("new.end_corner"), corner_post),
            ("wall", say("new.end_wall"), wall_post),
        ]
        last = model.drawn(self.form)[self._number].bays[-1].tag
        work = [
            self.asks(f"{say('new.run', run=name)}, {say('new.right_end')}", say("new.right_told", tag=last)),
            *self.beside(picture.control), gap(4),
            Tiles(look, ends, run.right, self._right, 3, 132).control, gap(10), *self._left_end(run.turn, run.left),
        ]  # fmt: skip
        if run.right == "wall":
            face = run.face or say("new.as_the_others")
            open_face = lambda _: self.to("face", number=self._number)  # noqa: E731
            work += [rule(look, look.line), open_row(look, say("new.wall_face"), face, on_click=open_face), gap(10)]
            work.append(inset(text(look, say("new.wall_told"), "body", look.ink2)))
        label = say("new.to_turn") if run.right == "corner" else say("new.run_is_so", run=name)
        return self.sheet(work, [main_action(look, label, lambda _: self._next(), onward=run.right == "corner")])

    def _height(self) -> float:
        if self.app.look.wide:
            return 200 if model.straight(self.form) else 380
        return 150 if model.straight(self.form) or self.look.low else 250

    def _left_end(self, turned: str, kind: str) -> list[ft.Control]:
        look = self.look
        if turned:
            with_run = say("new.corner_with", run=model.run_name(self._number - 1))
            change = lambda _: self.to("turn", number=self._number)  # noqa: E731
            return [rule(look, look.line), open_row(look, with_run, f"{turned}°", on_click=change)]
        options = [("end", say("new.end_end")), ("wall", say("new.left_wall"))]
        return [self.asks(say("new.left_end")), Choice(look, options, kind, self._left_is, height=56).control, gap(10)]

    def _right(self, kind: str) -> None:
        self.keep(self.form.with_run(self._number, right=kind))
        self.app.redraw()

    def _left_is(self, kind: str) -> None:
        self.keep(self.form.with_run(self._number, left=kind))
        self.app.redraw()

    def _next(self) -> None:
        if self.form.runs[self._number].right == "corner":
            self.to("turn", number=self._number + 1)
        else:
            self.to("runs")


class TurnScreen(NewPage):
    """The angle between the last run and a new one, or one that is there; none is chosen beforehand. number: of that run."""

    step = "runs"

    def __init__(self, app: App, number: str, job: str = "") -> None:
        super().__init__(app, job)
        if not number.isdecimal() or not 0 < int(number) <= len(self.form.runs) or int(number) >= len(model.NAMES):
            raise SpanbookError(say("new.no_run", number=number))
        self._number = int(number)
        self._new = self._number == len(self.form.runs)
        self.up = self.at("ends", number=str(self._number - 1)) if self._new else self.at("runs")
        self._angle = app.draft_of("angle") or ("" if self._new else self.form.runs[self._number].turn)
        self._own = bool(self._angle) and self._angle not in map(str, model.TURNS)

    def view(self) -> ft.Control:
        look, before, name = self.look, model.run_name(self._number - 1), model.run_name(self._number)
        low = look.low and not self.app.look.wide
        self._picture = PlanPicture(look, self.picture_width, 160 if low else 230)
        options = [(str(a), f"{a}°", turn(a)) for a in model.TURNS] + [(_OTHER, say("new.other_angle"), other())]
        self._tiles = Tiles(look, options, None, self._pick, 3, 116)
        said = self._angle if self._own else ""
        self._field = self.field(say("new.angle"), said, self._write, role="lead", keyboard_type=ft.KeyboardType.NUMBER)
        self._field_place = inset(self._field.control, EDGE, EDGE, top=GRID)
        self._told = text(look, "", "body", look.ink2)
        self._main = main_action(look, "", lambda _: self._next())
        self._set()
        question = f"{say('new.run', run=before)}, {say('new.where_turn', run=name)}"
        work = [
            self.asks(question, say("new.turn_told")), *self.beside(self._picture.control), self._tiles.control, self._field_place,
            inset(self._told, top=12, bottom=GRID),
        ]  # fmt: skip
        actions: list[ft.Control] = [self._main]
        if self._new:
            actions.append(small_action(look, say("new.stands_alone", run=name), lambda _: self._alone()))
        return self.sheet(work, actions)

    def _set(self) -> list[ft.Control]:
        name = model.run_name(self._number)
        ok = model.is_angle(self._angle)
        runs = model.drawn(self.form)[: self._number]
        longest = max(sum(bay.spacing for bay in run.bays) for run in runs)
        ghost = (float(self._angle), longest * 0.5) if ok else None
        self._picture.show(runs, say("new.turn_says", run=name, angle=self._angle or "?"), ghost=ghost, tags=False)
        self._tiles.show(_OTHER if self._own else self._angle or None)
        self._field_place.visible = self._own
        self._told.value = model.turned(self._angle)
        self._main.content.value = say("new.turn_then", angle=self._angle, run=name) if ok else say("new.turn_main", run=name)
        return [self._picture.control, self._tiles.control, self._field_place, self._told, self._main]

    def _pick(self, value: str) -> None:
        self._own = value == _OTHER
        self._say("" if self._own else value)
        self.update(*self._set())

    def _write(self, words: str) -> None:
        self._say(words.strip().removesuffix("°"))
        changed = self._set()
        self.update(*(c for c in changed if c is not self._field_place))

    def _say(self, angle: str) -> None:
        self._angle = angle
        self.app.keep_draft_of("angle", angle)

    def _next(self) -> None:
        if not model.is_angle(self._angle):
            self._told.value, self._told.color = say("new.angle_needed"), self.look.hold
            self.update(self._told)
            return
        if self._new:
            self.keep(model.next_run(self.form, self._angle))
        else:
            self.keep(self.form.with_run(self._number, turn=self._angle))
        self.app.keep_draft_of("angle", "")
        if self.form.runs[self._number].said and not self._new:
            self.to("runs")
        else:
            self.to("run", number=self._number)

    def _alone(self) -> None:
        self.keep(model.next_run(self.form, ""))
        self.app.keep_draft_of("angle", "")
        self.to("run", number=self._number)
