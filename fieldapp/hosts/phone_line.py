"""The switch in the app: a second way in for phones, opened and closed while the server goes on for its owner."""

from __future__ import annotations

import asyncio
import socket
from collections.abc import Callable

import uvicorn

from fieldapp.hosts.network import HERE, Network, own_address
from fieldapp.words import say
from measure.errors import SpanbookError

Listen = Callable[[str, int], socket.socket]


class PhoneLine:
    """config: as that of the owner's server, without its start and end. address: to listen at; None finds this machine's own."""

    def __init__(self, config: uvicorn.Config, network: Network, port: int, listen: Listen, address: str | None = None) -> None:
        self._config, self._network, self._port, self._listen, self._address = config, network, port, listen, address
        self._server: uvicorn.Server | None = None
        self._work: asyncio.Task[None] | None = None

    async def open(self) -> str:
        """Answer phones from now on; the address where they find it. Raises SpanbookError where there is no network."""
        address = self._address or own_address()
        if address == HERE:
            raise SpanbookError(say("share.no_network"))
        if self._server is None:
            listener = self._listen(address, self._port)
            if not self._config.loaded:
                self._config.load()
            server = uvicorn.Server(self._config)
            server.lifespan = self._config.lifespan_class(self._config)
            await server.startup([listener])
            self._server, self._work = server, asyncio.create_task(server.main_loop())
        return Network(address, self._network.cert, self._network.key).address(self._port)

    async def close(self) -> None:
        """Answer nobody but the owner; open lines are ended."""
        server, self._server = self._server, None
        if server is not None and self._work is not None:
            server.should_exit = True
            await self._work
            await server.shutdown()
