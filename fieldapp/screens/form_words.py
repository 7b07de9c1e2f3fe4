"""A form's parts as a job file says them, and a job file's parts as a form holds them. Pure.

A form holds texts by flat keys: `edge_top` of the glass, `turning_line_each` of the system. What a form did not change stays in
the job file letter for letter.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from fieldapp.screens.new_form import NewForm
from measure.as_read import with_unit
from measure.job import Units

Words = Mapping[str, Any]
PARTS = ("job", "tape", "system", "glass", "limits")
EDGES = ("top", "uprights", "bottom")
TURNED = ("each", "grooves")
NOT_FROM_HOOK = "no"
NO_HOLES = ("", "none")
_NUMBERS = ("least_corner_angle", "greatest_mass_kg")
_LENGTHS = {
    "job": ("order_step",),
    "tape": ("division", "placing", "laser"),
    "system": (
        "post_face", "greatest_spacing", "allowance", "groove_depth", "least_bite", "least_play", "base_plate", "turn_axis",
        "post_height",
    ),
    "glass": ("thickness", "height", "size_tolerance", "least_width", "greatest_width", "least_height", "greatest_height"),
    "limits": ("plan_tolerance", "second_tape", "lean"),
}  # fmt: skip


# ---- from a form -----------------------------------------------------------------------------------------------------------
def parts(form: NewForm) -> dict[str, dict[str, Any]]:
    """`job`, `tape`, `system`, `glass` and `limits` of a job file."""
    name = " ".join(form.of("job", "name").split())
    return {
        "job": {**form.job, "name": name},
        "tape": tape_words(form.tape),
        "system": system_words(form.system),
        "glass": glass_words(form.glass),
        "limits": dict(form.limits),
    }


def tape_words(tape: Words) -> dict[str, Any]:
    """The `tape` of a job file."""
    return {**tape, "from_hook": False} if tape.get("from_hook") == NOT_FROM_HOOK else dict(tape)


def system_words(system: Words) -> dict[str, Any]:
    """The `system` of a job file. The angle between two grooves says nothing where it is not said how far a panel may turn."""
    words = {k: v for k, v in system.items() if not k.startswith("turning_")}
    turning: dict[str, dict[str, Any]] = {}
    for key in system:
        _, _, rest = key.partition("turning_")
        kind, _, what = rest.partition("_")
        if what and f"turning_{kind}_each" in system:
            turning.setdefault(kind, {})[what] = number(system[key])
    return {**words, "turning": turning} if turning else words


def glass_words(glass: Words) -> dict[str, Any]:
    """The `glass` of a job file."""
    words = {k: v for k, v in glass.items() if k != "sort" and not k.startswith("edge_")}
    for key in _NUMBERS:
        if key in words:
            words[key] = number(words[key])
    edges = {e: str(glass.get(f"edge_{e}", "")) for e in EDGES}
    return {**words, "edge": edges} if any(edges.values()) else words


def number(text: str) -> Any:
    """A bare number of a job file: whole ones as ints, others by their digits."""
    value = Decimal(text)
    return int(value) if value == int(value) else value


# ---- from a job file -------------------------------------------------------------------------------------------------------
def form_of(words: Words) -> NewForm:
    """The form of a job that is there, without its runs: every bare length with the job's unit beside it."""
    units: Units = words["job"]["units"]
    said = {part: _with_units(part, words.get(part) or {}, units) for part in PARTS}
    return NewForm(
        job=_texts(said["job"]), tape=tape_form(said["tape"]), system=system_form(said["system"]), glass=glass_form(said["glass"]),
        limits=_texts(said["limits"]),
    )  # fmt: skip


def tape_form(tape: Words) -> dict[str, Any]:
    """A tape as a form holds it."""
    kept = _texts({k: v for k, v in tape.items() if k != "from_hook"})
    return {**kept, "from_hook": NOT_FROM_HOOK} if tape.get("from_hook") in (False, NOT_FROM_HOOK) else kept


def system_form(system: Words) -> dict[str, Any]:
    """A system as a form holds it."""
    words = _texts({k: v for k, v in system.items() if k not in ("turning", "confirmed")})
    for kind, turned in (system.get("turning") or {}).items():
        words |= {f"turning_{kind}_{what}": str(turned[what]) for what in TURNED if what in turned}
    return {**words, "confirmed": dict(system["confirmed"])} if system.get("confirmed") else words


def glass_form(glass: Words) -> dict[str, Any]:
    """A glass as a form holds it, with the sort that its words mean."""
    words = _texts({k: v for k, v in glass.items() if k not in ("edge", "sort")})
    edge = glass.get("edge", {})
    by_edge = dict.fromkeys(EDGES, edge) if isinstance(edge, str) else edge
    words |= {f"edge_{e}": by_edge[e] for e in EDGES if by_edge.get(e)}
    return {**words, "sort": sort_of(words)}


def sort_of(glass: Words) -> str:
    """`clear`, `frosted` or `hole`: what makes a panel handed."""
    if str(glass.get("holes", "")).strip() not in NO_HOLES:
        return "hole"
    return "frosted" if str(glass.get("finish_face") or "").strip() else "clear"


def _with_units(part: str, words: Words, units: Units) -> dict[str, Any]:
    return {k: with_unit(str(v), units) if k in _LENGTHS[part] else v for k, v in words.items()}


def _texts(words: Words) -> dict[str, Any]:
    return {k: str(v) for k, v in words.items() if v not in ("", None)}


# ---- back into the job file ------------------------------------------------------------------------------------------------
def changed_words(words: Words, form: NewForm) -> dict[str, Any]:
    """The job file with what the form says anew; what it says as before stays as it was typed."""
    before, after = parts(form_of(words)), parts(form)
    made = dict(words)
    for part in PARTS:
        if before[part] != after[part]:
            own = words.get(part) or {}
            kept = {k: own[k] if k in own and before[part].get(k) == v else v for k, v in after[part].items()}
            made[part] = {**{k: kept[k] for k in own if k in kept}, **kept}
    return made
