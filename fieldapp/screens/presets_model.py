"""What the crew uses again under a name: post systems, glass, tapes, limits. Pure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from fieldapp.screens import system_model
from fieldapp.screens.form_words import glass_form, system_form, tape_form
from fieldapp.screens.glass_model import limits_said
from fieldapp.screens.new_form import NewForm
from fieldapp.words import say

Words = Mapping[str, Any]
Presets = Mapping[str, Words]
KINDS = ("system", "glass", "tape", "limits")
LONGEST_NAME = 60
_ABOUT_ITSELF = ("sort",)


@dataclass(frozen=True, slots=True)
class PresetView:
    """kept: whether the form says just this now."""

    name: str
    sentence: str
    kept: bool


def rows(kind: str, presets: Presets, form: NewForm) -> list[PresetView]:
    """All presets of a kind, by name."""
    return [PresetView(name, told(kind, words), _same(kind, words, getattr(form, kind))) for name, words in presets.items()]


def told(kind: str, words: Words) -> str:
    """What a preset says, in one line."""
    part = as_form(kind, words)
    if kind == "system":
        return system_model.preset_rows({"": words}, [])[0].sentence
    if kind == "glass":
        said = [part.get("thickness"), part.get("kind"), part.get("height")]
        return ", ".join(str(w) for w in said if w)
    if kind == "tape":
        return say("new.preset_tape", division=part.get("division", "?"), kind=part.get("class", "II"))
    return limits_said(NewForm({}, {}, part))


def as_form(kind: str, words: Words) -> dict[str, Any]:
    """A preset as a form holds that part."""
    make = {"system": system_form, "glass": glass_form, "tape": tape_form}.get(kind)
    return make({k: v for k, v in words.items() if k != "sort"}) if make else dict(words)


def taken(form: NewForm, kind: str, words: Words) -> NewForm:
    """The form with a preset in the place of what it said before."""
    part = as_form(kind, words)
    if kind == "glass":  # edges are kept flat by a form, and a preset that says none means the usual ones
        part |= {k: v for k, v in words.items() if k.startswith("edge_")}
    return replace(form, **{kind: part})


def name_of(form: NewForm, kind: str, presets: Presets) -> str:
    """The name of the preset that says just what the form says; empty where none does."""
    return next((name for name, words in presets.items() if _same(kind, words, getattr(form, kind))), "")


def refused_name(name: str, presets: Presets, but: str = "") -> str:
    """Why a preset cannot be called so; empty when it can. but: the name that it had."""
    plain = " ".join(name.split())
    if not plain:
        return say("new.preset_name_needed")
    if len(plain) > LONGEST_NAME:
        return say("new.preset_name_long", most=LONGEST_NAME)
    taken_ = [n for n in presets if n.casefold() == plain.casefold() and n != but]
    return say("new.preset_name_taken", name=taken_[0]) if taken_ else ""


def of_new_job(form: NewForm, known: Mapping[str, Presets]) -> dict[str, tuple[str, dict[str, Any]]]:
    """What is kept for the next job without being asked: kind -> (name, words). What is kept under a name already is not kept twice.

    A system goes by its own name, the others by the job's until somebody gives them a better one.
    """
    job = " ".join(form.of("job", "name").split())
    names = {"system": form.of("system", "name"), "glass": job, "tape": job, "limits": job}
    return {kind: (names[kind], dict(getattr(form, kind))) for kind in KINDS if not name_of(form, kind, known.get(kind, {}))}


def _same(kind: str, words: Words, part: Words) -> bool:
    kept, said = as_form(kind, words), dict(part)
    if kind == "glass":
        kept |= {k: v for k, v in words.items() if k.startswith("edge_")}
    plain = [{k: v for k, v in one.items() if k not in _ABOUT_ITSELF} for one in (kept, said)]
    return plain[0] == plain[1] and bool(plain[0])
