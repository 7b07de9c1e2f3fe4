"""What every screen is: see the docstring of fieldapp.screens for how one is written."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

import flet as ft

if TYPE_CHECKING:
    from fieldapp.app import App


ASIDE = ("office ", "phone-app", "intake")
"""Topics of what goes on in the background: only a screen that tells of it looks up, or somebody's typing would be cut off."""


class Screen:
    """One screen of one open page. Made when the person goes there, dropped when they leave."""

    title = ""
    """Beside the app's name in the browser's tab."""
    up: tuple[str, dict[str, str]] | None = ("jobs", {})
    """Where Back leads when the person came here by an address: a route's name and its parameters. None: nowhere."""
    on_bay = ""
    """The bay that the person is on, where the address does not say so: for the others to see (`self.app.be_here()` after a change)."""
    redraws_by_height = False
    """Whether a new height (a keyboard that slides in) draws it anew; a new width always does."""

    told_at: float | None = None
    """How far from the top the app's own band lies over it: where keys fill the page, below its title. None: the screen gives way to it."""

    def __init__(self, app: App) -> None:
        self.app = app

    def view(self) -> ft.Control:
        """The whole screen in the look of `self.app.look`; called again whenever it has to be drawn anew."""
        raise NotImplementedError

    def on_change(self, topics: frozenset[str]) -> None:
        """Somebody else changed something (`jobs`, `settings`, `job 7`, `bay 7 A3`), or the connection came back."""
        if not all(topic.startswith(ASIDE) for topic in topics):
            self.app.redraw()

    def on_key(self, event: ft.KeyboardEvent) -> None:
        """A key of a real keyboard, while no field has it."""

    def on_size(self) -> None:
        """Another room; `self.app.look` has it."""
        self.app.redraw()

    def shown(self) -> None:
        """The view stands on the page now: the place for background work (`self.app.run(…)`)."""

    def leave(self) -> None:
        """The person goes elsewhere; nothing may be lost here."""

    def update(self, *controls: ft.Control) -> None:
        """Send what changed in these controls to the page, a small packet each."""
        self.app.update(*controls)

    def concerns(self, topics: Iterable[str], *wanted: str) -> bool:
        """Whether any of the topics is one of those wanted."""
        return not set(wanted).isdisjoint(topics)
