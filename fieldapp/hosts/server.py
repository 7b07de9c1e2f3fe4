"""The app served by this machine: one process, one loop, one store, as many open pages as there are phones."""

from __future__ import annotations

import asyncio
import errno
import logging
import signal
import socket
import threading
import webbrowser
from collections.abc import AsyncIterator, Awaitable, Callable, Collection
from contextlib import ExitStack, asynccontextmanager
from pathlib import Path
from typing import Literal

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
from fieldapp.guest_desk import GuestDesk
from fieldapp.hosts.client_files import ClientFiles
from fieldapp.hosts.data_folder import Occupied, make_folder, usual_folder
from fieldapp.hosts.door import LOCAL, VISITOR, Door, Visitor
from fieldapp.hosts.doorkeeper import Doorkeeper
from fieldapp.hosts.guesses import Guesses
from fieldapp.hosts.guest_socket import GuestSockets
from fieldapp.hosts.network import Network
from fieldapp.hosts.office_door import OfficeDoor
from fieldapp.hosts.office_line import post
from fieldapp.hosts.page_files import PageFiles, PageShare
from fieldapp.hosts.phone_folder import PhoneFolder
from fieldapp.hosts.phone_line import PhoneLine
from fieldapp.hosts.phone_mount import phone_mount
from fieldapp.hosts.ports import Host, Place, WallClock
from fieldapp.intake import Intake
from fieldapp.office import Office
from fieldapp.screens import ROUTES
from fieldapp.sharing import Sharing
from measure.errors import SpanbookError
from measure.store import Store

LARGEST_MESSAGE = 32 * 1024 * 1024
"""Bytes of one message from a page: a job file comes in as one."""
SILENCE = 20.0
"""Seconds between two pings, and until a page that does not answer counts as gone.

A phone whose screen goes dark for a moment answers late; the page tells of a lost line by itself, much sooner.
"""
SESSION = 3600
"""Seconds that a page which is gone may come back to where it was."""
MOST_AT_ONCE = 400
"""Connections at one time; beyond them the server says that it is busy."""
log = logging.getLogger("spanbook")


def serve(
    port: int, data: Path | None = None, browser: bool = True, network: Network | None = None, phone: Path | None = None
) -> int:
    """Serve until SIGINT or SIGTERM; the exit code. data: None takes this person's usual folder. network: whom it answers, and how.

    phone: a folder for phones to hand out, as `spanbook pack` wrote it; None makes one when the person says so.
    Raises SpanbookError when the folder, the port, the address or the certificate cannot be had.
    """
    network = network or Network()
    network.check()
    folder = usual_folder() if data is None else data
    make_folder(folder)
    phones = PhoneFolder(folder, phone)
    logging.basicConfig(level=logging.WARNING, format="%(asctime)s %(name)s: %(message)s")
    with Occupied(folder), ExitStack() as open_:
        listeners = [open_.enter_context(_listening(network.binds[0], port))]
        port = listeners[0].getsockname()[1]
        listeners += [open_.enter_context(_listening(one, port)) for one in network.binds[1:]]
        with Store.open(folder) as store:
            desk = Desk(store, WallClock())
            desk.sharing = Sharing(desk, network.address(port))
            phones.here = network.own(port)
            site = _site(desk, port, phones, network.origins)
            if not network.shared:
                desk.sharing.line = PhoneLine(_config(site, network, lifespan="off"), network, port, _listening)
            _run(_config(site, network), listeners, lambda: _ready(network, port, browser))
    return 0


def _listening(address: str, port: int) -> socket.socket:
    """A socket that listens at one address of this machine; at 127.0.0.1 nobody else reaches it."""
    listener = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listener.bind((address, port))
    except OSError as problem:
        listener.close()
        if problem.errno == errno.EADDRNOTAVAIL:
            raise SpanbookError(f"{address} is no address of this machine. Leave it out, or name one that it has.") from None
        if problem.errno in (errno.EADDRINUSE, errno.EACCES):
            why = "is taken, perhaps by Spanbook itself" if problem.errno == errno.EADDRINUSE else "is not open to you"
            raise SpanbookError(
                f"Port {port} {why}: look at http://127.0.0.1:{port}/, or name another, like --port {port % 60000 + 1024}."
            ) from None
        raise
    return listener


def _config(site: ASGIApp, network: Network, lifespan: Literal["auto", "off"] = "auto") -> uvicorn.Config:
    return uvicorn.Config(
        site, log_config=None, access_log=False, ws="websockets-sansio", ws_ping_interval=SILENCE, ws_ping_timeout=SILENCE,
        ws_max_size=LARGEST_MESSAGE, ws_per_message_deflate=False, server_header=False, timeout_graceful_shutdown=2,
        ssl_certfile=network.cert, ssl_keyfile=network.key, proxy_headers=False, limit_concurrency=MOST_AT_ONCE, lifespan=lifespan,
    )  # fmt: skip


def _run(config: uvicorn.Config, listeners: list[socket.socket], ready: Callable[[], None]) -> None:
    # uvicorn raises the signals that ended it once more; the work is done by then, so they end nothing else.
    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, lambda *_: None)
    _Server(config, ready).run(sockets=listeners)


class _Server(uvicorn.Server):
    """Says so once it answers."""

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started and not self.should_exit:
            self._ready()


def _ready(network: Network, port: int, browser: bool) -> None:
    address = network.own(port)
    print(f"Spanbook is at {address}", flush=True)
    if network.shared:
        print(f"Phones on the same network find it at {network.address(port)}", flush=True)
        print("They need the join code of a job: open the job here, then Review, then Second phone.", flush=True)
    if browser:
        threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()


def _site(desk: Desk, port: int, phones: PhoneFolder, origins: Collection[str]) -> ASGIApp:
    """Page, socket, the folder for phones and the sign of life, behind the door; jobs for the office; all behind the doorkeeper."""
    assert desk.sharing is not None
    sharing, sockets, guesses = desk.sharing, GuestSockets(), Guesses()
    office, intake = Office(desk, post, WallClock()), Intake(desk, sharing)
    sharing.leaving(lambda guest: sockets.end(guest.id))
    phones.address, phones.changed = lambda: sharing.address, lambda: desk.changed("phone-app")

    owners = lambda: Host(  # noqa: E731
        PageFiles(), PageShare(), WallClock(), Place("served"), phone_app=phones, office=office, intake=intake
    )

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        await app_manager.start()
        phones.bring_up_to_date()
        office.start()
        yield
        await office.close()
        await phones.close()
        if sharing.line is not None:
            await sharing.line.close()
        await app_manager.shutdown()

    site = FastAPI(lifespan=lifespan, docs_url=None, redoc_url=None, openapi_url=None)

    @site.get("/healthz")
    async def healthz() -> PlainTextResponse:
        return PlainTextResponse("here", headers={"cache-control": "no-store"})

    @site.websocket("/ws")
    async def page_socket(websocket: WebSocket) -> None:
        visitor: Visitor = websocket.scope[VISITOR]
        loop = asyncio.get_running_loop()
        page = FletApp(loop, app_manager.executor, _starter(desk, visitor, owners), None, session_timeout_seconds=SESSION)
        if visitor.guest is None:
            await page.handle(websocket)
        else:
            await sockets.hold(visitor.guest, page, websocket)

    site.router.routes += phone_mount(lambda: phones.served)
    site.mount("/", ClientFiles(Path(flet_web.get_package_web_dir())))
    hosts = {f"{name}:{port}" for name in LOCAL}
    door = OfficeDoor(Door(site, sharing, ROUTES, guesses), intake, guesses, WallClock(), origins)
    return Doorkeeper(door, hosts, own_address=True, elsewhere=origins)


def _starter(desk: Desk, visitor: Visitor, owners: Callable[[], Host]) -> Callable[[ft.Page], Awaitable[None]]:
    """What begins a page for this visitor: the owner at the desk itself, a guest at their own part of it. owners: a host for one page."""

    async def start(page: ft.Page) -> None:
        guest, sharing = visitor.guest, desk.sharing
        if guest is None or sharing is None:
            await App(page, owners(), desk).start()
            return
        place = Place("served", shared=True, device=guest.device, guest=guest.id, role=guest.role)
        host = Host(PageFiles(), PageShare(), WallClock(), place)
        await App(page, host, GuestDesk(desk, sharing, guest)).start()  # type: ignore[arg-type]

    return start
