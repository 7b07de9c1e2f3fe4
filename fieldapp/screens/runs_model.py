"""The runs of a new job: how their bays fall, the plan as it is drawn, how many posts of each kind. Pure."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from fieldapp.parts.plan_picture import PlanBay, PlanRun
from fieldapp.screens.new_figures import value_of
from fieldapp.screens.new_form import NewForm, RunForm
from fieldapp.words import say
from measure.errors import EntryError, SpanbookError
from measure.layout import MOST_BAYS, RunPlan, lay_out, post_counts, spacings
from measure.length import NM_PER_INCH, Length
from measure.parse import parse_length
from measure.rounding import plain_text

NAMES = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
TURNS = (90, 135, 180, 225, 270)
PANEL, NONE = "panel", "none"
"""What stands in a bay; a gate and a way through are both `none`, as in a job file."""
_USUAL = Length(40 * NM_PER_INCH)
"""Drawn for a bay whose spacing is not typed yet."""


@dataclass(frozen=True, slots=True)
class Told:
    """A sentence under the figure. ok: it can be kept so."""

    sentence: str
    ok: bool = True


@dataclass(frozen=True, slots=True)
class Sums:
    """The line under the plan: `12 bays`, `11 panels`, `13 posts`, and the posts by kind."""

    bays: str
    panels: str
    posts: str
    kinds: str


def run_name(number: int) -> str:
    """A for the first run; number 0 is the first."""
    return NAMES[number]


def laid(form: NewForm, run: RunForm) -> tuple[Length, ...]:
    """The spacings of a run, as said. Raises SpanbookError with what to do where they cannot be."""
    greatest, face = value_of(form, "greatest_spacing"), value_of(form, "post_face")
    if greatest is None or face is None:
        raise SpanbookError(say("new.system_first"))
    said = parse_length(run.length if run.by == "length" else run.spacing, form.units)
    if run.by == "length":
        return spacings(said, greatest, parse_length(form.of("job", "order_step"), form.units))
    if said > greatest:
        raise SpanbookError(say("new.too_far", most=plain_text(greatest, form.units)))
    if said <= face:
        raise SpanbookError(say("new.too_near", face=plain_text(face, form.units)))
    if not 0 < run.bays <= MOST_BAYS:
        raise SpanbookError(say("new.bays_needed", most=MOST_BAYS))
    return (said,) * run.bays


def told(form: NewForm, run: RunForm) -> Told:
    """What a run comes to, while its figure is typed."""
    if not run.said:
        return Told(say(f"new.{run.by}_empty"))
    try:
        found = laid(form, run)
    except EntryError:
        return Told(say(f"new.{run.by}_empty"))
    except SpanbookError as wrong:
        return Told(str(wrong), False)
    units: Any = form.units
    face = value_of(form, "post_face") or Length(0)
    outside = plain_text(Length(sum(s.nm for s in found) + face.nm), units)
    if run.by == "spacing":
        return Told(say("new.outside", length=outside))
    least, most = plain_text(min(found), units), plain_text(max(found), units)
    if least == most:
        return Told(say("new.equal_bays", n=len(found), spacing=least, length=outside))
    return Told(say("new.nearly_equal_bays", n=len(found), least=least, most=most))


def plans(form: NewForm) -> list[RunPlan]:
    """The runs for measure.layout. Raises SpanbookError."""
    made = []
    for number, run in enumerate(form.runs):
        found, turn = laid(form, run), Fraction(run.turn) if run.turn else None
        length = Length(sum(s.nm for s in found))
        end = "end" if run.right == "corner" else run.right  # a corner that no run follows is an end; the next run makes it one
        made.append(RunPlan(run_name(number), length, run.left, end, turn, found))
    return made


def plan_words(form: NewForm) -> dict[str, Any]:
    """The `runs`, `posts` and `bays` of a job file."""
    greatest, step = value_of(form, "greatest_spacing") or _USUAL, parse_length(form.of("job", "order_step"), form.units)
    words = lay_out(plans(form), greatest, step, form.units)
    posts = {post["id"]: post for post in words["posts"]}
    for number, run in enumerate(form.runs):
        own = [bay for bay in words["bays"] if bay["run"] == run_name(number)]
        for key in run.without:
            if int(key) <= len(own):
                own[int(key) - 1]["glass"] = "none"
        last = posts[own[-1]["right"]]
        if last["kind"] == "wall" and run.face:
            last["face"] = run.face
    return words


# ---- the plan as it is drawn -----------------------------------------------------------------------------------------------
def drawn(form: NewForm, adding: int | None = None, run: RunForm | None = None) -> list[PlanRun]:
    """Every run as the plan draws it. adding: the number of the run that is being said, run: as it stands now."""
    runs = list(form.runs)
    if adding is not None and run is not None:
        runs[adding : adding + 1] = [run]
    found = []
    for number, one in enumerate(runs):
        turn = next((float(r.turn) for r in runs[number + 1 : number + 2] if r.turn), None)
        bays = tuple(_bay(one, number, i, spacing) for i, spacing in enumerate(_drawn_spacings(form, one), 1))
        found.append(PlanRun(run_name(number), bays, turn, one.left, one.right))
    return found


def straight(form: NewForm) -> bool:
    """Whether the whole railing lies in one line."""
    return all(run.turn in ("", "180") for run in form.runs)


def _drawn_spacings(form: NewForm, run: RunForm) -> tuple[Length, ...]:
    try:
        return laid(form, run)
    except SpanbookError:
        return (_USUAL,) * run.bays


def _bay(run: RunForm, number: int, i: int, spacing: Length) -> PlanBay:
    without = run.without.get(str(i), "")
    tag = f"{run_name(number)}{i}"
    word = say("new.none") if without else ""
    return PlanBay(tag, spacing.mm, glass=not without, gate=word, says=f"{tag}, {word or say('new.panel')}")


def place(tag: str) -> tuple[int, int]:
    """Number of the run and of the bay of a tag: A1 is (0, 1)."""
    return NAMES.index(tag[0]), int(tag[1:])


def what_stands(form: NewForm, tag: str) -> str:
    """`panel` or `none`."""
    number, bay = place(tag)
    return NONE if str(bay) in form.runs[number].without else PANEL


def with_bay(form: NewForm, tag: str, what: str) -> NewForm:
    """The form with a panel in this bay, or without glass."""
    number, bay = place(tag)
    without = {k: v for k, v in form.runs[number].without.items() if k != str(bay)}
    return form.with_run(number, without=without if what == PANEL else {**without, str(bay): what})


def bay_line(form: NewForm, tag: str) -> tuple[str, str]:
    """Its spacing, and one sentence on what is planned between its posts."""
    number, bay = place(tag)
    units: Any = form.units
    spacing = laid(form, form.runs[number])[bay - 1]
    if what_stands(form, tag) != PANEL:
        return plain_text(spacing, units), say("new.no_panel")
    found = plan_words(form)
    post = {p["id"]: p.get("face") for p in found["posts"]}
    own = next(b for b in found["bays"] if b["tag"] == tag)
    usual = value_of(form, "post_face") or Length(0)
    faces = [parse_length(post[own[side]], units) if post[own[side]] else usual for side in ("left", "right")]
    span = Length(spacing.nm - (faces[0].nm + faces[1].nm) // 2)
    return plain_text(spacing, units), say("new.planned_span", span=plain_text(span, units))


def sums(form: NewForm) -> Sums:
    """What the whole plan comes to."""
    words = plan_words(form)
    panels = sum("glass" not in bay for bay in words["bays"])
    kinds = ", ".join(say(f"new.count_{kind}", n=n) for kind, n in post_counts(words["posts"]).items())
    return Sums(
        say("new.count_bays", n=len(words["bays"])),
        say("new.count_panels", n=panels),
        say("new.count_posts", n=len(words["posts"])),
        kinds,
    )


# ---- adding, taking off ----------------------------------------------------------------------------------------------------
def next_run(form: NewForm, turn: str) -> NewForm:
    """The form with one run more. turn: degrees to the run before, empty where the new one stands alone."""
    runs = list(form.runs)
    if runs and turn:
        runs[-1] = replace(runs[-1], right="corner")
    elif runs and runs[-1].right == "corner":
        runs[-1] = replace(runs[-1], right="end")
    like = runs[-1] if runs else RunForm()
    return replace(form, runs=(*runs, RunForm(turn=turn, spacing=like.spacing if like.by == "spacing" else "")))


def without_last(form: NewForm) -> NewForm:
    """The form with its last run taken off; what was a corner is an end again."""
    runs = list(form.runs[:-1])
    if runs and runs[-1].right == "corner":
        runs[-1] = replace(runs[-1], right="end")
    return replace(form, runs=tuple(runs))


def turned(angle: str) -> str:
    """What an angle means for the panels at that post; why it cannot be one where it cannot."""
    if not angle:
        return ""
    if not angle.isdecimal() or not 0 < int(angle) < 360:
        return say("new.no_angle")
    at = int(angle)
    if at == 180:
        return say("new.turn_none")
    each = Fraction(min(abs(at - 90), abs(at - 270)), 2)
    return say("new.turn_given") if not each else say("new.turn_each", degrees=f"{float(each):g}")


def is_angle(text: str) -> bool:
    """Whole degrees on the deck side, between 0 and 360."""
    return text.isdecimal() and 0 < int(text) < 360
