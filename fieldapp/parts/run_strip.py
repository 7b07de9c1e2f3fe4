"""The run as a strip of posts and bays, to scale: where am I, what is left. Tap a bay to go there."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import flet as ft
import flet.canvas as cv

from fieldapp.parts.here import here_shapes
from fieldapp.parts.stroke import HIDDEN, Shapes, box, line, redraw, stroke, wash, word
from fieldapp.parts.verdict import Sign, sign_shapes, tick
from fieldapp.theme import TOUCH, Look


@dataclass(frozen=True, slots=True)
class StripBay:
    """One bay of a strip. span and post (the face of its right post) in one unit, only their ratio matters.

    rise: how much higher its right foot stands than its left, same unit, drawn `factor` times. glass False: a gate.
    begun: its span is kept and clear, the rest still to come: the tick in the dashed sign. at: where this person is, in bold.
    says: what is spoken for it where it can be tapped. here: letters of those who are on it just now.
    """

    tag: str
    span: float
    sign: Sign = "todo"
    rise: float = 0.0
    post: float = 2.5
    glass: bool = True
    says: str = ""
    here: str = ""
    begun: bool = False
    at: bool = False


@dataclass(frozen=True, slots=True)
class StripPlace:
    """Where a bay lies in the strip, in pixels: its left inside face, its width, the height of its left foot above the lowest."""

    x: float
    width: float
    foot: float
    rise: float


def strip_places(
    bays: list[StripBay], width: float, factor: float = 0, scale: float | None = None
) -> tuple[list[StripPlace], float, float]:
    """Places of the bays, the scale (pixels a unit) and the height of the climb. One scale for all runs if `scale` is given."""
    first = bays[0].post if bays else 0.0
    total = first + sum(bay.span + bay.post for bay in bays)
    k = scale or width / max(total, 1e-9)
    x, climb, out = first * k, 0.0, []
    for bay in bays:
        out.append(StripPlace(x, bay.span * k, climb, bay.rise * k * factor))
        x += (bay.span + bay.post) * k
        climb += bay.rise * k * factor
    feet = [0.0] + [p.foot + p.rise for p in out]
    lowest = min(feet)
    return [StripPlace(p.x, p.width, p.foot - lowest, p.rise) for p in out], k, max(feet) - lowest


class RunStrip:
    """One strip. h: a bay's height in pixels. now: the tag being measured. factor: how many times rises are drawn, 0 for level.

    on_bay makes every bay a button of at least 48 px height, spoken as its `says`.
    """

    def __init__(
        self, look: Look, bays: list[StripBay], width: float, h: float = 40, now: str | None = None, tags: bool = True,
        on_bay: Callable[[str], None] | None = None, factor: float = 0, scale: float | None = None, says: str = "",
    ) -> None:  # fmt: skip
        self._look, self._width, self._h, self._tags, self._factor, self._scale = look, width, h, tags, factor, scale
        self._canvas = cv.Canvas()
        self._on_bay = on_bay
        self._parts: dict[object, Shapes] = {}
        picture = ft.Semantics(image=True, label=says, content=self._canvas) if says else self._canvas
        self.control: ft.Control = ft.Stack([picture]) if on_bay else picture
        self.show(bays, now)

    def show(self, bays: list[StripBay], now: str | None = None) -> bool:
        """Draw these bays; whether anything looks different. The caller updates `control` then."""
        places, k, climb = strip_places(bays, self._width, self._factor, self._scale)
        parts: dict[object, Shapes] = {}
        for bay, place in zip(bays, places, strict=True):
            looks = (bay.tag, bay.sign, bay.tag == now, bay.glass, bay.says, bay.here, bay.begun, bay.at)
            seen = (*looks, *_seen(place.x, place.width, place.foot, place.rise, climb))
            parts[seen] = self._parts.get(seen) or self._bay(bay, place, climb, now)
        seen = ("posts", *(_seen(*(v for place in places for v in (place.x, place.width, place.foot)), climb)))
        parts[seen] = self._parts.get(seen) or self._posts(bays, places, k, climb)
        if list(parts) == list(self._parts):
            return False
        self._parts = parts
        foot = self._look.drawn() + 8 if self._tags else 0
        width = places[-1].x + places[-1].width + bays[-1].post * k if places else self._width
        redraw(self._canvas, [shape for part in parts.values() for shape in part])
        self._canvas.width, self._canvas.height = width, climb + self._h + foot
        if self._on_bay:
            self._buttons(bays, places, width)
        return True

    def _bay(self, bay: StripBay, p: StripPlace, climb: float, now: str | None) -> Shapes:
        look, h = self._look, self._h
        top = climb - p.foot - (p.rise if p.rise > 0 else 0) * 0.5 - (p.rise * 0.5 if p.rise < 0 else 0)
        state: Sign = "now" if bay.tag == now else bay.sign
        if bay.glass:
            shapes = sign_shapes(look, state, p.x - 1, top + 1, p.width + 2, h - 2, posts=False)
            if bay.begun and state == "todo":
                shapes.append(tick(look, (p.x + p.width / 2, top + h / 2), min(p.width + 2, h - 2)))
        else:
            shapes = [line((p.x, top + h / 2), (p.x + p.width, top + h / 2), stroke(look.line, 2, HIDDEN))]
        if self._tags:
            bold = bay.at or state in ("now", "query", "hold")
            shapes.append(word(p.x + p.width / 2, climb + h + look.drawn() / 2 + 5, bay.tag, look.ink, look.drawn(), bold))
        return shapes + (here_shapes(look, bay.here, p.x + p.width - 1, top + 10) if bay.here else [])

    def _posts(self, bays: list[StripBay], places: list[StripPlace], k: float, climb: float) -> Shapes:
        """Posts stand plumb on the line of the deck."""
        if not places:
            return []
        ends = [(places[0].x - bays[0].post * k / 2, places[0].foot, bays[0].post)]
        ends += [(p.x + p.width + bay.post * k / 2, p.foot + p.rise, bay.post) for bay, p in zip(bays, places, strict=True)]
        shapes: Shapes = []
        for x, foot, face in ends:
            w = max(3, face * k * 0.8)
            shapes.append(box(x - w / 2, climb - foot, w, self._h, wash(self._look.ink)))
        if self._factor:
            deck = stroke(self._look.deck, 2)
            shapes += [
                line((a[0], climb - a[1] + self._h + 1), (b[0], climb - b[1] + self._h + 1), deck)
                for a, b in zip(ends, ends[1:], strict=False)
            ]
        return shapes

    def _buttons(self, bays: list[StripBay], places: list[StripPlace], width: float) -> None:
        high = max(float(self._canvas.height or 0), TOUCH)
        press = self._on_bay
        spots: list[ft.Control] = [self.control.controls[0]]
        for bay, p in zip(bays, places, strict=True):
            hit = ft.Container(width=max(p.width, 1), height=high, on_click=lambda _, tag=bay.tag: press and press(tag))
            spots.append(ft.Container(ft.Semantics(button=True, label=bay.says or bay.tag, content=hit), left=p.x, top=0))
        self.control.controls = spots
        self.control.width, self.control.height = width, high


def _seen(*pixels: float) -> tuple[int, ...]:
    """To half a pixel: a sixteenth more in one bay moves nothing that anybody sees."""
    return tuple(round(2 * p) for p in pixels)
