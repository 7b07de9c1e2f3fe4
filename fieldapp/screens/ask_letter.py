"""The first phone: shows which bays to read back as a QR code, and takes the answer in."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.hosts.ports import PickedFile
from fieldapp.hosts.qr_reader import can_read, read_qr
from fieldapp.letter import Answer
from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.field import Field
from fieldapp.parts.head import title_head
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import gap, inset
from fieldapp.parts.text import text
from fieldapp.screens import letter_model as model
from fieldapp.screens.letter_view import letter_view, link_to
from fieldapp.screens.screen import Screen
from fieldapp.theme import EDGE, GRID, MARGIN
from fieldapp.words import listed, say
from measure.errors import DocumentError

if TYPE_CHECKING:
    from fieldapp.app import App


class AskLetterScreen(Screen):
    """Works without any network. What comes in is kept under the name that the answer says."""

    title = say("letter.ask")

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app)
        self.job, self.live = job, app.desk.job(job)
        self.up = ("review", {"job": job})
        self._busy = False

    def view(self) -> ft.Control:
        look = mid(self.app.look)
        head = title_head(look, say("letter.ask"), self.live.name, say("app.back"), lambda _: self.app.back())
        ask = model.ask_of(self.live, self.job)
        if ask is None:
            work: list[ft.Control] = [head, inset(text(look, say("letter.ask_none"), "lead"), top=MARGIN)]
        else:
            bays = say("letter.ask_bays", bays=listed([tag for tag, _ in ask.bays], 8))
            work = [head, *letter_view(self.app, link_to(self.app, "letter", ask.text()), say("letter.ask_do")), inset(text(look, bays, "body", bold=True), top=GRID)]
        self._field = Field(
            look, say("letter.take"), self.app.draft, role="body", on_change=self._typed,
            on_focus=self.app.field_on, on_blur=self.app.field_off,
        )  # fmt: skip
        how = text(look, say("letter.take_hint" if can_read() else "letter.take_hint_text"), "body")
        work += [inset(how, top=MARGIN, bottom=6), inset(self._field.control, EDGE, EDGE), gap(MARGIN)]
        actions = [main_action(look, say("letter.take_in"), lambda _: self.app.run(self._take))]
        if can_read():
            picture = small_action(look, say("letter.picture"))
            picture.action = self.app.host.files.picking(self._picked, "png", "jpg", "jpeg")
            actions.append(picture)
        return mid_sheet(self.app.look, work, actions)

    def _typed(self, event: ft.Event[ft.TextField]) -> None:
        self.app.keep_draft((event.control.value or "")[:3000])

    async def _picked(self, files: Sequence[PickedFile]) -> None:
        if files:
            await self._take_in(await read_qr(files[0].data))

    async def _take(self) -> None:
        await self._take_in(self._field.box.value or "")

    async def _take_in(self, said: str) -> None:
        if self._busy:
            return
        self._busy = True
        try:
            found = await model.take_in(self.app.desk, self.live, self.job, Answer.read(said))
        except DocumentError as refused:
            self.app.tell(" ".join(p.sentence for p in refused.problems))
            return
        finally:
            self._busy = False
        self.app.keep_draft("")
        self.app.redraw()
        self.app.tell(found.sentence, found.sign, found=True)

    def on_change(self, topics: frozenset[str]) -> None:
        if self.concerns(topics, "everything", f"job {self.job}") and not self.app.typing:
            self.app.redraw()
