"""The sheet page of a post system: its six figures, what the allowance leaves, who compared them with which sheet."""

from __future__ import annotations

from typing import Any

import flet as ft

from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.field import Field
from fieldapp.parts.post_section import section_height, section_picture
from fieldapp.parts.row import open_row
from fieldapp.parts.space import column, gap, inset, rule
from fieldapp.parts.text import heading, text
from fieldapp.parts.verdict import small_band
from fieldapp.screens import settings_model
from fieldapp.screens import system_model as model
from fieldapp.screens.name_pick import NamePick
from fieldapp.screens.new_figures import FIGURES, SIX, shown
from fieldapp.screens.new_page import NewPage
from fieldapp.screens.section_words import section_words
from fieldapp.screens.sheet_date import date_text
from fieldapp.theme import EDGE, GRID, LINE, RADIUS
from fieldapp.words import say

_MORE = ("base_plate", "post_height", "turn_axis")
_FIELDS = ("name", "sheet", "at")


class SheetScreen(NewPage):
    """Nobody is chosen beforehand: what stands there was said by the one who confirmed it."""

    step = "system"
    before = "system"
    row = "sheet"

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def view(self) -> ft.Control:
        look, form = self.look, self.form
        crew = [p.name for p in settings_model.crew_of(self.app.desk.setting("crew", []))]
        said = form.system.get("confirmed") or {}
        self._fields = {
            "name": self._field("name", form.of("system", "name"), say("new.system_hint")),
            "sheet": self._field("sheet", self.app.draft_of("sheet") or str(said.get("sheet", ""))),
            "at": self._field("at", self.app.draft_of("at") or date_text(str(said.get("at", ""))), say("new.at_hint")),
        }
        self._who = NamePick(self.app, crew, say("new.by"), lambda: None, str(said.get("by", "")))
        self._missing = text(look, "", "body", look.hold, bold=True, visible=False)
        picture = section_picture(
            look,
            model.drawn(form),
            "allowance",
            section_words(),
            self.picture_width,
            say("new.section_says", name=FIGURES["allowance"].name),
        )
        more = [open_row(look, FIGURES[k].name, shown(form, k), on_click=lambda _, k=k: self._open(k)) for k in _MORE]
        sheet = [ft.Container(self._fields[k].control, expand=None if look.big else n) for k, n in (("sheet", 1), ("at", 1))]
        pair: ft.Control = (
            column(list(sheet), GRID)
            if look.big
            else ft.Row(list(sheet), spacing=GRID, vertical_alignment=ft.CrossAxisAlignment.START)
        )
        work = [
            inset(self._fields["name"].control, EDGE, EDGE, top=GRID if self.app.look.wide else 0),
            *self.beside(ft.Container(picture, height=section_height("allowance"), alignment=ft.Alignment.CENTER)),
            inset(self._cells(), EDGE, EDGE, bottom=GRID), self._band(), *self._odd(), rule(look, look.line), *more, self._turning(), *self._others(), gap(14),
            inset(heading(look, say("new.sheet_title")), bottom=4), inset(pair, EDGE, EDGE, bottom=GRID),
            self._who.control, inset(self._missing, top=GRID),
            inset(text(look, say("new.unconfirmed_told"), "note", look.ink2), top=GRID), gap(GRID),
        ]  # fmt: skip
        return self.sheet(
            work, [
                main_action(look, say("new.figures_right"), self._confirm, height=64),
                small_action(look, say("new.unconfirmed"), self._go_on),
            ],
        )  # fmt: skip

    def _turning(self) -> ft.Control:
        said = model.turning_said(self.form)
        return open_row(self.look, say("new.turning"), sentence=said, on_click=lambda _: self.to("turning"), least=0)

    def _others(self) -> list[ft.Control]:
        """In a job that is there: another system in place of this one."""
        return [open_row(self.look, say("change.other_system"), on_click=lambda _: self.to("system"))] if self.job else []

    def _field(self, key: str, value: str, hint: str = "") -> Field:
        label = say("new.system_name" if key == "name" else f"new.{key}")
        return self.field(label, value, lambda words: self._write(key, words), hint)

    def _cells(self) -> ft.Control:
        """The six figures; a tap opens one."""
        look = self.look
        cells = [self._cell(key) for key in SIX]
        if look.big:
            return column(cells, GRID)
        for cell in cells:
            cell.expand = 1
        return column([ft.Row(cells[i : i + 2], spacing=GRID) for i in range(0, len(cells), 2)], GRID)

    def _cell(self, key: str) -> ft.Semantics:
        look = self.look
        words = [text(look, FIGURES[key].name, "note", look.ink2), text(look, shown(self.form, key), "lead", bold=True)]
        lit = key == "allowance"
        box = ft.Container(
            ft.Column(words, spacing=0, tight=True), height=None if look.big else 58, bgcolor=look.tape2 if lit else look.leaf,
            padding=ft.Padding.symmetric(horizontal=12, vertical=5), border=ft.Border.all(LINE, look.line), border_radius=RADIUS,
            on_click=lambda _: self._open(key),
        )  # fmt: skip
        return ft.Semantics(button=True, container=True, content=box)

    def _band(self) -> ft.Control:
        live = model.live(self.form)
        words = text(self.look, live.sentence, "body", bold=True)
        return small_band(self.look, "clear" if live.ok else "query", words)

    def _odd(self) -> list[ft.Control]:
        """Figures that cannot well be of one post, asked about; nothing is refused."""
        told = model.odd(self.form)
        return [small_band(self.look, "query", text(self.look, told, "body", bold=True))] if told else []

    # ---- what is said --------------------------------------------------------------------------------------------------
    def _open(self, key: str) -> None:
        self.to("figure", key=key)

    def _typed(self) -> dict[str, str]:
        return {key: (self._fields[key].box.value or "").strip() for key in _FIELDS}

    def _write(self, key: str, words: str) -> None:
        """Half-written words come back; they confirm nothing before the main action."""
        if key == "name":
            self.keep(self.form.say("system", name=words.strip()))
        else:
            self.app.keep_draft_of(key, words)

    async def _confirm(self, event: ft.Event[ft.Control]) -> None:
        typed = self._typed()
        field, wrong = model.refused_sheet(typed["name"], typed["sheet"], typed["at"], self._who.name)
        if self._tell(field, wrong or self._who.refused()):
            return
        form = self.form.say("system", name=typed["name"])
        self.keep(model.confirmed(form, typed["sheet"], typed["at"], self._who.name))
        for key in ("sheet", "at", "name"):
            self.app.keep_draft_of(key, "")
        await self._keep_preset()

    async def _go_on(self, event: ft.Event[ft.Control]) -> None:
        """Without a confirmation: a caution on the order, nothing more."""
        typed = self._typed()
        if self._tell("name", "" if typed["name"] else say("new.name_needed")):
            return
        self.keep(self.form.say("system", name=typed["name"], confirmed=""))
        await self._keep_preset()

    async def _keep_preset(self) -> None:
        system: dict[str, Any] = dict(self.form.system)
        await self.app.desk.keep_preset("system", self.form.of("system", "name"), system)
        self.back() if self.job else self.go_to("glass")

    def _tell(self, field: str, wrong: str) -> bool:
        """Say what is wrong, in its place."""
        for key, one in self._fields.items():
            one.show(wrong if key == field else "")
        self._missing.value, self._missing.visible = wrong, bool(wrong)
        self.update(*(f.control for f in self._fields.values()), self._missing)
        return bool(wrong)
