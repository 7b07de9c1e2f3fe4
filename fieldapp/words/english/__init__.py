"""English, a file a screen. A new screen's words: make its file, and add it to `FILES`."""

from __future__ import annotations

from fieldapp.words.english import (
    answer,
    app,
    bays,
    change,
    check,
    guide,
    intake,
    jobs,
    join,
    letter,
    more,
    name,
    new,
    office,
    order,
    page,
    phone,
    phones,
    readback,
    review,
    samples,
    say,
    settings,
    share,
    sides,
    stands,
    start,
    taken,
    walk,
)

FILES = (
    answer,
    app,
    bays,
    change,
    check,
    order,
    page,
    phone,
    phones,
    readback,
    review,
    guide,
    intake,
    office,
    jobs,
    join,
    letter,
    more,
    name,
    new,
    samples,
    say,
    settings,
    share,
    sides,
    stands,
    start,
    taken,
    walk,
)


def _joined() -> dict[str, str | tuple[str, str]]:
    table: dict[str, str | tuple[str, str]] = {}
    for file in FILES:
        name = file.__name__.rpartition(".")[2]
        for key, words in file.WORDS.items():
            if not key.startswith(f"{name}.") or key in table:
                raise ValueError(f"{key} in {name}.py: a key begins with its file's name and stands once")
            table[key] = words
    return table


TABLE = _joined()
