"""Whatever is fed to the reader, it reads or says in our own words what is wrong; what it reads comes out the same.

SPANBOOK_FUZZ says how many examples each test tries.
"""

import copy
import json
import re

from hypothesis import given, settings
from hypothesis import strategies as st

from measure import strict_json
from measure.documents import JobDocument, dump, read_job, read_reading
from measure.errors import DocumentError
from measure.length import Length
from measure.slope import Slope

from .conftest import DATA, FUZZ

RAW = re.compile(r"Input should|type=|input_value|pydantic|Traceback|Field required|Extra inputs", re.IGNORECASE)
EXAMPLE = strict_json.read((DATA / "contract-example.json").read_bytes())
scraps = st.one_of(
    st.none(), st.booleans(), st.integers(-3, 200), st.integers(), st.floats(), st.text(max_size=8), st.just([]), st.just({}),
    st.sampled_from(["0", "-1", "41 1/2", "2 %", "1:48", "centres", "A1", "A2", "P1", "P2", "A", "left", "none", "1,250", "nan", "TRUE", ""]),
    st.sampled_from(["2026-05-02T09:31:00Z", "2026-13-01T00:00:00Z", "9999-12-31T23:59:59-23:59", "span", "plumb", "overall", "rise"]),
    st.lists(st.just({"bay": "A1"}), max_size=2), st.dictionaries(st.text(max_size=4), st.integers(), max_size=2),
)  # fmt: skip
KEYS = sorted({key for part in EXAMPLE["readings"] + EXAMPLE["bays"] + EXAMPLE["posts"] for key in part} | {"toward", "mark", "id", "x"})


def places_of(tree, path=()):
    """Every place of a tree, the root too."""
    yield path
    pairs = tree.items() if isinstance(tree, dict) else enumerate(tree) if isinstance(tree, list) else ()
    for key, inner in pairs:
        yield from places_of(inner, (*path, key))


ALL_PLACES = list(places_of(EXAMPLE))


@st.composite
def spoiled_jobs(draw):
    """The example with a few things put elsewhere, taken out or replaced."""
    tree = json.loads(json.dumps(EXAMPLE))
    for _ in range(draw(st.integers(1, 4))):
        *way, last = draw(st.sampled_from(ALL_PLACES[1:]))
        at = tree
        try:
            for key in way:
                at = at[key]
            do = draw(st.sampled_from(["replace", "take out", "add"]))
            if do == "take out":
                del at[last]
            elif do == "add" and isinstance(at, dict):
                at[draw(st.sampled_from(KEYS) | st.text(max_size=3))] = copy.deepcopy(draw(scraps))
            else:
                at[last] = copy.deepcopy(draw(scraps))
        except (KeyError, IndexError, TypeError):
            continue
    return tree


def judged(data):
    """Reads it; a refusal is a DocumentError whose sentences are ours and can be printed. The document, or None."""
    try:
        document = read_job(data)
    except DocumentError as refused:
        assert refused.problems
        for problem in refused.problems:
            said = str(problem)
            assert said.encode() and said.isprintable() and not RAW.search(said) and problem.sentence.endswith((".", "?"))
        return None
    assert isinstance(document, JobDocument)
    return document


@settings(max_examples=FUZZ, deadline=None)
@given(spoiled_jobs())
def test_a_spoiled_job_file_is_read_or_refused_and_nothing_else(tree):
    document = judged(json.dumps(tree))
    if document is not None:
        again = read_job(dump(document.as_dict()))
        assert again == document
        assert strict_json.write(again.as_dict()) == strict_json.write(document.as_dict())


@settings(max_examples=FUZZ, deadline=None)
@given(st.binary(max_size=300) | st.text(max_size=300))
def test_any_bytes_are_read_or_refused_and_nothing_else(data):
    assert judged(data) is None


@settings(max_examples=FUZZ, deadline=None)
@given(st.data())
def test_a_job_file_with_spoiled_bytes_is_read_or_refused_and_nothing_else(data):
    spoiled = bytearray(strict_json.write(EXAMPLE).encode())
    for _ in range(data.draw(st.integers(1, 6))):
        at = data.draw(st.integers(0, len(spoiled) - 1))
        spoiled[at : at + data.draw(st.integers(0, 3))] = data.draw(st.binary(max_size=3))
    judged(bytes(spoiled))


@settings(max_examples=FUZZ, deadline=None)
@given(st.dictionaries(st.sampled_from(KEYS + ["from"]), scraps, max_size=8), st.sampled_from(["in", "mm"]))
def test_any_reading_alone_is_read_or_refused_and_nothing_else(words, units):
    try:
        made = read_reading(words, units)
    except DocumentError as refused:
        assert not RAW.search(str(refused))
    else:
        assert isinstance(made.value, (Length, Slope))
