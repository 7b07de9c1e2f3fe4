"""Where an office takes jobs in over the network: its own path, a code in a header, nothing looked at before the code is right.

A page of another origin gets an answer only where this office's user named that origin; it has no cookie here and needs none.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import logging
from collections.abc import Collection
from datetime import UTC
from typing import Any

from starlette.datastructures import Headers
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from fieldapp.hosts.guesses import Guesses
from fieldapp.hosts.ports import Clock
from fieldapp.intake import Intake, Letting, OtherJobError
from fieldapp.office_said import LARGEST_JOB, PATH, PROTOCOL, SCHEME
from measure.errors import DocumentError, StoreError

SLOWEST = 60.0
"""Seconds that a job may take to come in."""
MOST_AT_ONCE = 4
"""Jobs that come in at one time; the next ones are told to come again."""
ALLOWED = "authorization, content-type"
MOST_TOLD = 400
log = logging.getLogger("spanbook")


class OfficeDoor:
    """Answers at `PATH` and hands everything else on. origins: of pages elsewhere that may send, `https://app.example`."""

    def __init__(
        self,
        app: ASGIApp,
        intake: Intake,
        guesses: Guesses,
        clock: Clock,
        origins: Collection[str] = (),
        slowest: float = SLOWEST,
    ) -> None:
        self.app, self._intake, self._guesses, self._clock = app, intake, guesses, clock
        self._origins, self._slowest = frozenset(origins), slowest
        self._coming = 0

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http" or scope["path"] != PATH:
            await self.app(scope, receive, send)
            return
        request = Request(scope, receive)
        try:
            answer = self._preflight(request) if request.method == "OPTIONS" else await self._answer(request)
        except ClientDisconnect:  # it sends again
            return
        answer.headers["cache-control"] = "no-store"
        answer.headers["vary"] = "origin"
        origin = request.headers.get("origin", "").lower()
        if origin in self._origins:
            answer.headers["access-control-allow-origin"] = origin
        await answer(scope, receive, send)

    def _preflight(self, request: Request) -> Response:
        """What a browser asks before it lets a page elsewhere send. From this very server it does not ask."""
        if request.headers.get("origin", "").lower() not in self._origins:
            return Response(status_code=403)
        return Response(
            status_code=204,
            headers={
                "access-control-allow-methods": "POST",
                "access-control-allow-headers": ALLOWED,
                "access-control-max-age": "600",
            },
        )

    async def _answer(self, request: Request) -> Response:
        if request.method != "POST":
            return _refused(405, "method")
        letting, refused = self._letting(request)
        if letting is None:
            await self._let_pass(request)
            return refused
        self._coming += 1
        try:
            return await self._take_in(request, letting)
        finally:
            self._coming -= 1

    def _letting(self, request: Request) -> tuple[Letting | None, Response]:
        """What is let in by what stands before the first byte of the job; None, and why, where nothing is."""
        address = request.client.host if request.client else ""
        if wait := self._guesses.wait(address):
            return None, _refused(429, "wait", seconds=wait)
        scheme, _, code = request.headers.get("authorization", "").partition(" ")
        if scheme.lower() != SCHEME.lower() or not code.strip():
            return None, _refused(401, "code")
        letting = self._intake.letting(code)
        if letting is None:
            self._guesses.wrong(address)
            log.warning("a wrong code for the office from %s", address)
            return None, _refused(403, "code")
        self._guesses.right(address)
        trouble = _head_trouble(request.headers)
        if trouble is None and self._coming >= MOST_AT_ONCE:
            trouble = _refused(503, "busy", seconds=5)
        return (None, trouble) if trouble else (letting, Response())

    async def _let_pass(self, request: Request) -> None:
        """Throw away what comes after a refusal: who still sends when the line is closed never reads why, and tries again."""
        passed = 0
        with contextlib.suppress(TimeoutError):
            async with asyncio.timeout(self._slowest):
                async for piece in request.stream():
                    passed += len(piece)
                    if passed > LARGEST_JOB:
                        return

    async def _take_in(self, request: Request, letting: Letting) -> Response:
        try:
            async with asyncio.timeout(self._slowest):
                data = await _body(request)
        except TimeoutError:
            return _refused(408, "slow")
        if data is None:
            return _refused(413, "large", most=LARGEST_JOB)
        try:
            taken = await self._intake.take(data, letting)
        except OtherJobError:
            return _refused(409, "job")
        except DocumentError as problem:
            return _refused(422, "file", sentence=str(problem)[:MOST_TOLD])
        except StoreError as problem:
            log.error("a job that was sent could not be kept: %s", problem)
            return _refused(500, "store")
        at = self._clock.now().astimezone(UTC).isoformat(timespec="seconds").replace("+00:00", "Z")
        told = {"office": PROTOCOL, "job": taken.job, "at": at, "has": taken.held.counts, "digest": taken.held.digest}
        return JSONResponse({**told, "plan": taken.plan, "new": taken.news})


def _head_trouble(headers: Headers) -> Response | None:
    """What is wrong with a job before its first byte."""
    if headers.get("content-type", "").split(";")[0].strip().lower() != "application/json":
        return _refused(415, "type")
    if headers.get("content-encoding", "identity").strip().lower() != "identity":
        return _refused(415, "type")
    length = headers.get("content-length", "0")
    if not length.isdecimal() or len(length) > 15 or int(length) > LARGEST_JOB:
        return _refused(413, "large", most=LARGEST_JOB)
    return None


async def _body(request: Request) -> bytes | None:
    """What was sent; None where it is larger than a job may be."""
    body = bytearray()
    async for piece in request.stream():
        body += piece
        if len(body) > LARGEST_JOB:
            return None
    return bytes(body)


def _refused(status: int, why: str, **more: Any) -> Response:
    """why: one word, for the phone to choose its own words by."""
    headers = {"retry-after": str(more["seconds"])} if "seconds" in more else {}
    headers |= {"allow": "POST, OPTIONS"} if status == 405 else {}
    return Response(json.dumps({"office": PROTOCOL, "refused": why, **more}), status, headers, media_type="application/json")
