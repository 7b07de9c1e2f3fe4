"""Text that stays text in a spreadsheet program.

A cell that begins with = + - @, a tab or a return can be taken for a formula (OWASP ASVS 5, 1.2.10), and text such as `3/8`,
`1-2`, `12:30`, `1e5`, `MAR 1` or `45 %` alone for a number, a date or a time. Which ones differs by program and by its language,
so this reads widely: better guard a telephone number than let one turn into a sum. A guarded text gets an apostrophe first.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache


def _words(text: str) -> frozenset[str]:
    return frozenset(text.split())


FORMULA_STARTS = "=+-@\t\r\n\0"
MONTHS = _words(
    "january february march april may june july august september october november december "
    "januar februar märz maerz mrz mai juni juli oktober okt dezember jänner "
    "janvier février fevrier févr fevr mars avril avr juin juillet juil août aout octobre décembre decembre déc "
    "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre "
    "gennaio febbraio aprile maggio giugno luglio settembre ottobre dicembre "
    "janeiro fevereiro março marco maio junho julho setembro outubro novembro dezembro "
    "januari februari maart mrt mei augustus augusti "
    "marts maj desember "
    "tammikuu helmikuu maaliskuu huhtikuu toukokuu kesäkuu heinäkuu elokuu syyskuu lokakuu marraskuu joulukuu "
    "styczeń luty marzec kwiecień czerwiec lipiec sierpień wrzesień październik listopad grudzień "
    "stycznia lutego marca kwietnia maja czerwca lipca sierpnia września października listopada grudnia "
    "leden únor březen duben květen červen červenec srpen září říjen "
    "ledna února března dubna května června července srpna října listopadu prosince"
)
WEEKDAYS = _words(
    "monday tuesday wednesday thursday friday saturday sunday montag dienstag mittwoch donnerstag freitag samstag sonnabend "
    "sonntag lundi mardi mercredi jeudi vendredi samedi dimanche"
)
TRUTH_WORDS = _words(
    "true false wahr falsch vrai faux verdadero falso verdadeiro vero waar onwaar sant falskt sann usann sand falsk tosi epätosi "
    "prawda fałsz pravda nepravda"
)
DATE_JOINS = _words("de del do da of den der the utc gmt 年 月 日 时 時 分 秒")
MONEY = _words("usd eur gbp cad aud nzd chf jpy cny inr sek nok dkk pln czk huf brl zar kr kč zł lei лв руб fr sfr")
_BARE = re.compile(r"(?:[\d\s.,/\-‐‑–—−:;%‰()+$€£¥₹₽₩₺฿]|(?<=\d)['’](?=\d))*")
_WORD = re.compile(r"[^\W\d_]+")
_POWER = re.compile(r"[-+(]*\d[\d.,\s]*e\s*[-+]?\d+\)?")
_DAY_HALF = re.compile(r"(?<=\d)\s*(?:a|p|am|pm|a\.m\.|p\.m\.|vorm\.?|nachm\.?)$")
_CLOCK = re.compile(r"(?<=\d)t(?=\d)|(?<=\d)z$")
_DIGIT = re.compile(r"\d")


@lru_cache(maxsize=4096)
def safe_text(text: str) -> str:
    """The text as it may stand in a cell: itself, or an apostrophe and itself. Control characters become U+FFFD."""
    if not text:
        return text
    if not text.isprintable():
        text = "".join("\ufffd" if unicodedata.category(c) == "Cc" and c not in "\t\r\n" else c for c in text)
    return "'" + text if _starts_a_formula(text) or reads_as_value(text) else text


def reads_as_value(text: str) -> bool:
    """Whether the text alone is taken for a number, an amount, a date, a time or a truth value by some spreadsheet program."""
    folded = unicodedata.normalize("NFKC", text).casefold().strip()
    if not _DIGIT.search(folded):
        return folded in TRUTH_WORDS or folded.startswith("#") and folded.endswith(("!", "?", "/a", "/0!"))
    if _BARE.fullmatch(folded) or _POWER.fullmatch(folded):
        return True
    folded = _CLOCK.sub(" ", _DAY_HALF.sub("", folded))
    return all(_belongs_to_a_date_or_sum(word) for word in _WORD.findall(folded)) and bool(_BARE.fullmatch(_WORD.sub("", folded)))


def _starts_a_formula(text: str) -> bool:
    """Leading blanks and signs of another width do not make a formula harmless."""
    return text[0] in FORMULA_STARTS or unicodedata.normalize("NFKC", text).lstrip()[:1] in tuple("=+-@")


def _belongs_to_a_date_or_sum(word: str) -> bool:
    return word in DATE_JOINS or word in MONEY or _names_a_day_or_month(word)


@lru_cache(maxsize=1024)
def _names_a_day_or_month(word: str) -> bool:
    """A month or weekday, whole or cut short to three letters or more."""
    return len(word) >= 3 and any(name.startswith(word) for name in (*MONTHS, *WEEKDAYS))
