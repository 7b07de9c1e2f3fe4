"""Every word that the app asks for is there, and every word that is there is asked for."""

import ast
import string
from datetime import UTC, datetime
from pathlib import Path

import pytest

from fieldapp.words import LANGUAGES, day, listed, say
from fieldapp.words.english import FILES, TABLE

SOURCES = [p for p in Path("fieldapp").rglob("*.py") if "english" not in p.parts]


def keys_in(source: str) -> tuple[set[str], list[tuple[str, ...]]]:
    """Keys said in a source text: whole ones, and the fixed pieces of those put together with f-strings."""
    whole: set[str] = set()
    pieces: list[tuple[str, ...]] = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and node.value in TABLE:
            whole.add(node.value)
        elif isinstance(node, ast.JoinedStr):
            fixed = tuple(v.value if isinstance(v, ast.Constant) else "\0" for v in node.values)
            pieces.append(fixed)
    return whole, pieces


def said_keys(source: str) -> set[str]:
    """Keys given to our `say` as they stand, also through `a if b else c`."""
    found = set()
    tree = ast.parse(source)
    imports = {(n.module, a.name, a.asname) for n in ast.walk(tree) if isinstance(n, ast.ImportFrom) for a in n.names}
    if ("fieldapp.words", "say", None) not in imports and "def say(" not in source:
        return found
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "say" and node.args:
            first = node.args[0]
            branches = [first.body, first.orelse] if isinstance(first, ast.IfExp) else [first]
            found |= {b.value for b in branches if isinstance(b, ast.Constant)}
    return found


def fits(key: str, fixed: tuple[str, ...]) -> bool:
    """Whether an f-string with these fixed pieces can make the key."""
    pattern = "".join(fixed)
    begin, *rest = pattern.split("\0")
    if not begin.count(".") or not key.startswith(begin):
        return False
    return not rest or key.endswith(rest[-1])


def test_every_key_that_is_said_stands_in_the_table():
    missing = {(str(p), key) for p in SOURCES for key in said_keys(p.read_text()) if key not in TABLE}
    assert missing == set()


def test_every_key_in_the_table_is_said_somewhere():
    whole: set[str] = set()
    pieces: list[tuple[str, ...]] = []
    for path in SOURCES:
        some, more = keys_in(path.read_text())
        whole |= some
        pieces += more
    # A file of words that is handed out whole is asked for by its name.
    handed_out = {f"{name}." for name in ("start",) if any(f'startswith("{name}.")' in p.read_text() for p in SOURCES)}
    unsaid = {key for key in TABLE if key not in whole and not any(fits(key, fixed) for fixed in pieces)}
    unsaid = {key for key in unsaid if not key.startswith(tuple(handed_out))}
    assert unsaid == set()


def test_every_file_of_words_is_in_the_table():
    files = {p.stem for p in Path("fieldapp/words/english").glob("*.py")} - {"__init__"}
    assert {f.__name__.rpartition(".")[2] for f in FILES} == files


@pytest.mark.parametrize("language", sorted(LANGUAGES))
def test_every_language_has_the_same_keys_with_the_same_figures(language):
    def figures(words):
        pairs = words if isinstance(words, tuple) else (words,)
        return {name for one in pairs for _, name, _, _ in string.Formatter().parse(one) if name}

    other = LANGUAGES[language]
    assert {k: figures(w) for k, w in other.items()} == {k: figures(w) for k, w in TABLE.items()}


@pytest.mark.parametrize(("count", "expected"), [(0, "0 jobs"), (1, "1 job"), (2, "2 jobs")])
def test_the_first_number_chooses_between_one_and_more(count, expected):
    assert say("jobs.count_served", n=count).startswith(expected)


def test_a_key_that_no_table_has_is_an_error():
    with pytest.raises(KeyError):
        say("jobs.no_such_key")


@pytest.mark.parametrize(
    ("names", "expected"),
    [([], ""), (["A3"], "A3"), (["A3", "B2"], "A3 and B2"), (["A3", "B2", "C1"], "A3, B2 and C1"), (list("abcdefgh"), "a, b, c, d, e, f and 2 more")],
)
def test_names_are_listed_as_people_say_them(names, expected):
    assert listed(names) == expected


def test_a_day_is_said_without_its_year():
    assert day(datetime(2026, 5, 2, 12, tzinfo=UTC)) == "2 May"


def test_a_bay_without_glass_has_one_name_wherever_it_is_shown_or_heard():
    keys = ("new.none", "change.glass_none", "review.gate")
    assert {say(key) for key in keys} == {"no glass"} and say("app.bay_gate", tag="A2") == "A2, no glass"
