"""The app as a native package (Android, iOS, desktop): the same screens, its store in the folder that the system gives it.

`main.py` at the top of the project starts this; `flet build` puts both into the package. Not built or tried here: see DEVELOPERS.md.
"""

from __future__ import annotations

import os
from pathlib import Path

import flet as ft

from fieldapp.app import App
from fieldapp.desk import Desk
from fieldapp.hosts.office_line import post
from fieldapp.hosts.page_files import PageFiles, PageShare
from fieldapp.hosts.ports import Host, Place, WallClock
from fieldapp.office import Office
from measure.store import Store


def data_folder() -> Path:
    """Where the system lets this app keep things for good; the working folder where no system says (a developer's run)."""
    folder = Path(os.environ.get("FLET_APP_STORAGE_DATA") or ".")
    folder.mkdir(parents=True, exist_ok=True)
    return folder


def main() -> None:
    """Open the store and hand every page of this process to the app. Raises StoreError for a store that cannot be used."""
    desk = Desk(Store.open(data_folder()), WallClock())
    office = Office(desk, post, WallClock())

    async def start(page: ft.Page) -> None:
        await App(page, Host(PageFiles(), PageShare(), WallClock(), Place("packaged"), office=office), desk).start()
        office.start()

    ft.run(start, assets_dir="assets")
