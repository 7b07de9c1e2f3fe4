"""A new job as a whole: its four steps, what each still lacks, and the job file that comes of it. Pure."""

from __future__ import annotations

from typing import Any, Literal

from fieldapp.parts.run_strip import StripBay
from fieldapp.screens import glass_model, system_model
from fieldapp.screens.form_words import parts
from fieldapp.screens.new_form import NewForm
from fieldapp.screens.runs_model import plan_words, sums
from fieldapp.words import say
from measure.job_file import FORMAT

Step = Literal["name", "system", "glass", "runs"]
STEPS: tuple[Step, ...] = ("name", "system", "glass", "runs")
_WIDE = 40.0
_LONGEST = 60
TAPE_MARKS = {"in": ("1/16 in", "1/32 in"), "mm": ("1 mm", "0.5 mm")}
ORDER_STEPS = {"in": ("1/16 in", "1/32 in"), "mm": ("1 mm", "0.5 mm")}
TAPE_CLASSES = {"in": ("US", "I", "II", "III"), "mm": ("I", "II", "III", "US")}
READ_BACKS = ("no", "asked", "required")
PLUMBS = ("no", "asked")


def missing(form: NewForm, step: Step) -> str:
    """What a step still lacks, as a sentence; empty when it is said."""
    if step == "name":
        return refused_name(form.of("job", "name"))
    if step == "system":
        return "" if system_model.six_said(form) and form.of("system", "name") else say("new.system_first")
    if step == "glass":
        return glass_model.missing(form)
    return "" if form.runs and all(run.said for run in form.runs) else say("new.run_first")


def reached(form: NewForm) -> Step:
    """The first step that lacks something, else the last."""
    return next((s for s in STEPS if missing(form, s)), STEPS[-1])


def strip(form: NewForm) -> list[StripBay]:
    """The way through as four bays: said or not yet; the one that is asked is lit by the strip itself."""
    bays = []
    for step in STEPS:
        word, open_ = say(f"new.step_{step}"), bool(missing(form, step))
        says = say("new.step_open" if open_ else "new.step_said", step=word)
        bays.append(StripBay(word, _WIDE, "todo" if open_ else "clear", says=says))
    return bays


def strip_says(now: Step) -> str:
    """The strip, spoken."""
    return say("new.strip_says", step=say(f"new.step_{now}"), number=STEPS.index(now) + 1, steps=len(STEPS))


def step_told(form: NewForm, step: Step) -> str:
    """What is said of a step, in one line; what it still lacks where something is missing."""
    if lacking := missing(form, step):
        return lacking
    if step == "name":
        return say("new.told_name", units=say(f"new.units_{form.units}"), step=form.of("job", "order_step"))
    if step == "system":
        figures = {k: form.of("system", k) for k in ("post_face", "greatest_spacing")}
        return say("new.told_system", system=form.of("system", "name"), **figures)
    if step == "glass":
        return glass_model.glass_said(form)
    found = sums(form)
    return f"{found.bays}, {found.panels}, {found.posts}"


def refused_name(name: str) -> str:
    """Why a job cannot be called so; empty when it can."""
    plain = " ".join(name.split())
    if not plain:
        return say("new.job_needed")
    return say("new.job_long", most=_LONGEST) if len(plain) > _LONGEST else ""


def job_words(form: NewForm) -> dict[str, Any]:
    """The job file. Raises SpanbookError where the runs cannot be laid."""
    return {
        "format": FORMAT,
        **parts(form),
        **plan_words(form),
        "readings": [],
    }
