"""What the list of samples shows. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from fieldapp.live_job import LiveJob, Sign, worst
from fieldapp.samples import Sample
from fieldapp.words import say
from measure.documents import dump, read_job, read_words

FRESH = "fresh"
FRESH_OF = "boathouse-deck"
"""The sample that is offered without its readings too: something to tape at once."""
_SAID = ("readings", "moved", "answers", "notes")


@dataclass(frozen=True, slots=True)
class SampleRow:
    """key: what `chosen` takes. sign: the worst that stands in its way, so that there is something to look for."""

    key: str
    name: str
    sentence: str
    sign: Sign


def rows(samples: list[Sample]) -> list[SampleRow]:
    """The fresh one first, then all as they were taped."""
    found = [_row(s.name, read_job(s.data).as_dict()) for s in samples]
    fresh = [_fresh(read_job(s.data).as_dict()) for s in samples if s.name == FRESH_OF]
    return [*(_row(FRESH, document) for document in fresh), *found]


def fresh(samples: list[Sample]) -> SampleRow:
    """The one to tape at once."""
    return next(_row(FRESH, _fresh(read_job(s.data).as_dict())) for s in samples if s.name == FRESH_OF)


def chosen(samples: list[Sample], key: str) -> bytes:
    """The job file of a row; KeyError when there is none."""
    by_name = {s.name: s.data for s in samples}
    if key == FRESH:
        return dump(_fresh(read_job(by_name[FRESH_OF]).as_dict()))
    return by_name[key]


def _fresh(document: dict[str, Any]) -> dict[str, Any]:
    """The same job before the first reading, under a name of its own: it is another job."""
    job = {**document["job"], "name": say("samples.fresh_name", name=document["job"]["name"])}
    return {k: v for k, v in document.items() if k not in _SAID and k != "history"} | {"job": job}


def _row(key: str, document: dict[str, Any]) -> SampleRow:
    live = LiveJob(key, read_words(document).job())
    progress = live.progress()
    units, in_the_way = say(f"jobs.units_{live.units}"), live.in_the_way()
    if not live.readings:
        sentence, sign = say("samples.row_untaped", bays=progress.bays, units=units), "todo"
    else:
        told = "samples.row_to_look_at" if in_the_way else "samples.row_clear"
        sentence, sign = say(told, bays=progress.bays, taped=progress.kept, units=units), worst(in_the_way)
    return SampleRow(key, live.name, sentence, sign)
