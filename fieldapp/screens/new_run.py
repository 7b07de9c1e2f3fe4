"""One run of a new job: so many bays so far apart, or how long it is. The plan grows with the figure."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import action
from fieldapp.parts.choice import Choice
from fieldapp.parts.entry import Entry
from fieldapp.parts.figure import Figure
from fieldapp.parts.keypad import Keypad
from fieldapp.parts.plan_picture import PlanPicture, PlanWords
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import text
from fieldapp.screens import runs_model as model
from fieldapp.screens.keys_page import KeysPage
from fieldapp.screens.new_figures import bare
from fieldapp.screens.new_form import RunForm
from fieldapp.screens.question_view import pad_words
from fieldapp.theme import EDGE, GRID, KEY
from fieldapp.words import say
from measure.as_read import with_unit
from measure.errors import EntryError, SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_FIGURE, _COUNT = 60, 188
_FIXED = 56 + 40 + 54 + 76 + 40 + 16
"""Pixels of everything beside picture and keys."""
_LEAST_PICTURE, _MOST_PICTURE, _WIDE_PICTURE = 110, 220, 340


class RunScreen(KeysPage):
    """number: of the run, 0 for the first. It has to be in the form already."""

    step = "runs"

    def __init__(self, app: App, number: str) -> None:
        super().__init__(app)
        if not number.isdecimal() or int(number) >= len(self.form.runs):
            raise SpanbookError(say("new.no_run", number=number))
        self._number = int(number)
        self.up = self.at("runs" if self._number or self.form.runs[-1].said else "glass")
        self._begin_run()

    @property
    def _run(self) -> RunForm:
        return self.form.runs[self._number]

    def _begin_run(self) -> None:
        units, run = self.form.units, self._run
        said = run.length if run.by == "length" else run.spacing
        self.begin(run.by, Entry.from_text(bare(said, units), units))

    @property
    def _as_typed(self) -> RunForm:
        text_ = with_unit(self.entry.text, self.entry.units) if not self.entry.empty else ""
        return replace(self._run, **{"length" if self._run.by == "length" else "spacing": text_})

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def view(self) -> ft.Control:
        look, by = self.look, self._run.by
        self._keypad = Keypad(look, self.entry.pad, self.press, pad_words(self.entry.units))
        spaced = by == "spacing"
        self._figure = Figure(look, look.width - 2 * EDGE - (_COUNT + 24 if spaced else 0), _FIGURE)
        self._told = text(look, "", "body", align=ft.TextAlign.CENTER, bold=True)
        self._bays = text(look, "", "word", bold=True)
        self._bays_word = text(look, "", "note", look.ink2, size=look.drawn())
        room = look.height - _FIXED - self._keypad.height
        height = _WIDE_PICTURE if self.app.look.wide else min(max(room, _LEAST_PICTURE), _MOST_PICTURE)
        self._picture = PlanPicture(look, self.picture_width, height, PlanWords("", say("new.wall")))
        shown = self.beside(self._picture.control)
        self.shows()
        ways = [("spacing", say("new.by_spacing")), ("length", say("new.by_length"))]
        way = Choice(look, ways, by, self._way, keys=True).control
        line = inset(self._line(spaced), EDGE, EDGE, top=6)
        question = self._question()
        tight = look.tight and not self.app.look.wide
        told = ft.Container(inset(self._told), alignment=ft.Alignment.CENTER, expand=not tight or None)
        if tight:
            above = column([*self.tops(), question, way, *shown], expand=True, scroll=ft.ScrollMode.AUTO)
            parts = [above, line, told, gap(8)]
        else:
            parts = [*self.tops(), question, *shown, way, line, told]
        return self.sheet_of_keys(parts, self._keypad.control)

    def _question(self) -> ft.Control:
        look = self.look
        asks = say("new.how_many" if self._run.by == "spacing" else "new.how_long")
        words = [text(look, say("new.run", run=model.run_name(self._number)), "title", bold=True), text(look, asks, "title")]
        row = ft.Row(words, spacing=GRID, run_spacing=0, wrap=True)
        return inset(ft.Semantics(identifier="question", container=True, content=row), **({"top": GRID, "bottom": GRID} if self.app.look.wide else {}))

    def _line(self, spaced: bool) -> ft.Control:
        look = self.look
        figure = ft.Container(self._figure.control, expand=True, alignment=ft.Alignment.CENTER)
        if not spaced:
            return ft.Row([figure])
        count = ft.Column([self._bays, self._bays_word], spacing=0, tight=True, horizontal_alignment=ft.CrossAxisAlignment.CENTER)
        less, more = self._step("−", "new.fewer", -1), self._step("+", "new.more", 1)
        return ft.Row(
            [less, ft.Container(count, width=56, alignment=ft.Alignment.CENTER), more, text(look, "×", "title"), figure],
            spacing=6,
        )

    def _step(self, sign: str, says: str, by: int) -> ft.Button:
        button = action(self.look, sign, lambda _: self._count(by), height=KEY, width=56, role="title")
        button.content.semantics_label = say(says)
        button.height = KEY
        return button

    def shows(self, wrong: str = "") -> list[ft.Control]:
        """Set what has been typed; the controls to update."""
        look, entry, run = self.look, self.entry, self._as_typed
        whole, fraction = entry.shown
        unit = "" if entry.free else entry.units
        spoken = say("walk.nothing", unit=entry.units) if entry.empty else with_unit(entry.text, entry.units)
        self._figure.show(whole, fraction, unit, spoken)
        told = model.told(self.form, run)
        self._told.value = wrong or told.sentence
        self._told.color = look.hold if wrong or not told.ok else look.ink
        self._bays.value, self._bays_word.value = str(run.bays), say("new.bays", n=run.bays)
        name = model.run_name(self._number)
        self._picture.show(model.drawn(self.form, self._number, run), say("new.plan_says", run=name), lit=name, tags=False)
        changed = [self._figure.control, self._told, self._picture.control, self._bays, self._bays_word]
        return [*changed, *self._keypad.light(entry.lit)]

    # ---- keys ----------------------------------------------------------------------------------------------------------
    def _count(self, by: int) -> None:
        bays = min(max(self._run.bays + by, 1), model.MOST_BAYS)
        self.keep(self.form.with_run(self._number, bays=bays))
        self.update(*self.shows())

    def _way(self, by: str) -> None:
        self.keep(self.form.with_run(self._number, by=by))
        self._begin_run()
        self.app.redraw()

    def kept(self) -> None:
        try:
            self.entry.read()
            model.laid(self.form, self._as_typed)
        except EntryError as refusal:
            self.update(*self.shows(str(refusal)))
            return
        except SpanbookError as refusal:
            self.update(*self.shows(str(refusal)))
            return
        run = self._as_typed
        self.keep(self.form.with_run(self._number, spacing=run.spacing, length=run.length))
        self.app.keep_draft_of(run.by, "")
        last = self._number == len(self.form.runs) - 1
        self.to("ends", number=self._number) if last else self.to("runs")
