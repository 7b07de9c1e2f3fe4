"""Colours, type and measures of the look: the whole vocabulary, and nothing that draws.

A field book with a tape laid across it: quiet paper, ink lines, one accent. The yellow of the tape means "being measured now"
and nothing else. Verdicts carry a sign and a word besides their colour. Sizes and distances are logical pixels.
Contrast (text 7:1, marks 3:1, both themes) is asserted in tests/fieldapp/test_theme.py.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

Theme = Literal["sun", "shade"]
Hand = Literal["right", "left"]
SizeRole = Literal["hero", "figure", "word", "title", "lead", "body", "note"]

FONT = "Spanbook"
GRID = 8
MARGIN = 16
EDGE = 8
KEY, MM_KEY, TOUCH, ACTION = 64, 72, 48, 64
"""Least heights: a key of an inch job, of a millimetre job, anything else that is tapped, an action."""
RADIUS = 6
"""Corners of what is pressed. Bands and leaves have none: printed, not moulded."""
HAIR, LINE, GLASS, BOLD = 1, 1.5, 2, 3
"""Weights of drawn lines: decoration and extension, outline, glass, what is asked."""
LOW_PHONE = 830
"""Below this height bay, figure of 60 px, blade and keys do not stand together."""
WIDE = 900
LINE_HEIGHT = 1.22

_TYPE: dict[str, float] = {"hero": 72, "figure": 40, "word": 34, "title": 24, "lead": 18, "body": 16, "note": 14}
# What is large already grows less at 200 %; lead, body and note double in full.
_CAP: dict[str, float] = {"hero": 60, "figure": 56, "word": 44, "title": 36}
_KEY_GROWTH = 1.5


@dataclass(frozen=True, slots=True)
class Palette:
    """Every colour of one theme, as #RRGGBB."""

    paper: str
    leaf: str
    ink: str
    ink2: str
    line: str
    rule: str
    tape: str
    tape2: str
    on_tape: str
    tape_edge: str
    glass: str
    glass_edge: str
    post: str
    deck: str
    clear: str
    clear_bg: str
    query: str
    query_bg: str
    hold: str
    hold_bg: str
    main: str
    on_main: str


SUN = Palette(
    paper="#FAF7EE", leaf="#FFFFFF", ink="#14191C", ink2="#3E4546", line="#74766C", rule="#DCD6C3",
    tape="#F7C93C", tape2="#FCEBB0", on_tape="#14191C", tape_edge="#8A6A00",
    glass="#E2EEEB", glass_edge="#3E6F6B", post="#3A4145", deck="#14191C",
    clear="#0B5538", clear_bg="#E0EFE4", query="#2B379B", query_bg="#E4E7F8", hold="#8A1C17", hold_bg="#F8E3DD",
    main="#14191C", on_main="#FFFFFF",
)  # fmt: skip
SHADE = Palette(
    paper="#14181A", leaf="#23292C", ink="#F5F0E3", ink2="#C3C6BC", line="#8B9593", rule="#353C3E",
    tape="#EFC145", tape2="#4B3F16", on_tape="#14191C", tape_edge="#EFC145",
    glass="#22383A", glass_edge="#8DBDB7", post="#AEB6B5", deck="#F5F0E3",
    clear="#8FE0B4", clear_bg="#18352A", query="#BCC7FF", query_bg="#272D55", hold="#FFB7AA", hold_bg="#4D201B",
    main="#F5F0E3", on_main="#14181A",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Look:
    """How this screen is to be drawn: theme, size of the letters, the hand that types, and the room there is.

    text: 1.0 to 2.0. width, height: the room in logical pixels. Every colour of the theme is read from the look itself:
    `look.ink`, `look.paper`.
    """

    theme: Theme = "sun"
    text: float = 1.0
    hand: Hand = "right"
    large_keys: bool = False
    width: float = 390
    height: float = 844

    def __getattr__(self, name: str) -> str:
        if name.startswith("_"):
            raise AttributeError(name)
        return getattr(self.palette, name)

    @property
    def palette(self) -> Palette:
        """The colours in force."""
        return SUN if self.theme == "sun" else SHADE

    def size(self, role: SizeRole) -> float:
        """The size of a kind of text at the chosen text size. Capped kinds never shrink below their size at 100 %."""
        grown = _TYPE[role] * self.text
        if role == "hero":  # the figure gives way to the words when those double
            return _CAP[role] if self.big else _TYPE[role]
        return min(grown, _CAP.get(role, grown))

    def key_size(self, at_100: float) -> float:
        """The size of a key's label: keys keep their place, so labels grow to 1.5 times only."""
        return at_100 * min(self.text, _KEY_GROWTH)

    def drawn(self, at_100: float = 14) -> float:
        """The size of a word inside a drawing, which has to stay inside it."""
        return at_100 * min(self.text, 1.3)

    @property
    def big(self) -> bool:
        """Letters so large that words scroll and pairs stack."""
        return self.text >= 1.5

    @property
    def low(self) -> bool:
        """No room for picture, blade and keys together."""
        return self.height < LOW_PHONE

    @property
    def tight(self) -> bool:
        """Words and picture scroll; figure, blade and keys stay."""
        return self.big or self.low or self.large_keys

    @property
    def named(self) -> bool:
        """The head says `A3 span` in place of the run's strip, and the question does not say it again."""
        return self.tight and not self.big

    @property
    def wide(self) -> bool:
        """Room for list and detail side by side."""
        return self.width >= WIDE

    @property
    def outline(self) -> str:
        """The line round a piece of tape: ink on bright paper, the tape's own edge in the shade."""
        return self.palette.on_tape if self.theme == "sun" else self.palette.tape_edge

    def verdict(self, name: str) -> tuple[str, str]:
        """Ink and ground of a verdict; of anything else, those of plain paper."""
        palette = self.palette
        return {
            "clear": (palette.clear, palette.clear_bg), "query": (palette.query, palette.query_bg),
            "hold": (palette.hold, palette.hold_bg),
        }.get(name, (palette.ink2, palette.paper))  # fmt: skip

    def on(self, width: float, height: float | None = None) -> Look:
        """The same look in another room."""
        return replace(self, width=width, height=self.height if height is None else height)
