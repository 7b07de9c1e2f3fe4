"""A copy of every job in one file, handed to the person; each job remembers that it left."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldapp.screens.settings_model import copy_name, copy_of_all
from fieldapp.words import say
from measure.documents import dump

if TYPE_CHECKING:
    from fieldapp.app import App


async def copy_all(app: App) -> None:
    """Does nothing but say so where there is no job."""
    desk, now = app.desk, app.host.clock.now()
    cards = desk.jobs()
    if not cards:
        app.tell(say("settings.no_jobs"))
        return
    packed = copy_of_all((card.name, dump(desk.words(card.id))) for card in cards)
    await app.host.files.save(copy_name(now), packed)
    for card in cards:
        desk.was_copied(card.id)
    app.redraw()
