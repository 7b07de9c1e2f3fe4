"""A letter between two phones that share no network: "read these back" with bays and no figures, and the answer with figures.

Each fits a QR code: packed JSON in letters that an address may hold. What comes in was written by somebody else: it is bounded
before it is unpacked, and checked field by field.
"""

from __future__ import annotations

import base64
import binascii
import hashlib
import json
import zlib
from dataclasses import dataclass
from typing import Any

from fieldapp.words import say
from measure.errors import SpanbookError

MOST_BAYS = 8
_LONGEST, _LARGEST = 2000, 8000
_ASK, _ANSWER = "A1", "B1"


class LetterError(SpanbookError):
    """What came in is no letter of this kind."""


@dataclass(frozen=True, slots=True)
class Ask:
    """job: the job's own id. bays: tag and the first reading's short digest, which tells later whether it still stands."""

    job: str
    name: str
    units: str
    bays: tuple[tuple[str, str], ...]

    def text(self) -> str:
        return _packed(_ASK, [self.job, self.name, self.units, [list(b) for b in self.bays]])

    @classmethod
    def read(cls, text: str) -> Ask:
        job, name, units, bays = _unpacked(_ASK, text, 4)
        if units not in ("in", "mm"):
            raise LetterError(say("letter.unreadable"))
        return cls(_text(job), _text(name), units, tuple((_text(t), _text(d)) for t, d in _pairs(bays, 2)))


@dataclass(frozen=True, slots=True)
class Answer:
    """figures: tag, the digest that was asked with, the figure as typed. at: RFC 3339."""

    job: str
    by: str
    at: str
    figures: tuple[tuple[str, str, str], ...]

    def text(self) -> str:
        return _packed(_ANSWER, [self.job, self.by, self.at, [list(f) for f in self.figures]])

    @classmethod
    def read(cls, text: str) -> Answer:
        job, by, at, figures = _unpacked(_ANSWER, text, 4)
        return cls(_text(job), _text(by), _text(at), tuple((_text(t), _text(d), _text(v)) for t, d, v in _pairs(figures, 3)))

    def id_of(self, tag: str) -> str:
        """The same for the same answer, so that it counts once however often it comes in."""
        return f"letter-{hashlib.sha256(f'{self.text()} {tag}'.encode()).hexdigest()[:24]}"


def digest_of(reading_id: str | None, text: str) -> str:
    """A reading in a few letters that say nothing of its figure to whoever does not have its id."""
    return hashlib.sha256(f"{reading_id} {text}".encode()).hexdigest()[:10]


def _packed(kind: str, what: list[Any]) -> str:
    plain = json.dumps(what, ensure_ascii=False, separators=(",", ":")).encode()
    return kind + base64.urlsafe_b64encode(zlib.compress(plain, 9)).decode().rstrip("=")


def _unpacked(kind: str, text: str, length: int) -> list[Any]:
    """The parts of a letter; also where it comes as the end of an address, or broken into lines."""
    text = "".join(text.split()).rpartition("/")[2]
    if len(text) > _LONGEST or not text.isascii() or not text.startswith(kind):
        raise LetterError(say("letter.unreadable"))
    body = text[len(kind) :]
    unpacker = zlib.decompressobj()
    try:
        plain = unpacker.decompress(base64.b64decode(body + "=" * (-len(body) % 4), b"-_", validate=True), _LARGEST)
        what = json.loads(plain)
    except (binascii.Error, zlib.error, ValueError, RecursionError):
        raise LetterError(say("letter.unreadable")) from None
    if unpacker.unconsumed_tail or not isinstance(what, list) or len(what) != length:
        raise LetterError(say("letter.unreadable"))
    return what


def _pairs(what: object, wide: int) -> list[list[Any]]:
    if not isinstance(what, list) or not 0 < len(what) <= MOST_BAYS:
        raise LetterError(say("letter.unreadable"))
    if any(not isinstance(one, list) or len(one) != wide for one in what):
        raise LetterError(say("letter.unreadable"))
    return what


def _text(what: object) -> str:
    if not isinstance(what, str) or len(what) > 200 or not what.isprintable():
        raise LetterError(say("letter.unreadable"))
    return what
