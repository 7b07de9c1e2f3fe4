"""Job files that a person picked or let go over the page, taken in one after the other; what is no job file is said by its name."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from fieldapp.hosts.ports import AS_TEXT, LARGEST_FILES, PickedFile
from fieldapp.screens.jobs_model import refusal
from fieldapp.words import say
from measure.errors import DocumentError

if TYPE_CHECKING:
    from fieldapp.app import App

ENDINGS = (".json", f".json{AS_TEXT}")
_MB = 1024 * 1024


async def take_in(app: App, files: Sequence[PickedFile]) -> None:
    """One job that came alone is opened; of several the list of jobs tells. What was said differently on two sides is told at once."""
    ids, refused, sides = [], [], 0
    for file in files:
        if wrong := refused_file(file):
            refused.append(wrong)
            continue
        try:
            result = await app.desk.take_file(file.data)
            ids.append(result.job)
            sides += len(result.conflicts)
        except DocumentError as problem:
            refused.append(refusal(file.name, problem))
    if len(ids) == 1 == len(files):
        app.open_job(ids[0])
    elif ids:
        app.go("jobs")
    if refused:
        app.tell("\n".join([*refused, *([say("sides.count", n=sides)] if sides else [])]))
    elif sides:
        app.tell(say("sides.count", n=sides), found=True)


def refused_file(file: PickedFile) -> str:
    """Why a file is not even looked into; empty where it is."""
    if not file.name.lower().endswith(ENDINGS):
        return say("jobs.other_kind", name=file.name)
    return "" if file.data else say("jobs.empty_or_large", name=file.name, most=LARGEST_FILES // _MB)
