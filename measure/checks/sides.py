"""Two sides that said different things, neither knowing of the other: nothing is decided until a person says which one holds."""

from __future__ import annotations

from collections.abc import Iterator

from measure.book import Book
from measure.checks.case import BayCase
from measure.checks.closing import RunCase
from measure.conflict import CHECK, plan_sentence, sentence_of, undecided
from measure.finding import Finding
from measure.opening import rise_reading
from measure.plan_told import names_in
from measure.reading import What


def two_sides(case: BayCase) -> Iterator[Finding]:
    """Query: two sides took a first reading of one thing and differ. The newest counts as long as nobody says which."""
    book, bay = case.book, case.bay
    rise = rise_reading(book, bay)
    kinds: list[What] = ["span", *([rise.what] if rise else []), "top-span", "diagonal-rising", "diagonal-falling"]
    for what in kinds:
        if sides := undecided(book, "bay", bay.tag, what):
            yield case.found(CHECK, "query", sentence_of(book, bay.tag, sides), sides)
    for post in (bay.left, bay.right):
        for line in ("", bay.run):
            if sides := undecided(book, "post", post, "plumb", line):
                yield case.found(CHECK, "query", sentence_of(book, f"post {post}", sides), sides)


def run_two_sides(case: RunCase) -> Iterator[Finding]:
    """Query: the same of a run taped as a whole."""
    kinds: tuple[What, ...] = ("overall", "overall-rise")
    for what in kinds:
        if sides := undecided(case.book, "run", case.run, what):
            yield case.found(CHECK, "query", sentence_of(case.book, f"run {case.run}", sides), sides)


def two_plans(book: Book) -> Iterator[Finding]:
    """Hold: the plan was changed on two sides and nobody chose yet. Every panel is made from it."""
    if book.job.plan_apart:
        stops = any(b.status == "to order" and b.has_glass for b in book.job.bays)
        yield Finding(CHECK, "hold", plan_sentence(book.job.plan_apart, names_in(book.job)), stops=stops)
