"""The least that Flet can do, as a baseline: one button, one figure, served by the same server and the same files as the app.

    python -m fieldapp.hosts.bare
"""

from __future__ import annotations

import asyncio
import socket
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import flet as ft
import flet_web
import uvicorn
from fastapi import FastAPI, WebSocket
from flet_web.fastapi import app_manager
from flet_web.fastapi.flet_app import FletApp

from fieldapp.hosts.client_files import ClientFiles

HERE, KEY = "127.0.0.1", "7"


async def counter(page: ft.Page) -> None:
    """A tap counts; the figure is spoken as `entry`, as the app's own is."""
    figure = ft.Text("0", size=72)
    say = ft.Semantics(identifier="entry", container=True, exclude_semantics=True, label="0", content=figure)

    def tap(_: ft.Event[ft.Button]) -> None:
        figure.value = say.label = str(int(figure.value or 0) + 1)
        page.update(say)

    page.add(say, ft.Button(KEY, on_click=tap, height=64, width=120))


def site() -> FastAPI:
    """Page and socket."""

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        await app_manager.start()
        yield
        await app_manager.shutdown()

    made = FastAPI(lifespan=lifespan, docs_url=None, redoc_url=None, openapi_url=None)

    @made.get("/healthz")
    async def healthz() -> str:
        return "here"

    @made.websocket("/ws")
    async def page_socket(websocket: WebSocket) -> None:
        await FletApp(asyncio.get_running_loop(), app_manager.executor, counter, None).handle(websocket)

    made.mount("/", ClientFiles(Path(flet_web.get_package_web_dir())))
    return made


def main() -> None:
    """Serve until it is ended; its address on standard output."""
    with socket.create_server((HERE, 0)) as listener:
        print(f"The bare app is at http://{HERE}:{listener.getsockname()[1]}/", flush=True)
        config = uvicorn.Config(site(), log_config=None, access_log=False, ws="websockets-sansio", ws_per_message_deflate=False, timeout_graceful_shutdown=2)
        uvicorn.Server(config).run(sockets=[listener])


if __name__ == "__main__":
    main()
