"""A figure as it is said, sign by sign: what is read at the left, the word at the right, no word parted."""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from fieldapp.parts.space import column, inset
from fieldapp.parts.text import text
from fieldapp.theme import GRID, MARGIN, Look

_SIGN = 96
_WIDE_EM = 0.64
"""A bold letter on average, of words such as `sixteenths`."""


def spelled(look: Look, words: Sequence[tuple[str, str]]) -> ft.Control:
    """words: (sign, word). Large letters give way as far as the longest word needs it."""
    longest = max((len(one) for _, said in words for one in said.split()), default=1)
    size = min(look.size("word"), (look.width - 2 * MARGIN - _SIGN - GRID) / (_WIDE_EM * longest))
    rows = [
        ft.Row(
            [
                text(look, sign, "note" if look.big else "title", look.ink2, width=_SIGN, no_wrap=True),
                text(look, word, "word", bold=True, size=size, expand=True),
            ],
            spacing=GRID,
        )
        for sign, word in words
    ]
    return inset(column(list(rows), 4))
