"""The pane against what the shop can make, its mass, its posts and its turn."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from measure.checks.case import BayCase
from measure.finding import Finding
from measure.pane_text import double_volume
from measure.panel import GLASS_DENSITY, Panel

TURN_WITHOUT_AXIS_DEG, RIGHT_ANGLE_DEG = 5.0, 90.0
NM3_PER_M3 = 10**27
LIFT_KG = 30
"""Above this a third person or a lifter (judgement)."""


def glass_size(case: BayCase) -> Iterator[Finding]:
    """Hold: outside the shop's least or greatest size, or a corner sharper than it makes."""
    opening = case.opening
    if opening is None:
        return
    glass, panel, bad = case.job.glass, opening.panel, False
    for name, size, least, greatest in (
        ("width", panel.width, glass.least_width, glass.greatest_width),
        ("height over all", panel.bound_height, glass.least_height, glass.greatest_height),
    ):
        limit = least if least is not None and size < least else greatest if greatest is not None and size > greatest else None
        if limit is not None:
            bad = True
            say = f"The panel's {name} {case.text(size)} is {'below the shop’s least' if size < limit else 'above the shop’s greatest'} {case.text(limit)}: move a post, or ask the shop."
            yield case.found("glass-size", "hold", say, opening.rests)
    if glass.least_corner_angle is not None and panel.lower_angle_deg < glass.least_corner_angle:
        bad = True
        say = f"The sharper corner has {panel.lower_angle_deg:.1f}°, the shop’s least is {float(glass.least_corner_angle):g}°: ask the shop, or change the shape."
        yield case.found("glass-size", "hold", say, opening.rests)
    if not bad:
        yield from case.clear("glass-size", lambda: f"{case.text(panel.width)} wide, {case.text(panel.bound_height)} high over all: within what the shop makes.")


def glass_mass(case: BayCase) -> Iterator[Finding]:
    """Hold: heavier than the shop's or the lifter's greatest mass."""
    opening, limit = case.opening, case.job.glass.greatest_mass_kg
    if opening is None or limit is None:
        return
    mass = opening.panel.mass_kg
    if not _heavier(opening.panel, limit):
        yield from case.clear("glass-mass", lambda: f"About {mass:.1f} kg.")
        return
    say = f"The panel is about {mass:.1f} kg, the greatest is {float(limit):g} kg: add a post, or ask the shop."
    yield case.found("glass-mass", "hold", say, opening.rests)


def _heavier(panel: Panel, limit_kg: Fraction | int) -> bool:
    """Whether a panel is heavier than a limit, exactly: a panel of just that mass is not."""
    return Fraction(double_volume(panel) * int(GLASS_DENSITY), 2 * NM3_PER_M3) > limit_kg


def post_height(case: BayCase) -> Iterator[Finding]:
    """Query: a level-top upright is longer than its own post and nobody said that the glass stands taller."""
    opening = case.opening
    if opening is None or case.bay.shape != "level-top" or case.bay.taller:
        return
    for side, post_id, edge in (
        ("left", case.bay.left, opening.panel.left_edge),
        ("right", case.bay.right, opening.panel.right_edge),
    ):
        height = case.book.posts[post_id].height or case.job.system.post_height
        if height is None:
            continue
        if edge <= height:
            yield from case.clear("post-height", lambda s=side: f"The {s} upright is no longer than its post.")  # type: ignore[misc]
            continue
        say = f"The {side} upright {case.text(edge)} is longer than its post {post_id}, {case.text(height)}: say that the glass stands taller, or change the shape."
        yield case.found("post-height", "query", say, opening.rests)


def turn(case: BayCase) -> Iterator[Finding]:
    """Hold: turned further than that kind of post allows, or by a right angle, as no post does. Query: over 5° and no turning axis given."""
    opening, system = case.opening, case.job.system
    if opening is None:
        return
    for post_id, degrees in zip((case.bay.left, case.bay.right), opening.turn_deg, strict=True):
        kind = case.book.posts[post_id].kind
        turning = system.turning.get(kind)
        if degrees >= RIGHT_ANGLE_DEG:
            say = f"At {post_id} the panel turns {degrees:g}°, and no edge reaches its groove from there: check the post's angle."
            yield case.found("turn", "hold", say)
            continue
        if turning is None:
            continue
        if degrees > float(turning.each) + 1e-9:
            say = f"At {post_id} the panel turns {degrees:g}°, a {kind} post allows {float(turning.each):g}°: another post, or another angle."
            yield case.found("turn", "hold", say)
        elif degrees > TURN_WITHOUT_AXIS_DEG and system.turn_axis is None:
            say = f"At {post_id} the panel turns {degrees:g}° and the system gives no turning axis, so the width leaves out what the turn asks: give the axis, or say why it stands."
            yield case.found("turn", "query", say)
        elif degrees:
            yield from case.clear("turn", lambda p=post_id, d=degrees: f"At {p} the panel turns {d:g}°, which the post allows.")  # type: ignore[misc]


def lift(case: BayCase) -> Iterator[Finding]:
    """Caution: a heavy panel."""
    if case.opening is not None and _heavier(case.opening.panel, LIFT_KG):
        say = f"About {case.opening.panel.mass_kg:.1f} kg: a third person or a lifter; two people for every panel."
        yield case.found("lift", "caution", say)
