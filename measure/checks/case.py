"""What a check sees of one bay, and how it says what it found."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Protocol

from measure.as_read import counted
from measure.book import Book
from measure.finding import Finding, Slip, Verdict
from measure.geometry import Exact, magnitude
from measure.job import Job
from measure.length import NM_PER_MM, Length
from measure.opening import Opening
from measure.plan import Bay
from measure.reading import Reading
from measure.rounding import apart_text, plain_text


class Solved(Protocol):
    """Where solved bays are found, each solved once."""

    book: Book

    def of(self, bay: Bay) -> Opening | None: ...


@dataclass(slots=True)
class BayCase:
    """One bay with glass. opening: None while its figures do not suffice. every: clear findings are wanted too."""

    solved: Solved
    bay: Bay
    opening: Opening | None
    every: bool = True

    @property
    def book(self) -> Book:
        return self.solved.book

    @property
    def job(self) -> Job:
        return self.solved.book.job

    def text(self, length: Length) -> str:
        """A length as it would be typed in the job's units."""
        return plain_text(length, self.job.units)

    def apart(self, nm: Exact) -> str:
        """A difference or a computed length in the job's units, fine enough to compare."""
        return apart_text(Length(round(magnitude(nm))), self.job.units)

    def read(self, reading: Reading) -> str:
        """A reading as typed, with what it counts as where that differs."""
        return counted(reading, self.job.units)

    def found(
        self,
        check: str,
        verdict: Verdict,
        sentence: str,
        rests: Iterable[Reading | None] = (),
        slips: tuple[Slip, ...] = (),
        facts: tuple[tuple[str, str], ...] = (),
        unread: str = "",
    ) -> Finding:
        """A finding at this bay, with the written answer that counts where it is a query. rests: the readings behind it."""
        at = max((r.at for r in rests if r is not None), default=None)
        answer = self.book.answer(self.bay.tag, check, at) if verdict == "query" else None
        stops = self.bay.status == "to order"
        return Finding(check, verdict, sentence, self.bay.tag, None, at, answer, slips, facts, stops, unread)

    def clear(
        self, check: str, sentence: Callable[[], str], facts: Callable[[], tuple[tuple[str, str], ...]] = tuple
    ) -> Iterator[Finding]:
        """A clear finding, made only where such are wanted."""
        if self.every:
            yield Finding(check, "clear", sentence(), self.bay.tag, facts=facts())


BayCheck = Callable[[BayCase], Iterator[Finding]]


def mm(nm: Exact) -> float:
    """nm as float millimetres, to be compared with an uncertainty."""
    return float(nm) / NM_PER_MM
