"""The door of a shared job: this machine's owner walks in, a guest shows a token, everybody else gets the page to join and no more.

A guest's token lies in a cookie that no script can read. It is looked at on every request and on every socket, and a socket is
ended the moment its guest is put out. Codes and tokens are never logged and stand in no address.
"""

from __future__ import annotations

import logging
from dataclasses import dataclass
from ipaddress import ip_address
from urllib.parse import parse_qs

from starlette.requests import Request, cookie_parser
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from fieldapp.hosts.guesses import Guesses
from fieldapp.hosts.join_page import join_page
from fieldapp.screens.route import Route
from fieldapp.sharing import LENGTH, Guest, RefusedError, Sharing
from fieldapp.words import say

LOCAL = ("127.0.0.1", "localhost")
LARGEST_FORM = 2048
LASTS = 14 * 24 * 3600
"""Seconds that a phone stays in without coming back."""
VISITOR = "spanbook.visitor"
PHONE = "phone"
"""Where a guest goes on who came for the app for phones: the one place that may stand behind `/join?then=`."""
_STRANGER = "Join first."
log = logging.getLogger("spanbook")


@dataclass(frozen=True, slots=True)
class Visitor:
    """Whoever came in. guest None: the owner, at the serving machine itself."""

    guest: Guest | None = None


class Door:
    """Puts a `Visitor` into the scope of whoever may come in. first: the address at which a new guest begins."""

    def __init__(self, app: ASGIApp, sharing: Sharing, routes: dict[str, Route], guesses: Guesses | None = None) -> None:
        self.app, self.sharing, self.guesses = app, sharing, guesses or Guesses()
        self._routes = routes
        sharing.wrong_lately = lambda: self.guesses.lately

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        visitor = self.visitor(scope)
        if scope["type"] == "http" and scope["path"] == "/join" and not (visitor and visitor.guest is None):
            await (await self._join(Request(scope, receive), visitor))(scope, receive, send)
        elif visitor is not None:
            await self.app({**scope, VISITOR: visitor}, receive, send)
        elif scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008})
        else:
            await self._turned_away(scope)(scope, receive, send)

    def visitor(self, scope: Scope) -> Visitor | None:
        """Who asks; None for a stranger."""
        headers = {k: v for k, v in scope["headers"] if k == b"host"}
        client = scope.get("client")
        host = headers.get(b"host", b"").decode("latin-1").rpartition(":")[0].lower()
        if client and _is_loopback(client[0]) and host in LOCAL:
            return Visitor()
        token = token_of(scope)
        guest = self.sharing.guest(token) if token else None
        return Visitor(guest) if guest else None

    def _turned_away(self, scope: Scope) -> Response:
        accept = dict(scope["headers"]).get(b"accept", b"")
        if scope["method"] == "GET" and b"text/html" in accept:
            onward = f"?then={PHONE}" if scope["path"].startswith(f"/{PHONE}/") else ""
            return RedirectResponse(f"/join{onward}", 303, {"cache-control": "no-store"})
        return PlainTextResponse(_STRANGER, 401, {"cache-control": "no-store"})

    # ---- joining -------------------------------------------------------------------------------------------------------
    async def _join(self, request: Request, visitor: Visitor | None) -> Response:
        onward = PHONE if request.query_params.get("then") == PHONE else ""
        if request.method in ("GET", "HEAD"):
            gone = None if visitor else self.sharing.gone(token_of(request.scope))
            if gone is None:
                return join_page(then=onward)
            return join_page(say(f"join.{gone.why}"), gone.guest.name, gone.guest.role, then=onward)
        if request.method != "POST":
            return PlainTextResponse("", 405)
        form = await _form(request)
        if form is None:
            return join_page(say("join.malformed"), status=400, then=onward)
        address = request.client.host if request.client else ""
        name, role = form["name"], form["role"]
        wait = self.guesses.wait(address)
        if wait:
            return join_page(say("join.wait", n=wait), name, role, 429, wait, onward)
        job = self.sharing.job_of(form["code"])
        if not job:
            self.guesses.wrong(address)
            log.warning("a wrong join code from %s", address)
            return join_page(say("join.wrong"), name, role, 403, then=onward)
        self.guesses.right(address)
        return await self._admit(request, job, name, role, visitor)

    async def _admit(self, request: Request, job: str, name: str, role: str, visitor: Visitor | None) -> Response:
        try:
            guest, token = await self.sharing.admit(job, name, role, token_of(request.scope))
        except RefusedError as refused:
            return join_page(str(refused), name, role, 400)
        if visitor and visitor.guest:
            await self.sharing.put_out(visitor.guest.id)
        place = "readback" if role == "scribe" else "review"
        to_phone = request.query_params.get("then") == PHONE
        begins = f"/{PHONE}/" if to_phone else self._routes[place].address(job=job)
        answer = RedirectResponse(begins, 303, {"cache-control": "no-store"})
        secure = request.scope["scheme"] == "https"
        answer.set_cookie(cookie_name(request.scope), token, LASTS, path="/", secure=secure, httponly=True, samesite="strict")
        return answer


def token_of(scope: Scope) -> str:
    """The token that whoever asks holds, of whatever worth; empty where they hold none."""
    cookies = next((v for k, v in scope["headers"] if k == b"cookie"), b"")
    return cookie_parser(cookies.decode("latin-1")).get(cookie_name(scope), "")


def cookie_name(scope: Scope) -> str:
    """A cookie that only this very host could have set, where the line is encrypted; ports share cookies, so it names the port."""
    port = (scope.get("server") or ("", 0))[1]
    return f"__Host-spanbook-{port}" if scope["scheme"] in ("https", "wss") else f"spanbook-{port}"


async def _form(request: Request) -> dict[str, str] | None:
    """Code, name and role as they were sent; None where that cannot be read, or is larger than such a form ever is."""
    if request.headers.get("content-type", "").split(";")[0].strip().lower() != "application/x-www-form-urlencoded":
        return None
    body = bytearray()
    async for piece in request.stream():
        body += piece
        if len(body) > LARGEST_FORM:
            return None
    try:
        said = parse_qs(body.decode("ascii"), keep_blank_values=True, strict_parsing=True, max_num_fields=LENGTH + 8, errors="strict")
    except ValueError:
        return None
    if set(said) != {"code", "name", "role"} or len(said["name"]) != 1 or len(said["role"]) != 1:
        return None
    return {"code": "".join(said["code"])[:40], "name": said["name"][0], "role": said["role"][0]}


def _is_loopback(address: str) -> bool:
    try:
        return ip_address(address).is_loopback
    except ValueError:
        return False
