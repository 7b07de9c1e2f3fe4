"""The plan's parts of a job file turned into values: head, tape, system, glass, limits, runs, posts and bays."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from measure.figures import Figures, Words, text_of
from measure.job import OrderHead
from measure.json_path import Path, shown
from measure.length import NM_PER_INCH, NM_PER_MM, Length
from measure.moment import date_trouble
from measure.plan import SEEN_FROM, Bay, Post, Run
from measure.system import Confirmed, Glass, Limits, System, Tape, Turning

ORDER_STEPS = {
    "in": {NM_PER_INCH // 16: "1/16 in", NM_PER_INCH // 32: "1/32 in"},
    "mm": {NM_PER_MM: "1 mm", NM_PER_MM // 2: "0.5 mm"},
}
"""By the job's units, the default first."""
FULL_TURN, HALF_TURN = 360, 180
GREATEST_KG = 10_000
USUAL_PLACING = Length(300_000)
USUAL_SLOPE_STEP = Fraction(1, 100)


def head(words: Words) -> OrderHead:
    """The order's head."""
    keys = ("customer", "po", "wanted_by", "deliver_to", "contact", "phone", "unloading")
    return OrderHead(*(words.get(key, "") for key in keys))


def order_step(words: Words, figures: Figures) -> Length:
    """What widths, heights and racks are rounded to."""
    steps = ORDER_STEPS[figures.units or "in"]
    step = figures.maybe(words, "order_step", ("job",))
    if step is None or figures.units is None:
        return Length(next(iter(steps)))
    if step.nm not in steps and not figures.refused(("job", "order_step")):
        figures.refuse(("job", "order_step"), f"{shown(text_of(words['order_step']))} is no order step: say {' or '.join(steps.values())}.")
    return step


def tape(words: Words, figures: Figures) -> Tape:
    place: Path = ("tape",)
    placing = figures.maybe(words, "placing", place, zero=True)
    return Tape(
        division=figures.needed(words, "division", place),
        tape_class=words.get("class", "II"),
        from_hook=words.get("from_hook", True),
        placing=USUAL_PLACING if placing is None else placing,
        laser=figures.maybe(words, "laser", place),
    )


def system(words: Words, figures: Figures) -> System:
    place: Path = ("system",)
    return System(
        name=figures.name(words, "name", place, "give the system a name"),
        post_face=figures.needed(words, "post_face", place),
        greatest_spacing=figures.needed(words, "greatest_spacing", place),
        allowance=figures.needed(words, "allowance", place),
        groove_depth=figures.needed(words, "groove_depth", place),
        least_bite=figures.needed(words, "least_bite", place),
        least_play=figures.needed(words, "least_play", place, zero=True),
        base_plate=figures.maybe(words, "base_plate", place),
        turn_axis=figures.maybe(words, "turn_axis", place, zero=True),
        post_height=figures.maybe(words, "post_height", place),
        turning={kind: _turning(each, kind, figures) for kind, each in words.get("turning", {}).items()},
        confirmed=_confirmed(words, figures),
    )


def _turning(words: Words, kind: str, figures: Figures) -> Turning:
    place: Path = ("system", "turning", kind)
    if "grooves" in words and kind in ("end", "wall"):
        figures.refuse((*place, "grooves"), f"The {kind} post has one groove, so there is no angle between two: take it out.")
    each = figures.number(words, "each", place, HALF_TURN)
    return Turning(Fraction(0) if each is None else each, figures.number(words, "grooves", place, FULL_TURN))


def _confirmed(words: Words, figures: Figures) -> Confirmed | None:
    said: Words | None = words.get("confirmed")
    if said is None:
        return None
    at = said.get("at", "")
    # Blank is a sheet that nobody dated: a caution, no error.
    if at.strip() and (trouble := date_trouble(at)):
        figures.refuse(("system", "confirmed", "at"), trouble)
    return Confirmed(said.get("by", ""), at, said.get("sheet", ""))


def glass(words: Words, figures: Figures) -> Glass:
    place: Path = ("glass",)
    edge = words.get("edge", "")
    by_edge: Words = dict.fromkeys(("top", "uprights", "bottom"), edge) if isinstance(edge, str) else edge
    return Glass(
        thickness=figures.needed(words, "thickness", place),
        height=figures.needed(words, "height", place),
        size_tolerance=figures.needed(words, "size_tolerance", place, zero=True),
        kind=words.get("kind", ""),
        edge_top=by_edge.get("top", ""),
        edge_uprights=by_edge.get("uprights", ""),
        edge_bottom=by_edge.get("bottom", ""),
        corners=words.get("corners", ""),
        holes=words.get("holes", "").strip() or "none",
        stamp=words.get("stamp", ""),
        standard=words.get("standard", ""),
        finish_face=(words.get("finish_face") or "").strip() or None,
        least_width=figures.maybe(words, "least_width", place),
        greatest_width=figures.maybe(words, "greatest_width", place),
        least_height=figures.maybe(words, "least_height", place),
        greatest_height=figures.maybe(words, "greatest_height", place),
        least_corner_angle=figures.number(words, "least_corner_angle", place, HALF_TURN),
        greatest_mass_kg=figures.number(words, "greatest_mass_kg", place, GREATEST_KG, above_zero=True),
    )


def limits(words: Words, figures: Figures) -> Limits:
    place: Path = ("limits",)
    step = figures.slope(words, "slope_step", place)
    return Limits(
        plan_tolerance=figures.maybe(words, "plan_tolerance", place, zero=True),
        second_tape=figures.maybe(words, "second_tape", place, zero=True),
        lean=figures.maybe(words, "lean", place, zero=True),
        slope=figures.slope(words, "slope", place),
        slope_step=USUAL_SLOPE_STEP if step is None else step,
    )


def runs(words: Iterable[Words], bays: Iterable[Bay], figures: Figures) -> tuple[Run, ...]:
    """One for every run that a bay names, in the order of the bays."""
    told = {}
    for i, run in enumerate(words):
        figures.name(run, "seen_from", ("runs", i), f"say where from, or leave it out for “{SEEN_FROM}”")
        name = run.get("run", "")
        told[name] = Run(name, run.get("rack_follows"), run.get("seen_from", SEEN_FROM))
    return tuple(told.get(name) or Run(name) for name in dict.fromkeys(bay.run for bay in bays))


def post(words: Words, place: Path, figures: Figures) -> Post:
    kind = words.get("kind", "line")
    if kind == "end" and "angle" in words:
        figures.refuse((*place, "angle"), "An end post has one panel, so there is no angle: take it out, or say corner or wall.")
    return Post(
        id=figures.name(words, "id", place, "give the post a name, such as P1"),
        kind=kind,
        angle=figures.number(words, "angle", place, FULL_TURN),
        face=figures.maybe(words, "face", place),
        height=figures.maybe(words, "height", place),
        trimmed=words.get("trimmed", False),
    )


def bay(words: Words, place: Path, figures: Figures) -> Bay:
    finish_face = words.get("finish_face")
    has_glass = "glass" not in words
    if "spacing" in words and "span" in words:
        figures.refuse((*place, "span"), "Spacing and span are both planned here: keep one of them.")
    elif has_glass and "spacing" not in words and "span" not in words:
        figures.refuse(place, "Nothing is planned for this bay: give its spacing, centre to centre, or its planned span.")
    return Bay(
        tag=words.get("tag", ""),
        run=words.get("run", ""),
        left=words.get("left", ""),
        right=words.get("right", ""),
        spacing=figures.maybe(words, "spacing", place),
        planned_span=figures.maybe(words, "span", place),
        shape=words.get("shape", "racked"),
        height=figures.maybe(words, "height", place),
        finish_face=None if finish_face is None else finish_face.strip(),
        has_glass=has_glass,
        taller=words.get("taller", False),
        status=words.get("status", "to order"),
    )
