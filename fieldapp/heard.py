"""What a phone does when somebody on another phone read a bay back."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldapp.screens.both_view import agreed_title
from fieldapp.screens.readback_model import outcome
from fieldapp.words import say
from measure.book import same_person

if TYPE_CHECKING:
    from fieldapp.app import App


def heard(app: App, job: str, bay: str) -> None:
    """For whoever said the figure first: agreement in a band with its sign, a difference as a page of its own. Both sound."""
    found = outcome(app.desk.job(job), bay)
    if found is None or not same_person(found.first_by, app.person):
        return
    if found.agree:
        app.tell(say("share.agree", bay=bay, by=found.second_by, figure=found.first.text), "clear")
        app.sound(agreed_title(bay, True))
    else:
        app.go("both", job=job, bay=bay)
