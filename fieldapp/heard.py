"""What a phone does when somebody on another phone read a bay back, or is there to say a figure aloud or to hear one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fieldapp.company import Present, place_of
from fieldapp.screens.both_view import agreed_title
from fieldapp.screens.readback_model import first_span, outcome
from fieldapp.words import say
from measure.as_read import with_unit
from measure.book import same_person

if TYPE_CHECKING:
    from fieldapp.app import App


def heard(app: App, job: str, bay: str) -> None:
    """For whoever said the figure first: agreement in a band with its sign, a difference as a page of its own. Both sound."""
    live = app.desk.job(job)
    found = outcome(live, bay)
    if found is None or not same_person(found.first_by, app.person):
        return
    if not found.agree:
        app.go("both", job=job, bay=bay)
        return
    if place_of(app.address) != (job, "say", bay):  # that page says so itself
        key, figure = ("heard", with_unit(found.first.text, live.plan.units)) if found.aloud else ("agree", found.first.text)
        app.tell(say(f"share.{key}", bay=bay, by=found.second_by, figure=figure), "clear")
    app.sound(agreed_title(bay, True))


@dataclass(frozen=True, slots=True)
class Call:
    """Somebody waits for this person. speaks: this person says the figure; else they hear it."""

    job: str
    bay: str
    name: str
    speaks: bool

    @property
    def sentence(self) -> str:
        return say("share.listens" if self.speaks else "share.says", name=self.name, bay=self.bay)


class Aloud:
    """One for a page. The call stands in the page's band, once; it goes when the other one goes or the bay is read back."""

    def __init__(self, app: App) -> None:
        self._app = app
        self._told: Call | None = None

    def look(self) -> None:
        """Somebody moved, or this page did."""
        app, before, self._told = self._app, self._told, _call(self._app)
        now = self._told
        if now == before:
            return
        if before is not None and app.told == before.sentence:
            app.settled()
        if now is not None:
            words = say("share.to_say", bay=now.bay) if now.speaks else say("share.to_hear")
            app.tell(now.sentence, "todo", (words, lambda: app.go("say", job=now.job, bay=now.bay)))


def _call(app: App) -> Call | None:
    """Who is on the page where a figure is said aloud, for this person; None where nobody is, or they are both there."""
    job, screen, at = place_of(app.address)
    role = app.host.connection.role
    if not job or not app.person or role == "office":
        return None
    live = app.desk.job(job)
    for one in app.desk.company.of(job, app):
        if one.screen == "say" and one.bay in live.book.bays and one.name and (screen, at) != ("say", one.bay):
            call = _between(app, job, one, reads=role == "scribe")
            if call is not None:
                return call
    return None


def _between(app: App, job: str, one: Present, reads: bool) -> Call | None:
    """reads: whether this person is there to read back. None where the bay is read back already, or it is nothing between these two."""
    live = app.desk.job(job)
    first, found = first_span(live, live.bay(one.bay)), outcome(live, one.bay)
    if first is None or (found is not None and found.agree) or same_person(one.name, app.person):
        return None
    if same_person(first.by, app.person):
        return Call(job, one.bay, one.name, True)
    return Call(job, one.bay, one.name, False) if reads and same_person(first.by, one.name) else None
