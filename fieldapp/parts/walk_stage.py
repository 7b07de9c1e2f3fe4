"""The walk: one question, one drawing with the figure in it, the tape's blade, the keys.

Picture, figure and blade are one thing: the line of the right post's face runs straight down from the bay through the blade.
Keys and drawings are built once; a press patches figure, echo, blade and the lit key (`show`), a new question redraws the bay (`ask`).
Tight screens (large text, low phones, large keys): the bay's name stands in the head, the words scroll, the picture is drawn low
(`flat`). Where there is no room for that either, the picture scrolls with the words; figure, blade and keys stay.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import flet as ft
import flet.canvas as cv

from fieldapp.parts.bay_picture import BayPicture
from fieldapp.parts.blade import FOOT, HEAD, Blade
from fieldapp.parts.blade_tiles import HEIGHT, SCALES, Unit
from fieldapp.parts.choice import Choice
from fieldapp.parts.figure import Figure
from fieldapp.parts.key import Press
from fieldapp.parts.keypad import Keypad, Pad, PadWords
from fieldapp.parts.layer import Layer
from fieldapp.parts.page import COLUMN, LEAST_HIGH, reached
from fieldapp.parts.question import Layout, Question, Typed
from fieldapp.parts.question_lines import QuestionLines
from fieldapp.parts.space import column, gap
from fieldapp.parts.stroke import LEFT, RIGHT, line, redraw, stroke, word
from fieldapp.parts.text import text
from fieldapp.theme import GRID, LINE_HEIGHT, MARGIN, TOUCH, Look

HEAD_ROOM = 56
WIDEST = COLUMN
"""The walk stays a phone's width on a larger screen: keys under one hand, the blade about life size."""
_QUESTION = 58
_BOTTOM = 16
_UPRIGHT = 64
"""Width of an upright blade."""
_LOW_BLADE = 56
_ROOMY = 266
"""Height of a stage that has room for the whole blade."""
_AROUND_GLASS = 100
"""What a picture needs besides the figure in its glass."""
_AROUND_FLAT = 48
"""The same in a low picture: names beside the posts, nothing under the deck."""
_BELOW = 60
"""Room for a figure that stands below its picture."""
_LOW_BELOW = 50
_BROAD = 500
"""Width in which a large echo stands between the words at the tape's ends."""
_ECHO = 114
"""Room for the echo on the figure's own line."""
_LEAST: dict[Layout, tuple[float, float]] = {"in glass": (184, 205), "upright": (126, 170), "below": (184, 230)}
"""The least height of a stage whose picture can be drawn low; with large letters."""
_VERY_LOW = 700
"""Below this height of the page its foot has no room to spare."""


def _words_room(look: Look) -> float:
    """What the sentence above a stage takes: one line, two of large letters."""
    return look.size("body") * LINE_HEIGHT * (2 if look.big else 1) + 6


class _Stage:
    """Picture, figure, echo and blade for one layout and unit. flat: on a tight screen that has room for a picture drawn low."""

    def __init__(self, look: Look, layout: Layout, units: Unit, height: float, bladed: bool = True) -> None:
        self.layout, self._look, self._units, self._bladed = layout, look, units, bladed
        upright, below, blade_h = self._measure(look, height)
        self._parts(look, upright, below)
        self.blade = self._blade(upright, height, blade_h)
        unseen = gap(28 if self._low else 0)  # so that no sliver of the picture is seen over the figure
        self.scrolled = Layer(column([unseen, self.picture.control, self._other])) if self._loose else None
        self.layer = Layer(self._tight(upright) if self._loose else self._whole(upright, below, height))

    def _measure(self, look: Look, height: float) -> tuple[bool, bool, float]:
        """Set the room of each part. Returns whether the blade stands, whether the figure is below, and the blade's height."""
        w, layout = look.width, self.layout
        upright = layout == "upright"
        self.flat = look.tight and height >= _LEAST[layout][look.big]
        self._loose = look.tight and not self.flat
        self._picture_w = w - _UPRIGHT - 22 if upright and not self._loose else w
        below = self._loose or layout == "below"
        self._low = look.tight and look.height < _VERY_LOW
        blade_h = 48 if self._low else _LOW_BLADE if below or height < _ROOMY else HEIGHT
        self._below_h = (_LOW_BELOW if self._low else 96 if look.big else _BELOW) if below else 0
        lying = HEAD + blade_h + (FOOT if self.flat and below else FOOT - 6) if self._bladed else 0
        least = 40 if self.flat else 110
        self._picture_h = 150.0 if self._loose else height if upright else max(height - lying - self._below_h, least)
        self._close = self.flat and (look.big or self._picture_h < 150 or upright)
        self._top = (30.0 if upright else 8.0) if self._close else 50.0 if upright and not self._loose else 20.0
        return upright, below, blade_h

    def _parts(self, look: Look, upright: bool, below: bool) -> None:
        self.figure = Figure(look, *self._figure_room(upright, below))
        self._echo = ft.Text(
            "", size=28 if look.big else 16, color=look.ink, no_wrap=True, style=ft.TextStyle(height=1.1), semantics_label=""
        )
        self._echo_ground = ft.Container()
        self.picture = BayPicture(
            look, self._picture_w, self._picture_h, foot=self._foot(below, False), top=self._top, close=self._close,
            post=100 if self._close and look.big else 70,
        )  # fmt: skip
        self._other = cv.Canvas(width=look.width, height=self._picture_h, visible=False)
        self._joint = cv.Canvas(width=look.width, height=self._picture_h + HEAD)
        self._under = text(look, "", "note", bold=True, size=look.drawn(), no_wrap=True)
        self._in_glass = ft.Container()
        self._live: ft.Control = self._in_glass
        under = ft.Alignment.TOP_RIGHT if look.big else ft.Alignment.TOP_CENTER
        self._under_at = ft.Container(self._under, width=_UPRIGHT + (40 if look.big else 8), right=0, alignment=under, visible=False)

    def _figure_room(self, upright: bool, below: bool) -> tuple[float, float]:
        """Width that the figure may take, and its size."""
        look = self._look
        room = look.width - 2 * MARGIN - (_UPRIGHT if upright else 0) if below else self._picture_w - 100
        room -= _ECHO if below and not look.big and not upright else 0
        if below and self.flat:
            return room, 48 if self._low else 56
        if upright:
            return room, 60 if self._loose or self._picture_h > 170 else 46
        if look.tight and (below or self._close):
            return room, 60 if below else min(60, self._picture_h - _AROUND_FLAT)
        return room, 56 if below else min(look.size("hero"), self._picture_h - _AROUND_GLASS)

    def _foot(self, below: bool, counts: bool) -> float:
        """Room under the deck: for words and, where it is large or long, the echo."""
        if not self._close:
            return 24 if below else 36
        if self.layout == "in glass" and self._look.big:
            return 56 if self._own_line(counts) else 34
        return 34 if counts and self.layout == "in glass" else 14

    def _blade(self, upright: bool, height: float, blade_h: float) -> Blade:
        if upright:
            long = height if not self._loose else 88.0 if self._low else 104.0 if self._look.low else 124.0
            at = long - (26 if self._loose else self._top - 2)
            return Blade(self._look, self._units, long, at, _UPRIGHT)
        return Blade(self._look, self._units, self._look.width, self._look.width * 0.877, blade_h)

    def _standing(self) -> ft.Control:
        """The blade turned upright, hook down: numerals lie as on a tape held so, ticks towards the picture."""
        return ft.RotatedBox(quarter_turns=3, content=self.blade.control)

    def _tight(self, upright: bool) -> ft.Control:
        figure = self._figure_and_echo(in_line=not self._look.big and not upright)
        if upright:
            return ft.Row([ft.Container(figure, expand=True, alignment=ft.Alignment.CENTER), self._standing()], spacing=0)
        return column([ft.Container(figure, alignment=ft.Alignment.CENTER), self._blade_or_refusal()])

    def _figure_and_echo(self, in_line: bool) -> ft.Control:
        """What a press changes besides the blade, as one control: one packet a press."""
        parts: list[ft.Control] = [self.figure.control, self._echo]
        if in_line:
            self._live = ft.Row(parts, spacing=14, alignment=ft.MainAxisAlignment.CENTER, tight=True)
        else:
            self._live = ft.Column(parts, spacing=0, tight=True, horizontal_alignment=ft.CrossAxisAlignment.CENTER)
        return self._live

    def _blade_or_refusal(self) -> ft.Control:
        """The blade; where there is none to be read, it stands there only to say why a figure is not kept."""
        self._refusal = ft.Container(self.blade.control, visible=self._bladed)
        return self._refusal

    def _whole(self, upright: bool, below: bool, height: float) -> ft.Control:
        w, ph = self._look.width, self._picture_h
        if upright:
            standing = ft.Container(self._standing(), left=w - _UPRIGHT - HEAD, top=0)
            self._in_glass = ft.Container(self._figure_and_echo(in_line=False), alignment=ft.Alignment.CENTER)
            layers = [self.picture.control, self._joint, standing, self._under_at, self._in_glass]
            return ft.Stack(layers, width=w, height=height, clip_behavior=ft.ClipBehavior.HARD_EDGE)
        if below:
            return self._below(w, ph)
        self._in_glass = ft.Container(self.figure.control, alignment=ft.Alignment.CENTER)
        self._echo_ground.content = self._echo
        self._echo_at = ft.Container(self._echo_ground, alignment=ft.Alignment.CENTER, left=0, top=ph - 10, width=w, height=22)
        self._live = ft.Stack([self._in_glass, self._echo_at], width=w, height=ph + 12)
        blade = ft.Container(self.blade.control, left=0, top=ph)
        return ft.Stack([self.picture.control, self._joint, blade, self._live], width=w, height=ph + HEAD + self.blade.height + 2)

    def _below(self, w: float, ph: float) -> ft.Control:
        figure = self._figure_and_echo(in_line=not self._look.big)
        middle = ft.Container(figure, height=self._below_h, alignment=ft.Alignment.CENTER)
        blade, pictures = self._blade_or_refusal(), [self.picture.control, self._other]
        if self._bladed:
            return ft.Column([*pictures, middle, blade], spacing=0, tight=True)
        self._refusal.left, self._refusal.bottom = 0, 0
        above = ft.Stack([ft.Column(pictures, spacing=0, tight=True), blade], width=w, height=ph)
        return ft.Column([above, middle], spacing=0, tight=True)

    def ask(self, q: Question) -> None:
        """Draw the bay, or the picture that stands in for it; lead the post's face into the blade."""
        look, own = self._look, q.picture is not None
        self._other.visible, self.picture.control.visible = own, not own
        if q.picture is not None:
            redraw(self._other, q.picture(look, look.width, self._picture_h))
        else:
            self.picture.foot = self._foot(self.layout == "below", q.counts)
            self.picture.show(q.shape, q.ask, q.names, q.says)
            glass = self._in_glass
            glass.left, glass.top, glass.width, glass.height = self.picture.glass_box
        if self.layout == "in glass" and not self._loose:
            self.blade.mark_at(self.picture.lines.xr)
            self._place_echo(q.counts)
            redraw(self._joint, self._joints(q))
        elif self.layout == "upright" and not self._loose:
            up = 22 if self._close else 30
            self._joint.shapes = [word(look.width - _UPRIGHT - 12, self._top - up, q.read, look.ink, look.drawn(), True, RIGHT)]
        self.blade.say_empty(q.empty)
        self._under.value = q.foot

    def _own_line(self, counts: bool) -> bool:
        """Whether the echo is too long to stand between the words at the tape's ends."""
        return counts or (self._close and self._look.big and self._look.width < _BROAD)

    def _place_echo(self, counts: bool) -> None:
        """Between the words at the tape's ends; what is too long for that stands above them, on the paper."""
        apart, big = self._own_line(counts), self._look.big
        up = ((46 if big else 20) if apart else 18 if big else 6) if self._close else 28 if apart else 10
        self._echo_at.top = self._picture_h - up
        self._echo_at.height = 32 if self._look.big else 20 if apart else 22
        self._echo_ground.bgcolor = self._look.paper if counts else None
        self._echo_ground.padding = ft.Padding.symmetric(horizontal=0 if not counts else 6 if self._close else 32)

    def _joints(self, q: Question) -> list[cv.Shape]:
        look, lines, ph = self._look, self.picture.lines, self._picture_h
        floor_l, floor_r = lines.floor(lines.xl), lines.floor(lines.xr)
        if q.ask == "top-span" and not self._close:
            floor_l = floor_r = ph - 24
        down, out = (3, 6) if self._close and not look.big else (0, 0)  # so that the echo stands free between them
        return [
            line((lines.xl, floor_l + 2), (lines.xl, ph - 10), stroke(look.ink, 1.5)),
            line((lines.xr, floor_r + 2), (lines.xr, ph + 12), stroke(look.ink, 2)),
            word(lines.xl - 6 - out, ph + down, q.hook, look.ink, look.drawn(), True, LEFT),
            word(lines.xr - 12 + out / 2, ph + down, q.read, look.ink, look.drawn(), True, RIGHT),
        ]

    def show_at_all(self, visible: bool) -> None:
        """Whether this stage is the one that is seen."""
        self.layer.visible = visible
        if self.scrolled is not None:
            self.scrolled.visible = visible

    def show(self, typed: Typed) -> list[ft.Control]:
        """Set figure, echo and blade; returns what changed."""
        self.figure.show(typed.whole, typed.fraction, typed.unit, typed.says, typed.caret)
        self._echo.value, self._echo_ground.visible = typed.echo, bool(typed.echo)
        changed: list[ft.Control] = [self._live]
        if self.layout == "upright" and not self._loose:
            changed += self._place_foot(typed.value)
        if not self._bladed and self._refusal.visible != bool(typed.problem):
            self._refusal.visible = bool(typed.problem)
            changed.append(self._refusal)
        return changed + self.blade.show(typed.value)

    def _place_foot(self, value: Fraction | None) -> list[ft.Control]:
        """The words under an upright blade go down with its hook, until there is no room for them."""
        down = self._top + 4 + float(value or 0) * SCALES[self._units].px
        self._under_at.visible, self._under_at.top = value is not None and down < self._picture_h - 22, down
        return [self._under_at]


class WalkStage:
    """The whole screen of one question. head: the control above (56 px). press: keys, as in keypad.py. pick: a side was chosen.

    control: to be put on the page once. ask: another question; update `control`. show: what has been typed; update what it returns.
    """

    def __init__(
        self, look: Look, head: ft.Control, press: Press, words: PadWords | None = None, pick: Callable[[str], object] | None = None,
        extra: list[ft.Control] | None = None,
    ) -> None:  # fmt: skip
        full = look.width
        high = look.height
        look = look.on(min(full, WIDEST), max(high, LEAST_HIGH))
        self._look, self._press, self._words, self._pick = look, press, words or PadWords(), pick
        self._lines = QuestionLines(look, look.tight)
        self._pads: dict[Pad, Keypad] = {}
        self._pad_layers: dict[Pad, Layer] = {}
        self._stages: dict[tuple[Layout, Unit, Pad, bool, bool], _Stage] = {}
        self._stage: _Stage | None = None
        self._pad: Keypad | None = None
        self._sides: Choice | None = None
        self._empty = ""
        # Stages and pads stay on the page once they were shown: a control that leaves it and comes back changed breaks the patch.
        self._place, self._pad_place, self._scrolled = column([]), column([]), column([])
        self._side_place, self._side_above = ft.Container(), ft.Container()
        self._bottom = GRID if look.tight and look.height < _VERY_LOW else _BOTTOM
        if look.tight:
            scrolled = [head, self._lines.control, self._scrolled, *(extra or [])]
            above = column(scrolled, expand=True, scroll=ft.ScrollMode.AUTO)
            parts: list[ft.Control] = [above, self._side_above, self._place, self._side_place, gap(GRID), self._pad_place]
        else:
            parts = [head, self._lines.control, self._place, self._side_place, ft.Container(expand=True), self._pad_place]
        side = (full - look.width) / 2
        page = ft.Container(
            ft.SafeArea(column(parts, expand=True), expand=True), bgcolor=look.paper, expand=True,
            padding=ft.Padding.only(left=side, right=side, bottom=self._bottom),
        )  # fmt: skip
        self.control = reached(look.on(full, high), page, LEAST_HIGH - HEAD_ROOM)

    def ask(self, q: Question, side: str | None = None) -> list[ft.Control]:
        """Pose a question: nothing typed yet. Returns the controls to update, for `page.update(*…)`."""
        self._lines.show(q.tag, q.what, q.where)
        pad = self._pad = self._pad_for(q.pad)
        stage = self._stage = self._stage_for(q, pad)
        stage.ask(q)
        self._empty = q.empty
        for name, layer in self._pad_layers.items():
            layer.visible = name == q.pad
        for other in self._stages.values():
            other.show_at_all(other is stage)
        self._ask_side(q, side)
        scrolled = [self._scrolled, stage.scrolled] if stage.scrolled else []
        return [self._lines.control, self._place, self._pad_place, *scrolled, stage.layer, self._side_place, self._side_above, pad.control]

    def _pad_for(self, name: Pad) -> Keypad:
        if name not in self._pads:
            self._pads[name] = Keypad(self._look, name, self._press, self._words)
            self._pad_layers[name] = Layer(self._pads[name].control)
            self._pad_place.controls.append(self._pad_layers[name])
        return self._pads[name]

    def _ask_side(self, q: Question, side: str | None) -> None:
        self._sides = None
        self._side_place.content = self._side_above.content = None
        place = self._side_above if self._stage is not None and self._stage.scrolled is not None else self._side_place
        if q.sides and self._pick:
            pick = self._pick
            options = [(value, shown) for value, shown, _ in q.sides]
            self._sides = Choice(self._look, options, side, pick, keys=True, says=[says for _, _, says in q.sides])
            place.content = ft.Container(self._sides.control, padding=ft.Padding.only(top=4, bottom=4))

    def _stage_for(self, q: Question, pad: Keypad) -> _Stage:
        key = (q.layout, q.units, q.pad, bool(q.sides), q.bladed)
        if key not in self._stages:
            sides = TOUCH + 8 if q.sides else 0
            above = HEAD_ROOM + (_words_room(self._look) + GRID if self._look.tight else _QUESTION + 4)
            room = self._look.height - above - sides - pad.height - self._bottom
            room = room if self._look.tight else max(room, 200)
            made = self._stages[key] = _Stage(self._look, q.layout, q.units, min(room, 320), q.bladed)
            self._place.controls.append(made.layer)
            if made.scrolled is not None:
                self._scrolled.controls.append(made.scrolled)
        return self._stages[key]

    def show(self, typed: Typed) -> list[ft.Control]:
        """What has been typed. Returns the controls to update, for `page.update(*…)`: none of them holds a key."""
        if self._stage is None or self._pad is None:
            raise RuntimeError("WalkStage.show before ask: there is no question yet")
        changed = self._stage.show(typed) + self._pad.light(typed.lit)
        if self._stage.layout == "upright":  # words that stand on end are not read: the refusal stands above the picture
            changed += self._lines.refuse(typed.problem)
            if typed.value is None:
                changed += self._stage.blade.say_empty(self._empty)
        elif typed.value is None:
            ground = self._look.hold_bg if typed.problem else None
            changed += self._stage.blade.say_empty(typed.problem or self._empty, ground)
        return changed

    def show_side(self, side: str | None, q: Question) -> list[ft.Control]:
        """Which end is higher: chosen under its post, and the drawing turns with it."""
        if self._stage is None or self._sides is None:
            raise RuntimeError("WalkStage.show_side before a question with sides")
        self._sides.show(side)
        self._stage.ask(q)
        return [self._sides.control, self._stage.layer, *([self._stage.scrolled] if self._stage.scrolled else [])]


