"""What pydantic found wrong with the shape of a job file, told in our own words and with its place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from pydantic_core import ErrorDetails

from measure.job_file import keys_at
from measure.json_path import Path, shown

NEEDED = {
    "by": "say who, such as \"M\"",
    "at": "say when, such as \"2026-05-02T09:31:00Z\"",
    "value": "give the figure as it was read, such as \"35 1/4 in\"",
    "what": "say what was read, such as \"span\" or \"rise\"",
    "units": "say \"in\" or \"mm\"",
    "format": "write \"spanbook-job/1\"",
    "check": "say which check, such as \"off-plan\"",
    "reason": "say in writing why it stands",
    "tag": "give the bay its tag, such as \"A1\"",
    "run": "say which run, such as \"A\"",
    "left": "say which post stands at the left, such as \"P1\"",
    "right": "say which post stands at the right, such as \"P2\"",
    "kind": "say \"end\", \"line\", \"corner\" or \"wall\"",
}
_KINDS = {type(None): "null", dict: "an object in braces", list: "a list"}
_EXPECTED = {
    "string_type": "a text in double quotes belongs here",
    "bool_type": "true or false belongs here, without quotes",
    "list_type": "a list in square brackets belongs here",
    "dict_type": "an object in braces belongs here",
    "int_type": "a whole number belongs here",
    "figure": "a figure belongs here, as text with its unit or as a bare number",
    "number": "a bare number belongs here, such as 90",
}


def shape_problems(errors: Iterable[ErrorDetails]) -> Iterator[tuple[Path, str]]:
    """Path and sentence of each."""
    for error in errors:
        yield tuple(error["loc"]), _sentence(error)


def _sentence(error: ErrorDetails) -> str:
    kind, given = error["type"], error["input"]
    key = str(error["loc"][-1]) if error["loc"] else ""
    if kind == "missing":
        return f"This is needed and not there: {NEEDED.get(key, 'add it')}."
    if kind == "extra_forbidden":
        return "Nothing of this name is known here: " + _meant(tuple(error["loc"]))
    if given is None and key:
        return "null says nothing: leave the key out, or give what belongs here."
    if kind == "literal_error":
        return f"{_given(given)} is not known here: say {_choices(error)}."
    if kind == "string_too_long":
        return f"This text has {len(given)} characters: shorten it to {error['ctx']['max_length']}."
    expected = _EXPECTED.get(kind, "this is not what belongs here")
    return f"{expected[:1].upper()}{expected[1:]}, and {_given(given)} was given."


def _meant(path: Path) -> str:
    """What may be meant by an unknown key."""
    from difflib import get_close_matches  # slow to import, and needed for a misspelt file only

    close = get_close_matches(str(path[-1]), keys_at(path[:-1]), n=1)
    return f"is {close[0]} meant? Else take it out." if close else "check its spelling, or take it out."


def _choices(error: ErrorDetails) -> str:
    return str(error["ctx"]["expected"]).replace("'", '"')


def _given(value: object) -> str:
    if isinstance(value, str):
        return shown(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    return _KINDS.get(type(value)) or f"the number {value}"
