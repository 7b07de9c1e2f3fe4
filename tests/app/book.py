"""A book with something on every page: samples as they were taped, one to try, small ones in both units, and a crew."""

from __future__ import annotations

import asyncio
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path

from fieldapp.device import LOOK
from fieldapp.samples import sample, samples
from fieldapp.screens import samples_model
from fieldapp.screens.new_form import NewForm, RunForm
from measure.documents import dump
from tests.fieldapp.deck_file import SYSTEMS, deck_file
from tests.fieldapp.harness import opened

DEVICE = "here"
"""A page that a server on this machine serves is this device."""


def fill(folder: Path, person: str = "Mona", **look: object) -> dict[str, str]:
    """Jobs by a short name -> id: `deck` and `terrace` taped, `stair`, `fresh` and `mm` not yet. look: as in fieldapp.device."""
    files = {
        "fresh": samples_model.chosen(samples(), samples_model.FRESH), "mm": dump(deck_file("mm", name="Millimetres")),
        "stair": sample("mill-stair-and-ramp").data, "terrace": sample("harbour-terrace").data, "deck": sample("boathouse-deck").data,
    }  # fmt: skip

    folder.mkdir(parents=True, exist_ok=True)

    async def work() -> dict[str, str]:
        with opened(folder) as desk:
            jobs = {name: (await desk.take_file(data)).job for name, data in files.items()}
            await desk.keep_setting(f"{DEVICE} look", {**LOOK, **look})
            await desk.keep_draft(DEVICE, "/new#form", BEGUN.text)
            if person:
                await desk.keep_setting(f"{DEVICE} person", person)
                await desk.keep_setting("crew", [{"name": "Mona"}, {"name": "Kai"}])
            return jobs

    with ThreadPoolExecutor(1) as other:  # a browser's loop runs in this thread
        return other.submit(asyncio.run, work()).result()


PAGES = {
    "jobs": "/", "bin": "/bin", "job": "/jobs/{deck}", "samples": "/samples", "settings": "/settings", "person": "/settings/crew/+", "guide": "/guide/tape",
    "guide-phone": "/guide/phone", "guide-keeps": "/guide/keeps", "guide-site": "/guide/site", "phones": "/settings/phones",
    "intake": "/settings/jobs-from-phones", "office": "/job/{deck}/office",
    "walk-span": "/job/{fresh}/walk/A1", "walk-mm": "/job/{mm}/walk/A1", "walk-rise": "/job/{fresh}/read/A1/rise",
    "walk-plumb": "/job/{stair}/read/S1/plumb-left", "walk-overall": "/job/{fresh}/read/A1/overall-outside",
    "answer-clear": "/job/{deck}/walk/A1", "answer-query": "/job/{terrace}/walk/A3", "more": "/job/{deck}/more/A1",
    "taken-span": "/job/{fresh}/taken/A1/span", "taken-rise": "/job/{fresh}/taken/A1/rise",
    "stands": "/job/{terrace}/stands/A3/neighbour", "moved": "/job/{deck}/moved/A1", "note": "/job/{deck}/note/A1",
    "history": "/job/{deck}/history/A1", "review-clear": "/job/{deck}/review", "review": "/job/{terrace}/review",
    "bays": "/job/{terrace}/bays/A", "issue": "/job/{terrace}/issue", "plan": "/job/{deck}/plan", "sides": "/job/{deck}/sides",
    "both": "/job/{deck}/both/A1", "say": "/job/{deck}/say/A1", "share": "/job/{deck}/share", "ask": "/job/{deck}/ask",
    "order": "/job/{deck}/order", "readback": "/job/{deck}/readback", "new": "/new", "new-system": "/new/system",
    "new-sheet": "/new/sheet", "new-glass": "/new/glass", "new-limits": "/new/limits", "new-run": "/new/run/0", "new-runs": "/new/runs",
    "new-figure": "/new/figure/least_bite", "new-words": "/new/words/edge_top", "new-tape": "/new/tape", "new-head": "/new/head",
    "new-turning": "/new/turning", "new-presets": "/new/kept/system", "new-ends": "/new/ends/0", "new-turn": "/new/turn/1",
    "new-face": "/new/face/0", "change-keep": "/job/{deck}/plan/keep", "change-earlier": "/job/{deck}/plan/earlier",
    "change-add-run": "/job/{deck}/plan/add-run", "change-run": "/job/{deck}/plan/run/A", "change-post": "/job/{deck}/plan/post/P5",
    "change-figure-of": "/job/{deck}/plan/bay/A1/figure/spacing", "change-words-of": "/job/{deck}/plan/run/A/words/seen_from",
    "change-name": "/job/{deck}/plan/name", "change-tape": "/job/{deck}/plan/tape", "change-head": "/job/{deck}/plan/head",
    "change-system": "/job/{deck}/plan/system", "change-sheet": "/job/{deck}/plan/sheet", "change-turning": "/job/{deck}/plan/turning",
    "change-glass": "/job/{deck}/plan/glass", "change-limits": "/job/{deck}/plan/limits", "change-figure": "/job/{deck}/plan/figure/least_bite",
    "change-words": "/job/{deck}/plan/words/edge_top", "change-presets": "/job/{deck}/plan/kept/system",
}  # fmt: skip
"""Every screen, by a short name -> its address in the filled book."""
ELSEWHERE = {
    "phone": "only where the app runs alone in a phone: tests/phone",
    "letter": "opened from a code that another phone shows: tests/two_people/test_letter.py",
    "answer": "opened from a code that another phone shows: tests/two_people/test_letter.py",
    "new-preset": "what was kept under a name: tests/fieldapp/test_presets.py", "change-preset": "as new-preset",
}  # fmt: skip
"""Screens that a filled book alone does not open, and where they are tried."""
BEGUN = replace(NewForm.fresh().say("system", **SYSTEMS["in"], name="Grooved post"), runs=(RunForm(2, "44 in", right="wall"), RunForm(1, "40 in")))
"""A new job that is half said."""
