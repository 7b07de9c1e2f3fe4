"""The likely slip behind a figure that is off: each known slip says what the figure would have been without it.

The list and its order are trade judgement, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from measure.book import Book
from measure.finding import Slip
from measure.length import NM_PER_INCH, NM_PER_MM, Length
from measure.plan import Bay
from measure.reading import Reading
from measure.rounding import plain_text
from measure.slope import Slope

Candidate = tuple[str, int, str, str]
"""name, the figure without the slip in nm, what to ask, what a new reading would say of it: the tape's start, or its case."""
SOUNDS_LIKE = {13: 30, 14: 40, 15: 50, 16: 60, 17: 70, 18: 80, 19: 90}
MOST = 2


def likely_slips(book: Book, bay: Bay, reading: Reading, wanted: Length, allowed: Length) -> tuple[Slip, ...]:
    """Slips that would bring a span to within the allowance of what was wanted, likeliest first, two at most."""
    if isinstance(reading.value, Slope):
        return ()
    read, units = reading.corrected.nm, book.job.units
    found: dict[int, tuple[int, Slip]] = {}
    near = max(allowed.nm // 4, 1)
    for name, true, ask, says in _candidates(book, bay, reading, read):
        apart = abs(true - wanted.nm)
        if apart <= allowed.nm and true > 0 and true not in found and true != read:
            text = plain_text(Length(true), units)
            found[true] = apart // near, Slip(name, ask.format(text), text, says if name == "start" else "", says if name == "case" else "")
    # Those that come closest to plan first; among equals in the order of the list, which is the order of likelihood.
    ranked = sorted(found.values(), key=lambda pair: pair[0])
    return tuple(slip for _, slip in ranked[:MOST])


def between(read: Length, other: Length, division: Length) -> str:
    """What two figures of one place may have in common: a sentence, or nothing."""
    apart = abs(read.nm - other.nm)
    if apart == NM_PER_INCH:
        return "They lie one inch apart."
    if apart == division.nm:
        return "They are neighbouring marks."
    return ""


def _candidates(book: Book, bay: Bay, reading: Reading, read: int) -> Iterator[Candidate]:
    job = book.job
    inch = job.units == "in"
    if inch:
        yield from _fractions(read)
    yield from _whole_steps(read, inch, reading)
    yield from _case(reading, read)
    yield from _wrong_ends(book, bay, read)
    yield from _mixed(book, bay)
    yield from _digits(read, inch)
    yield from _dropped(reading, read, inch)
    yield from _units(read, inch)


def _fractions(read: int) -> Iterator[Candidate]:
    whole, rest = divmod(read, NM_PER_INCH)
    part = Fraction(rest, NM_PER_INCH)
    if not part:
        return
    for factor in (2, Fraction(1, 2), 4, Fraction(1, 4)):
        other = part * factor
        if other < 1 and other.denominator <= 32:
            true = whole * NM_PER_INCH + int(other * NM_PER_INCH)
            yield "fraction", true, "Was it {}? The same numerator over another denominator.", ""
    backwards = whole * NM_PER_INCH + NM_PER_INCH - rest
    yield "backwards", backwards, "Was it {}? The fraction read backwards from the next inch.", ""


def _whole_steps(read: int, inch: bool, reading: Reading) -> Iterator[Candidate]:
    first, text = (NM_PER_INCH, "1 in") if inch else (100 * NM_PER_MM, "100 mm")
    if reading.start is None:
        yield "start", read - first, f"Was the tape begun at its {text} mark? Then it is {{}}.", text
    for step, name in ((first if inch else 10 * NM_PER_MM, "next-mark"), (NM_PER_INCH * 12, "foot")):
        for true in (read - step, read + step):
            word = "foot" if name == "foot" else "inch" if inch else "centimetre"
            yield name, true, f"Was it {{}}? Off by one {word}.", ""
    if not inch:
        yield "next-mark", read + first, "Was it {}? Off by 100 mm.", ""


def _case(reading: Reading, read: int) -> Iterator[Candidate]:
    if reading.case is not None:
        yield "case-twice", read - reading.case.nm, "Was the case's length already in the figure? Then it is {}.", ""
    for length, text in ((3 * NM_PER_INCH, "3 in"), (Length(75 * NM_PER_MM).nm, "75 mm")):
        if reading.case is None:
            yield "case", read + length, f"Was the case's length left out ({text})? Then it is {{}}.", text


def _wrong_ends(book: Book, bay: Bay, read: int) -> Iterator[Candidate]:
    left, right = book.face(bay.left).nm, book.face(bay.right).nm
    plate, allowance = book.job.system.base_plate, book.job.system.allowance.nm
    yield "outside", read - left - right, "Taped outside to outside? Inside it is {}.", ""
    yield "centres", read - (left + right) // 2, "Taped centre to centre? Inside it is {}.", ""
    if plate is not None:
        edge = (plate.nm - (left + right) // 2) // 2
        yield "plate", read + 2 * edge, "Taped between the base plates? Between the faces it is {}.", ""
        yield "plate", read + edge, "Taped from the edge of a base plate? Between the faces it is {}.", ""
    yield "allowance", read - allowance, "Is the allowance already in the figure? Without it it is {}.", ""
    yield "allowance", read - allowance // 2, "Is the allowance for one edge already in the figure? Without it it is {}.", ""


def _mixed(book: Book, bay: Bay) -> Iterator[Candidate]:
    for other in book.neighbours(bay):
        span = None if other is None else book.counting("bay", other.tag, "span")
        if other is not None and span is not None:
            yield "mixed", span.corrected.nm, f"Are the bays mixed up? {other.tag} reads {{}}.", ""


def _digits(read: int, inch: bool) -> Iterator[Candidate]:
    unit = NM_PER_INCH if inch else NM_PER_MM
    whole, rest = divmod(read, unit)
    text = str(whole)
    for i in range(len(text) - 1):
        if text[i] != text[i + 1]:
            swapped = text[:i] + text[i + 1] + text[i] + text[i + 2 :]
            yield "swapped", int(swapped) * unit + rest, "Was it {}? Two digits swapped.", ""
    for one, other in (*SOUNDS_LIKE.items(), *((b, a) for a, b in SOUNDS_LIKE.items())):
        if whole == one:
            yield "misheard", other * unit + rest, "Was it {}? The two sound alike.", ""


def _dropped(reading: Reading, read: int, inch: bool) -> Iterator[Candidate]:
    decimal = re.fullmatch(r"(\d+)\.(\d)", reading.text.strip().removesuffix("in").strip())
    if inch and decimal:
        true = int(decimal[1]) * NM_PER_INCH + int(decimal[2]) * NM_PER_INCH // 16
        yield "decimal", true, "Does the point stand for sixteenths? Then it is {}.", ""
    if inch and read % NM_PER_INCH == 0:
        for sixteenth in range(1, 16):
            yield "dropped", read + sixteenth * NM_PER_INCH // 16, "Was a fraction left out, as in {}?", ""


def _units(read: int, inch: bool) -> Iterator[Candidate]:
    if inch:
        yield "units", round(Fraction(read * 5, 127)), "Are these millimetres in an inch job? Then it is {}.", ""
    else:
        yield "units", read * 127 // 5, "Are these inches in a millimetre job? Then it is {}.", ""
