"""A line between phone and server that can be cut or frozen, on this machine: a TCP relay in a thread."""

from __future__ import annotations

import contextlib
import select
import socket
import threading
from typing import Self

_PIECE = 65_536
_LOOK = 0.05
"""Seconds between two looks at what is to be done."""


class CuttableLine:
    """Relays `port` to the server's. `freeze`: nothing goes through and nobody is told. `cut`: every connection ends, none comes up.

    The server answers to its own address only, so the address is turned on the way; both ports have five digits.
    """

    def __init__(self, server_port: int, host: str = "127.0.0.1") -> None:
        self._server = (host, server_port)
        self._listener = socket.create_server(("127.0.0.1", 0))
        self.port = self._listener.getsockname()[1]
        self._names = (f"127.0.0.1:{self.port}".encode(), f"{host}:{server_port}".encode())
        self._open, self._flows, self._up = True, threading.Event(), threading.Event()
        self._flows.set()
        self._up.set()
        self._pairs: set[tuple[socket.socket, socket.socket]] = set()
        threading.Thread(target=self._accept, daemon=True).start()

    def freeze(self) -> None:
        self._flows.clear()

    def thaw(self) -> None:
        self._flows.set()

    def cut(self) -> None:
        self._up.clear()
        for pair in tuple(self._pairs):
            _hang_up(*pair)

    def mend(self) -> None:
        self._up.set()

    def _accept(self) -> None:
        while self._open:
            with contextlib.suppress(OSError):
                phone, _ = self._listener.accept()
                if not self._up.is_set():
                    _hang_up(phone)
                    continue
                threading.Thread(target=self._relay, args=(phone,), daemon=True).start()

    def _relay(self, phone: socket.socket) -> None:
        try:
            server = socket.create_connection(self._server)
        except OSError:
            _hang_up(phone)
            return
        pair = (phone, server)
        self._pairs.add(pair)
        with contextlib.suppress(OSError, ValueError):
            while self._open:
                ready, _, _ = select.select(pair, (), (), _LOOK)
                if not self._flows.is_set():
                    self._flows.wait(_LOOK)
                    continue
                if any(not self._pass(one, pair) for one in ready):
                    break
        self._pairs.discard(pair)
        _hang_up(*pair)

    def _pass(self, one: socket.socket, pair: tuple[socket.socket, socket.socket]) -> bool:
        piece, outward = one.recv(_PIECE), one is pair[0]
        if piece:
            here, there = self._names if outward else self._names[::-1]
            pair[1 if outward else 0].sendall(piece.replace(here, there))
        return bool(piece)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._open = False
        self._flows.set()
        self.cut()
        self._listener.close()


def _hang_up(*ends: socket.socket) -> None:
    for end in ends:
        with contextlib.suppress(OSError):
            end.shutdown(socket.SHUT_RDWR)
        end.close()
