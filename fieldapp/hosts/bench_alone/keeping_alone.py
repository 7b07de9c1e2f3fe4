"""Part of `spanbook bench phone`: readings kept on the phone's own disk, and rows of the same text committed bare beside them.

Prints `KEPT` and the milliseconds of both, as JSON.
"""

import json
import sqlite3
import time

import flet as ft

from fieldapp.desk import Desk
from fieldapp.hosts.browser import PhoneStore
from fieldapp.hosts.phone_page import open_page
from fieldapp.hosts.ports import WallClock
from fieldapp.samples import samples
from fieldapp.screens import samples_model
from measure.documents import read_job

TIMES, WARM = 200, 10


async def measured(page: ft.Page) -> None:
    phone = open_page()
    store = PhoneStore.on(phone)
    desk = Desk(store, WallClock())
    job = store.merge(None, read_job(samples_model.chosen(samples(), samples_model.FRESH)).as_dict()).job
    db = sqlite3.connect(phone.set_aside, isolation_level=None)  # the one other file that this disk has
    db.execute("PRAGMA journal_mode = DELETE")
    db.execute("PRAGMA synchronous = FULL")
    db.execute("CREATE TABLE reading (id INTEGER PRIMARY KEY, words TEXT NOT NULL) STRICT")
    took: dict[str, list[float]] = {"ours": [], "bare": []}
    for number in range(TIMES + WARM):
        value = f"41 {number % 7 * 2 + 1}/16 in"
        begun = time.perf_counter()
        await desk.keep_reading(job, "M", bay="A1", what="span", value=value)
        ours = time.perf_counter()
        db.execute("INSERT INTO reading (words) VALUES (?)", (value,))
        await phone.flush()
        ended = time.perf_counter()
        if number >= WARM:
            took["ours"].append((ours - begun) * 1000)
            took["bare"].append((ended - ours) * 1000)
    page.add(ft.Text("kept"))
    phone.shown()
    print("KEPT", json.dumps(took), flush=True)


def main() -> None:
    ft.run(measured)
