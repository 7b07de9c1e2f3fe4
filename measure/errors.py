"""What can go wrong when something is read.

    SpanbookError                 everything a caller may show to a person
    ├── EntryError                one typed figure: what was read, what is expected, an example
    ├── PlaceError                one problem with its place in a file
    ├── DocumentError             every problem of one file, in one go
    ├── StoreError                the store cannot be read or written
    └── OrderError                an order cannot be written as asked

A failed check is no exception: it is a `Finding` (finding.py).
"""

from __future__ import annotations

from collections.abc import Sequence


class SpanbookError(Exception):
    """Base of every error with a sentence for a person."""


class EntryError(SpanbookError):
    """One typed figure that is not read.

    text: what was typed, letter for letter. why: what is wrong with it, without a full stop.
    do: what to type instead, with an example.
    """

    def __init__(self, text: str, why: str, do: str) -> None:
        self.text, self.why, self.do = text, why, do
        super().__init__(text, why, do)

    def __str__(self) -> str:
        # A lone surrogate could not be printed, and a mark that turns the line round would hide what was typed.
        letters = (c if c.isprintable() else " " if c.isspace() else "?" for c in self.text[:41])
        shown = "".join(letters) if len(self.text) <= 40 else "".join(letters)[:37] + "..."
        return f"“{shown}”: {self.why}. {self.do}" if shown.strip() else f"{self.why[:1].upper()}{self.why[1:]}. {self.do}"


class PlaceError(SpanbookError):
    """One problem and where it stands, as `readings[3].value` or `bay A2`."""

    def __init__(self, place: str, sentence: str) -> None:
        self.place, self.sentence = place, sentence
        super().__init__(place, sentence)

    def __str__(self) -> str:
        return f"{self.place}: {self.sentence}"


class DocumentError(SpanbookError):
    """A file that cannot be taken, with every problem found in it."""

    def __init__(self, problems: Sequence[PlaceError]) -> None:
        self.problems = tuple(problems)
        super().__init__(*self.problems)

    def __str__(self) -> str:
        return "\n".join(str(p) for p in self.problems)


class StoreError(SpanbookError):
    """The store could not be opened, read or written; the sentence says what to do."""


class OrderError(SpanbookError):
    """An order could not be written; the sentence says what to do."""
