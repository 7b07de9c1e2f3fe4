"""One figure of a new job, with the keypad: a post system's on the cut through its posts, any other one alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft
import flet.canvas as cv

from fieldapp.parts.action import sign_action
from fieldapp.parts.entry import Entry
from fieldapp.parts.figure import Figure
from fieldapp.parts.keypad import Keypad
from fieldapp.parts.page import LEAST_HIGH
from fieldapp.parts.post_section import clipped, section_height, section_shapes
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import heading, text
from fieldapp.screens import system_model
from fieldapp.screens.keys_page import KeysPage
from fieldapp.screens.new_figures import FIGURES, LIT, SIX, FigureAsked, bare, begun
from fieldapp.screens.new_figures import kept as kept_words
from fieldapp.screens.question_view import pad_words
from fieldapp.screens.runs_model import run_name
from fieldapp.screens.section_words import section_words
from fieldapp.screens.typing_state import other_units
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say
from measure.as_read import with_unit
from measure.errors import EntryError, SpanbookError
from measure.length import Length

if TYPE_CHECKING:
    from fieldapp.app import App

_FIGURE = 60
_GROWING = ("groove_depth", "least_bite", "least_play")
"""Figures that are odd when they are large: asked about while they are typed, the others once they are whole, on the sheet's page."""
_FIXED = 56 + 58 + 80 + 16
"""Pixels of head, question, figure with its sentence, and the foot's margin."""
_SLIVER = 48


class FigureScreen(KeysPage):
    """key: of `FIGURES`. Keys are built once; a press patches figure, echo, drawing and sentence."""

    def __init__(self, app: App, key: str, job: str = "") -> None:
        super().__init__(app, job)
        if key not in FIGURES:
            raise SpanbookError(say("new.not_asked"))
        self.asked: FigureAsked = FIGURES[key]
        self.begin("", begun(self.form, self.asked, ""))
        self._place()

    def _place(self) -> None:
        """The step it belongs to, and where Back leads."""
        key, part = self.asked.key, self.asked.part
        self.step = {"system": "system", "tape": "name"}.get(part, "glass")  # type: ignore[assignment]
        page = {"system": "system", "tape": "tape", "limits": "limits", "glass": "glass"}.get(part, "")
        if part == "glass" and key.startswith(("least_", "greatest_")):
            page = "limits"
        elif key.startswith("turning_") or key == "turn_axis":
            page = "turning"
        elif part == "system" and (self.job or system_model.six_said(self.form)):
            page = "sheet"
        self.row = "sheet" if part == "system" else page
        self.up = self.at(page)
        if key in SIX and SIX.index(key) and page == "system":
            self.up = self.at("figure", key=SIX[SIX.index(key) - 1])

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def view(self) -> ft.Control:
        look, asked = self.look, self.asked
        alone = self.asked.key not in LIT and not look.tight
        self._figure = Figure(look, look.width - 2 * MARGIN - 110, None if alone else _FIGURE)
        self._echo, self._live = text(look, "", "body", look.ink2), text(look, "", "note", bold=True, align=ft.TextAlign.CENTER)
        self._keypad = Keypad(look, self.entry.pad, self.press, pad_words(self.entry.units))
        lit = LIT.get(asked.key)
        self._canvas = cv.Canvas(width=self.picture_width, height=section_height(lit) if lit else 0)
        picture = ft.Semantics(image=True, label=say("new.section_says", name=asked.name), content=clipped(self._canvas, self.picture_width, section_height(lit) if lit else 0))
        row = ft.Row([self._figure.control, self._echo], spacing=MARGIN, alignment=ft.MainAxisAlignment.CENTER, wrap=look.big)
        foot = column([row, inset(self._live)], tight=True)
        self.shows()
        shown = self.beside(picture) if lit else []
        left = max(look.height, LEAST_HIGH) - _FIXED - self._keypad.height
        if shown and left < _SLIVER and not look.big:  # a sliver of it tells nothing: it is scrolled to
            shown.insert(0, gap(max(left, 0) + GRID))
        work = [self._question(), *shown, *self.above_keys()]
        room = left - (section_height(lit) if lit and shown else 0)
        if (look.tight and not self.app.look.wide) or room < 0:
            above = column([*([] if self._own_way_back else self.tops()), *work], expand=True, scroll=ft.ScrollMode.AUTO)
            return self.sheet_of_keys([above, foot, gap(8)], self._keypad.control)
        figure = ft.Container(foot, expand=True, alignment=ft.Alignment.CENTER)
        return self.sheet_of_keys([*self.tops(), *work, figure], self._keypad.control)

    def above_keys(self) -> list[ft.Control]:
        """What else is chosen on this page."""
        return []

    @property
    def _own_way_back(self) -> bool:
        """Of large letters the name has the way back beside it, and the head gives its room to the picture."""
        return self.look.big and not self.app.look.wide

    def _question(self) -> ft.Control:
        look, asked = self.look, self.asked
        count = text(look, say("new.of_six", number=SIX.index(asked.key) + 1) if asked.key in SIX else "", "body", look.ink2)
        name = ft.Semantics(identifier="question", container=True, content=heading(look, self.asks_name(), "title"))
        named: list[ft.Control] = [ft.Container(name, expand=True), count]
        left = MARGIN
        if self._own_way_back:
            named.insert(0, sign_action(look, ft.Icons.ARROW_BACK, say("app.back"), lambda _: self.back()))
            left = 4
        first = ft.Row(named, spacing=4, vertical_alignment=ft.CrossAxisAlignment.CENTER)
        top = GRID if self.app.look.wide else 0
        where = self.asks_where()
        told = [inset(text(look, where, "body", look.ink2), bottom=2)] if where else []
        return column([inset(first, left, top=top), *told])

    def asks_name(self) -> str:
        return self.asked.name

    def asks_where(self) -> str:
        return self.asked.where

    def shows(self, wrong: str = "") -> list[ft.Control]:
        """Set what has been typed; the controls to update."""
        look, entry, asked = self.look, self.entry, self.asked
        whole, fraction = entry.shown
        unit = asked.unit(self.form.units)
        spoken = (
            say("walk.nothing", unit=unit)
            if entry.empty
            else with_unit(entry.text, entry.units)
            if asked.kind in ("length", "mm")
            else entry.text
        )
        self._figure.show(whole, fraction, "" if entry.free else unit, f"{spoken}. {wrong}" if wrong else spoken)
        value = entry.value()
        length = value if isinstance(value, Length) and asked.kind in ("length", "mm") else None
        self._echo.value = other_units(length, entry.units) if length is not None and self.app.device.other_unit else ""
        asks = "" if wrong or asked.key not in _GROWING else system_model.odd(self.form, asked.key, length)
        self._live.value = asks or self._sentence(length, wrong)
        self._live.color = look.hold if wrong else look.query if asks else look.ink
        lit = LIT.get(asked.key)
        if lit:
            self._canvas.shapes = section_shapes(
                look, system_model.drawn(self.form, asked.key, length), lit, section_words(), self.picture_width
            )
        return [self._figure.control, self._echo, self._live, *([self._canvas] if lit else []), *self._keypad.light(entry.lit)]

    def _sentence(self, length: Length | None, wrong: str) -> str:
        if wrong:
            return wrong
        if self.asked.key == "allowance":
            return system_model.live(self.form, length or Length(0)).sentence
        return "" if self.asked.needed else say("new.may_be_empty")

    # ---- keys ----------------------------------------------------------------------------------------------------------
    def kept(self) -> None:
        try:
            words = kept_words(self.entry, self.asked)
        except EntryError as refusal:
            self.update(*self.shows(str(refusal)))
            return
        self.app.keep_draft("")
        self.take(words)

    def take(self, words: str) -> None:
        """Into the form, and on. A figure that was changed is confirmed by nobody."""
        part, key = self.asked.part, self.asked.key
        changed = words != self.form.of(part, key)
        self.keep(self.form.say(part, **{key: words}))
        if part == "system" and changed:
            self.keep(self.form.say("system", confirmed=""))
        following = None if self.job else system_model.next_asked(self.form, key)
        if following:
            self.to("figure", key=following)
        elif key in SIX:
            self.to("sheet")
        else:
            self.back()


class WallFaceScreen(FigureScreen):
    """The face of the wall post at the right end of a run, where it is another than the others'. number: of the run."""

    def __init__(self, app: App, number: str) -> None:
        super().__init__(app, "post_face")
        if not number.isdecimal() or int(number) >= len(self.form.runs):
            raise SpanbookError(say("new.no_run", number=number))
        self._number = int(number)
        self.step, self.up = "runs", self.at("ends", number=number)
        self.asked = FigureAsked("runs", "wall_face")
        said = self.form.runs[self._number].face
        self.begin("", Entry.from_text(bare(said, self.form.units), self.form.units))

    def asks_name(self) -> str:
        return f"{say('new.run', run=run_name(self._number))}, {self.asked.name}"

    def take(self, words: str) -> None:
        self.keep(self.form.with_run(self._number, face=words))
        self.back()
