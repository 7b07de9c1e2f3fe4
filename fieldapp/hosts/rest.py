"""When the server looks through its memory for what nobody needs any more: in a quiet moment, not under somebody's finger.

Python does it whenever enough was made, and then goes through everything: with 25 phones a third of a second in which no tap is
answered. While guests are here, what lies there already is left out of that (`gc.freeze`); all of it is gone through once
nothing has come from any phone for a moment, and in any case after a while.
"""

from __future__ import annotations

import asyncio
import gc
import time
from collections.abc import Callable

YOUNG = (10_000, 20, 10)
"""How much is made before what is new is gone through (see `gc.set_threshold`)."""
LOOK, QUIET, LONGEST = 1.0, 1.5, 300.0
"""Seconds: between two looks, without a word from any phone, between two sweeps at the most."""
WORTH = 10
"""Rounds of what is new before the whole is worth a sweep."""


class Rest:
    """clock: seconds that only grow."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._guests = 0
        self._heard = self._swept = clock()
        self._rounds = 0
        self._task: asyncio.Task[None] | None = None

    def came(self) -> None:
        """One more phone."""
        self._guests += 1
        if self._guests == 1:
            self._task = asyncio.get_running_loop().create_task(self._keep())

    def went(self) -> None:
        """One less."""
        self._guests -= 1
        if self._guests == 0 and self._task is not None:
            self._task.cancel()

    def heard(self) -> None:
        """Something came from a phone."""
        self._heard = self._clock()

    def due(self, rounds: int) -> bool:
        """Whether to sweep now. rounds: how often what is new was gone through since the start."""
        now = self._clock()
        if rounds - self._rounds < WORTH:
            return False
        return now - self._heard >= QUIET or now - self._swept >= LONGEST

    def sweep(self, rounds: int) -> None:
        """Go through all of it; what is left is left out from now on."""
        gc.unfreeze()
        gc.collect()
        gc.freeze()
        self._swept, self._rounds = self._clock(), rounds

    async def _keep(self) -> None:
        before = gc.get_threshold()
        gc.set_threshold(*YOUNG)
        gc.freeze()
        try:
            while True:
                await asyncio.sleep(LOOK)
                rounds = gc.get_stats()[0]["collections"]
                if self.due(rounds):
                    self.sweep(rounds)
        finally:
            gc.unfreeze()
            gc.set_threshold(*before)
