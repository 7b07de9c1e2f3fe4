"""On the phone of whoever said a figure first: somebody read it back, and this is what both say."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.screens.both_view import agreed_title, both_figures
from fieldapp.screens.looks_on import looks_on
from fieldapp.screens.of_bay import BayScreen
from fieldapp.screens.readback_model import outcome
from fieldapp.screens.tape_anew import tape_anew
from fieldapp.words import say

if TYPE_CHECKING:
    from fieldapp.app import App


class BothScreen(BayScreen):
    """Leads back to where the person was; a difference asks for the tape again."""

    def __init__(self, app: App, job: str, bay: str) -> None:
        super().__init__(app, job, bay)
        found = outcome(self.live, self.tag)
        self.title = agreed_title(self.tag, found.agree) if found else self.title
        if app.host.connection.role == "scribe":
            self.up = ("readback", {"job": job})

    def view(self) -> ft.Control:
        look, found = mid(self.app.look), outcome(self.live, self.tag)
        agree = found is not None and found.agree
        on = (main_action if agree else small_action)(look, say("share.go_on"), lambda _: self.app.back())
        if found is None:
            return mid_sheet(self.app.look, [self.head(say("share.both"))], [on])
        work = [self.head(say("share.both")), *both_figures(look, self.live.plan.units, found)]
        again = main_action(look, say("readback.tape_anew", tag=self.tag), lambda _: tape_anew(self.app, self.id, self.tag))
        return mid_sheet(self.app.look, work, [on] if found.agree or looks_on(self.app) else [again, on], ground=look.verdict("clear" if found.agree else "hold")[1])
