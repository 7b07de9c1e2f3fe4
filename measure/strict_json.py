"""JSON as it is written: numbers by their digits and never through a float, nothing doubled, nothing odd let through.

A whole number is read as an int, any other as a Decimal, so `35.250` stays `35.250`. What cannot be taken (a doubled key, NaN, a number of a thousand
digits, a lone surrogate) is told with its place, all of it in one go. `write` gives the same digits back.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from json.encoder import encode_basestring as _quoted

from measure.errors import DocumentError, PlaceError
from measure.json_path import FILE, Path, place_text

GREATEST_BYTES = 256 * 1024 * 1024
LONGEST_NUMBER = 40
DEEPEST = 100
"""Told as too deep; how much deeper JSON is read at all depends on the Python that reads it."""
_SUSPECT = ("\\u", "\\b", "\\f")
_ODD = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ud800-\udfff\ufffe\uffff]")
_TOKEN = re.compile(r'"(?:[^"\\]|\\.)*+"?|[\[\]{}]', re.DOTALL)
_WRONG = (
    ("Expecting property name", "A name in double quotes belongs here, as \"tag\". A comma before a closing brace is one too many."),
    ("Illegal trailing comma", "This comma is one too many: take it out."),
    ("Expecting ':'", "A colon belongs here, between a name and its value."),
    ("Expecting ','", "A comma belongs here, or a bracket closed too early or too late."),
    ("Unterminated string", "The text that begins here has no closing double quote."),
    ("Invalid control", "A text runs over the end of its line, or a quote is missing: write \\n for a new line inside a text."),
    ("Invalid \\escape", "A backslash begins something unknown here: write two backslashes for one."),
    ("Invalid \\uXXXX", "Four hexadecimal digits belong behind \\u."),
    ("Extra data", "The file goes on after its closing brace: take out what follows."),
)
_NOTHING_KNOWN = "A text, a number, a list or a brace belongs here. Is it a job file?"


@dataclass(frozen=True, slots=True)
class Oddity:
    """Stands in the tree where something was written that cannot be taken."""

    sentence: str


@dataclass(frozen=True, slots=True)
class Scanned:
    """A tree of dict, list, str, int, Decimal, bool, None, and the odd places in it with their paths."""

    tree: object
    odd: tuple[tuple[Path, str], ...]


def read(data: bytes | str) -> object:
    """JSON as a tree. Raises DocumentError with every odd place."""
    scanned = scan(data)
    if scanned.odd:
        raise DocumentError([PlaceError(place_text(path), sentence) for path, sentence in scanned.odd])
    return scanned.tree


def scan(data: bytes | str) -> Scanned:
    """The same, but odd places are handed over beside the tree. Raises DocumentError for what is no JSON at all."""
    text = _text(data)
    doubled: list[tuple[dict[str, object], tuple[str, ...]]] = []
    odd_values = False

    def pairs(found: list[tuple[str, object]]) -> dict[str, object]:
        made = dict(found)
        if len(made) != len(found):
            doubled.append((made, _twice(found)))
        return made

    def number(digits: str) -> int | Decimal | Oddity:
        nonlocal odd_values
        if len(digits) <= LONGEST_NUMBER and "e" not in digits and "E" not in digits:
            # -0 is no int: its sign would be lost
            return int(digits) if digits.isdigit() or (digits[1:].isdigit() and digits != "-0") else Decimal(digits)
        odd_values = True
        return Oddity(_number_trouble(digits))

    def constant(name: str) -> Oddity:
        nonlocal odd_values
        odd_values = True
        return Oddity(f"{name} is no figure: give the figure that was read.")

    if sys.platform == "emscripten" and (place := _deep_place(text)) is not None:
        # In a browser the end of the stack is no RecursionError: it ends Python.
        raise _too_deep(text, place)
    try:
        tree = json.loads(text, object_pairs_hook=pairs, parse_float=number, parse_int=number, parse_constant=constant)
    except json.JSONDecodeError as problem:
        raise _no_json(problem.msg, text, problem.pos) from None
    except RecursionError:
        raise _too_deep(text, _deep_place(text)) from None
    suspect = any(s in text for s in _SUSPECT) or not text.isascii() and _ODD.search(text) is not None
    return Scanned(tree, tuple(_odd_places(tree, doubled)) if doubled or odd_values or suspect else ())


def odd_text(text: str) -> str | None:
    """What is wrong with the characters of a text; None when it can be kept, shown and printed."""
    found = _ODD.search(text)
    if found is None:
        return None
    code = f"U+{ord(found[0]):04X}"
    if "\ud800" <= found[0] <= "\udfff":
        return f"Half of a character pair ({code}) stands here without its other half: type the text anew."
    return f"A control character ({code}) stands in this text: type the text anew, without it."


def odd_places(tree: object) -> tuple[tuple[Path, str], ...]:
    """The odd texts and floats of a tree that did not come through `scan`."""
    return tuple(_odd_places(tree, ()))


def write(value: object, sort_keys: bool = False) -> str:
    """A tree as JSON on one line, Decimals by their digits. Raises TypeError for a float or anything else JSON has no word for."""
    if value is None or value is True or value is False:
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, str):
        return _quoted(value)
    if isinstance(value, Decimal):
        return number_text(value)
    if isinstance(value, int):
        return str(value)
    if isinstance(value, dict):
        items = sorted(value.items()) if sort_keys else value.items()
        return "{" + ", ".join([f"{_quoted(k)}: {write(v, sort_keys)}" for k, v in items]) + "}"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join([write(v, sort_keys) for v in value]) + "]"
    raise TypeError(f"{type(value).__name__} has no place in a job file")


def number_text(number: Decimal | int) -> str:
    """A number's digits as they stood in the file."""
    return str(number) if isinstance(number, int) else format(number, "f")


def _text(data: bytes | str) -> str:
    if len(data) > GREATEST_BYTES:
        raise _refused(f"The file is larger than {GREATEST_BYTES // 2**20} MB. Give a job file, or split the job in two.")
    if isinstance(data, str):
        text = data
    else:
        try:
            text = data.decode("utf-8")
        except UnicodeDecodeError as problem:
            raise _refused(f"No UTF-8 text: byte {problem.start + 1} cannot be read. Save the file as UTF-8.") from None
    text = text.removeprefix("\ufeff")
    if not text.strip(" \t\r\n"):
        raise _refused("There is nothing in it. Give a job file.")
    return text


def _twice(found: list[tuple[str, object]]) -> tuple[str, ...]:
    seen: set[str] = set()
    twice = dict.fromkeys(key for key, _ in found if key in seen or seen.add(key))  # type: ignore[func-returns-value]
    return tuple(twice)


def _number_trouble(digits: str) -> str:
    if len(digits) > LONGEST_NUMBER:
        return f"A number of {len(digits)} characters is none that anybody read: give the figure that was read."
    return f"{digits} is written with an exponent: write the figure out, as 1250 for 1.25e3."


def _refused(sentence: str) -> DocumentError:
    return DocumentError([PlaceError(FILE, sentence)])


def _where(text: str, at: int) -> str:
    before = text.rfind("\n", 0, at)
    return f"line {text.count(chr(10), 0, at) + 1}, column {at - before}"


def _no_json(message: str, text: str, at: int) -> DocumentError:
    sentence = next((say for begin, say in _WRONG if message.startswith(begin)), _NOTHING_KNOWN)
    return DocumentError([PlaceError(_where(text, at), f"No JSON. {sentence}")])


def _deep_place(text: str) -> int | None:
    """Where more than `DEEPEST` brackets stand inside one another."""
    depth = 0
    for token in _TOKEN.finditer(text):
        depth += {"[": 1, "{": 1, "]": -1, "}": -1}.get(token[0], 0)
        if depth > DEEPEST:
            return token.start()
    return None


def _too_deep(text: str, place: int | None) -> DocumentError:
    if place is None:
        return _refused("Too many brackets stand inside one another. No job file does that: give a job file.")
    sentence = f"More than {DEEPEST} brackets stand inside one another here. No job file does that: give a job file."
    return DocumentError([PlaceError(_where(text, place), sentence)])


def _odd_places(tree: object, doubled: list[tuple[dict[str, object], tuple[str, ...]]] | tuple[()]) -> Iterator[tuple[Path, str]]:
    """Walks the tree without recursion, in the order of the file."""
    twice = {id(made): names for made, names in doubled}
    ahead: list[tuple[Path, object]] = [((), tree)]
    while ahead:
        path, value = ahead.pop()
        if isinstance(value, dict):
            for name in twice.get(id(value), ()):
                yield (*path, name), "This key stands here more than once: keep one of them."
            for key in value:
                if isinstance(key, str) and (trouble := odd_text(key)):
                    yield (*path, key), trouble
            ahead += [((*path, key), inner) for key, inner in reversed(value.items())]
        elif isinstance(value, (list, tuple)):
            ahead += [((*path, i), inner) for i, inner in zip(range(len(value) - 1, -1, -1), reversed(value), strict=True)]
        elif isinstance(value, Oddity):
            yield path, value.sentence
        elif isinstance(value, str):
            if trouble := odd_text(value):
                yield path, trouble
        elif isinstance(value, float):
            yield path, f"{value!r} came as a float: give its digits as text or as a Decimal."
