"""The ticks of a tape's blade as pictures: one tile a unit and theme, repeated along the blade. Numerals are text, in blade.py.

    python -m fieldapp.parts.blade_tiles        writes assets/blade-in-sun.png … blade-mm-shade.png (needs Pillow)

A tile holds whole marks, so that tiles join without a seam. PNG, since it is the cheapest to paint (measured against SVG and
canvas shapes). Drawn at three pixels a logical pixel; the longest side stays below 4096.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from fieldapp.theme import SHADE, SUN, Palette, Theme

Unit = Literal["in", "mm"]
ASSETS = Path(__file__).resolve().parents[1] / "assets"
HEIGHT = 72
"""Height of a blade in logical pixels; drawn lower on low phones."""
ZOOM = 3
_SHARP = 4


@dataclass(frozen=True, slots=True)
class Scale:
    """px: logical pixels a unit, near life size (about 160 an inch, 6.3 a millimetre on most phones).

    steps: ticks a unit. mark: units between two numerals. tile: units of one picture.
    ticks: (every so many steps, share of the blade's height, weight), longest first.
    """

    px: float
    steps: int
    mark: int
    tile: int
    ticks: tuple[tuple[int, float, float], ...]

    def tick(self, n: int) -> tuple[float, float]:
        """Share of the height and weight of the n-th tick from the hook."""
        return next((share, weight) for every, share, weight in self.ticks if n % every == 0)


SCALES: dict[str, Scale] = {
    "in": Scale(140, 16, 1, 6, ((16, 1, 2), (8, 0.50, 2), (4, 0.38, 1.8), (2, 0.28, 1.6), (1, 0.18, 1.4))),
    "mm": Scale(6, 1, 10, 100, ((10, 1, 2), (5, 0.32, 1.4), (1, 0.20, 1.4))),
}


def tile_name(unit: Unit, theme: Theme) -> str:
    """The picture's address below the app's assets."""
    return f"blade-{unit}-{theme}.png"


def _draw(unit: Unit, palette: Palette) -> object:
    from PIL import Image, ImageDraw

    scale, k = SCALES[unit], ZOOM * _SHARP
    w, h = round(scale.tile * scale.px), HEIGHT
    picture = Image.new("RGB", (w * k, h * k), palette.tape)
    pen = ImageDraw.Draw(picture)
    for n in range(scale.tile * scale.steps + 1):
        share, weight = scale.tick(n)
        x = n * scale.px / scale.steps
        pen.rectangle([(x - weight / 2) * k, 0, (x + weight / 2) * k - 1, h * share * k - 1], fill=palette.on_tape)
    for y in (0, h - 1.5):
        pen.rectangle([0, y * k, w * k, (y + 1.5) * k - 1], fill=palette.ink)
    return picture.resize((w * ZOOM, h * ZOOM), Image.Resampling.BOX).quantize(12)


def main() -> None:
    """Write the four tiles."""
    themes: tuple[tuple[Theme, Palette], ...] = (("sun", SUN), ("shade", SHADE))
    units: tuple[Unit, ...] = ("in", "mm")
    for unit in units:
        for theme, palette in themes:
            path = ASSETS / tile_name(unit, theme)
            _draw(unit, palette).save(path, optimize=True)
            print(path.name, path.stat().st_size)


if __name__ == "__main__":
    main()
