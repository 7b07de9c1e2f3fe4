"""The files of the page: our own first, then the app's letters and pictures, then the drawing engine's.

Each is packed once (gzip) and kept packed, so a second phone costs no computing; browsers ask again by ETag only.
"""

from __future__ import annotations

import gzip
import mimetypes
import os
from pathlib import Path
from string import Template

import anyio.to_thread
from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse, Response
from starlette.staticfiles import NotModifiedResponse, StaticFiles
from starlette.types import Scope

from fieldapp.screens import ROUTES
from fieldapp.screens.route import find
from fieldapp.words import LANGUAGE, say

# Some systems do not know these.
mimetypes.add_type("text/javascript", ".mjs")
mimetypes.add_type("text/javascript", ".js")
mimetypes.add_type("application/wasm", ".wasm")
mimetypes.add_type("font/ttf", ".ttf")
mimetypes.add_type("font/otf", ".otf")

PACKED = {".js", ".mjs", ".wasm", ".json", ".css", ".ttf", ".otf", ".html"}
NOT_SERVED = (".map", ".symbols", ".py", ".pyc")
PAGE = Path(__file__).parent / "page"
ASSETS = Path(__file__).parent.parent / "assets"


class ClientFiles(StaticFiles):
    """Static files of several folders; a screen's address, and any path without an ending, gets the page."""

    def __init__(self, engine: Path) -> None:
        super().__init__(directory=PAGE)
        self.all_directories = [PAGE, ASSETS, engine]
        self._index = Template((PAGE / "index.html").read_text(encoding="utf-8")).substitute(
            language=LANGUAGE, title=say("app.name"), description=say("app.what_it_is"), opening=say("page.opening"), drop=say("page.drop"),
            no_connection=say("page.no_connection"), shut=say("page.shut"), needs_script=say("page.needs_script"),
        ).encode()  # fmt: skip
        self._packed: dict[str, tuple[float, bytes]] = {}

    async def get_response(self, path: str, scope: Scope) -> Response:
        if scope["method"] not in ("GET", "HEAD"):
            return PlainTextResponse("", 405)
        if path in (".", "index.html") or not os.path.splitext(path)[1] or find(ROUTES, path):
            return Response(self._index, media_type="text/html", headers={"cache-control": "no-cache"})
        if path.endswith(NOT_SERVED) or path.startswith("pyodide"):
            return PlainTextResponse("", 404)
        full, stat = await anyio.to_thread.run_sync(self.lookup_path, path)
        if stat is None or not os.path.isfile(full):
            return PlainTextResponse("", 404)
        response = self.file_response(full, stat, scope)
        response.headers["cache-control"] = "no-cache"
        if isinstance(response, NotModifiedResponse) or not _may_pack(full, stat.st_size, scope):
            return response
        return await self._pack(full, stat.st_mtime, response)

    async def _pack(self, full: str, changed: float, plain: Response) -> Response:
        kept = self._packed.get(full)
        if kept is None or kept[0] != changed:
            kept = (changed, await anyio.to_thread.run_sync(_gzipped, full))
            self._packed[full] = kept
        headers = {"content-encoding": "gzip", "vary": "accept-encoding", "cache-control": "no-cache"}
        headers |= {name: plain.headers[name] for name in ("etag", "last-modified")}
        return Response(kept[1], media_type=plain.media_type, headers=headers)


def _may_pack(full: str, size: int, scope: Scope) -> bool:
    if size < 1024 or os.path.splitext(full)[1] not in PACKED:
        return False
    return "gzip" in Headers(scope=scope).get("accept-encoding", "")


def _gzipped(full: str) -> bytes:
    return gzip.compress(Path(full).read_bytes(), 6, mtime=0)
