"""Where the lines of a bay lie in its drawing: widths to scale, heights shortened, the slope drawn a stated number of times.

Pure geometry in pixels, y down, without flet: tests hold it to its scale and its factor.
"""

from __future__ import annotations

from dataclasses import dataclass

FACTORS = (5, 2, 1)
"""How many times the slope of a bay is drawn: the most that its picture can hold."""
RUN_FACTORS = (10, 5, 2, 1)
"""The same for runs and panels, which are drawn smaller or lie flatter."""


@dataclass(frozen=True, slots=True)
class BayShape:
    """A bay as it stands, lengths in one unit (inches or millimetres), only their ratios matter.

    tan: rise over run, positive where the right foot stands higher; 0 where it is not known yet. level_top: the panel's top is
    level. plate: width of a base plate.
    """

    span: float
    left_face: float
    right_face: float
    tan: float = 0.0
    plate: float = 0.0
    level_top: bool = False

    @property
    def centres(self) -> float:
        """Between the middles of the two faces."""
        return self.span + (self.left_face + self.right_face) / 2


@dataclass(frozen=True, slots=True)
class BayLines:
    """The drawing's lines. xl, xr: inside faces. k: pixels a unit, for widths. factor: how many times the slope is drawn.

    foot_l, foot_r: y of the deck under the middle of each post. top_l, top_r: y of the posts' tops. width: of the picture.
    """

    shape: BayShape
    width: float
    k: float
    factor: int
    xl: float
    xr: float
    foot_l: float
    foot_r: float
    top_l: float
    top_r: float

    @property
    def left_wide(self) -> float:
        return self.shape.left_face * self.k

    @property
    def right_wide(self) -> float:
        return self.shape.right_face * self.k

    @property
    def middles(self) -> tuple[float, float]:
        """x of the two posts' middles."""
        return self.xl - self.left_wide / 2, self.xr + self.right_wide / 2

    def floor(self, x: float) -> float:
        """y of the deck's line at x."""
        a, b = self.middles
        return self.foot_l + (x - a) / (b - a) * (self.foot_r - self.foot_l)

    def head(self, x: float) -> float:
        """y of the line through the posts' tops at x: equal posts, so their tops tell the slope of the feet."""
        a, b = self.middles
        return self.top_l + (x - a) / (b - a) * (self.top_r - self.top_l)


def choose_factor(tan: float, run_px: float, room_px: float, factors: tuple[int, ...] = FACTORS) -> int:
    """The largest factor at which the climb still fits; the least where none does."""
    return next((f for f in factors if f * abs(tan) * run_px <= room_px), factors[-1])


def bay_lines(
    shape: BayShape, width: float, height: float, side: float = 28, top: float = 22, foot: float = 36, post: float = 70
) -> BayLines:
    """The lines of a bay in a picture of width x height pixels.

    side, top, foot: margins outside the posts, above and below. post: the least height of a post; the rest is for the climb.
    A bay so steep that it does not fit at its true slope is drawn smaller.
    """
    whole = shape.span + shape.left_face + shape.right_face
    k = (width - 2 * side) / whole
    room = max(height - top - foot - post, 8)
    factor = choose_factor(shape.tan, shape.centres * k, room)
    climb = factor * abs(shape.tan) * shape.centres * k
    if climb > room:
        k *= room / climb
        climb = room
    xl = (width - whole * k) / 2 + shape.left_face * k
    low, high = height - foot, height - foot - climb
    foot_l, foot_r = (low, high) if shape.tan >= 0 else (high, low)
    top_l, top_r = (top + climb, top) if shape.tan >= 0 else (top, top + climb)
    return BayLines(shape, width, k, factor, xl, xl + shape.span * k, foot_l, foot_r, top_l, top_r)
