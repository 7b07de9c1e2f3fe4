"""The plan of a job that is there, as it is to be: the railing from above, and each part of it as a row to open."""

from __future__ import annotations

from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts.plan_picture import PlanBay, PlanPicture, PlanRun, PlanWords
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, rule
from fieldapp.screens import ROUTES
from fieldapp.screens import change_plan_model as model
from fieldapp.screens import plan_edit as edit
from fieldapp.screens.plan_change import PlanChange
from fieldapp.theme import GRID, Look
from fieldapp.words import say
from measure.plan_version import PlanWords as Plan

if TYPE_CHECKING:
    from fieldapp.app import App

MOST_IN_PICTURE = 60
_HEIGHT, _LOW_HEIGHT, _FLAT_HEIGHT = 280, 200, 150
_USUAL = 1000.0
"""Drawn for a bay without glass that has no spacing."""


def change_overview(app: App, look: Look, change: PlanChange, opened: str = "", picture: bool = True) -> list[ft.Control]:
    """opened: the row that is open beside it. picture: unless the page has one of its own."""
    drawn = plan_picture(app, look, change) if picture else []
    rows = [_row(app, look, change.id, row, (row.place or row.page) == opened) for row in model.part_rows(change.draft)]
    more = [
        open_row(look, say(f"change.part_{page}"), on_click=lambda _, p=page: app.go(f"change-{p}", job=change.id), lit=page == opened)
        for page in ("head", "add-run", "earlier")
    ]
    return [*drawn, rule(look, look.line), *rows, *more]


def _row(app: App, look: Look, job: str, row: model.PartRow, lit: bool) -> ft.Control:
    params = {"run": row.place} if row.place else {}
    return open_row(
        look, row.name, say("change.changed") if row.changed else "", row.sentence, least=0,
        on_click=lambda _: app.go(f"change-{row.page}", job=job, **params), lit=lit,
    )  # fmt: skip


def plan_picture(app: App, look: Look, change: PlanChange) -> list[ft.Control]:
    """The railing as it is to be, to tap a bay in; a long one is told by its rows alone."""
    words = change.now
    if len(words["bays"]) > MOST_IN_PICTURE:
        return []
    height = _FLAT_HEIGHT if len(edit.run_names(words)) == 1 else _LOW_HEIGHT if look.low else _HEIGHT

    def tap(tag: str) -> None:
        address = ROUTES["plan"].address(job=change.id)
        app.keep_draft_of("bay", tag, address)
        app.redraw() if app.address == address else app.up("plan", job=change.id)

    picture = PlanPicture(look, look.width, height, PlanWords(say("new.deck"), say("new.wall")), tap)
    tag = app.draft_of("bay", ROUTES["plan"].address(job=change.id))
    count = say("new.count_bays", n=len(words["bays"]))
    panels = say("new.count_panels", n=sum("glass" not in bay for bay in words["bays"]))
    picture.show(drawn_runs(words), say("new.whole_plan_says", bays=count, panels=panels), chosen=tag or None)
    return [picture.control, gap(GRID)]


def drawn_runs(words: Plan) -> list[PlanRun]:
    """The runs of a plan as its picture draws them."""
    found = []
    names = edit.run_names(words)
    for number, run in enumerate(names):
        posts = edit.run_posts(words, run)
        follows = edit.run_posts(words, names[number + 1]) if number + 1 < len(names) else []
        shared = bool(follows) and follows[0] == posts[-1]
        last = edit.post_of(words, posts[-1])
        turn = float(last.get("angle", 90 if last["kind"] == "corner" else 180)) if shared else None
        right = "end" if shared else last["kind"]
        found.append(PlanRun(run, tuple(_bay(words, bay) for bay in edit.run_bays(words, run)), turn, edit.post_of(words, posts[0])["kind"], right))
    return found


def _bay(words: Plan, bay: dict[str, object]) -> PlanBay:
    tag, spacing = str(bay["tag"]), edit.spacing_of(words, bay)
    glass = "glass" not in bay
    says = f"{tag}, {say('new.panel') if glass else say('change.glass_none')}"
    return PlanBay(tag, spacing.mm if spacing else _USUAL, glass=glass, gate=tag, says=says)
