"""Every check, in the order in which its findings are told.

A check of a bay takes a `BayCase` and yields findings; to add one, write a generator with a docstring that states its
rule, give it a name from `finding.CHECKS` and list it here. Checks of a run take a `RunCase`, those of the job a `Book`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from measure.checks import closing, glass, presence, sides, slopes, spans
from measure.checks.case import BayCase, BayCheck
from measure.checks.closing import RunCase
from measure.finding import Finding

BAY_CHECKS: tuple[BayCheck, ...] = (
    presence.missing,
    presence.high_end,
    presence.read_backs,
    sides.two_sides,
    spans.off_plan,
    spans.slip,
    spans.spacing,
    spans.second_tape,
    spans.lean,
    slopes.plumb,
    spans.grip,
    slopes.slope,
    slopes.neighbour,
    slopes.rack_line,
    slopes.design_slope,
    glass.glass_size,
    glass.glass_mass,
    glass.post_height,
    glass.turn,
    glass.lift,
)
RUN_CHECKS: tuple[Callable[[RunCase], Iterator[Finding]], ...] = (
    closing.closing,
    closing.closing_rise,
    closing.run_high_end,
    closing.run_read_backs,
    closing.run_second_tape,
    sides.run_two_sides,
)

__all__ = ["BAY_CHECKS", "RUN_CHECKS", "BayCase", "BayCheck", "RunCase"]
