"""More readings of a bay: each with its picture, what it catches, and its figure if read; and how this person walks."""

from __future__ import annotations

from dataclasses import replace

import flet as ft

from fieldapp.parts import reading_pictures as pictures
from fieldapp.parts.action import main_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.stroke import drawing
from fieldapp.parts.text import heading, text
from fieldapp.parts.tile import Draw
from fieldapp.screens import ROUTES
from fieldapp.screens import more_model as model
from fieldapp.screens.looks_on import looks_on
from fieldapp.screens.of_bay import BayScreen
from fieldapp.screens.taken_kept import keep_taken, kept_taken
from fieldapp.screens.walk_model import asked
from fieldapp.screens.walk_order import rise_of
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say

_ROW, _PICTURE = 79, (76, 52)
_OF_WALK = ("span", "rise", "base-rise")
_DRAWN: dict[str, Draw] = {
    "second-span": pictures.second_tape, "top-span": pictures.top_span, "plumb-left": pictures.plumb(), "plumb-right": pictures.plumb(),
    "diagonal-rising": pictures.diagonals, "base-rise": pictures.rise, "rise": pictures.rise, "span": pictures.second_tape,
    "overall-outside": pictures.overall, "overall-inside": pictures.run_overall(4, "inside"), "overall-rise": pictures.run_rise(4, "right"),
    "moved": pictures.moved_post, "note": pictures.note, "history": pictures.note,
}  # fmt: skip


class MoreScreen(BayScreen):
    """One row a reading. Span and rise lead back into the walk, to be measured again."""

    def view(self) -> ft.Control:
        look = mid(self.app.look)
        rows, looks = model.more_rows(self.live, self.tag, len(self.app.desk.notes(self.id, self.tag))), looks_on(self.app)
        rows = [row for row in rows if row.to in ("note", "history") or (row.value and row.to not in _OF_WALK)] if looks else rows
        told = inset(text(look, say("walk.looks_on" if looks else "more.told"), "body", look.ink2), bottom=10)
        lines = [
            open_row(
                look, r.name, r.value, r.sentence, drawing(_DRAWN[r.to](look, *_PICTURE), *_PICTURE),
                lambda _, to=r.to: self._open(to), _ROW,
            )
            for r in rows
        ]  # fmt: skip
        if self.live.book.counting("bay", self.tag, "span") is not None and not looks:
            aloud = lambda _: self.app.go("say", job=self.id, bay=self.tag)  # noqa: E731
            lines.append(open_row(look, say("share.say"), sentence=say("share.say_told"), on_click=aloud, least=_ROW))
        to, words = ("", say("walk.review")) if looks else model.onward_words(self.live, self.tag, kept_taken(self.app, self.id).from_right)
        main = main_action(look, words, lambda _: self._onward(to), height=64)
        return mid_sheet(self.app.look, [self.head(say("more.title")), told, rule(look, look.line), *lines, *([] if looks else self._habits())], [main])

    def _habits(self) -> list[ft.Control]:
        """From which end this person walks, and on which side of the glass they stand."""
        look, taken = mid(self.app.look), kept_taken(self.app, self.id)
        ends = [(False, say("more.from_left")), (True, say("more.from_right"))]
        sides = [(False, say("more.on_deck")), (True, say("more.outside"))]
        self._ends = Choice(look, ends, taken.from_right, lambda v: self.app.run(self._walk_from, v))
        self._sides = Choice(look, sides, taken.outside, lambda v: self.app.run(self._stand, v))
        part = lambda words: inset(heading(look, words), top=MARGIN, bottom=6)  # noqa: E731
        told = inset(text(look, say("more.outside_told"), "note", look.ink2), top=GRID)
        return [part(say("more.walk_from")), self._ends.control, part(say("more.stand")), self._sides.control, told, gap(MARGIN)]

    async def _walk_from(self, right: bool) -> None:
        await keep_taken(self.app, self.id, replace(kept_taken(self.app, self.id), from_right=right))
        self.app.redraw()

    async def _stand(self, outside: bool) -> None:
        await keep_taken(self.app, self.id, replace(kept_taken(self.app, self.id), outside=outside))
        self._sides.show(outside)
        self.update(self._sides.control)

    def _open(self, to: str) -> None:
        if to in ("moved", "note", "history"):
            self.app.go(to, job=self.id, bay=self.tag)
        elif to in ("span", rise_of(self.live, self.tag)):
            self.app.keep_draft_of("step", asked(self.live, self.tag, to).draft, ROUTES["walk"].address(job=self.id, bay=self.tag))
            self.app.go("walk", job=self.id, bay=self.tag)
        else:
            self.app.go("read", job=self.id, bay=self.tag, what=to)

    def _onward(self, to: str) -> None:
        if to:  # the step that the words name, not the one where the bay was left
            self.app.keep_draft_of("step", "", ROUTES["walk"].address(job=self.id, bay=to))
            self.app.go("walk", job=self.id, bay=to)
        else:
            self.app.go("review", job=self.id)
