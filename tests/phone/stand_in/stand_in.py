"""A tiny app in place of the real one: it proves starting, keeping and updating without any screen of ours.

Words on it: `taps n`, `kept n`, `rows n ok`. Buttons: Tap, Keep, Burst, Fill, Take, Stay.
"""

import asyncio
import sqlite3
from datetime import UTC, datetime

import flet as ft

from fieldapp.hosts.phone_page import PhonePage, open_page


class StandIn:
    def __init__(self, phone: PhonePage) -> None:
        self.phone, self.db = phone, sqlite3.connect(phone.database)
        self.db.execute("PRAGMA synchronous=FULL")
        self.db.execute("CREATE TABLE IF NOT EXISTS reading (id INTEGER PRIMARY KEY, text TEXT NOT NULL) STRICT")
        self.db.commit()

    def rows(self) -> str:
        (count,) = self.db.execute("SELECT count(*) FROM reading").fetchone()
        (check,) = self.db.execute("PRAGMA integrity_check").fetchone()
        return f"rows {count} {check}"

    async def keep(self, text: str) -> int:
        with self.db:
            row = self.db.execute("INSERT INTO reading (text) VALUES (?)", (text,)).lastrowid
        await self.phone.flush()
        self.phone.note(lambda: 1, datetime.now(UTC))
        return int(row or 0)

    async def start(self, page: ft.Page) -> None:
        taps, kept, rows, state = (ft.Text(text) for text in ("taps 0", "-", self.rows(), ""))

        def told() -> None:
            k = self.phone.keeping
            state.value = f"{k.how} ready={k.ready} why={k.why_not} newer={k.newer} failed={bool(k.newer_failed)} gone={bool(k.gone)} {k.version}"
            page.update()

        def tap() -> None:
            taps.value = f"taps {int(taps.value.split()[1]) + 1}"

        async def keep() -> None:
            try:
                kept.value = f"kept {await self.keep('41 11/16 in')}"
            except (sqlite3.OperationalError, OSError) as problem:
                kept.value = f"not kept: {problem}"
            rows.value = self.rows()

        async def burst() -> None:
            while True:
                print("ACK", await self.keep("b" * 60), flush=True)
                await asyncio.sleep(0)

        async def fill() -> None:
            try:
                while True:
                    await self.keep("f" * 200_000)
            except (sqlite3.OperationalError, OSError) as problem:
                kept.value = f"not kept: {problem}"
            rows.value = self.rows()

        async def take() -> None:
            await self.phone.take_newer()

        async def stay() -> None:
            kept.value = f"stays {await self.phone.ask_to_stay()}"

        self.phone.subscribe(told)
        buttons = {"Tap": tap, "Keep": keep, "Burst": burst, "Fill": fill, "Take": take, "Stay": stay, "Room": self.phone.look_again}
        named = {"taps": taps, "kept": kept, "rows": rows, "state": state}
        page.add(ft.SafeArea(ft.Column(
            [ft.Semantics(identifier=name, content=text) for name, text in named.items()]
            + [ft.Button(name, on_click=act) for name, act in buttons.items()]
        )))  # fmt: skip
        told()
        self.phone.shown()


def main() -> None:
    ft.run(StandIn(open_page()).start)
