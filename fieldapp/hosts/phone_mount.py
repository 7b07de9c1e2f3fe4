"""The folder for phones, handed out by the own server below /phone/: to try it, or to put it on a colleague's phone."""

from __future__ import annotations

from pathlib import Path

from starlette.responses import Response
from starlette.routing import Mount
from starlette.staticfiles import StaticFiles
from starlette.types import Scope

# Some systems do not know these; a browser refuses a script or a wasm of another type.
_TYPES = {".mjs": "text/javascript", ".js": "text/javascript", ".wasm": "application/wasm", ".packed": "application/octet-stream"}
PATH = "/phone"


class _PhoneFiles(StaticFiles):
    def file_response(self, full_path: str, *args: object, **kwargs: object) -> Response:
        response = super().file_response(full_path, *args, **kwargs)  # type: ignore[arg-type]
        response.headers["Cache-Control"] = "no-cache"  # asked again each time, answered by ETag
        if kind := _TYPES.get(Path(full_path).suffix):
            response.headers["Content-Type"] = kind
        return response

    async def get_response(self, path: str, scope: Scope) -> Response:
        response = await super().get_response(path, scope)
        # The server's own policy is for its own pages: this one carries its policy in itself.
        response.headers["Content-Security-Policy"] = "frame-ancestors 'none'"
        return response


def phone_mount(folder: Path) -> Mount:
    """A route for the server, to stand before everything that answers at `/`. folder: as `spanbook pack` wrote it."""
    return Mount(PATH, app=_PhoneFiles(directory=folder, html=True), name="phone")
