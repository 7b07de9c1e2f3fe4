"""The app's own store and desk without a screen: readings kept one after the other, to be killed in the middle of it.

Words on it: `kept n`, `rows n ok`, `version n`, `before n` (of the store, and of what was set aside). Buttons: Keep, Burst, Take.
"""

import asyncio

import flet as ft

from fieldapp.desk import Desk
from fieldapp.hosts.browser import PhoneStore
from fieldapp.hosts.phone_page import open_page
from fieldapp.hosts.ports import WallClock
from fieldapp.samples import samples
from fieldapp.screens import samples_model
from measure.documents import read_job
from measure.errors import StoreError


class Readings:
    def __init__(self) -> None:
        self.phone = open_page()
        self.store = PhoneStore.on(self.phone)
        self.desk = Desk(self.store, WallClock())
        there = self.store.jobs()
        fresh = samples_model.chosen(samples(), samples_model.FRESH)
        self.job = there[0].id if there else self.store.merge(None, read_job(fresh).as_dict()).job

    def rows(self) -> str:
        return f"rows {self.store.rows('SELECT count(*) AS n FROM reading')[0]['n']} {' '.join(self.store.troubles()) or 'ok'}"

    def before(self) -> int:
        """The version of what was set aside, as SQLite writes it into a file's header; 0: nothing was."""
        aside = self.phone.set_aside
        return int.from_bytes(aside.read_bytes()[60:64]) if aside.exists() else 0

    async def keep(self, number: int) -> None:
        await self.desk.keep_reading(self.job, "M", bay=f"A{number % 3 + 1}", what="span", value=f"41 {number % 7 * 2 + 1}/16 in")

    async def start(self, page: ft.Page) -> None:
        try:
            await self.store.begin()
        except StoreError as problem:
            self.phone.refuse(str(problem))
            return
        await self.show(page)

    async def show(self, page: ft.Page) -> None:
        kept, rows = ft.Text("-"), ft.Text(self.rows())
        count = int(rows.value.split()[1])

        async def keep() -> None:
            await self.keep(count)
            kept.value = f"kept {count + 1}"
            rows.value = self.rows()
            page.update()

        async def burst() -> None:
            number = count
            while True:
                await self.keep(number)
                number += 1
                print("ACK", number, flush=True)
                await asyncio.sleep(0)

        async def take() -> None:
            await self.phone.take_newer()

        def told() -> None:
            state.value = f"newer={self.phone.keeping.newer}"
            page.update()

        version = ft.Text(f"version {self.store.rows('PRAGMA user_version')[0]['user_version']}")
        state, before = ft.Text(""), ft.Text(f"before {self.before()}")
        shown = {"kept": kept, "rows": rows, "version": version, "before": before, "state": state}
        page.add(*(ft.Semantics(identifier=name, content=text) for name, text in shown.items()))
        page.add(ft.Button("Keep", on_click=keep), ft.Button("Burst", on_click=burst), ft.Button("Take", on_click=take))
        self.phone.subscribe(told)
        told()
        self.phone.shown()


def main() -> None:
    ft.run(Readings().start)
