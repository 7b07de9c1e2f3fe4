"""Keys of a real keyboard, or of an instrument that types, as the letters of a figure."""

from __future__ import annotations

from typing import Protocol

_NAMED = {
    "Numpad Decimal": ".", "Numpad Divide": "/", "Numpad Comma": ",", "Numpad Enter": "Enter", "Numpad Add": "", "Space": " ",
    "Enter": "Enter", "Backspace": "Backspace",
}  # fmt: skip


class Pressed(Protocol):
    """What a keyboard event says. key: `7`, `Numpad 7`, `M`, `Enter`, `/`."""

    key: str
    ctrl: bool
    alt: bool
    meta: bool


def letter_of(pressed: Pressed) -> str:
    """One letter, `Enter`, `Backspace`, or nothing for a key that writes none. Letters come as capitals and are written small."""
    if pressed.ctrl or pressed.meta:
        return ""
    if pressed.key in _NAMED:
        return _NAMED[pressed.key]
    key = pressed.key.removeprefix("Numpad ")
    return key.lower() if len(key) == 1 else ""
