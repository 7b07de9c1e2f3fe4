"""Changes of a plan that is there, worded: what is another thing now, and each part of the plan as one line. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from fieldapp.screens import plan_edit as edit
from fieldapp.screens.form_words import form_of
from fieldapp.screens.glass_model import glass_said, limits_said
from fieldapp.screens.new_model import ORDER_STEPS
from fieldapp.screens.plan_draft import PlanDraft
from fieldapp.screens.system_model import confirmed_told
from fieldapp.words import say
from measure.as_read import with_unit
from measure.job import Units
from measure.plan_version import PlanWords

GLASS = ("panel", "none")
STATUSES = ("to order", "ordered", "on site")
SHAPES = ("racked", "level-top")
TALLER = ("no", "yes")
BAY_CHOICES: dict[str, tuple[str, ...]] = {"glass": GLASS, "status": STATUSES, "shape": SHAPES, "taller": TALLER}
"""What is chosen of a bay; the first one is what a job file means by leaving it out."""
_CHOSEN = ("glass", "shape", "status")
"""Those whose values say all by themselves."""
SECTIONS = ("job", "tape", "system", "glass", "limits")
_NESTED = ("turning", "confirmed", "edge")
_FIGURES = (
    "spacing", "span", "height", "face", "order_step", "division", "placing", "laser", "post_face", "greatest_spacing", "allowance",
    "groove_depth", "least_bite", "least_play", "base_plate", "turn_axis", "post_height", "thickness", "size_tolerance",
    "least_width", "greatest_width", "least_height", "greatest_height", "plan_tolerance", "second_tape", "lean",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class PartRow:
    """One part of the plan. page, place: where a tap goes. changed: whether a change of it waits to be kept."""

    page: str
    place: str
    name: str
    sentence: str
    changed: bool


# ---- one bay ---------------------------------------------------------------------------------------------------------------
def chosen(bay: Mapping[str, Any], part: str) -> str:
    """What a bay of the job file says of one of its choices."""
    said = bay.get(part, BAY_CHOICES[part][0])
    return TALLER[bool(said)] if isinstance(said, bool) else said


def choose(words: PlanWords, tag: str, part: str, word: str) -> PlanWords:
    """The plan with another choice; the one that is meant anyway is not written."""
    said: Any = None if word == BAY_CHOICES[part][0] else True if part == "taller" else word
    return edit.with_bay(words, tag, **{part: said})


def options(part: str) -> list[tuple[str, str]]:
    """The choices for a part: value and word."""
    return [(word, say(f"change.{part}_{_key(word)}")) for word in BAY_CHOICES[part]]


def _key(word: str) -> str:
    return word.replace(" ", "_").replace("-", "_")


# ---- the parts of the plan -------------------------------------------------------------------------------------------------
def part_rows(draft: PlanDraft) -> list[PartRow]:
    """Each run, then the parts that concern all of them."""
    was, now = draft.was, draft.now
    rows = [_run_row(was, now, run) for run in edit.run_names(now)]
    form = form_of(now)
    sentences = {
        "sheet": ("system", _system(now)),
        "glass": ("glass", glass_said(form)),
        "limits": ("limits", limits_said(form)),
        "tape": ("tape", say("change.told_tape", division=form.of("tape", "division"), kind=form.of("tape", "class") or "II")),
        "name": ("job", say("change.told_job", name=form.of("job", "name"), step=form.of("job", "order_step") or ORDER_STEPS[form.units][0])),
    }
    for page, (part, sentence) in sentences.items():
        rows.append(PartRow(page, "", say(f"change.part_{page}"), sentence.strip(" ,"), was.get(part) != now.get(part)))
    return rows


def _system(now: PlanWords) -> str:
    return f"{now['system']['name']}. {confirmed_told(now['system'].get('confirmed') or {})}"


def _run_row(was: PlanWords, now: PlanWords, run: str) -> PartRow:
    return PartRow("run", run, say("new.run", run=run), run_told(now, run), _of_run(was, run) != _of_run(now, run))


def run_told(words: PlanWords, run: str) -> str:
    """`3 × 44 in, wall to corner`; spacings that differ are counted only."""
    bays = edit.run_bays(words, run)
    spacings = {edit.spacing_text(words, bay) for bay in bays}
    count = say("new.count_bays", n=len(bays))
    lengths = f"{len(bays)} × {spacings.pop()}" if len(spacings) == 1 and "" not in spacings else count
    posts = edit.run_posts(words, run)
    kinds = [say(f"change.kind_{edit.post_of(words, post)['kind']}") for post in (posts[0], posts[-1])]
    return say("change.told_run", bays=lengths, left=kinds[0], right=kinds[1])


def _of_run(words: PlanWords, run: str) -> object:
    bays = edit.run_bays(words, run)
    posts = set(edit.run_posts(words, run))
    return bays, [p for p in words["posts"] if p["id"] in posts], edit.run_of(words, run)


# ---- all changes in words --------------------------------------------------------------------------------------------------
def told(draft: PlanDraft) -> list[str]:
    """Every change, a sentence each: `A2: spacing 42 in, was 44 in.`"""
    was, now = draft.was, draft.now
    units: Units = now["job"]["units"]
    found = [*_entries(was["bays"], now["bays"], "tag", "{}", units)]
    found += _entries(was["posts"], now["posts"], "id", say("change.post", post="{}"), units)
    found += _entries(was.get("runs") or (), now.get("runs") or (), "run", say("change.run", run="{}"), units, whole=False)
    for part in SECTIONS:
        found += _keys(was.get(part) or {}, now.get(part) or {}, say(f"change.of_{part}"), units)
    return found


def _entries(
    was: Iterable[Mapping[str, Any]], now: Iterable[Mapping[str, Any]], by: str, named: str, units: Units, whole: bool = True
) -> Iterator[str]:
    """whole: an entry that comes or goes is told as such, and not key by key."""
    before, after = ({str(e[by]): e for e in entries} for entries in (was, now))
    for name in dict.fromkeys((*before, *after)):
        place = named.format(name)
        if whole and name not in after:
            yield say("change.taken_off", place=place)
        elif whole and name not in before:
            yield say("change.added", place=place)
        else:
            yield from _keys(before.get(name, {by: name}), after.get(name, {by: name}), place, units)


def _keys(was: Mapping[str, Any], now: Mapping[str, Any], place: str, units: Units) -> Iterator[str]:
    for key in dict.fromkeys((*was, *now)):
        if was.get(key) == now.get(key):
            continue
        what = say(f"change.key_{key}")
        if key in _CHOSEN:
            yield say("change.chosen", place=place, now=_chosen(key, now.get(key)), was=_chosen(key, was.get(key)))
        elif key in _NESTED:
            yield say("change.another", place=place, what=what)
        elif key not in now:
            yield say("change.not_any_more", place=place, what=what, was=_value(key, was[key], units))
        elif key not in was:
            yield say("change.said_now", place=place, what=what, now=_value(key, now[key], units))
        else:
            values = {"now": _value(key, now[key], units), "was": _value(key, was[key], units)}
            yield say("change.was", place=place, what=what, **values)


def _chosen(key: str, said: str | None) -> str:
    return say(f"change.{key}_{(said or BAY_CHOICES[key][0]).replace(' ', '_').replace('-', '_')}")


def _value(key: str, said: Any, units: Units) -> str:
    if isinstance(said, bool):
        return say("change.yes" if said else "change.no")
    if key in ("angle", "least_corner_angle"):
        return f"{said}°"
    return with_unit(str(said), units) if key in _FIGURES else str(said)
