"""People's text inside SVG, HTML and its style sheet: shown as typed, never read as anything else."""

from __future__ import annotations

import html
import unicodedata


def css_text(text: str) -> str:
    """A quoted string of a style sheet. All but plain letters and digits are written as their number, so nothing ends it."""
    return (
        '"' + "".join(c if c.isascii() and c.isalnum() else f"\\{ord(c) if c.isprintable() else 0xFFFD:06x}" for c in text) + '"'
    )


def markup_safe(text: str) -> str:
    """Escaped for element content and quoted attributes. Characters that XML has no place for become U+FFFD."""
    if not text.isprintable():
        text = "".join(c if c in "\t\n\r" or unicodedata.category(c) not in ("Cc", "Cs", "Cn") else "\ufffd" for c in text)
    return html.escape(text)
