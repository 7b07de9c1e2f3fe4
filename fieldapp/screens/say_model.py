"""A figure in words to say, sign by sign. Pure.

Digits as in ICAO Annex 10, volume II, 5.2.1.4.3.1 (from memory; the aim is that fifteen and fifty, five and nine are never mixed up);
fractions as the trade says them: the digits of the upper figure, then the name of the lower. One value per utterance.
"""

from __future__ import annotations

from fractions import Fraction

from fieldapp.words import say

_DIGITS = "0123456789"


def words_to_say(whole: str, fraction: Fraction | None, unit: str) -> tuple[tuple[str, str], ...]:
    """Signs and what is said for each: `4` FOW-er, `1` WUN, `7/16` SEV-en sixteenths. unit: `in`, `mm` or empty."""
    said = [(sign, _word(sign)) for sign in whole if not sign.isspace()]
    if fraction:
        upper = " ".join(_word(d) for d in str(fraction.numerator))
        name = say(f"say.part_{fraction.denominator}_{'one' if fraction.numerator == 1 else 'more'}")
        joined = say("say.and", part=f"{upper} {name}") if said else f"{upper} {name}"
        said.append((str(fraction), joined))
    if unit:
        said.append((unit, say(f"say.unit_{unit}")))
    return tuple(said)


def _word(sign: str) -> str:
    if sign in _DIGITS:
        return say(f"say.digit_{sign}")
    return say("say.point") if sign in ".," else sign
