"""What the crew kept under a name: take one, keep what is said now as another, give one a better name, or take it off the list."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

import flet as ft

from fieldapp.parts.action import action, main_action, small_action
from fieldapp.parts.row import open_row
from fieldapp.parts.space import column, gap, inset, rule
from fieldapp.parts.text import heading, text
from fieldapp.parts.verdict import sign, small_band
from fieldapp.screens import presets_model as model
from fieldapp.screens.new_page import NewPage
from fieldapp.theme import EDGE, GRID, MARGIN
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_OFF = "off"
_PAGE = {"system": "system", "glass": "glass", "tape": "tape", "limits": "limits"}


class _OfPresets(NewPage):
    """kind: of `presets_model.KINDS`."""

    def __init__(self, app: App, kind: str, job: str) -> None:
        super().__init__(app, job)
        if kind not in model.KINDS:
            raise SpanbookError(say("app.no_such_page"))
        self.kind = kind
        self.step = {"system": "system", "tape": "name"}.get(kind, "glass")  # type: ignore[assignment]
        self.row = "sheet" if kind == "system" else kind

    def back(self) -> None:
        """To where the person came from: a page of the plan, or the settings."""
        self.app.back()

    def kept(self) -> dict[str, dict[str, Any]]:
        return self.app.desk.presets(self.kind)

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "presets") and not self.app.typing:
            self.app.redraw()


class PresetsScreen(_OfPresets):
    """The list. What was taken off last can be had again until the page is left for good."""

    def __init__(self, app: App, kind: str, job: str = "") -> None:
        super().__init__(app, kind, job)
        self.up = self.at(_PAGE[kind])
        self._name = app.draft_of("name")

    def view(self) -> ft.Control:
        look = self.look
        rows = [self._row(row) for row in model.rows(self.kind, self.kept(), self.form)]
        if not rows:
            rows = [inset(text(look, say("new.preset_none"), "body", look.ink2), top=GRID, bottom=GRID)]
        work = [self.asks(say(f"new.presets_{self.kind}"), say("new.presets_told")), *self._off(), rule(look, look.line), *rows, *self._keep_this()]
        return self.sheet([*work, gap(MARGIN)])

    def _row(self, row: model.PresetView) -> ft.Control:
        mark = sign(self.look, "clear", 44, 32) if row.kept else None
        is_this = say("new.preset_now") if row.kept else ""
        opens = lambda _: self.to("preset", kind=self.kind, name=row.name)  # noqa: E731
        return open_row(self.look, row.name, is_this, row.sentence, mark, opens, least=0)

    def _keep_this(self) -> list[ft.Control]:
        """A name for what is said now; a system has its own."""
        look = self.look
        if self.kind == "system" or model.name_of(self.form, self.kind, self.kept()) or not getattr(self.form, self.kind):
            return []
        self._field = self.field(say("new.preset_name"), self._name, self._write, say("new.preset_hint"))
        keep = small_action(look, say("new.preset_keep"), self._keep)
        told = text(look, model.told(self.kind, getattr(self.form, self.kind)), "body")
        return [
            inset(heading(look, say("new.preset_this")), top=20, bottom=4), inset(told, bottom=GRID), inset(self._field.control, EDGE, EDGE, bottom=GRID),
            inset(column([keep]), EDGE, EDGE),
        ]  # fmt: skip

    def _off(self) -> list[ft.Control]:
        """What was taken off just now, and the way back."""
        off = self._taken_off()
        if off is None:
            return []
        look = self.look
        words = text(look, say("new.preset_off", name=off["name"]), "body", bold=True)
        back = action(look, say("new.preset_back"), self._bring_back, height=48, role="body")
        return [small_band(look, "clear", column([words, back], GRID))]

    def _taken_off(self) -> dict[str, Any] | None:
        kept = self.app.draft_of(_OFF)
        return json.loads(kept) if kept else None

    def _write(self, words: str) -> None:
        self._name = words
        self.app.keep_draft_of("name", words)

    async def _keep(self, event: ft.Event[ft.Control]) -> None:
        wrong = model.refused_name(self._name, self.kept())
        if wrong:
            self._field.show(wrong)
            self.update(self._field.control)
            return
        await self.app.desk.keep_preset(self.kind, " ".join(self._name.split()), dict(getattr(self.form, self.kind)))
        self._write("")
        self.app.redraw()

    async def _bring_back(self, event: ft.Event[ft.Control]) -> None:
        off = self._taken_off()
        if off is not None and off["name"] not in self.kept():
            await self.app.desk.keep_preset(self.kind, off["name"], off["words"])
        self.app.keep_draft_of(_OFF, "")
        self.app.redraw()


class PresetScreen(_OfPresets):
    """One of them. name: as it is kept."""

    def __init__(self, app: App, kind: str, name: str, job: str = "") -> None:
        super().__init__(app, kind, job)
        if name not in self.kept():
            raise SpanbookError(say("new.no_preset", name=name))
        self._was, self._name = name, app.draft_of("name") or name
        self.up = self.at("presets", kind=kind)

    def view(self) -> ft.Control:
        look, words = self.look, self.kept().get(self._was, {})
        self._field = self.field(say("new.preset_name"), self._name, self._write)
        rename = small_action(look, say("new.preset_rename"), self._rename)
        off = small_action(look, say("new.preset_take_off"), self._take_off)
        told = text(look, say("new.preset_off_told"), "note", look.ink2)
        work = [
            self.asks(self._was, model.told(self.kind, words)), inset(self._field.control, EDGE, EDGE, top=GRID, bottom=GRID),
            inset(column([rename]), EDGE, EDGE, bottom=20), inset(column([off]), EDGE, EDGE), inset(told, top=6), gap(MARGIN),
        ]  # fmt: skip
        return self.sheet(work, [main_action(look, say(f"new.preset_use_{self.kind}"), lambda _: self._use())])

    def _write(self, words: str) -> None:
        self._name = words
        self.app.keep_draft_of("name", words)

    def _use(self) -> None:
        self.keep(model.taken(self.form, self.kind, self.kept()[self._was]))
        self.to("sheet" if self.kind == "system" else _PAGE[self.kind])

    async def _rename(self, event: ft.Event[ft.Control]) -> None:
        name = " ".join(self._name.split())
        wrong = model.refused_name(name, self.kept(), self._was)
        if wrong:
            self._field.show(wrong)
            self.update(self._field.control)
            return
        words = self.kept()[self._was]
        await self.app.desk.keep_preset(self.kind, name, {**words, "name": name} if self.kind == "system" else words)
        if name != self._was:
            await self.app.desk.remove_preset(self.kind, self._was)
        self._write("")
        self.back()

    async def _take_off(self, event: ft.Event[ft.Control]) -> None:
        words = self.kept()[self._was]
        await self.app.desk.remove_preset(self.kind, self._was)
        self._write("")
        name, params = self.at("presets", kind=self.kind)
        self.app.up(name, **params)
        self.app.keep_draft_of(_OFF, json.dumps({"name": self._was, "words": words}, default=str))
        self.app.redraw()
