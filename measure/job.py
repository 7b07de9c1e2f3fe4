"""A job: one site's system, glass, plan, readings and answers, as values."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from measure.length import Length
from measure.plan import Bay, Post, Run
from measure.reading import Answer, Moved, Reading
from measure.system import Glass, Limits, System, Tape

Units = Literal["in", "mm"]


@dataclass(frozen=True, slots=True)
class OrderHead:
    """Free text for the order's head."""

    customer: str = ""
    po: str = ""
    wanted_by: str = ""
    deliver_to: str = ""
    contact: str = ""
    phone: str = ""
    unloading: str = ""


@dataclass(frozen=True, slots=True)
class Job:
    """runs: one for every run that a bay names, in the order of bays. bays: in file order, which is the order's.

    plan_apart: where plans that were changed on two sides differ, as `glass.height`; empty where one plan holds.
    """

    name: str
    units: Units
    order_step: Length
    tape: Tape
    system: System
    glass: Glass
    limits: Limits
    runs: tuple[Run, ...]
    posts: tuple[Post, ...]
    bays: tuple[Bay, ...]
    readings: tuple[Reading, ...] = ()
    moved: tuple[Moved, ...] = ()
    answers: tuple[Answer, ...] = ()
    site: str = ""
    read_back: Literal["no", "asked", "required"] = "asked"
    plumb: Literal["no", "asked"] = "no"
    head: OrderHead = field(default_factory=OrderHead)
    plan_apart: tuple[str, ...] = ()
