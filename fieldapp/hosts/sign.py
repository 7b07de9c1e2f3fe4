"""The sign of Spanbook: two posts and a pane. `python -m fieldapp.hosts.sign` draws every icon anew (needs Pillow).

For the phone's home screen (hosts/phone/icons) and for native packages (assets/icon.png, assets/splash.png).
"""

from __future__ import annotations

from pathlib import Path

from PIL import Image, ImageDraw

from fieldapp.theme import SUN

PHONE = Path(__file__).parent / "phone" / "icons"
ASSETS = Path(__file__).parent.parent / "assets"
FINE = 8
"""Drawn so many times larger, then reduced: smooth edges."""

# (name, side in px, share of the side that the sign takes, ground or none). A maskable icon may be cut to a circle of 80 %.
PICTURES = (
    (PHONE / "icon-192.png", 192, 0.80, True),
    (PHONE / "icon-512.png", 512, 0.80, True),
    (PHONE / "icon-maskable-192.png", 192, 0.54, True),
    (PHONE / "icon-maskable-512.png", 512, 0.54, True),
    (PHONE / "apple-touch-icon-192.png", 192, 0.70, True),
    (PHONE / "favicon.png", 32, 0.96, False),
    (ASSETS / "icon.png", 512, 0.60, True),
    (ASSETS / "splash.png", 512, 0.50, False),
)


def draw(side: int, share: float, ground: bool) -> Image.Image:
    """The sign in a square. side: px. share: width of the sign as a part of the side. ground: paper, else nothing behind it."""
    palette, whole = SUN, side * FINE
    picture = Image.new("RGBA", (whole, whole), palette.paper if ground else (0, 0, 0, 0))
    pen, unit = ImageDraw.Draw(picture), whole * share / 20  # the sign is 20 units wide and 16 high

    def box(x: float, y: float, w: float, h: float, colour: str) -> None:
        left, top = whole / 2 + (x - 10) * unit, whole / 2 + (y - 8) * unit
        pen.rectangle((left, top, left + w * unit - 1, top + h * unit - 1), fill=colour)

    box(3.4, 2.6, 13.2, 10.0, palette.glass_edge)
    box(4.2, 3.4, 11.6, 8.4, palette.glass)
    for x in (0.8, 16.6):
        box(x, 0.0, 2.6, 15.2, palette.post)
    box(0, 15.0, 20, 1.0, palette.ink)
    return picture.resize((side, side), Image.Resampling.LANCZOS)


def main() -> None:
    """Write every picture; the same bytes each time."""
    for path, side, share, ground in PICTURES:
        path.parent.mkdir(parents=True, exist_ok=True)
        draw(side, share, ground).quantize(64, dither=Image.Dither.NONE).save(path, optimize=True)


if __name__ == "__main__":
    main()
