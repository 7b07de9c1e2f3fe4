"""The railing from above, to scale: the deck below, looking out is up, so left to right reads as it is walked."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

import flet as ft
import flet.canvas as cv

from fieldapp.parts.here import here_shapes
from fieldapp.parts.stroke import HIDDEN, LEFT, NBSP, RIGHT, Point, Shapes, line, poly, stroke, wash, word
from fieldapp.parts.verdict import Sign, sign_shapes
from fieldapp.theme import GLASS, TOUCH, Look

End = Literal["end", "line", "corner", "wall"]
_APART = 0.7
"""Gap before a run that stands alone, in its widest bay."""
_WIDE_EM, _LEAST = 0.68, 12
"""A letter of a name on average, the room to its neighbour in it; the least size of one."""


@dataclass(frozen=True, slots=True)
class PlanBay:
    """tag, spacing (centre to centre, any unit), verdict, and whether it has glass; gate: the word beside one that has none.

    here: letters of those who are on it just now.
    """

    tag: str
    spacing: float
    sign: Sign = "todo"
    glass: bool = True
    gate: str = ""
    says: str = ""
    here: str = ""


@dataclass(frozen=True, slots=True)
class PlanRun:
    """Bays in one line. turn: the deck-side angle to the next run; None for the last, and where the next shares no post with it.

    left, right: kinds of its end posts.
    """

    name: str
    bays: tuple[PlanBay, ...]
    turn: float | None = None
    left: End = "end"
    right: End = "end"


@dataclass(frozen=True, slots=True)
class PlanPlace:
    """One bay in the plan's own unit, y down: its posts' middles and its heading in degrees (0 to the right, positive down).

    alone: it begins a piece of railing of its own, a gap before it.
    """

    run: str
    bay: PlanBay
    a: Point
    b: Point
    heading: float
    alone: bool = False


@dataclass(frozen=True, slots=True)
class PlanWords:
    """deck: in the middle of the deck; wall: beside a wall."""

    deck: str = ""
    wall: str = ""


def course(runs: Sequence[PlanRun], heading: float | None = None) -> list[PlanPlace]:
    """Every bay in its place. heading: of the first run; left out, the plan is turned so that its middle run lies level."""
    start = _first_heading(runs) if heading is None else heading
    x = y = 0.0
    places: list[PlanPlace] = []
    for number, run in enumerate(runs):
        alone = number > 0 and runs[number - 1].turn is None
        if alone:  # where it really stands nobody has said: it is drawn on in line, apart
            apart = _APART * max(bay.spacing for bay in run.bays)
            x, y = x + apart * math.cos(math.radians(start)), y + apart * math.sin(math.radians(start))
        for bay in run.bays:
            end = x + bay.spacing * math.cos(math.radians(start)), y + bay.spacing * math.sin(math.radians(start))
            places.append(PlanPlace(run.name, bay, (x, y), end, start, alone and bay is run.bays[0]))
            x, y = end
        start += 180 - run.turn if run.turn is not None else 0
    return places


def pieces(places: Sequence[PlanPlace]) -> list[list[PlanPlace]]:
    """The bays of each piece of railing that stands by itself."""
    found: list[list[PlanPlace]] = []
    for place in places:
        if place.alone or not found:
            found.append([])
        found[-1].append(place)
    return found


def _first_heading(runs: Sequence[PlanRun]) -> float:
    turns = [180 - run.turn if run.turn is not None else 0 for run in runs[:-1]]
    lengths = [sum(bay.spacing for bay in run.bays) for run in runs]
    # Looking out is up, so the longest of the inner runs lies level; of two runs the longer one.
    inner = range(1, len(runs) - 1) if len(runs) > 2 else range(len(runs))
    level = max(inner, key=lambda i: lengths[i], default=0)
    return -sum(turns[:level])


class PlanPicture:
    """signs: a verdict outside every bay. lit: the run being added. chosen: a triangle on the deck side of this bay.

    `on_bay` makes each bay a button of 48 px. ghost: (angle, length) of the next run, dashed, its angle lit.
    """

    def __init__(
        self,
        look: Look,
        w: float,
        h: float,
        words: PlanWords | None = None,
        on_bay: Callable[[str], object] | None = None,
        signs: bool = False,
    ) -> None:
        self._look, self._w, self._h, self._words = look, w, h, words or PlanWords()
        self._on_bay, self._signs = on_bay, signs
        self._canvas = cv.Canvas(width=w, height=h)
        self._says = ft.Semantics(image=True, label="", content=self._canvas)
        self.control = ft.Stack([self._says], width=w, height=h)
        self.scale = 1.0
        self._move: Callable[[Point], Point] = lambda p: p

    def show(
        self, runs: Sequence[PlanRun], says: str, lit: str | None = None, chosen: str | None = None,
        ghost: tuple[float, float] | None = None, tags: bool = True,
    ) -> None:  # fmt: skip
        """Draw these runs. The caller updates `control`."""
        self._says.label = says
        places = course([run for run in runs if run.bays])
        if not places:
            self._canvas.shapes, self.control.controls = [], [self._says]
            return
        tail = self._tail(places, ghost)
        self._fit(places, tail, runs[-1].right == "wall")
        *others, last = pieces(places)
        shapes = [shape for piece in others for shape in self._deck(piece, [], None)] + self._deck(last, tail, ghost)
        for place in places:
            shapes += self._bay(place, lit, chosen, tags)
        if ghost:
            shapes += self._ghost(places[-1], tail[0], ghost[0])
        shapes += self._posts(places) + (self._wall(places[-1]) if runs[-1].right == "wall" else [])
        self._canvas.shapes = shapes
        if self._on_bay:
            self.control.controls = [self._says, *(self._button(p) for p in places)]

    def _tail(self, places: list[PlanPlace], ghost: tuple[float, float] | None) -> list[Point]:
        if ghost is None:
            return []
        heading, (x, y) = math.radians(places[-1].heading + 180 - ghost[0]), places[-1].b
        return [(x + ghost[1] * math.cos(heading), y + ghost[1] * math.sin(heading))]

    def _fit(self, places: list[PlanPlace], tail: list[Point], wall: bool) -> None:
        """One scale both ways; room for signs and tags outside the railing."""
        points = [end for p in places for end in (p.a, p.b)] + tail
        xs, ys = [p[0] for p in points], [p[1] for p in points]
        side, top = (56.0, 64.0) if self._signs else (50.0, 40.0)
        bottom = 36.0 if wall else 26.0
        wide, high = max(max(xs) - min(xs), 1e-9), max(max(ys) - min(ys), 1e-9)
        # A single straight run still shows a piece of deck below it.
        k = min((self._w - 2 * side) / wide, (self._h - top - bottom) / max(high, wide * 0.15))
        ox, oy = (self._w - k * (max(xs) + min(xs))) / 2, top - k * min(ys)
        self.scale, self._move = k, lambda p: (ox + k * p[0], oy + k * p[1])

    def _deck(self, places: list[PlanPlace], tail: list[Point], ghost: tuple[float, float] | None) -> Shapes:
        look, move = self._look, self._move
        ring = [move(places[0].a), *(move(p.b) for p in places)]
        ring += [move(p) for p in tail if ghost and ghost[0] < 180]
        floor = min(max(p[1] for p in ring) + 40, self._h - 6) if _is_flat(ring) else max(p[1] for p in ring)
        area = [*ring, (ring[-1][0], floor), (ring[0][0], floor)]
        shapes: Shapes = [poly(area, wash(look.leaf)), *_boards(look, area)]
        if self._words.deck and not _is_flat(ring):
            x, y = sum(p[0] for p in area) / len(area), (min(p[1] for p in ring) + floor) / 2 + 16
            shapes.append(word(x, y, f"{NBSP}{self._words.deck}{NBSP}", look.ink2, look.drawn(16), ground=look.leaf))
        return shapes

    def _bay(self, place: PlanPlace, lit: str | None, chosen: str | None, tags: bool) -> Shapes:
        look, (a, b) = self._look, (self._move(place.a), self._move(place.b))
        out = math.sin(math.radians(place.heading)), -math.cos(math.radians(place.heading))
        half = 5.0
        box = [(a[0] + half * out[0], a[1] + half * out[1]), (b[0] + half * out[0], b[1] + half * out[1]),
               (b[0] - half * out[0], b[1] - half * out[1]), (a[0] - half * out[0], a[1] - half * out[1])]  # fmt: skip
        if place.run == lit:
            shapes: Shapes = [poly(box, wash(look.tape)), poly(box, stroke(look.outline))]
        elif not place.bay.glass:
            shapes = [line(a, b, stroke(look.line, 2, HIDDEN))]
        else:
            shapes = [poly(box, wash(look.glass)), poly(box, stroke(look.glass_edge, GLASS))]
        middle = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2
        if place.bay.tag == chosen:
            shapes.append(_pick(look, middle, out))
        return shapes + self._label(place, middle, out, tags, place.bay.tag == chosen)

    def _label(self, place: PlanPlace, middle: Point, out: Point, tags: bool, chosen: bool) -> Shapes:
        """Signs stand upright, outside their bay, the tag beside them."""
        look, bay = self._look, place.bay
        name = bay.tag if bay.glass else bay.gate or bay.tag
        if self._signs and bay.glass:
            x, y = middle[0] + out[0] * 30, middle[1] + out[1] * 27
            above = out[1] < -0.6
            shapes = sign_shapes(look, bay.sign, x - 15, y - (13 if above else 19), 30, 22)
            plate = here_shapes(look, bay.here, x + 17 + 20 * min(len(bay.here), 3), y - (2 if above else 8)) if bay.here else []
            named = word(x, y + (-22 if above else 11), name, look.ink, look.drawn(), bay.sign in ("query", "hold"))
            return [*shapes, named, *plate]
        if not tags and bay.glass:
            return []
        side = abs(out[0]) > 0.9
        if self._signs and not side and out[1] < 0:  # outside stand the signs of its neighbours: it is named on the deck
            return [word(middle[0] - out[0] * 17, middle[1] - out[1] * 17, name, look.ink, look.drawn(), chosen, ground=look.leaf)]
        at = LEFT if side and out[0] > 0 else RIGHT if side else ft.Alignment.CENTER
        far = 12 if side else 19
        x, y, size = middle[0] + out[0] * far, middle[1] + out[1] * far, look.drawn()
        if not side:  # between the names of its neighbours
            size = min(size, max(bay.spacing * self.scale / (_WIDE_EM * len(name)), _LEAST))
        lines = name.split() if side and not bay.glass else [name]  # beside the run there is room for a short word only
        return [word(x, y + (i - (len(lines) - 1) / 2) * 1.2 * size, one, look.ink, size, chosen, at) for i, one in enumerate(lines)]

    def _ghost(self, last: PlanPlace, tail: Point, angle: float) -> Shapes:
        """The asked angle: a wedge on the deck side, the next run dashed."""
        look, (x, y), end = self._look, self._move(last.b), self._move(tail)
        first, second, r = math.radians(last.heading + 180), math.radians(last.heading + 180 - angle), 34
        arc = [
            (x + r * math.cos(first + (second - first) * i / 14), y + r * math.sin(first + (second - first) * i / 14))
            for i in range(15)
        ]
        mid = (first + second) / 2
        return [
            line((x, y), end, stroke(look.ink, 2, [5, 4])),
            poly([(x, y), *arc], wash(look.tape)),
            poly(arc, stroke(look.outline, 2), close=False),
            word(x + (r + 26) * math.cos(mid), y + (r + 18) * math.sin(mid), f"{angle:g}°", look.ink, look.drawn(20), True),
        ]

    def _posts(self, places: list[PlanPlace]) -> Shapes:
        """Squares turned with their run."""
        spots = [(piece[0].a, piece[0].heading) for piece in pieces(places)] + [(p.b, p.heading) for p in places]
        return [poly(_square(self._move(p), heading), wash(self._look.ink)) for p, heading in spots]

    def _wall(self, last: PlanPlace) -> Shapes:
        """The house: a hatched line across the run's end."""
        look, (x, y), a = self._look, self._move(last.b), math.radians(last.heading)
        along, across = (math.cos(a), math.sin(a)), (math.sin(a), -math.cos(a))
        at = lambda d, s: (x + along[0] * d + across[0] * s, y + along[1] * d + across[1] * s)  # noqa: E731
        shapes: Shapes = [line(at(7, -40), at(7, 34), stroke(look.ink, 3))]
        shapes += [line(at(9, s), at(18, s + 9), stroke(look.line, 1.2)) for s in range(-40, 32, 7)]
        wx, wy = at(13, -48)
        return [
            *shapes,
            word(wx, wy, self._words.wall, look.ink2, look.drawn(), at=RIGHT if along[1] > 0.5 else ft.Alignment.CENTER),
        ]

    def _button(self, place: PlanPlace) -> ft.Control:
        a, b = self._move(place.a), self._move(place.b)
        out = math.sin(math.radians(place.heading)), -math.cos(math.radians(place.heading))
        x, y = (a[0] + b[0]) / 2 + out[0] * 14, (a[1] + b[1]) / 2 + out[1] * 14
        press, tag = self._on_bay, place.bay.tag
        hit = ft.Container(width=TOUCH, height=TOUCH, on_click=lambda _: press and press(tag))
        return ft.Container(
            ft.Semantics(button=True, label=place.bay.says or tag, content=hit), left=x - TOUCH / 2, top=y - TOUCH / 2
        )


def _square(at: Point, heading: float, half: float = 5.5) -> list[Point]:
    along = half * math.cos(math.radians(heading)), half * math.sin(math.radians(heading))
    return [
        (at[0] + along[0] * i - along[1] * j, at[1] + along[1] * i + along[0] * j)
        for i, j in ((1, 1), (1, -1), (-1, -1), (-1, 1))
    ]


def _is_flat(ring: list[Point]) -> bool:
    return max(p[1] for p in ring) - min(p[1] for p in ring) < 24


def _pick(look: Look, middle: Point, out: Point) -> cv.Shape:
    tip = middle[0] - out[0] * 10, middle[1] - out[1] * 10
    back = middle[0] - out[0] * 22, middle[1] - out[1] * 22
    return poly([tip, (back[0] - out[1] * 9, back[1] + out[0] * 9), (back[0] + out[1] * 9, back[1] - out[0] * 9)], wash(look.ink))


def _boards(look: Look, area: list[Point], step: float = 9) -> Shapes:
    """Deck boards inside a polygon, line by line."""
    shapes: Shapes = []
    y = min(p[1] for p in area) + step
    while y < max(p[1] for p in area):
        sides = zip(area, [*area[1:], area[0]], strict=True)
        xs = sorted(a[0] + (y - a[1]) * (b[0] - a[0]) / (b[1] - a[1]) for a, b in sides if (a[1] > y) != (b[1] > y))
        shapes += [line((xs[i], y), (xs[i + 1], y), stroke(look.rule, 1)) for i in range(0, len(xs) - 1, 2)]
        y += step
    return shapes
