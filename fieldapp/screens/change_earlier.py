"""The versions of a job's plan: who changed it and when; any of them can be taken up again as a change."""

from __future__ import annotations

from datetime import datetime

import flet as ft

from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset, rule
from fieldapp.parts.text import text
from fieldapp.screens import change_plan_model as model
from fieldapp.screens.new_page import NewPage
from fieldapp.screens.plan_draft import PlanDraft
from fieldapp.theme import MARGIN
from fieldapp.words import day, hour, say
from measure.plan_rows import KeptPlan

_MOST, _MOST_TOLD = 40, 2


class EarlierPlansScreen(NewPage):
    """The newest first. A tap takes an earlier one up: it is a change like any other, and kept by name."""

    def opened(self) -> str:
        return "earlier"

    def view(self) -> ft.Control:
        look, kept = self.look, self.app.desk.plan_versions(self.job)
        rows = [self._row(kept, number) for number in reversed(range(max(len(kept) - _MOST, 0), len(kept)))]
        if len(kept) < 2:
            rows.append(inset(text(look, say("change.first_only"), "body", look.ink2), top=MARGIN))
        return self.sheet([self.asks(say("change.part_earlier"), say("change.earlier_told")), rule(look, look.line), *rows, gap(MARGIN)])

    def _row(self, kept: list[KeptPlan], number: int) -> ft.Control:
        version = kept[number].version
        when = datetime.fromisoformat(version.at) if version.at else None
        name = say("change.by_at", by=version.by or say("sides.of_file"), day=day(when), hour=hour(when)) if when else say("change.as_it_came")
        told = model.told(PlanDraft(version.id, kept[number - 1].plan, version.plan)) if number else []
        sentence = " ".join(told[:_MOST_TOLD]) + (f" {say('change.and_more', n=len(told) - _MOST_TOLD)}" if len(told) > _MOST_TOLD else "")
        last = kept[number].newest
        return open_row(
            self.look, name, say("change.is_now") if last else "", sentence or say("change.begun"), least=0,
            on_click=None if last else lambda _: self._take(kept[number]),
        )  # fmt: skip

    def _take(self, kept: KeptPlan) -> None:
        self.plan_change.keep(kept.plan)
        self.back()
