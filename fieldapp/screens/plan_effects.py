"""What a changed plan does to the bays before it is kept: verdicts, panels, an order that went out, readings that wait. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from fieldapp.live_job import LiveJob, Sign
from fieldapp.words import say
from measure.changes import OrderedPanel, from_json, ordered
from measure.documents import read_words
from measure.finding import Finding
from measure.plan_version import PlanWords
from measure.rounding import order_text
from measure.said import SECTIONS, key_of
from measure.units import JobUnits
from measure.unplaced import placed

Words = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class BayEffect:
    """One bay or run that is another one under the changed plan. before, after: its sign; None where it is not there.

    sentences: what is told of it, the gravest first.
    """

    place: str
    before: Sign | None
    after: Sign | None
    sentences: tuple[str, ...]

    @property
    def sign(self) -> Sign:
        """What stands beside it."""
        return self.after or "todo"


def job_under(id: str, words: Words, plan: PlanWords) -> LiveJob:
    """The job as it would stand under a plan. words: the job file as it stands now. Raises DocumentError for a plan that cannot be."""
    said = everything_said(words)
    here = placed(plan, said)
    lists = {name: [w for key, w in said[name].items() if key in here[name]] for name in SECTIONS}
    return LiveJob(id, read_words({**plan, **lists}).job())


def everything_said(words: Words) -> dict[str, dict[str, dict[str, Any]]]:
    """All that was said of a job by list and key, also what waits for a place that its plan does not have."""
    waits = (words.get("history") or {}).get("unplaced") or {}
    found: dict[str, dict[str, dict[str, Any]]] = {}
    for name in SECTIONS:
        entries = [*(words.get(name) or ()), *(waits.get(name) or ())]
        found[name] = {f"{key_of(entry)} {i}": entry for i, entry in enumerate(entries)}
    return found


def tags_read(words: Words) -> set[str]:
    """Bays that something was read of."""
    return {r["bay"] for r in everything_said(words)["readings"].values() if r.get("bay") is not None}


def effects(before: LiveJob, after: LiveJob, words: Words, panels: Mapping[str, str] = {}) -> Iterator[BayEffect | None]:
    """Bay by bay, then run by run, what differs; None for one that is as before, so that a page can rest in between.

    panels: of the order that went out, by tag, as `panel_text` writes them.
    """
    said = everything_said(words)["readings"].values()
    for tag in dict.fromkeys((*before.book.bays, *after.book.bays)):
        yield _bay(before, after, tag, sum(r.get("bay") == tag for r in said) if tag not in after.book.bays else 0, panels)
    for run in dict.fromkeys((*before.book.run_bays, *after.book.run_bays)):
        yield _run(before, after, run)


def panel_text(live: LiveJob, tag: str) -> str:
    """A bay's panel as `42 3/8 in wide, 38 and 38 in high, rack 3/8 in`; empty while it cannot be said or is not wanted."""
    opening = live.opening(tag) if live.bay(tag).has_glass else None
    if opening is None:
        return ""
    return _panel_text(ordered(tag, opening.panel), live.plan.units)


def _panel_text(panel: OrderedPanel, units: JobUnits) -> str:
    figures = [order_text(x, units) for x in (panel.width, panel.left_edge, panel.right_edge, panel.rack)]
    high = "" if panel.high_end == "none" else say("change.panel_high", side=panel.high_end)
    return say("change.panel", width=figures[0], left=figures[1], right=figures[2], rack=figures[3]) + high


def ordered_panels(panels: Iterable[Words], units: JobUnits) -> dict[str, str]:
    """The panels of an issued order by tag, in the same words."""
    return {one.tag: _panel_text(one, units) for one in map(from_json, panels)}


def _bay(before: LiveJob, after: LiveJob, tag: str, aside: int, panels: Mapping[str, str]) -> BayEffect | None:
    if tag not in after.book.bays:
        told = say("change.aside", n=aside) if aside else say("change.gone")
        return BayEffect(tag, before.sign(tag), None, (told, *_ordered(tag, "", panels)))
    if tag not in before.book.bays:
        new = say("change.new_bay" if not after.taped(tag) else "change.back")
        return BayEffect(tag, None, after.sign(tag), (new, *_new(after.findings_of_bay(tag), ())))
    signs = before.sign(tag), after.sign(tag)
    were, are = panel_text(before, tag), panel_text(after, tag)
    told = _new(after.findings_of_bay(tag), before.findings_of_bay(tag))
    if signs[0] == signs[1] and were == are and not told and _glass(before, tag) == _glass(after, tag):
        return None
    if were != are:
        told = (*told, say("change.panel_now", was=were or say("change.no_panel"), now=are or say("change.no_panel")))
    told = (*told, *_glass_told(before, after, tag, tag in panels and panels[tag] == are), *_ordered(tag, are, panels))
    return BayEffect(tag, signs[0], signs[1], told or (say("change.better"),))


def _run(before: LiveJob, after: LiveJob, run: str) -> BayEffect | None:
    if run not in after.book.run_bays or run not in before.book.run_bays:
        return None
    told = _new(after.findings_of_run(run), before.findings_of_run(run))
    signs = [_worst(live.findings_of_run(run)) for live in (before, after)]
    if not told and signs[0] == signs[1]:
        return None
    return BayEffect(say("change.run", run=run), signs[0], signs[1], told or (say("change.better"),))


def _new(after: Sequence[Finding], before: Sequence[Finding]) -> tuple[str, ...]:
    """Sentences of what stands in the way now and did not stand there before, holds first."""
    known = {f.sentence for f in before if f.stands_in_the_way}
    found = sorted((f for f in after if f.stands_in_the_way and f.sentence not in known), key=lambda f: f.verdict != "hold")
    return tuple(f.sentence for f in found)


def _worst(found: Sequence[Finding]) -> Sign:
    standing = [f.verdict for f in found if f.stands_in_the_way]
    return "hold" if "hold" in standing else "query" if standing else "clear"


def _glass(live: LiveJob, tag: str) -> tuple[object, ...]:
    """What is ordered beside the sizes."""
    glass, bay = live.plan.glass, live.bay(tag)
    face = glass.finish_face if bay.finish_face is None else bay.finish_face
    edges = glass.edge_top, glass.edge_uprights, glass.edge_bottom
    return (glass.thickness, glass.kind, *edges, glass.corners, glass.holes, glass.stamp, glass.standard, face, bay.status, bay.has_glass)


def _glass_told(before: LiveJob, after: LiveJob, tag: str, went_out: bool) -> tuple[str, ...]:
    """went_out: an order has this panel, in these sizes."""
    was, now = _glass(before, tag), _glass(after, tag)
    if was[:-2] == now[:-2] or not now[-1]:
        return ()
    return (say("change.glass_now"), *([say("change.ordered_glass")] if went_out else []))


def _ordered(tag: str, now: str, panels: Mapping[str, str]) -> tuple[str, ...]:
    """An issued order has this panel as another one."""
    return (say("change.ordered_differs", panel=panels[tag]),) if tag in panels and panels[tag] != now else ()
