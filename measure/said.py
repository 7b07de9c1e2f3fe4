"""A thing that somebody said: a reading, an answer, a moved post or a note, with the key that tells it from all others.

Two copies of a job hold the same thing when the keys are equal, whatever device the copies come from. A key is made from the
content alone, so nobody has to hand out numbers: with an `id` it is the id and a hash, without one the hash and which of
several equal things it is.
"""

from __future__ import annotations

import hashlib
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from typing import Any

from measure import strict_json
from measure.moment import parse_moment

Words = dict[str, Any]
"""One entry of a job file's list, as typed."""
SECTIONS = ("readings", "moved", "answers", "notes")
"""The lists of a job file that only ever grow."""
EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
HASH_IN_KEY, HASH_IN_ID = 24, 8
GREATEST_TIE = 2**53


@dataclass(frozen=True, slots=True)
class Said:
    """words: the entry, letter for letter. at_us: when, in microseconds since 1970 (UTC).

    tie: which one of those said at the same instant, in the order of the file that brought it. It decides which reading counts.
    """

    key: str
    words: Words
    at_us: int
    tie: int

    @property
    def order(self) -> tuple[int, int, str]:
        """By time; on a tie as in the file; the key where two files disagree."""
        return (self.at_us, self.tie, self.key)


Ties = Mapping[str, int]


def digest(value: object) -> str:
    """SHA-256 of a JSON value in one spelling (keys sorted), as hexadecimal digits."""
    return hashlib.sha256(strict_json.write(value, sort_keys=True).encode()).hexdigest()


def to_text(value: object) -> str:
    """A part of a job file as it is kept: keys in their order, numbers by their digits."""
    return strict_json.write(value)


def from_text(text: str) -> Any:
    """The part that was kept."""
    return strict_json.read(text)


def instant_us(at: str) -> int:
    """RFC 3339 text as microseconds since 1970 (UTC). Raises EntryError when it is none."""
    return (parse_moment(at) - EPOCH) // timedelta(microseconds=1)


def keyed(entries: Iterable[Words], ties: Ties = {}) -> dict[str, Said]:  # noqa: B006 - never written to
    """The entries of one list by key. ties: where a tie is not simply the order in the list."""
    same: Counter[str] = Counter()
    at_once: Counter[int] = Counter()
    found: dict[str, Said] = {}
    for words in entries:
        key = _key(words, same)
        at_us = instant_us(words["at"])
        if key not in found:
            found[key] = Said(key, words, at_us, min(max(ties.get(key, at_once[at_us]), 0), GREATEST_TIE))
        at_once[at_us] += 1
    return found


def key_of(words: Words) -> str:
    """The key of an entry that is one alone."""
    return _key(words, Counter())


def united(one: Mapping[str, Said], other: Mapping[str, Said]) -> dict[str, Said]:
    """Everything said on either side, once. Where the order on a tie differs, the later place wins on both sides."""
    both = dict(one)
    for key, said in other.items():
        mine = both.get(key)
        both[key] = said if mine is None else replace(mine, tie=max(mine.tie, said.tie))
    for key, tie in _ties_of_equal_ones(both.values()):
        if both[key].tie != tie:
            both[key] = replace(both[key], tie=tie)
    return both


def _ties_of_equal_ones(said: Iterable[Said]) -> Iterator[tuple[str, int]]:
    """Of equal things without an id the first stays before the second: a reader could not tell them apart otherwise."""
    several: dict[str, list[Said]] = defaultdict(list)
    for one in said:
        if "id" not in one.words:
            several[one.key.partition("#")[0]].append(one)
    for equal in several.values():
        last = -1
        for one in sorted(equal, key=lambda s: int(s.key.partition("#")[2])):
            last = max(one.tie, last + 1)
            yield one.key, last


def in_order(said: Iterable[Said]) -> list[Said]:
    """The order of a merged file."""
    return sorted(said, key=lambda s: s.order)


def odd_ties(said: Iterable[Said]) -> dict[str, int]:
    """The ties that the order in this list does not tell by itself."""
    at_once: Counter[int] = Counter()
    odd = {}
    for one in said:
        if one.tie != at_once[one.at_us]:
            odd[one.key] = one.tie
        at_once[one.at_us] += 1
    return odd


def named(said: Iterable[Said]) -> dict[str, Words]:
    """The words by key, every `id` once.

    One id on two different contents (a file was changed by hand) stays with one of them; the other's id gets a piece of its
    hash, which the next reader takes off again.
    """
    by_id: dict[str, list[Said]] = defaultdict(list)
    words = {}
    for one in said:
        words[one.key] = one.words
        if "id" in one.words:
            by_id[_bare_id(one.words)].append(one)
    for bare, several in by_id.items():
        for place, one in enumerate(sorted(several, key=lambda s: s.key)):
            wanted = bare if place == 0 else f"{bare}~{_content(one.words)[:HASH_IN_ID]}"
            if one.words["id"] != wanted:
                words[one.key] = {**one.words, "id": wanted}
    return words


def _key(words: Words, same: Counter[str]) -> str:
    content = _content(words)
    if "id" in words:
        return f"{_bare_id(words)}~{content[:HASH_IN_KEY]}"
    same[content] += 1
    return f"{content[:HASH_IN_KEY]}#{same[content]}"


def _content(words: Words) -> str:
    return digest({k: v for k, v in words.items() if k != "id"})


def _bare_id(words: Words) -> str:
    own = str(words["id"])
    return own.removesuffix(f"~{_content(words)[:HASH_IN_ID]}")
