"""Straight to the question of a bay's span, whatever was answered there before."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fieldapp.screens import ROUTES

if TYPE_CHECKING:
    from fieldapp.app import App


def tape_anew(app: App, job: str, bay: str) -> None:
    """The keys stand open there; what is kept takes the place of the span that counts. An answer left there is not shown again."""
    app.keep_draft_of("step", "", ROUTES["read"].address(job=job, bay=bay, what="span"))
    app.go("read", job=job, bay=bay, what="span")
