"""The folder for phones, handed out by the own server below /phone/: to try it, or to put it on a colleague's phone."""

from __future__ import annotations

import mimetypes
import os
from collections.abc import Callable
from pathlib import Path

from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

from fieldapp.hosts.phone_app import PATH
from fieldapp.words import say

# Some systems do not know these; a browser refuses a script or a wasm of another type.
_TYPES = {".mjs": "text/javascript", ".js": "text/javascript", ".wasm": "application/wasm", ".packed": "application/octet-stream"}
_TWIN = ".packed"


class _PhoneFiles(StaticFiles):
    """folder: asked at every request, since it may come, and be replaced, while the server runs."""

    def __init__(self, folder: Callable[[], Path | None]) -> None:
        super().__init__(html=True)
        self._folder = folder

    def lookup_path(self, path: str) -> tuple[str, os.stat_result | None]:
        folder = self._folder()
        self.all_directories = [folder] if folder else []
        return super().lookup_path(path)

    def file_response(
        self, full_path: str | os.PathLike[str], stat_result: os.stat_result, scope: Scope, status_code: int = 200
    ) -> Response:
        path, twin = str(full_path), Path(f"{full_path}{_TWIN}")
        # The keeper in the phone asks for the packed twins by name; a page that has no keeper (no https) gets them all the same.
        packed = "gzip" in Headers(scope=scope).get("accept-encoding", "") and not path.endswith(_TWIN) and twin.is_file()
        if packed:
            response = super().file_response(twin, twin.stat(), scope, status_code)
            response.headers["Content-Encoding"] = "gzip"
        else:
            response = super().file_response(path, stat_result, scope, status_code)
        response.headers["Content-Type"] = (
            _TYPES.get(Path(path).suffix) or mimetypes.guess_type(path)[0] or "application/octet-stream"
        )
        response.headers["Cache-Control"] = "no-cache"  # asked again each time, answered by ETag
        response.headers["Vary"] = "accept-encoding"
        return response

    async def get_response(self, path: str, scope: Scope) -> Response:
        if self._folder() is None:
            return PlainTextResponse(say("phones.not_here"), 503, {"cache-control": "no-store"})
        response = await super().get_response(path, scope)
        # The server's own policy is for its own pages: this one carries its policy in itself.
        response.headers["Content-Security-Policy"] = "frame-ancestors 'none'"
        return response


def phone_mount(folder: Callable[[], Path | None]) -> list[Route | Mount]:
    """Routes to stand before what answers at `/`. folder: as `spanbook pack` wrote it; None while there is none."""

    async def to_folder(_: object) -> Response:
        return RedirectResponse(f"{PATH}/", 307)

    return [Route(PATH, to_folder), Mount(PATH, app=_PhoneFiles(folder), name="phone")]
