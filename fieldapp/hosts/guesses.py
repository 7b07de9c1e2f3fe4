"""How often somebody may try a join code: a few times for each address, and not much oftener for all of them together.

While an address has to wait even the right code is refused, so that trying on tells nothing.
"""

from __future__ import annotations

import math
import time
from collections import OrderedDict, deque
from collections.abc import Callable
from dataclasses import dataclass

FREE = 5
"""Wrong codes of one address before it has to wait."""
FIRST_WAIT, LONGEST_WAIT = 30.0, 900.0
"""Seconds; each further wrong code doubles the wait."""
FORGIVEN = 3600.0
"""Seconds without a wrong code after which an address begins anew."""
IN_ALL, WINDOW = 40, 600.0
"""Wrong codes of all addresses together in so many seconds; beyond them nobody new gets in for a while."""
_ADDRESSES = 1000


@dataclass(slots=True)
class _Tries:
    wrong: int = 0
    last: float = 0.0
    until: float = 0.0


class Guesses:
    """clock: seconds that only grow."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._of: OrderedDict[str, _Tries] = OrderedDict()
        self._recent: deque[float] = deque(maxlen=IN_ALL)

    def wait(self, address: str) -> int:
        """Whole seconds that this address has to wait before its next try; 0 where it may try."""
        now = self._clock()
        tries = self._of.get(address)
        own = tries.until - now if tries else 0.0
        full = len(self._recent) == IN_ALL
        everybody = self._recent[0] + WINDOW - now if full else 0.0
        return max(0, math.ceil(max(own, everybody)))

    def wrong(self, address: str) -> None:
        """It tried a code that is none."""
        now = self._clock()
        tries = self._of.pop(address, None) or _Tries()
        if now - tries.last > FORGIVEN:
            tries = _Tries()
        tries.wrong, tries.last = tries.wrong + 1, now
        if tries.wrong >= FREE:
            tries.until = now + min(FIRST_WAIT * 2.0 ** min(tries.wrong - FREE, 30), LONGEST_WAIT)
        self._of[address] = tries
        self._recent.append(now)
        while len(self._of) > _ADDRESSES:
            self._of.popitem(last=False)

    def right(self, address: str) -> None:
        """It came in."""
        self._of.pop(address, None)

    @property
    def lately(self) -> int:
        """Wrong codes of all addresses in the last while: for the person at the serving machine to see."""
        now = self._clock()
        return sum(1 for at in self._recent if now - at <= WINDOW)
