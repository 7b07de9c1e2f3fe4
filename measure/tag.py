"""The tag of a bay, which is the panel's mark too, and the name of a run: what may stand there.

A tag ends up in spreadsheets and as the name of a drawing's file, so what a spreadsheet program reads as a date (`MAR1`) or a
truth value (`TRUE`) is refused.
"""

from __future__ import annotations

import re

from measure.json_path import shown

TAG_PATTERN = "^[A-Za-z][A-Za-z0-9 ._-]{0,15}$"
LONGEST_TAG = 16
_MONTHS = (
    "JAN(?:UARY|UAR|VIER|V)?|FEB(?:RUARY|RUAR)?|FEVR?(?:IER)?|MAR(?:CH|S|ZO)?|MRZ|MAERZ|APR(?:IL)?|AVR(?:IL)?|MAY(?:O)?|MAI|"
    "JUN[EI]?|JUIN|JUNIO|JUL[YI]?|JUIL(?:LET)?|JULIO|AUG(?:UST)?|AOUT|AGO(?:STO)?|SEPT?(?:EMBER|EMBRE|IEMBRE)?|OCT(?:OBER|OBRE|UBRE)?|"
    "OKT(?:OBER)?|NOV(?:EMBER|EMBRE|IEMBRE)?|DEC(?:EMBER|EMBRE)?|DEZ(?:EMBER)?|DIC(?:IEMBRE)?|ENE(?:RO)?|ABR(?:IL)?"
)
"""English, German, French and Spanish, whole and cut short."""
_PLAIN = re.compile(r"[A-Za-z][A-Za-z0-9 ._-]*", re.ASCII)
_DATE = re.compile(rf"(?:{_MONTHS})[ ._-]*(?:\d{{1,2}}|\d{{4}})(?:[ ._-]+\d{{1,4}})?[ ._-]*", re.ASCII)
_WEEKDAY = re.compile(r"(?:MON|TUE|WED|THU|FRI|SAT|SUN)[A-Z]{0,6}[ ._-]*\d{1,4}[ ._-]+\d{1,4}(?:[ ._-]+\d{1,4})?", re.ASCII)
"""`MON1-2`: a weekday and a day of a month, as a British spreadsheet reads it."""
_TRUTH = frozenset(("TRUE", "FALSE", "WAHR", "FALSCH", "VRAI", "FAUX", "VERDADERO", "FALSO"))


def tag_trouble(tag: str) -> str | None:
    """Why this cannot be a tag or a run's name and what to write instead; None where it can."""
    if not tag.strip():
        return "Nothing stands here: give it a name, such as A1."
    if _PLAIN.fullmatch(tag) is None:
        return f"{shown(tag)} is no tag: a letter A to Z first, then letters, digits, space, point, _ or -, such as A1."
    if len(tag) > LONGEST_TAG:
        return f"{shown(tag)} has {len(tag)} characters, a tag has {LONGEST_TAG} at most: shorten it, such as A1."
    if tag != tag.rstrip():
        return f"{shown(tag)} ends in a space that nobody sees: take it off."
    upper = tag.upper()
    if upper in _TRUTH:
        return f"A spreadsheet reads {shown(tag)} as a truth value: write another tag, such as A1."
    if _DATE.fullmatch(upper) or _WEEKDAY.fullmatch(upper):
        return f"A spreadsheet reads {shown(tag)} as a date: write another tag, such as {tag[0].upper()}{_digits(tag)}."
    return None


def same_tag(tag: str) -> str:
    """Equal for tags that people and file systems cannot tell apart: capitals and further spaces do not count."""
    return " ".join(tag.split()).upper()


def _digits(tag: str) -> str:
    return next(iter(re.findall(r"\d+", tag)), "1")
