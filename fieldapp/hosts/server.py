"""The app served by this machine: one process, one loop, one store, as many open pages as there are phones."""

from __future__ import annotations

import asyncio
import errno
import logging
import signal
import socket
import threading
import webbrowser
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from pathlib import Path

import flet as ft
import flet_web
import uvicorn
from fastapi import FastAPI, WebSocket
from flet_web.fastapi import app_manager
from flet_web.fastapi.flet_app import FletApp
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp

from fieldapp.app import App
from fieldapp.desk import Desk
from fieldapp.hosts.client_files import ClientFiles
from fieldapp.hosts.data_folder import Occupied, make_folder, usual_folder
from fieldapp.hosts.doorkeeper import Doorkeeper
from fieldapp.hosts.page_files import PageFiles, PageShare
from fieldapp.hosts.ports import Host, Place, WallClock
from measure.errors import SpanbookError
from measure.store import Store

HERE = "127.0.0.1"
LARGEST_MESSAGE = 32 * 1024 * 1024
"""Bytes of one message from a page: a job file comes in as one."""
SILENCE = 5.0
"""Seconds between two pings, and until a page that does not answer counts as gone."""
SESSION = 3600
"""Seconds that a page which is gone may come back to where it was."""
log = logging.getLogger("spanbook")


def serve(port: int, data: Path | None = None, browser: bool = True) -> int:
    """Serve until SIGINT or SIGTERM; the exit code. data: None takes this person's usual folder.

    Raises SpanbookError when the folder or the port cannot be had.
    """
    folder = usual_folder() if data is None else data
    make_folder(folder)
    logging.basicConfig(level=logging.WARNING, format="%(asctime)s %(name)s: %(message)s")
    with Occupied(folder), _listening(port) as listener:
        port = listener.getsockname()[1]
        address = f"http://{HERE}:{port}/"
        with Store.open(folder) as store:
            _run(_site(Desk(store, WallClock()), port), listener, lambda: _ready(address, browser))
    return 0


def _listening(port: int) -> socket.socket:
    """A socket that listens on this machine only."""
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((HERE, port))
    except OSError as problem:
        listener.close()
        if problem.errno in (errno.EADDRINUSE, errno.EACCES):
            why = "is taken, perhaps by Spanbook itself" if problem.errno == errno.EADDRINUSE else "is not open to you"
            raise SpanbookError(
                f"Port {port} {why}: look at http://{HERE}:{port}/, or name another, like --port {port % 60000 + 1024}."
            ) from None
        raise
    return listener


def _run(site: ASGIApp, listener: socket.socket, ready: Callable[[], None]) -> None:
    # uvicorn raises the signals that ended it once more; the work is done by then, so they end nothing else.
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, lambda *_: None)
    config = uvicorn.Config(
        site, log_config=None, access_log=False, ws="websockets-sansio", ws_ping_interval=SILENCE, ws_ping_timeout=SILENCE,
        ws_max_size=LARGEST_MESSAGE, ws_per_message_deflate=False, server_header=False, timeout_graceful_shutdown=2,
    )  # fmt: skip
    _Server(config, ready).run(sockets=[listener])


class _Server(uvicorn.Server):
    """Says so once it answers."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started and not self.should_exit:
            self._ready()


def _ready(address: str, browser: bool) -> None:
    print(f"Spanbook is at {address}", flush=True)
    if browser:
        threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()


def _site(desk: Desk, port: int) -> ASGIApp:
    """Page, socket and the sign of life, behind the doorkeeper."""

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        await app_manager.start()
        yield
        await app_manager.shutdown()

    site = FastAPI(lifespan=lifespan, docs_url=None, redoc_url=None, openapi_url=None)

    @site.get("/healthz")
    async def healthz() -> PlainTextResponse:
        return PlainTextResponse("here", headers={"cache-control": "no-store"})

    async def start(page: ft.Page) -> None:
        host = Host(PageFiles(), PageShare(), WallClock(), Place("served"))
        await App(page, host, desk).start()

    @site.websocket("/ws")
    async def page_socket(websocket: WebSocket) -> None:
        loop = asyncio.get_running_loop()
        page = FletApp(loop, app_manager.executor, start, None, session_timeout_seconds=SESSION)
        await page.handle(websocket)

    site.mount("/", ClientFiles(Path(flet_web.get_package_web_dir())))
    hosts = {f"{name}:{port}" for name in (HERE, "localhost")}
    return Doorkeeper(site, hosts)
