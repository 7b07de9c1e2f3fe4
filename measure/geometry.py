"""From a span and a rise to width and rack: the arithmetic of one bay, without rounding.

Lengths are nanometres as int or Fraction while they are exact, floats once a cosine was needed; angles are radians.
θ is positive where the right foot is higher, α (lean) where the heads stand to the right, R takes the sign of the high end.
Every figure is as seen from the side that the run names.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from measure.plan import RackFollows

Exact = int | Fraction | float


def magnitude(value: Exact) -> Exact:
    """Without its sign (what `abs` gives, in a type that can be compared)."""
    return value if value >= 0 else -value


@dataclass(frozen=True, slots=True)
class Sloped:
    """A bay's slope and level span.

    span: S, level, nm. tan: tan θ with sign. over_centres: the rise over both post centres, with sign, nm; where the
    rise was read over the post tops this is that figure itself, exactly.
    """

    span: Exact
    tan: Exact
    over_centres: Exact


def mean_faces(left_nm: int, right_nm: int) -> int | Fraction:
    """(P_L + P_R)/2 in nm, exact."""
    both = left_nm + right_nm
    return both // 2 if both % 2 == 0 else Fraction(both, 2)


def level_span(along: Exact, tan: Exact) -> Exact:
    """S = S_along · cos θ, nm."""
    return along if not tan else along / math.sqrt(1.0 + float(tan) ** 2)


def from_tan(read: int, along: bool, tan: Exact, faces: Exact) -> Sloped:
    """Slope known as such, or as a rise over a level's own length. read: the span as taped, nm."""
    span = level_span(read, tan) if along else read
    return Sloped(span, tan, tan * (span + faces))


def from_rise_over_centres(read: int, along: bool, rise: int, faces: Exact) -> Sloped:
    """Rise read over both post centres. Taped along, S and θ hang together: S_along · sin θ + P̄ · tan θ = rise."""
    if not along or not rise:
        return Sloped(read, _over(rise, read + faces), rise)
    tan = _tan_along(read, abs(rise), float(faces))
    return Sloped(level_span(read, tan), math.copysign(tan, rise), rise)


def _tan_along(read: int, rise: int, faces: float) -> float:
    """tan θ of a rise (above 0) over both centres where the tape lay along the slope.

    Newton's steps on tan θ: the rise grows with it, ever less steeply, so a step from below never goes too far.
    """
    tan = rise / (read + faces)
    for _ in range(100):
        root = math.hypot(1.0, tan)
        step = (rise - read * tan / root - faces * tan) / (read / root**3 + faces)
        tan += step
        if abs(step) <= 1e-14 * tan:
            break
    return tan


def from_rise_over_faces(read: int, along: bool, rise: int, faces: Exact) -> Sloped | None:
    """Rise read between the two faces. None where the tape lay along and the rise is no shorter than the tape."""
    if not along or not rise:
        tan = _over(rise, read)
        return Sloped(read, tan, tan * (read + faces))
    if abs(rise) >= read:
        return None
    span = math.sqrt(float(read * read - rise * rise))
    return Sloped(span, rise / span, rise / span * (span + float(faces)))


def _over(rise: int, base: Exact) -> Exact:
    return 0 if not rise else Fraction(rise) / Fraction(base)


def turn_of_panel(angle: Fraction | None, grooves: Fraction | None, at_wall: bool) -> float:
    """φ in degrees: how far a panel turns from its groove's straight-out direction.

    At a wall |angle − 90°|; where a post halves the corner half the difference to the angle g between its two grooves,
    or to 360° − g where that lies nearer (an inside corner); 0 without an angle (an end post).
    """
    if angle is None:
        return 0.0
    if at_wall:
        return abs(float(angle) - 90.0)
    if grooves is None or angle == grooves:
        return 0.0
    return min(abs(float(angle - grooves)), abs(float(angle - (360 - grooves)))) / 2


def turned_edge(turn_deg: float, axis_nm: int) -> Exact:
    """d · (1/cos φ − 1) in nm: what a turned edge asks beyond half the allowance; nothing at a right angle and beyond,
    where no edge reaches its groove (the check of turns holds it)."""
    if not turn_deg or not axis_nm or turn_deg >= 90:
        return 0
    return axis_nm * (1.0 / math.cos(math.radians(turn_deg)) - 1.0)


@dataclass(frozen=True, slots=True)
class Leaning:
    """Posts that lean the same way by α: the span square to them and the span level between their feet, nm."""

    alpha: float
    square: Exact
    feet: Exact


def leaning(sloped: Sloped, read: int, along: bool, alpha: float) -> Leaning:
    """alpha: mean lean of both posts in radians."""
    if not alpha:
        return Leaning(0.0, sloped.span, sloped.span)
    tan = float(sloped.tan)
    if along:
        return Leaning(alpha, read * math.cos(math.atan(tan) + alpha), sloped.span)
    return Leaning(alpha, read * math.cos(alpha), read / (1.0 - tan * math.tan(alpha)))


def rack(follows: RackFollows, sloped: Sloped, lean: Leaning, faces: Exact, width: Exact) -> Exact:
    """R with sign, nm. `posts`: each lower corner at its own post's foot; `slope`: parallel to the deck over the width."""
    if not lean.alpha:
        return sloped.over_centres if follows == "posts" else sloped.tan * width
    tan = float(sloped.tan)
    if follows == "posts":
        return (lean.feet + faces) * (math.sin(lean.alpha) + tan * math.cos(lean.alpha))
    return width * math.tan(math.atan(tan) + lean.alpha)


def rack_by_diagonals(rising: int, rising_mark: int, falling: int, falling_mark: int, base: Exact, square: Exact) -> float:
    """R from the opening's two diagonals, each from a foot to a mark up the other post; nm.

    base: the width for `slope`, S + P̄ for `posts`; square: S square to the posts. With one mark h this is
    (p² − q²)/(4h) · base/S_sq.
    """
    over_square = (rising**2 - falling**2 - rising_mark**2 + falling_mark**2) / (2 * (rising_mark + falling_mark))
    return over_square * float(base) / float(square)
