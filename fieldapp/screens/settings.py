"""How this device shows things, who is on the crew, and the copy of every job."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from fieldapp.parts.action import action, side_by_side
from fieldapp.parts.choice import Choice
from fieldapp.parts.head import title_head
from fieldapp.parts.leaf import letter
from fieldapp.parts.page import DETAIL, Spread, page_sheet
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.stroke import Shapes, box, framed, line, stroke, wash, word
from fieldapp.parts.text import heading, text
from fieldapp.parts.tile import Tiles
from fieldapp.screens import presets_model
from fieldapp.screens import settings_model as model
from fieldapp.screens.copy_all import copy_all
from fieldapp.screens.person import NEW
from fieldapp.screens.screen import Screen
from fieldapp.theme import GRID, Hand, Look, Theme
from fieldapp.words import say


class SettingsScreen(Screen):
    """Every choice is its own sample."""

    title = say("settings.title")

    def view(self) -> ft.Control:
        look, back = self.app.look, lambda _: self.app.back()
        head = title_head(look, say("settings.title"), say("settings.of_device"), say("app.back"), back)
        add = action(look, say("settings.add"), lambda _: self.app.go("person", name=NEW), height=56, role="body")
        if not look.wide:
            return page_sheet(look, [head, *self._looks(look), *self._rest(look)], [side_by_side(look, add)])
        right = look.on(DETAIL)
        page = page_sheet(right, self._rest(right), [side_by_side(right, add)], paper=look.leaf)
        return Spread(look, head, [*self._looks(look.on(look.width - DETAIL)), gap(GRID)], page).control

    def _rest(self, look: Look) -> list[ft.Control]:
        """What is no look: people, what they keep, copies, the guide."""
        return [*self._crew(look), gap(GRID), *self._kept(look), self._copy(look), *self._phone(look), self._guide(look), gap(GRID)]

    def _kept(self, look: Look) -> list[ft.Control]:
        """What the crew kept under a name; a guest has none of it."""
        if self.app.host.connection.guest:
            return []
        kinds = [(kind, len(self.app.desk.presets(kind))) for kind in presets_model.KINDS]
        return [
            open_row(look, say(f"new.presets_{kind}"), str(n), on_click=lambda _, k=kind: self.app.go("new-presets", kind=k))
            for kind, n in kinds if n
        ]  # fmt: skip

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "settings", "presets", "everything"):
            self.app.redraw()

    # ---- how it looks --------------------------------------------------------------------------------------------------
    def _looks(self, look: Look) -> list[ft.Control]:
        lights = [(v, say(f"settings.{v}"), _light(v)) for v in model.LIGHTS]
        letters = [(v, say(f"settings.letters_{v}"), _letters(v)) for v in model.LETTERS]
        hands = [(v, say(f"settings.{v}"), _hand(v)) for v in model.HANDS]
        keys = [(v, say(f"settings.keys_{v}")) for v in model.KEYS]
        units = [(v, say(f"settings.other_unit_{v}")) for v in model.OTHER_UNIT]
        return [
            _part(look, say("settings.light")), Tiles(look, lights, look.theme, self._restyling("theme"), 2, 104).control,
            _part(look, say("settings.letters")), Tiles(look, letters, look.text, self._restyling("text"), 3, 92).control,
            _part(look, say("settings.hand")), Tiles(look, hands, look.hand, self._restyling("hand"), 2, 92).control,
            _part(look, say("settings.keys")), Choice(look, keys, look.large_keys, self._restyling("large_keys")).control,
            _part(look, say("settings.other_unit")),
            Choice(look, units, self.app.device.other_unit, self._restyling("other_unit")).control,
        ]  # fmt: skip

    def _restyling(self, part: str) -> Callable[[object], object]:
        return lambda value: self.app.run(lambda: self.app.restyle(**{part: value}))

    # ---- crew, copy ----------------------------------------------------------------------------------------------------
    def _crew(self, look: Look) -> list[ft.Control]:
        crew = model.crew_of(self.app.desk.setting("crew", []))
        here = self.app.person
        rows = [
            open_row(
                look, p.name, sentence=model.under(p, here), picture=letter(look, p.letter), least=60,
                on_click=lambda _, name=p.name: self.app.go("person", name=name), says=f"{p.name}, {model.under(p, here)}",
            )
            for p in crew
        ]  # fmt: skip
        if not rows:
            rows = [inset(text(look, say("settings.no_crew"), "body", look.ink2), top=GRID, bottom=GRID)]
        return [_part(look, say("settings.crew")), rule(look, look.line), *rows]

    def _copy(self, look: Look) -> ft.Control:
        when = model.copied([card.copied_at for card in self.app.desk.jobs()])
        return open_row(look, say("settings.copy"), when, on_click=lambda _: self.app.run(lambda: copy_all(self.app)))

    def _phone(self, look: Look) -> list[ft.Control]:
        """Where the app runs alone: what the phone says of itself; beside a server: how a phone gets the app."""
        host, rows = self.app.host, []
        if host.keeper is not None:
            rows.append(open_row(look, say("phone.title"), sentence=say("phone.row_under"), on_click=lambda _: self.app.go("phone")))
        if host.phone_app is not None:
            rows.append(open_row(look, say("phones.title"), sentence=say("phones.row_under"), on_click=lambda _: self.app.go("phones")))
        if host.intake is not None:
            rows.append(open_row(look, say("intake.title"), sentence=say("intake.row_under"), on_click=lambda _: self.app.go("intake")))
        return rows

    def _guide(self, look: Look) -> ft.Control:
        return open_row(look, say("settings.guide"), sentence=say("settings.guide_under"), on_click=lambda _: self.app.go("guide", page="tape"))


def _part(look: Look, words: str) -> ft.Control:
    return inset(heading(look, words), top=14, bottom=6)


# ---- samples of the choices ------------------------------------------------------------------------------------------------
def _light(theme: Theme) -> Callable[[Look, float, float], Shapes]:
    def draw(_: Look, w: float, h: float) -> Shapes:
        own = Look(theme)
        y = h - 24
        blade: Shapes = framed(18, y, w - 36, 14, own.tape, own.outline, 1.5)
        ticks = [line((x, y), (x, y + 6), stroke(own.on_tape, 1.5)) for x in range(28, int(w) - 22, 12)]
        return [box(0, 0, w, h, wash(own.paper)), word(w / 2, (h - 24) / 2, "40", own.ink, 34, True), *blade, *ticks]

    return draw


def _letters(grown: float) -> Callable[[Look, float, float], Shapes]:
    return lambda look, w, h: [word(w / 2, h / 2, "40", look.ink, 19 * grown, True)]


def _hand(side: Hand) -> Callable[[Look, float, float], Shapes]:
    def draw(look: Look, w: float, h: float) -> Shapes:
        keys = [("⌫", 26.0), ("", 26.0), (say("settings.keep"), w - 24 - 68)]
        shapes: Shapes = []
        x, y = 12.0, h / 2 - 15
        for label, width in keys if side == "right" else reversed(keys):
            keep = width > 26
            shapes += framed(x, y, width, 30, look.main if keep else look.leaf, look.ink if keep else look.line, 1.5, 4)
            if label:
                shapes.append(word(x + width / 2, h / 2, label, look.on_main if keep else look.ink, 14, keep))
            x += width + GRID
        return shapes

    return draw
