"""The allowance of a post system: which one is best, and what another one leaves to hold and to go in."""

from __future__ import annotations

from dataclasses import dataclass

from measure.length import Length


@dataclass(frozen=True, slots=True)
class AllowanceBudget:
    """In nanometres, at the planned span: D depth of one groove, b least bite, c least play, A the allowance.

    best: (3D + b − c)/2, where both sides are left the same. hold: A − D − b, what is over when the panel is fully home
    at one side. fit: 2D − c − A, what is over when it goes in. Below 0 it falls short.
    """

    best: Length
    hold_nm: int
    fit_nm: int
    one_edge: bool

    @classmethod
    def of(cls, allowance: Length, depth: Length, bite: Length, play: Length) -> AllowanceBudget:
        """one_edge: no more than one groove is deep, so it may have been given for one edge only."""
        best = Length((3 * depth.nm + bite.nm - play.nm) // 2)
        hold, fit = allowance.nm - depth.nm - bite.nm, 2 * depth.nm - play.nm - allowance.nm
        return cls(best, hold, fit, allowance <= depth)
