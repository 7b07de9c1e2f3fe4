"""The keys under the question: an inch pad with all fifteen sixteenths in view, a millimetre pad with none.

Built once for a look and never rebuilt; `light` sets values and says which keys changed. Downward is the order of work: whole
inches, one tap for the sixteenth, Keep. The left hand mirrors the last row only, so that digits never move.
Large keys: four columns, so that every row of sixteenths ends on a quarter.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import flet as ft

from fieldapp.parts.key import Key, Press, digit_key, erase_key, keep_key, sixteenth_key, word_key
from fieldapp.theme import EDGE, GRID, KEY, MM_KEY, TOUCH, Look

Pad = Literal["inch", "decimal"]
_ABOVE = 242
"""What head, sides, figure and blade take above the keys on a low phone."""
_PICTURED, _PICTURED_KEY = 289, 60
"""The same with a sentence and a low picture of the bay, and the height that a key may give up for these."""
_CLOSE = 4


def fit(look: Look, rows: int, usual: float) -> tuple[float, float]:
    """Height of a key and the gap between two, in pixels. On a very low screen keys give way, so that Keep stays whole."""
    if look.low and not look.big:
        for gap in (GRID, _CLOSE):
            high = (look.height - _PICTURED - gap * (rows - 1)) / rows
            if high >= _PICTURED_KEY - 0.5:
                return min(high, usual), gap
    room = look.height - _ABOVE
    for gap in (GRID, _CLOSE):
        high = (room - gap * (rows - 1)) / rows
        if high >= usual:
            return usual, gap
        if high >= TOUCH + 4:
            return high, gap
    return max(high, TOUCH), _CLOSE


@dataclass(frozen=True, slots=True)
class PadWords:
    """What the keys show and say. feet, point: shown; their `_says`: spoken."""

    keep: str = "Keep"
    erase: str = "Erase"
    feet: str = "ft"
    feet_says: str = "feet"
    point: str = "."
    point_says: str = "point"


class Keypad:
    """The pad as one control. press: called with `0` … `9`, `1/16` … `15/16`, `ft`, `point`, `erase`, `keep`.

    point: whether a decimal pad has its decimal key. height: what the pad takes, in pixels.
    """

    def __init__(self, look: Look, pad: Pad, press: Press, words: PadWords | None = None, point: bool = True) -> None:
        self._look, self._press, self._words, self._point = look, press, words or PadWords(), point
        self.pad = pad
        self._lit: Key | None = None
        usual = (MM_KEY + 12 if look.large_keys else MM_KEY) if pad == "decimal" else KEY
        self._high, gap = fit(look, 5 if pad == "decimal" else 7 if look.large_keys else 6, usual)
        rows = self._rows()
        self.keys: dict[str, Key] = {key.name: key for row in rows for key in row if isinstance(key, Key)}
        self.height = sum(_height(row) for row in rows) + gap * (len(rows) - 1)
        lines: list[ft.Control] = [ft.Row(list(row), spacing=GRID) for row in rows]
        self.control = ft.Container(
            ft.Column(lines, spacing=gap, tight=True), padding=ft.Padding.symmetric(horizontal=EDGE), height=self.height
        )

    def light(self, name: str | None) -> list[ft.Control]:
        """Light this key and no other. Returns the controls that changed, for `page.update`."""
        key = self.keys.get(name) if name else None
        if key is self._lit:
            return []
        changed: list[ft.Control] = []
        for one, on in ((self._lit, False), (key, True)):
            if one is not None:
                one.light(on)
                changed.append(one)
        self._lit = key
        return changed

    def _rows(self) -> list[list[ft.Control]]:
        if self.pad == "decimal":
            return self._decimal()
        return self._inch_large() if self._look.large_keys else self._inch()

    def _digits(self, figures: str, size: float = 30) -> list[ft.Control]:
        return [digit_key(self._look, figure, self._press, self._high, size) for figure in figures]

    def _sixteenths(self, first: int, count: int) -> list[ft.Control]:
        return [sixteenth_key(self._look, n, self._press, self._high) for n in range(first, first + count)]

    def _feet(self) -> Key:
        return word_key(self._look, "ft", self._words.feet, self._words.feet_says, self._press, self._high)

    def _inch(self) -> list[list[ft.Control]]:
        last = [
            erase_key(self._look, self._words.erase, self._press, self._high),
            self._feet(),
            keep_key(self._look, self._words.keep, self._press, self._high),
        ]
        rows = [self._digits("12345"), self._digits("67890"), *(self._sixteenths(n, 5) for n in (1, 6, 11))]
        return [*rows, self._handed(last)]

    def _inch_large(self) -> list[list[ft.Control]]:
        """Erase stands with the digits here, far from Keep."""
        erase = erase_key(self._look, self._words.erase, self._press, self._high)
        rows = [self._digits("1234"), self._digits("5678"), [*self._digits("90"), self._feet(), erase]]
        rows += [self._sixteenths(n, 4) for n in (1, 5, 9)]
        return [*rows, self._handed([*self._sixteenths(13, 3), keep_key(self._look, self._words.keep, self._press, self._high, expand=1)])]

    def _decimal(self) -> list[list[ft.Control]]:
        high, size = self._high, 40 if self._look.large_keys else 34
        words = self._words
        low: list[ft.Control] = [erase_key(self._look, words.erase, self._press, high), *self._digits("0", size)]
        if self._point:
            low.append(word_key(self._look, "point", words.point, words.point_says, self._press, high, 34, bold=True))
        else:
            low.append(ft.Container(height=high, expand=1))
        rows = [self._digits(figures, size) for figures in ("123", "456", "789")]
        return [*rows, self._handed(low), [keep_key(self._look, words.keep, self._press, high, expand=1)]]

    def _handed(self, row: list[ft.Control]) -> list[ft.Control]:
        return row if self._look.hand == "right" else row[::-1]


def _height(row: list[ft.Control]) -> float:
    return max(float(control.height or KEY) for control in row)
