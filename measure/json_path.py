"""Where something stands in a JSON file: `readings[3].value`."""

from __future__ import annotations

Path = tuple[str | int, ...]
"""Keys and list positions from the outermost brace inward."""
FILE = "file"
"""The place of a problem that is the whole file's."""
LONGEST_SHOWN = 40


def shown(text: str) -> str:
    """A text of the file inside a sentence: in quotes, cut short, in characters that can be printed."""
    return "“" + _printable(text.strip()) + "”"


def place_text(path: Path) -> str:
    """The path in words that can be printed, positions counted from 0; `file` for the whole of it."""
    text = "".join(f"[{part}]" if isinstance(part, int) else f".{_key(part)}" for part in path)
    return text.removeprefix(".") or FILE


def _key(key: str) -> str:
    return key if key.isidentifier() and key.isascii() and len(key) <= LONGEST_SHOWN else f'"{_printable(key)}"'


def _printable(text: str) -> str:
    short = text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 3] + "..."
    return "".join(c if c.isprintable() else ascii(c)[1:-1] for c in short)
