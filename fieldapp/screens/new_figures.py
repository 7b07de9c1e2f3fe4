"""The figures that a new job asks with the keypad: which part they belong to, what is asked, what may stand there. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Literal

from fieldapp.parts.entry import Entry, Units
from fieldapp.screens.new_form import NewForm
from fieldapp.words import say
from measure.as_read import with_unit
from measure.errors import EntryError
from measure.length import Length
from measure.parse import parse_length
from measure.slope import Slope

Kind = Literal["length", "mm", "slope", "kg", "deg"]
SIX = ("post_face", "groove_depth", "least_bite", "least_play", "allowance", "greatest_spacing")
"""The figures of a post system, in the order in which they are asked: the allowance once it can be judged."""
LIT = {
    "post_face": "face", "groove_depth": "groove", "least_bite": "bite", "least_play": "play", "allowance": "allowance",
    "greatest_spacing": "spacing",
}  # fmt: skip
"""What the cut through the posts lights (parts/post_section.py)."""
TURNING = {"line": "180", "corner": "90", "wall": ""}
"""Kinds of post in which a panel may turn; the degrees between the two grooves that are meant where nothing is said."""


@dataclass(frozen=True, slots=True)
class FigureAsked:
    """part: of the form. needed: a job cannot do without it. zero: 0 makes sense. kind mm: in millimetres in every job.

    most: of degrees or kilograms.
    """

    part: str
    key: str
    kind: Kind = "length"
    needed: bool = False
    zero: bool = False
    most: int = 0

    @property
    def name(self) -> str:
        return say(f"change.key_{self.key}" if self.part == "plan" else f"new.{self.key}")

    @property
    def where(self) -> str:
        """One sentence: where exactly."""
        return say(f"new.{self.key}_where")

    def unit(self, units: str) -> str:
        return {"length": units, "mm": "mm", "slope": "%", "kg": "kg", "deg": "°"}[self.kind]


FIGURES: dict[str, FigureAsked] = {
    asked.key: asked
    for asked in (
        *(FigureAsked("system", key, needed=True, zero=key == "least_play") for key in SIX),
        FigureAsked("system", "base_plate"),
        FigureAsked("system", "turn_axis", zero=True),
        FigureAsked("system", "post_height"),
        FigureAsked("glass", "thickness", "mm", needed=True),
        FigureAsked("glass", "height", needed=True),
        FigureAsked("glass", "size_tolerance", "mm", needed=True, zero=True),
        FigureAsked("glass", "least_width"),
        FigureAsked("glass", "greatest_width"),
        FigureAsked("glass", "least_height"),
        FigureAsked("glass", "greatest_height"),
        FigureAsked("glass", "least_corner_angle", "deg", most=180),
        FigureAsked("glass", "greatest_mass_kg", "kg", most=10_000),
        FigureAsked("limits", "plan_tolerance", zero=True),
        FigureAsked("limits", "second_tape", zero=True),
        FigureAsked("limits", "lean", zero=True),
        FigureAsked("limits", "slope", "slope"),
        FigureAsked("limits", "slope_step", "slope"),
        FigureAsked("tape", "placing", zero=True),
        FigureAsked("tape", "laser"),
        *(FigureAsked("system", f"turning_{kind}_each", "deg", zero=True, most=90) for kind in TURNING),
        *(FigureAsked("system", f"turning_{kind}_grooves", "deg", most=360) for kind, two in TURNING.items() if two),
    )
}


def begun(form: NewForm, asked: FigureAsked, draft: str) -> Entry:
    """The entry of a figure: what was half-typed, else what was said before, else nothing."""
    units: Units = "in" if asked.kind == "length" and form.units == "in" else "mm"
    return Entry.from_text(draft or bare(form.of(asked.part, asked.key), units), units, "%" if asked.kind == "slope" else "")


def bare(text: str, units: str) -> str:
    """A figure without the unit that its keypad writes anyway."""
    return text.removesuffix(f" {units}").strip()


def kept(entry: Entry, asked: FigureAsked) -> str:
    """What goes into the form, its unit beside it; empty for what may be left out. EntryError says what to type instead."""
    if entry.empty:
        if asked.needed:
            raise EntryError("", say("new.figure_needed", name=asked.name), say("new.from_sheet"))
        return ""
    value = entry.read()
    size = value.value if isinstance(value, Slope) else value.nm
    if not size and not asked.zero:
        raise EntryError(entry.text, say("new.not_zero"), say("new.leave_out"))
    if asked.kind in ("kg", "deg"):
        return _bounded(entry.text, asked)
    return entry.text if isinstance(value, Slope) else with_unit(entry.text, entry.units)


def _bounded(text: str, asked: FigureAsked) -> str:
    try:
        value = Decimal(text.replace(",", "."))
    except InvalidOperation:
        raise EntryError(text, say("new.a_number"), say("new.at_most", most=f"{asked.most} {asked.unit('')}")) from None
    if asked.most and value > asked.most:
        raise EntryError(text, say("new.too_much"), say("new.at_most", most=f"{asked.most} {asked.unit('')}"))
    return str(value)


def value_of(form: NewForm, key: str, typed: str = "") -> Length | None:
    """A length of the form, or what is being typed in its place; None where it is not read."""
    asked = FIGURES[key]
    text = typed or form.of(asked.part, key)
    try:
        return parse_length(text, form.units) if text else None
    except EntryError:
        return None


def shown(form: NewForm, key: str) -> str:
    """A figure in a line: as typed, with its unit; the words for what is not said."""
    asked = FIGURES[key]
    text = form.of(asked.part, key)
    if not text:
        return say("new.asked" if asked.needed else "new.not_said")
    if asked.kind in ("kg", "deg"):
        return f"{text} kg" if asked.kind == "kg" else f"{text}°"
    return f"± {text}" if key == "size_tolerance" else text
