"""From the tree of a job file to a job: shape, figures, rules, and every problem on the way."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from typing import Any, TypeVar

from pydantic_core import ValidationError

from measure import document_rules, plan_words, said_words
from measure.conflict import plan_conflict
from measure.errors import DocumentError, PlaceError
from measure.figures import Figures, Problem
from measure.job import Job, Units
from measure.job_file import Part, validator
from measure.json_path import FILE, Path, place_text, shown
from measure.places import Places
from measure.plan_version import plans_of
from measure.shape_trouble import shape_problems

MOST_TOLD = 1000
"""So many problems of one file are told, and then how many more there are."""
Tree = dict[str, Any]
Made = TypeVar("Made")


def shaped(tree: object, part: Part, odd: Iterable[Problem]) -> tuple[Tree, list[Problem]]:
    """A part of a job file without what its shape forbids, and the problems of that. Changes the tree."""
    found = list(odd)
    try:
        validator(part).validate_python(tree)
    except ValidationError as refused:
        wrong = list(shape_problems(refused.errors(include_url=False)))
        for path, _ in wrong:
            _take_out(tree, path)
        found += wrong
    return (tree if isinstance(tree, dict) else {}), found


def job_of(tree: object, odd: Iterable[Problem]) -> Job:
    """The job in a tree. Raises DocumentError with every problem."""
    words, found = shaped(tree, "job", odd)
    job, more = _judged(words, whole=not found)
    raise_all([*found, *more, *_history_problems(words)], words)
    apart = _plan_apart(words)
    return replace(job, plan_apart=apart) if apart else job


def raise_all(found: list[Problem], words: Tree) -> None:
    """Raises DocumentError where something was found: each place once, in the order of the file."""
    if not found:
        return
    first: dict[Path, str] = {}
    for path, sentence in found:
        first.setdefault(path, sentence)
    ranks = {key: i for i, key in enumerate(words)}

    def rank(path: Path) -> tuple[int, int]:
        return (ranks.get(str(path[0]), -1), path[1] if len(path) > 1 and isinstance(path[1], int) else -1) if path else (-1, -1)

    ordered = sorted(first, key=rank)
    told = [PlaceError(place_text(path) + _whose(path, words), first[path]) for path in ordered[:MOST_TOLD]]
    if len(ordered) > MOST_TOLD:
        told.append(PlaceError(FILE, f"And {len(ordered) - MOST_TOLD} more problems: mend these first."))
    raise DocumentError(told)


def _take_out(tree: Any, path: Path) -> None:
    """Takes out what the shape forbids, so that the rest can still be judged; in a list it leaves an empty entry."""
    *way, last = path or ("",)
    at = tree
    for key in way:
        if isinstance(at, dict) and key not in at:
            return  # taken out already, further up
        at = at[key]
    if isinstance(at, dict):
        at.pop(last, None)
    elif path:
        at[last] = {}


def _units(words: Tree) -> Units | None:
    units: Units | None = words.get("job", {}).get("units")
    return units


def _judged(words: Tree, whole: bool) -> tuple[Job, list[Problem]]:
    """The job of a tree in the right shape, and the problems of its figures and rules. whole: nothing was taken out of it."""
    figures = Figures(_units(words))
    head, bays = words.get("job", {}), _entries(plan_words.bay, words, "bays", figures)
    job = Job(
        name=figures.name(head, "name", ("job",), "give the job a name"),
        units=figures.units or "mm",
        order_step=plan_words.order_step(head, figures),
        tape=plan_words.tape(words.get("tape", {}), figures),
        system=plan_words.system(words.get("system", {}), figures),
        glass=plan_words.glass(words.get("glass", {}), figures),
        limits=plan_words.limits(words.get("limits", {}), figures),
        runs=plan_words.runs(words.get("runs", []), bays, figures),
        posts=_entries(plan_words.post, words, "posts", figures),
        bays=bays,
        readings=_entries(said_words.reading, words, "readings", figures),
        moved=_entries(said_words.moved, words, "moved", figures),
        answers=_entries(said_words.answer, words, "answers", figures),
        site=head.get("site", ""),
        read_back=head.get("read_back", "asked"),
        plumb=head.get("plumb", "no"),
        head=plan_words.head(head),
    )
    _entries(said_words.note, words, "notes", figures)
    found = figures.problems
    return job, [*found, *_rule_problems(job, words, whole and not found)]


def _entries(read: Callable[[Any, Path, Figures], Made], words: Tree, key: str, figures: Figures) -> tuple[Made, ...]:
    return tuple([read(entry, (key, i), figures) for i, entry in enumerate(words.get(key, ()))])


def _rule_problems(job: Job, words: Tree, whole: bool) -> Iterator[Problem]:
    places = Places(job.bays, (post.id for post in job.posts), whole or _all_named(job, words))
    yield from document_rules.post_problems(job.posts)
    yield from document_rules.run_problems(words.get("runs", ()), job.bays)
    yield from document_rules.bay_problems(job.bays, job.posts)
    yield from document_rules.line_problems(job.bays, job.posts)
    if whole:
        yield from document_rules.planned_problems(job.bays, job.posts, job.system)
    yield from document_rules.reading_problems(enumerate(job.readings), places)
    yield from document_rules.moved_problems(enumerate(job.moved), places)
    yield from document_rules.answer_problems(enumerate(job.answers), places)
    for i, note in enumerate(words.get("notes", ())):
        if (sentence := places.unknown("bay", note.get("bay", ""))) is not None:
            yield ("notes", i, "bay"), sentence


def _all_named(job: Job, words: Tree) -> bool:
    """Whether no name of a place was lost with a wrong shape."""
    bays = "bays" in words and all(bay.tag and bay.run for bay in job.bays)
    return bays and "posts" in words and all(post.id for post in job.posts)


def _history_problems(words: Tree) -> Iterator[Problem]:
    """Other plans are judged as this one is; what was said of places that are gone is judged but for its place."""
    history: Tree = words.get("history", {})
    for i, other in enumerate(history.get("other_plans", ())):
        plan: Tree = other.get("plan", {})
        for path, sentence in _judged(plan, True)[1]:
            yield ("history", "other_plans", i, "plan", *path), sentence
    unplaced, figures = history.get("unplaced", {}), Figures(_units(words))
    for key, read in (("readings", said_words.reading), ("moved", said_words.moved), ("answers", said_words.answer)):
        _entries(read, unplaced, key, figures)
    for path, sentence in figures.problems:
        yield ("history", "unplaced", *path), sentence


def _plan_apart(words: Tree) -> tuple[str, ...]:
    """Where plans that were changed on two sides differ; nothing where nobody has to choose."""
    if not words.get("history", {}).get("other_plans"):
        return ()
    found = plan_conflict(plans_of(words))
    return found.differs if found is not None else ()


def _whose(path: Path, words: Tree) -> str:
    """Whose entry it is, behind its place: ` (bay A2)`."""
    if len(path) < 2 or not isinstance(path[1], int):
        return ""
    entries = words.get(str(path[0]), ())
    entry = entries[path[1]] if path[1] < len(entries) else {}
    for key, kind in (("tag", "bay"), ("id", "post"), ("bay", "bay"), ("post", "post"), ("run", "run")):
        name = entry.get(key)
        if isinstance(name, str) and name and not (kind == "post" and key == "id" and path[0] != "posts"):
            return f" ({kind} {shown(name).strip('“”')})"
    return ""
