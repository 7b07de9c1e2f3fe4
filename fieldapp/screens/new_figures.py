"""The figures that a new job asks with the keypad: which part they belong to, what is asked, what may stand there. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
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


@dataclass(frozen=True, slots=True)
class FigureAsked:
    """part: of the form. needed: a job cannot do without it. zero: 0 makes sense. kind mm: in millimetres in every job."""

    part: str
    key: str
    kind: Kind = "length"
    needed: bool = False
    zero: bool = False

    @property
    def name(self) -> str:
        return say(f"new.{self.key}")

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
        FigureAsked("glass", "least_corner_angle", "deg"),
        FigureAsked("glass", "greatest_mass_kg", "kg"),
        FigureAsked("limits", "plan_tolerance", zero=True),
        FigureAsked("limits", "second_tape", zero=True),
        FigureAsked("limits", "lean", zero=True),
        FigureAsked("limits", "slope", "slope"),
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
        return str(Decimal(entry.text.replace(",", ".")))
    return entry.text if isinstance(value, Slope) else with_unit(entry.text, entry.units)


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
