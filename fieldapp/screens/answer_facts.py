"""The lines under an answer: what it rests on, words left and figures right; and what a clear answer says. Pure.

All figures come from measure; here they only meet their words.
"""

from __future__ import annotations

from collections.abc import Sequence

from fieldapp.live_job import LiveJob
from fieldapp.screens.finding_name import finding_name
from fieldapp.screens.readback_model import was_aloud
from fieldapp.words import say
from measure.as_read import with_unit
from measure.checks.slopes import per_cent
from measure.finding import Finding
from measure.geometry import Exact
from measure.length import Length
from measure.opening import Opening, rise_reading
from measure.parse import parse_length
from measure.plan import Bay
from measure.rounding import apart_text, order_text, plain_text, told_as_nothing
from measure.slope import Slope

Fact = tuple[str, str]
_OF_SLOPE = ("neighbour", "slope", "design-slope", "high-end")
_OF_BAY = ("span", "rise", "base-rise")


def clear_sentence(live: LiveJob, bay: Bay, told: str, findings: Sequence[Finding], wanted: tuple[str, ...]) -> tuple[str, bool]:
    """What a clear answer says, and whether anything was compared. wanted: the checks that the reading was taken for."""
    opening = live.opening(bay.tag)
    if told in _OF_BAY and opening is not None:
        return panel_words(live, opening), True
    for finding in findings:
        if finding.check in (wanted or ("off-plan",)) and finding.verdict in ("clear", "caution"):
            return finding.sentence, finding.verdict == "clear"
    if told == "span":
        return say("answer.span_alone" if bay.has_glass else "answer.way_through"), True
    return say("answer.kept_alone"), told in _OF_BAY


def panel_words(live: LiveJob, opening: Opening) -> str:
    """`Panel 41 3/4 in wide, 38 in high, rack 3/8 in, right end high.`"""
    panel, units = opening.panel, live.plan.units
    width, left, right = (order_text(v, units) for v in (panel.width, panel.left_edge, panel.right_edge))
    high = left if left == right else say("answer.two_edges", left=left, right=right)
    if panel.high_end == "none":
        return say("answer.panel_level", width=width, high=high)
    return say("answer.panel", width=width, high=high, rack=order_text(panel.rack, units), end=say(f"answer.end_{panel.high_end}"))


def clear_facts(live: LiveJob, bay: Bay, told: str, findings: Sequence[Finding]) -> tuple[Fact, ...]:
    """Plan, grip and rise of a bay; what is still to come; what was answered before."""
    if told not in _OF_BAY:
        return _answered(findings)
    return (*_of_bay(live, bay), *_to_come(live, bay), *_answered(findings))


def _of_bay(live: LiveJob, bay: Bay) -> tuple[Fact, ...]:
    """Plan, grip and rise of a bay, as far as they are known."""
    opening = live.opening(bay.tag)
    found = [*_plan(live, bay)]
    if opening is not None:
        found += [(say("answer.holds"), spare(live, opening.hold_margin_nm)), (say("answer.goes_in"), spare(live, opening.fit_margin_nm))]
    found += _rise(live, bay, opening)
    return tuple(found)


def query_facts(live: LiveJob, bay: Bay, finding: Finding) -> tuple[Fact, ...]:
    """The finding's own facts; where a slip is likely, both figures against the plan."""
    planned, slips, units = live.book.planned_span(bay), finding.slips, live.plan.units
    span = live.book.counting("bay", bay.tag, "span")
    if finding.check not in ("off-plan", "slip") or not slips or planned is None or span is None:
        return finding.facts or (_rises_beside(live, bay) if finding.check in _OF_SLOPE else _of_bay(live, bay))
    was = parse_length(slips[0].read, units)
    return tuple(
        (say("answer.against_plan", figure=plain_text(figure, units)), against(live, figure, planned))
        for figure in (span.corrected, was)
    )


def _rises_beside(live: LiveJob, bay: Bay) -> tuple[Fact, ...]:
    """The rises of a bay and its neighbours, from left to right: `A3 rise 19 mm, right higher`, `1.7 % slope`."""
    before, after = live.book.neighbours(bay)
    return tuple(
        fact for one in (before, bay, after) if one is not None for fact in _rise(live, one, live.opening(one.tag), "answer.rise_of")
    )


def against(live: LiveJob, figure: Length, planned: Length) -> str:
    """`15/16 in over`, `as planned`, which is also said of less than a sentence tells."""
    if told_as_nothing(abs(figure - planned), live.plan.units):
        return say("answer.as_planned")
    return say("answer.over" if figure > planned else "answer.under", apart=apart_text(abs(figure - planned), live.plan.units))


def spare(live: LiveJob, margin: Exact) -> str:
    """A grip margin; below 0 it is short."""
    key = "answer.to_spare" if margin >= 0 else "answer.short"
    return say(key, apart=apart_text(Length(round(abs(margin))), live.plan.units))


def _plan(live: LiveJob, bay: Bay) -> list[Fact]:
    planned, opening = live.book.planned_span(bay), live.opening(bay.tag)
    span = live.book.counting("bay", bay.tag, "span")
    if planned is None or span is None:
        return []
    level = Length(round(opening.level_nm)) if opening is not None else span.corrected
    return [(say("answer.plan", planned=plain_text(planned, live.plan.units)), against(live, level, planned))]


def _rise(live: LiveJob, bay: Bay, opening: Opening | None, words: str = "answer.rise") -> list[Fact]:
    rise = rise_reading(live.book, bay)
    if rise is None:
        return []
    read = rise.text if isinstance(rise.value, Slope) else with_unit(rise.text, live.plan.units)
    high = say(f"walk.{rise.high}_higher") if rise.high else say("walk.level")
    return [(say(words, tag=bay.tag, read=read, high=high), say("answer.slope", slope=per_cent(opening.tan)) if opening else "")]


def _to_come(live: LiveJob, bay: Bay) -> list[Fact]:
    book, plan = live.book, live.plan
    span = book.counting("bay", bay.tag, "span")
    found = []
    if plan.read_back != "no" and span is not None and bay.has_glass:
        back = book.read_back(span)
        by = say("readback.by_aloud" if was_aloud(back) else "answer.read_back_by", by=back.by) if back else say("answer.to_come")
        found.append((say("answer.read_back"), by))
    unread = [p for p in (bay.left, bay.right) if book.plumb(p, bay.run) is None]
    if plan.plumb == "asked" and unread and bay.has_glass:
        found.append((say("answer.plumb_of", posts=" ".join(unread)), say("answer.to_come")))
    return found


def _answered(findings: Sequence[Finding]) -> tuple[Fact, ...]:
    return tuple(
        (finding_name(f), say("answer.answered", reason=f.answer.reason, by=f.answer.by))
        for f in findings
        if f.answer is not None
    )
