"""A reading as it was read, for the order: what was typed, its unit, and what was said of how it was taken."""

from __future__ import annotations

import re

from measure.job import Units
from measure.length import Length
from measure.reading import Reading
from measure.rounding import plain_text
from measure.slope import Slope

_SAYS_A_UNIT = re.compile("[A-Za-z'\"’‘‛′″”“‟ʹʺ]")
"""Units are spelled in plain letters, or as foot and inch marks."""


def with_unit(text: str, units: Units) -> str:
    """What was typed, a bare number with the job's unit: `41 11/16` → `41 11/16 in`, `895 mm` as it is."""
    text = text.strip()
    return text if _SAYS_A_UNIT.search(text) else f"{text} {units}"


def counted(reading: Reading, units: Units) -> str:
    """What was typed, and what it counts as where the tape's start or case makes that another figure: `1250 (counts as 1150)`."""
    text = reading.text.strip()
    if isinstance(reading.value, Slope) or reading.corrected == reading.value:
        return text
    counts = plain_text(reading.corrected, units)
    return f"{text} (counts as {counts if _SAYS_A_UNIT.search(text) else counts.removesuffix(f' {units}')})"


def span_as_read(reading: Reading, units: Units) -> str:
    """`41 11/16 in, start 1 in, case 3 in, along`, each where said."""
    return _corrected(reading, units) + (", along" if reading.taped == "along" else "")


def rise_as_read(reading: Reading, units: Units) -> str:
    """`3/8 in over centres` (faces, or the level's length), or `slope 2 %`."""
    if isinstance(reading.value, Slope):
        return f"slope {reading.text.strip()}"
    over = reading.over or ("faces" if reading.what == "base-rise" else "centres")
    base = with_unit(reading.over_text, units) if isinstance(over, Length) else over
    return f"{_corrected(reading, units)} over {base}"


def _corrected(reading: Reading, units: Units) -> str:
    said = with_unit(reading.text, units)
    if reading.start_text:
        said += f", start {with_unit(reading.start_text, units)}"
    if reading.case_text:
        said += f", case {with_unit(reading.case_text, units)}"
    return said
