"""What the list of samples shows. Pure."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from fieldapp.samples import Sample
from fieldapp.words import say

FRESH = "fresh"
FRESH_OF = "boathouse-deck"
"""The sample that is offered without its readings too: something to tape at once."""
_SAID = ("readings", "moved", "answers", "notes")


@dataclass(frozen=True, slots=True)
class SampleRow:
    """key: what `chosen` takes."""

    key: str
    name: str
    sentence: str


def rows(samples: list[Sample]) -> list[SampleRow]:
    """The fresh one first, then all as they were taped."""
    found = [_row(s.name, json.loads(s.data)) for s in samples]
    fresh = [_fresh(json.loads(s.data)) for s in samples if s.name == FRESH_OF]
    return [*(_row(FRESH, document) for document in fresh), *found]


def chosen(samples: list[Sample], key: str) -> bytes:
    """The job file of a row; KeyError when there is none."""
    by_name = {s.name: s.data for s in samples}
    if key == FRESH:
        return json.dumps(_fresh(json.loads(by_name[FRESH_OF]))).encode()
    return by_name[key]


def _fresh(document: dict[str, Any]) -> dict[str, Any]:
    """The same job before the first reading, under a name of its own: it is another job."""
    job = {**document["job"], "name": say("samples.fresh_name", name=document["job"]["name"])}
    return {k: v for k, v in document.items() if k not in _SAID and k != "history"} | {"job": job}


def _row(key: str, document: dict[str, Any]) -> SampleRow:
    bays = [b for b in document["bays"] if b.get("glass") != "none"]
    taped = {r["bay"] for r in document.get("readings", ()) if r["what"] == "span" and "bay" in r}
    units = say(f"jobs.units_{document['job']['units']}")
    sentence = say("samples.row" if taped else "samples.row_untaped", bays=len(bays), taped=len(taped), units=units)
    return SampleRow(key, document["job"]["name"], sentence)
