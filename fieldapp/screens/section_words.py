"""The words in the cut through two posts."""

from __future__ import annotations

from fieldapp.parts.post_section import SectionWords
from fieldapp.words import say


def section_words() -> SectionWords:
    """In the order in which the drawing names them."""
    return SectionWords(*(say(f"new.section_{w}") for w in ("glass", "left", "right", "above", "both", "home")))
