"""The office: where this job is sent, whether by itself, and how much of it is there."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.field import Field
from fieldapp.parts.head import title_head
from fieldapp.parts.page import mid_sheet
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import heading, text
from fieldapp.parts.verdict import small_band
from fieldapp.screens.office_model import AddressError, office_address, office_view
from fieldapp.screens.screen import Screen
from fieldapp.sharing import plain_code
from fieldapp.theme import EDGE, MARGIN
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App
    from fieldapp.office import Office

_ADDRESS, _CODE = "address", "code"


class OfficeScreen(Screen):
    """For whoever owns the job; a guest's figures are in the office's store already."""

    title = say("office.title")

    def __init__(self, app: App, job: str) -> None:
        super().__init__(app)
        if app.host.office is None:
            raise SpanbookError(say("join.owners"))
        self.job, self.live = job, app.desk.job(job)
        self.office: Office = app.host.office
        self.up = ("review", {"job": job})
        sending = self.office.sending(job)
        self._typed = {
            _ADDRESS: app.draft_of(_ADDRESS, self._place()) or sending.address,
            _CODE: app.draft_of(_CODE, self._place()) or sending.code,
        }  # fmt: skip

    def view(self) -> ft.Control:
        look, sending = self.app.look, self.office.sending(self.job)
        head = title_head(look, say("office.title"), self.live.name, say("app.back"), lambda _: self.app.back())
        self._slot = ft.Container(self._standing())
        self._fields = {name: self._field(name) for name in (_ADDRESS, _CODE)}
        ways = [(on, say(f"office.by_itself_{on}")) for on in (False, True)]
        self._ways = Choice(look, ways, sending.on, lambda on: self.app.run(self._switch, on))
        work = [
            head, self._slot, gap(MARGIN), *(inset(f.control, EDGE, EDGE, bottom=12) for f in self._fields.values()),
            inset(heading(look, say("office.by_itself_head")), top=4, bottom=6), self._ways.control,
            inset(text(look, say("office.what_goes"), "note", look.ink2), top=MARGIN),
        ]  # fmt: skip
        send = main_action(look, say("office.send"), lambda _: self.app.run(self._send))
        return mid_sheet(look, [*work, gap(MARGIN)], [send])

    def on_change(self, topics: frozenset[str]) -> None:
        """What is being typed stays: only how things stand is drawn anew."""
        if self.concerns(topics, f"office {self.job}", f"job {self.job}", "everything"):
            self._show()

    # ---- what stands there ---------------------------------------------------------------------------------------------
    def _standing(self) -> ft.Control:
        look = self.app.look
        found = office_view(self.office.standing(self.job), self.app.host.clock.now())
        words = [text(look, found.words, "lead", bold=True), *(text(look, more, "body") for more in found.more)]
        said = ft.Semantics(identifier="standing", container=True, live_region=True, content=column(words, 4))
        return small_band(look, found.sign, said)

    def _show(self) -> None:
        self._slot.content = self._standing()
        self.update(self._slot)

    def _field(self, name: str) -> Field:
        more = (
            {"keyboard_type": ft.KeyboardType.URL} if name == _ADDRESS else {"capitalization": ft.TextCapitalization.CHARACTERS}
        )
        return Field(
            self.app.look, say(f"office.{name}"), self._typed[name], say(f"office.{name}_hint"),
            on_change=lambda e: self._keep_typed(name, e), on_focus=self.app.field_on, on_blur=self.app.field_off, autocorrect=False, enable_suggestions=False, **more,
        )  # fmt: skip

    def _place(self) -> str:
        return f"office {self.job}"

    def _keep_typed(self, name: str, event: ft.Event[ft.TextField]) -> None:
        self._typed[name] = event.control.value or ""
        self.app.keep_draft_of(name, self._typed[name], self._place())

    # ---- what is done --------------------------------------------------------------------------------------------------
    async def _switch(self, on: bool) -> None:
        if await self._chosen(on):
            self._ways.show(on)
            self.update(self._ways.control)
            self._show()

    async def _send(self) -> None:
        if await self._chosen(self.office.sending(self.job).on):
            sending = asyncio.ensure_future(self.office.send_now(self.job))
            await asyncio.sleep(0)
            self._show()  # it is on its way
            await sending
            self._show()

    async def _chosen(self, on: bool) -> bool:
        """Keep what was typed; False where it cannot be read, and says so below its field. Switching off needs nothing typed."""
        wrong = {_ADDRESS: "", _CODE: "" if plain_code(self._typed[_CODE]) else say("office.code_needed")}
        address = ""
        try:
            address = office_address(self._typed[_ADDRESS], self.office.secure_page)
        except AddressError as problem:
            wrong[_ADDRESS] = str(problem)
        if not on and any(wrong.values()) and self.office.sending(self.job).on:
            before = self.office.sending(self.job)
            await self.office.choose(self.job, before.address, before.code, False)
            return True
        for name, field in self._fields.items():
            field.show(wrong[name])
            self.update(field.control)
        if any(wrong.values()):
            return False
        await self.office.choose(self.job, address, self._typed[_CODE], on)
        for name in self._typed:
            self.app.keep_draft_of(name, "", self._place())
        self._typed[_ADDRESS] = self._fields[_ADDRESS].box.value = address
        self.update(self._fields[_ADDRESS].control)
        return True
