"""Whose page is drawn next when something changed that many pages show: one after the other, never all in one go.

Between two of them the loop comes round: what somebody types meanwhile, and what is ready to leave, goes before the rest.
"""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable

Draw = Callable[[], Awaitable[object]]


class Turns:
    """One for a desk. Whoever waits already is not put in a second time."""

    def __init__(self) -> None:
        self._waiting: dict[object, Draw] = {}
        self._going: asyncio.Task[None] | None = None
        self._own = asyncio.Lock()

    def wait(self, page: object, draw: Draw) -> None:
        """Draw this page when its turn comes. draw: raises nothing; it finds out then what is to be drawn."""
        self._waiting.setdefault(page, draw)
        if self._going is None or self._going.done():
            self._going = asyncio.get_running_loop().create_task(self._go())

    def leave(self, page: object) -> None:
        """This page is gone."""
        self._waiting.pop(page, None)

    async def own(self) -> None:
        """Before somebody's own answer is drawn: of many at the same moment the first one's is on its way before the next is begun."""
        async with self._own:
            await asyncio.sleep(0)

    async def _go(self) -> None:
        while self._waiting:
            await self.own()  # it goes behind them
            for page in tuple(self._waiting)[:1]:  # none where it left meanwhile
                await self._waiting.pop(page)()
