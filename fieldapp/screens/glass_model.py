"""The glass of a new job: what is chosen, what is still to be said, how heavy a usual panel gets. Pure."""

from __future__ import annotations

from typing import Any

from fieldapp.screens.form_words import sort_of
from fieldapp.screens.new_figures import FIGURES, shown, value_of
from fieldapp.screens.new_form import NewForm
from fieldapp.words import say
from measure.checks.glass import LIFT_KG
from measure.length import Length
from measure.panel import cut_panel

THICKNESSES = ("8 mm", "10 mm", "12 mm")
KINDS = ("clear", "frosted", "hole")
OPTIONAL = (
    "least_width", "greatest_width", "least_height", "greatest_height", "least_corner_angle", "greatest_mass_kg",
)  # fmt: skip
WORDS = ("edge_top", "edge_uprights", "edge_bottom", "stamp", "standard")
MORE_WORDS = ("kind", "corners", "finish_face", "holes")
"""What has a default or follows from the kind that was tapped."""
OFFERED = {
    "edge_top": ("polished", "ground", "dubbed"),
    "edge_uprights": ("polished", "ground", "dubbed"),
    "edge_bottom": ("polished", "ground", "dubbed"),
    "stamp": ("lower left", "lower right", "none wanted"),
    "standard": (),
    "kind": ("clear toughened", "frosted toughened", "low-iron toughened", "laminated of two toughened panes"),
    "corners": ("dubbed", "rounded to 3 mm", "sharp"),
    "finish_face": ("frosted face inward", "frosted face outward", "coated face inward", "printed face inward"),
    "holes": ("none", "as on the shop's drawing"),
}
"""Words ready to tap; others can be written."""


def kind(form: NewForm) -> str:
    """Which of `KINDS` is chosen; empty while none is."""
    return form.of("glass", "sort")


def with_kind(form: NewForm, chosen: str) -> NewForm:
    """The form with a kind of glass: what it is called, and whether one face or a hole makes it handed."""
    words: dict[str, Any] = {"sort": chosen, "kind": say("new.glass_toughened"), "finish_face": "", "holes": ""}
    if chosen == "frosted":
        words |= {"kind": say("new.glass_frosted"), "finish_face": say("new.glass_face")}
    elif chosen == "hole":
        words["holes"] = say("new.glass_holes")
    return form.say("glass", **words)


def with_words(form: NewForm, key: str, words: str) -> NewForm:
    """The form with one of the glass's words; a finish face or a hole makes the glass another sort."""
    made = form.say("glass", **{key: words})
    if key in ("finish_face", "holes") and kind(form):
        return made.say("glass", sort=sort_of(made.glass))
    return made


def handed(form: NewForm) -> str:
    """One sentence on what the kind means for a panel that is turned round."""
    chosen = kind(form)
    return say(f"new.handed_{chosen}") if chosen else say("new.kind_needed")


def missing(form: NewForm) -> str:
    """What has to be said before the runs; empty when nothing is missing."""
    if not form.of("glass", "thickness"):
        return say("new.thickness_needed")
    if not kind(form):
        return say("new.kind_needed")
    for key in ("height", "size_tolerance"):
        if not form.of("glass", key):
            return say("new.row_needed", name=FIGURES[key].name)
    return ""


def usual_mass(form: NewForm) -> str:
    """About how heavy a panel between posts at the greatest spacing gets, and who it takes; empty where that is not known yet."""
    spacing, face = value_of(form, "greatest_spacing"), value_of(form, "post_face")
    allowance, height, thickness = (value_of(form, k) for k in ("allowance", "height", "thickness"))
    if not (spacing and face and allowance and height and thickness):
        return ""
    width = Length(spacing.nm - face.nm + allowance.nm)
    kg = cut_panel("racked", width, height, Length(0), thickness).mass_kg
    who = say("new.lifter" if kg > LIFT_KG else "new.two_people")
    return say("new.usual_mass", spacing=shown(form, "greatest_spacing"), kg=round(kg), who=who)


def glass_said(form: NewForm) -> str:
    """The glass in one line."""
    pane = " ".join(w for w in (form.of("glass", "thickness"), form.of("glass", "kind")) if w)
    return say("new.told_glass", pane=pane, height=form.of("glass", "height"))


def limits_said(form: NewForm) -> str:
    """The limits in one line, each with its name."""
    said = [(FIGURES[k].name, form.of("limits", k)) for k in ("plan_tolerance", "second_tape", "lean", "slope", "slope_step")]
    return ", ".join(f"{name} {figure}" for name, figure in said if figure) or say("new.nothing_checked")
