"""Who may come in over the network, and what every answer says about itself.

Nothing but this machine's own page speaks to the server: a page of another site that is open in the same browser could
otherwise ask, or open a socket, in the person's name.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from fieldapp.office_said import PATH

# The drawing engine compiles WebAssembly, starts its workers from blobs and sets style attributes. Everything else is from here.
POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval' blob:; style-src 'self' 'unsafe-inline'; "
    "img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self' blob: data: {sockets}; worker-src 'self' blob:; "
    "media-src 'self' data: blob:; manifest-src 'self'; base-uri 'self'; form-action 'none'; frame-ancestors 'none'"
)
# No embedder policy: with one the page is isolated and the drawing engine works in two threads. Twice a page hung so; where it was looked
# at it went round and round in what looks like FreeType's hinting of letters, which both threads use. What is embedded is from here anyway.
HEADERS = {
    "x-content-type-options": "nosniff",
    "x-frame-options": "DENY",
    "referrer-policy": "no-referrer",
    "permissions-policy": "geolocation=(), microphone=(), payment=(), usb=()",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}
NOT_FOUND_HERE = "Spanbook does not answer to this address."


class Doorkeeper:
    """Refuses foreign hosts and origins before anything else runs; adds the headers to every answer.

    hosts: the `Host` values that are answered, port included, lower case; None answers to every one. own_address: also answers to
    the very address at which the connection came in, so that a name which somebody points at this machine stays unanswered.
    elsewhere: pages of these origins may ask too, at the one path where jobs are sent to an office.
    """

    def __init__(
        self, app: ASGIApp, hosts: Collection[str] | None, own_address: bool = False, elsewhere: Collection[str] = ()
    ) -> None:
        self.app, self.hosts, self.own_address, self.elsewhere = app, hosts, own_address, elsewhere

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        host = headers.get("host", "").lower()
        if not self._known(host, scope.get("server")) or not self._may_ask(scope, headers.get("origin"), host):
            await self._refuse(scope, receive, send)
        elif scope["type"] == "websocket":
            await self.app(scope, receive, send)
        else:
            await self.app(scope, receive, _with_headers(send, host))

    def _known(self, host: str, server: Sequence[object] | None) -> bool:
        if not host:
            return False
        own = self.own_address and bool(server) and host == "{}:{}".format(*server or ())
        return self.hosts is None or host in self.hosts or own

    def _may_ask(self, scope: Scope, origin: str | None, host: str) -> bool:
        if _same_origin(origin, host):
            return True
        return scope["type"] == "http" and scope["path"] == PATH and origin is not None and origin.lower() in self.elsewhere

    async def _refuse(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008})
        else:
            await PlainTextResponse(NOT_FOUND_HERE, status_code=421)(scope, receive, send)


def _same_origin(origin: str | None, host: str) -> bool:
    return origin is None or origin.lower() in (f"http://{host}", f"https://{host}")


def _with_headers(send: Send, host: str) -> Send:
    async def sending(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers.setdefault(name, value)  # the page to join is stricter with itself
            headers.setdefault("content-security-policy", POLICY.format(sockets=f"ws://{host} wss://{host}"))
        await send(message)

    return sending
