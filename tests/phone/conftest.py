"""The folder for phones packed once, handed out by a plain server, opened in a phone."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Playwright

from fieldapp.hosts.pack import pack
from fieldapp.hosts.pack_archive import Cargo
from tests.phone.handset import Phone, StaticServer
from tests.phone.small_disk import MEGA, SmallDisk

STAND_IN = Cargo(entry="stand_in", extra=Path(__file__).parent / "stand_in")


@pytest.fixture(scope="session")
def stand_in(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The stand-in's folder. Not to be changed."""
    folder = tmp_path_factory.mktemp("packed") / "stand-in"
    pack(folder, cargo=STAND_IN)
    return folder


@pytest.fixture(scope="session")
def whole_app(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the real app. Not to be changed."""
    folder = tmp_path_factory.mktemp("packed") / "app"
    pack(folder)
    return folder


@pytest.fixture
def serve(tmp_path: Path) -> Iterator[Callable[..., StaticServer]]:
    """Hands out a copy of a folder, which the test may change: `serve(folder, under="x")`."""
    servers: list[StaticServer] = []

    def start(folder: Path, under: str = "") -> StaticServer:
        root = tmp_path / f"site{len(servers)}"
        shutil.copytree(folder, root / under, copy_function=os.link)
        servers.append(StaticServer(root))
        return servers[-1]

    yield start
    for server in servers:
        server.stop()


@pytest.fixture
def site(serve: Callable[..., StaticServer], stand_in: Path) -> StaticServer:
    """The stand-in's folder at the root of a server."""
    return serve(stand_in)


@pytest.fixture
def phone(playwright: Playwright, tmp_path: Path) -> Iterator[Phone]:
    """A new phone, its browser open. Fails at the end when anything was asked of another address."""
    phone = Phone(playwright, tmp_path / "profile")
    phone.open()
    yield phone
    phone.close()
    assert phone.foreign == []


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[SmallDisk]:
    """A small disk; it goes after the phone on it."""
    disk = SmallDisk(tmp_path / "disk", 400 * MEGA)
    yield disk
    disk.unmount()


@pytest.fixture
def small_phone(playwright: Playwright, disk: SmallDisk) -> Iterator[Phone]:
    """A new phone that has nothing but the small disk."""
    phone = Phone(playwright, disk.folder / "profile")
    try:
        phone.open()
        phone.page.set_viewport_size({"width": 390, "height": 844})
        yield phone
    finally:
        phone.close()
    assert phone.foreign == []
