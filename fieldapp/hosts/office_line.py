"""Jobs to the office over this machine's own line: for the served app and for packages. A thread waits, nobody else."""

from __future__ import annotations

import asyncio
import http.client
import ssl
import urllib.error
import urllib.request
from collections.abc import Mapping
from typing import IO, Any

from fieldapp.office import LONGEST_ANSWER, Reply, UnreachableError

PATIENCE = 45.0
"""Seconds without a byte after which a line counts as gone."""


class _Nowhere(urllib.request.HTTPRedirectHandler):
    """An office does not send on to another one, and the code is for nobody else."""

    def redirect_request(self, *given: object, **more: object) -> None:
        return None


async def post(address: str, headers: Mapping[str, str], data: bytes) -> Reply:
    """See `fieldapp.office.Post`."""
    return await asyncio.to_thread(_post, address, headers, data)


def _post(address: str, headers: Mapping[str, str], data: bytes) -> Reply:
    try:
        request = urllib.request.Request(address, data, dict(headers), method="POST")
        with urllib.request.build_opener(_Nowhere).open(request, timeout=PATIENCE) as answer:
            return Reply(answer.status, _some(answer))
    except urllib.error.HTTPError as refused:
        with refused:
            return Reply(refused.code, _some(refused))
    except urllib.error.URLError as problem:
        raise UnreachableError(_why(problem.reason)) from None
    except (OSError, http.client.HTTPException, ValueError) as problem:
        raise UnreachableError(_why(problem)) from None


def _some(answer: IO[Any]) -> bytes:
    try:
        data: bytes = answer.read(LONGEST_ANSWER)
    except http.client.IncompleteRead as cut:
        return cut.partial
    return data


def _why(problem: object) -> str:
    """The system's own words for it, short."""
    if isinstance(problem, ssl.SSLCertVerificationError):
        return problem.verify_message
    return str(getattr(problem, "strerror", None) or problem)[:200]
