"""Jobs to the office from the phone alone: the browser's own `fetch`, asked from Python's worker."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping

from fieldapp.hosts.phone_app import PATH
from fieldapp.office import LONGEST_ANSWER, Reply, UnreachableError

PATIENCE = 45.0
"""Seconds after which a line counts as gone."""


async def post(address: str, headers: Mapping[str, str], data: bytes) -> Reply:
    """See `fieldapp.office.Post`. A browser tells no reason why there was no answer."""
    from pyodide.ffi import JsException
    from pyodide.http import pyfetch

    try:
        async with asyncio.timeout(PATIENCE):
            answer = await pyfetch(
                address, method="POST", headers=dict(headers), body=data, mode="cors", credentials="omit", redirect="error",
                cache="no-store", referrerPolicy="no-referrer",
            )  # fmt: skip
            return Reply(answer.status, (await answer.bytes())[:LONGEST_ANSWER])
    except (OSError, JsException):  # TimeoutError is an OSError
        raise UnreachableError("") from None


def came_from() -> tuple[str, bool]:
    """(the address of the Spanbook that handed this app out, empty where a plain host did; whether the page is encrypted)."""
    from js import location

    page = str(location.origin)
    return (page if str(location.pathname).startswith(f"{PATH}/") else ""), page.startswith("https:")
