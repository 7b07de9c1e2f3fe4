"""It stands, because …: reasons to tap, and the very words that the order will print. Pure. Nothing is chosen beforehand."""

from __future__ import annotations

from fieldapp.live_job import LiveJob
from fieldapp.words import say
from measure.finding import Finding

LONGEST_REASON = 120
_USUAL = ("joist", "changed", "cannot_move", "same", "wanted")
REASONS: dict[str, tuple[str, ...]] = {
    "spacing": ("same", "maker", "office"),
    "lean": ("as_they_stand", "shimmed_later", "same", "office"),
    "plumb": ("as_they_stand", "shimmed_later", "same"),
    "grip": ("marks", "same", "office", "shop"),
    "slope": ("deck_so", "same", "office"),
    "neighbour": ("deck_so", "ends_checked", "same"),
    "design-slope": ("instrument", "same"),
    "closing": ("each_again", "not_hooked_well", "office"),
    "closing-rise": ("each_again", "office"),
    "post-height": ("taller", "wanted", "office"),
    "turn": ("maker", "office"),
    "missing": ("alone", "later", "office"),
    "two-sides": ("same", "known", "office"),
    "rack-line": ("seen_both", "wanted", "office"),
}
"""Common reasons by check; any other check has the usual five."""


def place_of(live: LiveJob, place: str) -> dict[str, str] | None:
    """The bay or run of `A3` or `run A`, as an answer says it; None where there is no such place."""
    if place in live.book.bays:
        return {"bay": place}
    run = place.removeprefix("run ")
    return {"run": run} if place.startswith("run ") and run in live.book.run_bays else None


def query_at(live: LiveJob, place: str, check: str) -> Finding | None:
    """The query that is answered; None where there is none any more."""
    where = place_of(live, place) or {}
    findings = live.findings_of_bay(where["bay"]) if "bay" in where else live.findings_of_run(where["run"]) if where else ()
    return next((f for f in findings if f.check == check and f.verdict == "query"), None)


def reasons(check: str) -> list[str]:
    """The reasons ready to tap, worded."""
    return [say(f"stands.{name}") for name in REASONS.get(check, _USUAL)]


def refused_reason(reason: str) -> str:
    """Why a reason cannot be kept; empty when it can."""
    if not reason.strip():
        return say("stands.reason_needed")
    return say("stands.reason_long", most=LONGEST_REASON) if len(reason) > LONGEST_REASON else ""


def on_the_order(check: str, reason: str, name: str) -> str:
    """The words as the order prints them; empty while reason or name is missing."""
    return f"{check}: {' '.join(reason.split())} ({name})" if reason.strip() and name else ""
