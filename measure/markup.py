"""People's text inside SVG and HTML: shown as typed, never read as markup."""

from __future__ import annotations

import html
import unicodedata


def markup_safe(text: str) -> str:
    """Escaped for element content and quoted attributes. Characters that XML has no place for become U+FFFD."""
    if not text.isprintable():
        text = "".join(c if c in "\t\n\r" or unicodedata.category(c) not in ("Cc", "Cs", "Cn") else "\ufffd" for c in text)
    return html.escape(text)
