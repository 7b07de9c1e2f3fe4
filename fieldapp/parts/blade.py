"""The tape echo: a piece of blade about life size, with the post's face standing where the figure says.

The person lays it beside the real tape with the eye: same numerals, same ticks, same side, so a slipped sixteenth or a wrong foot
is seen. A press moves two layers and sets a few numerals; nothing is made. Empty, it shows no figure, or people would read what
they expect.
"""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Literal

import flet as ft
import flet.canvas as cv

from fieldapp.parts.blade_tiles import HEIGHT, SCALES, Unit, tile_name
from fieldapp.parts.stroke import LEFT, RIGHT, Shapes, box, drawing, hatch, line, poly, redraw, stroke, wash, word
from fieldapp.parts.text import BOLD
from fieldapp.theme import Look

Mark = Literal["face", "pointer", "none"]
HEAD = 26
"""Room above the blade for the pointer."""
FOOT = 8
"""Room below for the hook."""
_LABEL = 110
_AWAY = -400.0
_DIGIT_EM = 0.66


class Blade:
    """width in pixels; at: where on it the figure lies. mark `face`: a post's face runs down through the blade, dulled beyond.

    empty: words in the blank blade. `show` sets the figure and returns what changed. The control is HEAD + height + FOOT high.
    """

    def __init__(
        self, look: Look, unit: Unit, width: float, at: float, height: float = HEIGHT, mark: Mark = "face", empty: str = "",
        says: str = "",
    ) -> None:  # fmt: skip
        self._look, self._unit, self._at, self._mark = look, unit, at, mark
        self._scale, self.width, self.height = SCALES[unit], width, height
        self._ticks = self._tick_layer()
        self._numerals, self._labels = self._numeral_layer()
        self._hook = ft.Container(width=4, height=height + 10, left=_AWAY, top=-4, bgcolor=look.ink)
        self._hook_at = ft.Stack([self._hook], left=0, top=HEAD, width=width, height=height, clip_behavior=ft.ClipBehavior.NONE)
        self._still = cv.Canvas(width=width, height=HEAD + height, shapes=self._over())
        # Clipped at the sides: a Stack clips only what its own children let stick out.
        self._filled = ft.Stack(
            [self._ticks, self._still, self._numerals, self._hook_at], left=0, top=0, width=width, height=HEAD + height + FOOT,
            clip_behavior=ft.ClipBehavior.HARD_EDGE, visible=False,
        )  # fmt: skip
        self._words = ft.Text(empty, size=look.drawn(), color=look.ink, text_align=ft.TextAlign.CENTER)
        self._blank = self._blank_layer()
        layers = ft.Stack([self._blank, self._filled], width=width, height=HEAD + height + FOOT)
        # The figure beside it says the same in words, so without `says` the picture is silent.
        self.control = ft.Semantics(image=bool(says) or None, label=says or None, exclude_semantics=True, content=layers)
        self._value: Fraction | None = None

    def _blank_layer(self) -> ft.Container:
        return ft.Container(
            self._words, left=0, top=HEAD, width=self.width, height=self.height, bgcolor=self._look.tape2,
            alignment=ft.Alignment.CENTER, padding=ft.Padding.symmetric(horizontal=12 if self.width > 100 else 2),
        )  # fmt: skip

    def _tick_layer(self) -> ft.Stack:
        scale = self._scale
        wide = scale.tile * scale.px
        count = math.ceil(self.width / wide) + 1
        tiles: list[ft.Control] = [
            ft.Image(
                src=tile_name(self._unit, self._look.theme), left=i * wide, top=0, width=wide, height=self.height,
                fit=ft.BoxFit.FILL, gapless_playback=True, exclude_from_semantics=True, filter_quality=ft.FilterQuality.LOW,
            )
            for i in range(count)
        ]  # fmt: skip
        ground = ft.Container(bgcolor=self._look.tape, left=0, top=0, width=count * wide, height=self.height)
        return ft.Stack([ground, *tiles], left=_AWAY, top=HEAD, width=count * wide, height=self.height)

    def _numeral_layer(self) -> tuple[ft.Stack, list[tuple[ft.Text, ft.Text, ft.Container]]]:
        """A numeral stands left of its line, so that the post's face never hides it; feet and inches right of it."""
        apart, look = self._scale.mark * self._scale.px, self._look
        size = self._numeral_size()
        labels, controls = [], []
        for i in range(math.ceil(self.width / apart) + 2):
            numeral = ft.Text("", size=size, weight=BOLD, color=look.on_tape, no_wrap=True, style=ft.TextStyle(height=1.0))
            note = ft.Text("", size=14, color=look.on_tape, no_wrap=True, style=ft.TextStyle(height=1.1))
            plate = ft.Container(
                note, left=i * apart + 6, top=self.height * 0.60, border_radius=2, padding=ft.Padding.symmetric(horizontal=3)
            )
            slot = ft.Container(
                numeral, left=i * apart - 5 - _LABEL, top=self.height * 0.60 - size / 2, width=_LABEL, height=size,
                alignment=ft.Alignment.CENTER_RIGHT,
            )  # fmt: skip
            labels.append((numeral, note, plate))
            controls += [slot, plate]
        layer = ft.Stack(
            controls, left=_AWAY, top=HEAD, width=apart * len(labels), height=self.height, clip_behavior=ft.ClipBehavior.NONE
        )
        return layer, labels

    def _numeral_size(self) -> float:
        return (34 if self._unit == "in" else 28) * min(1.0, self.height / HEIGHT + 0.1)

    def _over(self) -> Shapes:
        """What stands still: the post's face or a pointer, and the dulled blade beyond the face. The blade begins at y = HEAD."""
        look, x, y, h = self._look, self._at, HEAD, self.height
        if self._mark == "none":
            return []
        if self._mark == "pointer":
            return pointer(look, x, y, h)
        dulled = [
            box(x, y, self.width - x, h, wash(ft.Colors.with_opacity(0.16, look.on_tape))),
            *hatch(x, y + 1, self.width, y + h - 1, ft.Colors.with_opacity(0.4, look.on_tape), 7, 1),
        ]
        down = [line((x, y - HEAD), (x, y + 1), stroke(look.ink, 3)), line((x, y + 1), (x, y + h - 1), stroke(look.on_tape, 3))]
        return [*dulled, *down, poly([(x - 9, y - 16), (x + 9, y - 16), (x, y - 1)], wash(look.ink))]

    def show(self, value: Fraction | None) -> list[ft.Control]:
        """Lay the blade so that `value` (units) stands at the mark; None: blank. Returns the controls to update."""
        if value == self._value:
            return []
        was, self._value = self._value, value
        if value is None:
            self._blank.visible, self._filled.visible = True, False
            return [self._blank, self._filled]
        self._place(float(value))
        if was is None:
            self._blank.visible, self._filled.visible = False, True
            return [self._blank, self._filled]
        return [self._filled]

    def mark_at(self, at: float) -> None:
        """Move the mark: another bay, another post's face. The caller updates `control`."""
        if at == self._at:
            return
        self._at = at
        redraw(self._still, self._over())
        if self._value is not None:
            self._place(float(self._value))

    def say_empty(self, words: str, ground: str | None = None) -> list[ft.Control]:
        """Other words in the blank blade, such as why a figure cannot be read."""
        self._words.value, self._blank.bgcolor = words, ground or self._look.tape2
        self._words.weight = BOLD if ground else ft.FontWeight.NORMAL
        return [self._blank]

    def _place(self, value: float) -> None:
        scale, left = self._scale, value - self._at / self._scale.px
        tile = max(0, math.floor(left / scale.tile)) * scale.tile
        self._ticks.left = self._at + (tile - value) * scale.px
        first = max(0, math.floor(left / scale.mark))
        self._numerals.left = self._at + (first * scale.mark - value) * scale.px
        for i, (numeral, note, plate) in enumerate(self._labels):
            self._label(first + i, numeral, note, plate)
        hook = self._at - value * scale.px
        self._hook.left = hook - 2 if hook > -6 else _AWAY

    def _label(self, mark: int, numeral: ft.Text, note: ft.Text, plate: ft.Container) -> None:
        look = self._look
        words, is_plate = mark_note(self._unit, mark)
        metre = is_plate and self._unit == "mm"  # no room beside the next numeral: the metre takes the numeral's place
        numeral.value = words if metre else str(mark) if mark else ""
        note.value = "" if metre else words
        note.color, plate.bgcolor = (look.tape, look.on_tape) if is_plate and not metre else (look.on_tape, None)
        numeral.color = look.tape if metre else look.on_tape
        # Where the face's line would cross a numeral the line gives way, as a dimension line does.
        x = self._at + (mark * self._scale.mark - float(self._value or 0)) * self._scale.px - 5
        wide = _DIGIT_EM * self._numeral_size() * len(str(mark))
        crossed = self._mark == "face" and x - wide - 4 < self._at < x + 3
        numeral.bgcolor = look.on_tape if metre else look.tape if crossed else None


def mark_note(unit: Unit, mark: int) -> tuple[str, bool]:
    """The small note right of a numeral and whether it is a black plate: `3′ 4″`, `3 ft`; `cm` once, `1 m`."""
    if unit == "in":
        feet, rest = divmod(mark, 12)
        return (f"{feet} ft", True) if feet and not rest else (f"{feet}′ {rest}″", False) if feet else ("", False)
    if mark and mark % 100 == 0:
        return f"{mark // 100} m", True
    return ("cm", False) if mark == 4 else ("", False)


def pointer(look: Look, x: float, y: float, h: float, who: str = "", side: int = -1) -> Shapes:
    """A mark in the tick zone only, so that no numeral is crossed. who: a person's letter beside it, on this side."""
    shapes = [
        line((x, y - 10), (x, y + 1), stroke(look.ink, 3)), line((x, y + 1), (x, y + h * 0.40), stroke(look.on_tape, 3)),
        poly([(x - 9, y - 16), (x + 9, y - 16), (x, y - 1)], wash(look.ink)),
    ]  # fmt: skip
    if who:
        shapes.append(word(x + side * 14, y - 12, who, look.ink, 16, True, RIGHT if side < 0 else LEFT))
    return shapes


def two_on_blade(
    look: Look,
    unit: Unit,
    first: Fraction,
    second: Fraction,
    who: tuple[str, str],
    width: float,
    height: float = HEIGHT,
    says: str = "",
) -> ft.Control:
    """Two people's figures on one blade, so that the eye sees which sixteenth. One pointer where they agree."""
    blade = Blade(look, unit, width, width / 2 if first != second else width * 0.62, height, "none", says=says)
    middle = (first + second) / 2
    blade.show(middle)
    x = [width / 2 + float(v - middle) * SCALES[unit].px for v in (first, second)]
    if first == second:
        marks = pointer(look, width * 0.62, HEAD, height)
    else:
        left_first = first < second
        marks = pointer(look, x[0], HEAD, height, who[0], -1 if left_first else 1)
        marks += pointer(look, x[1], HEAD, height, who[1], 1 if left_first else -1)
    return ft.Stack([blade.control, drawing(marks, width, HEAD + height)], width=width, height=HEAD + height + FOOT)
