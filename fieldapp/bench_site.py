"""A folder handed out as a plain web server does it, over a line of one speed that all its requests share."""

from __future__ import annotations

import functools
import http.server
import threading
import time
from pathlib import Path
from typing import Any

PIECE = 16_384


class Site:
    """Answers from its making on. name: how this machine is called in the address (two names are two sites to a browser).

    bits: of the line, a second; 0: as fast as it goes. delay: seconds until an answer begins. sent: bytes of all bodies so far.
    """

    def __init__(self, folder: Path, name: str) -> None:
        self.bits, self.delay, self.sent = 0, 0.0, 0
        self._free, self._turn = 0.0, threading.Lock()
        self._server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(_Answer, site=self, directory=str(folder)))
        self._server.daemon_threads = True
        threading.Thread(target=self._server.serve_forever, kwargs={"poll_interval": 0.05}, daemon=True).start()
        self.address = f"http://{name}:{self._server.server_address[1]}/"

    def take(self, size: int) -> None:
        """Wait until this many bytes have gone over the line."""
        with self._turn:
            self.sent += size
            self._free = max(time.monotonic(), self._free) + (size * 8 / self.bits if self.bits else 0)
            free = self._free
        time.sleep(max(free - time.monotonic(), 0))

    def close(self) -> None:
        self._server.shutdown()
        self._server.server_close()


class _Answer(http.server.SimpleHTTPRequestHandler):
    protocol_version = "HTTP/1.1"  # a connection is kept, as every server does
    extensions_map = {**http.server.SimpleHTTPRequestHandler.extensions_map, ".mjs": "text/javascript", ".wasm": "application/wasm"}

    def __init__(self, *given: Any, site: Site, directory: str) -> None:
        self._site = site
        super().__init__(*given, directory=directory)

    def do_GET(self) -> None:
        time.sleep(self._site.delay)
        super().do_GET()

    def copyfile(self, source: Any, outputfile: Any) -> None:
        while piece := source.read(PIECE):
            self._site.take(len(piece))
            outputfile.write(piece)

    def log_message(self, format: str, *given: object) -> None:
        """Nobody reads it."""
