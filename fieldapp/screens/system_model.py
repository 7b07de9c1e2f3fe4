"""The post system of a new job: which are known, what the allowance says while it is typed, who confirmed them. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from fieldapp.parts.post_section import SystemFigures
from fieldapp.screens.new_figures import SIX, TURNING, value_of
from fieldapp.screens.new_form import NewForm
from fieldapp.screens.sheet_date import date_text, read_date
from fieldapp.words import say
from measure.allowance import AllowanceBudget
from measure.length import NM_PER_INCH, Length
from measure.rounding import apart_text, plain_text

Words = Mapping[str, Any]
_DRAWN = {"post_face": "face", "groove_depth": "groove", "allowance": "allowance", "least_bite": "bite", "least_play": "play"}
_LEAST_DRAWN = 0.02
_MOST_DRAWN = 12.0


@dataclass(frozen=True, slots=True)
class PresetRow:
    """A system that is known already. confirmed: whether somebody confirmed its figures from a sheet."""

    name: str
    sentence: str
    confirmed: bool
    system: Words


@dataclass(frozen=True, slots=True)
class Live:
    """What the allowance says while it is typed; an empty sentence where it cannot be said yet. ok: nothing falls short."""

    sentence: str = ""
    ok: bool = True


def preset_rows(presets: Mapping[str, Words], of_jobs: Iterable[tuple[str, Words]]) -> list[PresetRow]:
    """Kept presets, then systems of jobs that are not among them. of_jobs: (the job's name, its system with units)."""
    rows = [_row(name, system) for name, system in presets.items()]
    known = {_key(system) for system in presets.values()}
    for job, system in of_jobs:
        if _key(system) not in known:
            known.add(_key(system))
            rows.append(_row(say("new.as_in", job=job, system=system.get("name", "")), system))
    return rows


def _key(system: Words) -> tuple[str, ...]:
    return tuple(str(system.get(k, "")) for k in ("name", *SIX))


def _row(name: str, system: Words) -> PresetRow:
    confirmed = system.get("confirmed") or {}
    figures = say("new.preset_figures", face=system.get("post_face", "?"), spacing=system.get("greatest_spacing", "?"))
    return PresetRow(name, f"{figures} {confirmed_told(confirmed)}", complete(confirmed), system)


def confirmed_told(confirmed: Words) -> str:
    """Who compared the figures with which sheet, and of what date; or that nobody did."""
    if not complete(confirmed):
        return say("new.preset_by_nobody")
    return say("new.preset_by", sheet=confirmed["sheet"], by=confirmed["by"], at=date_text(str(confirmed["at"])))


def complete(confirmed: Words) -> bool:
    """Whether sheet, date and name are all there."""
    return all(str(confirmed.get(k, "")).strip() for k in ("sheet", "at", "by"))


def chosen(form: NewForm, system: Words) -> NewForm:
    """The form with this system."""
    return form.say("system", **dict.fromkeys(form.system, "")).say("system", **dict(system))


def six_said(form: NewForm) -> bool:
    """Whether all six figures are there."""
    return all(form.of("system", key) for key in SIX)


def next_asked(form: NewForm, key: str) -> str | None:
    """The figure to ask after this one: the next of the six that is not said; None where all are."""
    if key not in SIX:
        return None
    after = SIX[SIX.index(key) + 1 :]
    return next((k for k in after if not form.of("system", k)), None)


def live(form: NewForm, allowance: Length | None = None) -> Live:
    """What the allowance leaves either way. allowance: as it is being typed; left out, the form's own."""
    figures = [
        allowance or value_of(form, "allowance"),
        *(value_of(form, k) for k in ("groove_depth", "least_bite", "least_play")),
    ]
    depth, bite, play = figures[1:]
    if depth is None or bite is None or play is None:
        return Live()
    a, units = figures[0], form.units
    budget = AllowanceBudget.of(a or Length(0), depth, bite, play)
    best = apart_text(budget.best, units)
    if a is None or not a.nm:
        return Live(say("new.best", best=best))
    if budget.one_edge:
        return Live(say("new.one_edge", best=best), False)
    left = {"hold": budget.hold_nm, "fit": budget.fit_nm}
    short = min(left, key=lambda k: left[k])
    if left[short] < 0:
        return Live(say(f"new.short_{short}", best=best, by=apart_text(Length(-left[short]), units)), False)
    hold, fit = (apart_text(Length(nm), units) for nm in left.values())
    same = hold == fit
    return Live(say("new.each_way", best=best, left=hold) if same else say("new.both_ways", best=best, hold=hold, fit=fit))


def odd(form: NewForm, key: str = "", typed: Length | None = None) -> str:
    """What cannot well be so of one post, asked in a sentence; empty where nothing is odd. typed: in place of the form's own `key`."""
    figures = {k: typed if k == key and typed is not None else value_of(form, k) for k in SIX}
    depth, face, spacing = (figures[k] for k in ("groove_depth", "post_face", "greatest_spacing"))
    units = form.units
    if depth is not None and face is not None and 2 * depth.nm >= face.nm > 0:
        return say("new.odd_groove", depth=plain_text(depth, units), face=plain_text(face, units))
    for part in ("least_bite", "least_play"):
        figure = figures[part]
        if depth is not None and figure is not None and figure.nm > depth.nm > 0:
            return say(f"new.odd_{part}", figure=plain_text(figure, units), depth=plain_text(depth, units))
    if spacing is not None and face is not None and 0 < spacing.nm <= face.nm:
        return say("new.odd_spacing", spacing=plain_text(spacing, units), face=plain_text(face, units))
    return ""


def turning_said(form: NewForm) -> str:
    """How far a panel may turn, by kind of post, in one line."""
    said = [(kind, form.of("system", f"turning_{kind}_each")) for kind in TURNING]
    return ", ".join(say("new.turning_of", kind=say(f"new.post_{kind}"), degrees=each) for kind, each in said if each) or say("new.not_said")


def drawn(form: NewForm, key: str = "", typed: Length | None = None) -> SystemFigures:
    """The figures for the drawing, in inches: those said, the one that is being typed, and usual ones in place of the others."""
    usual = SystemFigures()
    inches = {}
    for own, name in _DRAWN.items():
        value = typed if own == key and typed is not None else value_of(form, own)
        inches[name] = min(max(value.nm / NM_PER_INCH, _LEAST_DRAWN), _MOST_DRAWN) if value else getattr(usual, name)
    return SystemFigures(**inches)


def confirmed(form: NewForm, sheet: str, at: str, by: str) -> NewForm:
    """The form with its system confirmed; `refused_sheet` has nothing against it."""
    return form.say("system", confirmed={"by": by.strip(), "at": read_date(at), "sheet": sheet.strip()})


def refused_sheet(name: str, sheet: str, at: str, by: str) -> tuple[str, str]:
    """The field that is wrong (`name`, `sheet`, `at`, `by`) and why; two empty texts where the figures are confirmed."""
    for field, text in (("name", name), ("sheet", sheet), ("at", at), ("by", by)):
        if not text.strip():
            return field, say(f"new.{field}_needed")
        if field == "at" and not read_date(text):
            return field, say("new.no_date")
    return "", ""
