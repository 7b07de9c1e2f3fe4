"""Jobs that phones send to this office: which code lets what in, and what is told back.

A job's join code lets in what a guest may add to that very job: readings, moved posts, answers and notes; a plan that differs
stays with its phone. The office's own code, eight signs, lets whole jobs in, new ones and changed plans too.
"""

from __future__ import annotations

import hmac
import secrets
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING

from fieldapp.hosts.ports import Clock, WallClock
from fieldapp.office_said import Tally, held, keys_of
from fieldapp.sharing import SIGNS, plain_code
from fieldapp.words import say
from measure.documents import read_job
from measure.errors import SpanbookError
from measure.merge import Copy

if TYPE_CHECKING:
    from fieldapp.desk import Desk
    from fieldapp.sharing import Sharing

LENGTH = 8
MOST_TOLD = 12
_KEPT, _CAME = "intake", "intake came"


class OtherJobError(SpanbookError):
    """The code is that of another job."""


@dataclass(frozen=True, slots=True)
class Letting:
    """What a code lets in. job: this one only; empty for every job."""

    job: str = ""


@dataclass(frozen=True, slots=True)
class Taken:
    """held: what is kept here, on the disk, of what was sent. plan: whether the sent plan is known here too."""

    job: str
    held: Tally
    plan: bool
    news: int


@dataclass(frozen=True, slots=True)
class Came:
    """A job that came in with something new. at: by this machine's clock, RFC 3339. readings: how many of them were new."""

    job: str
    name: str
    at: str
    readings: int


class Intake:
    """One for a desk. What changes is kept before it counts."""

    def __init__(self, desk: Desk, sharing: Sharing, clock: Clock | None = None) -> None:
        self._desk, self._sharing, self._clock = desk, sharing, clock or WallClock()
        self._code = str(desk.setting(_KEPT, {}).get("code", ""))

    @property
    def code(self) -> str:
        """The office's own code; empty while it takes in no jobs of its own."""
        return self._code

    @property
    def came(self) -> tuple[Came, ...]:
        """What came in with something new, the last one first; each job once."""
        return tuple(Came(**one) for one in self._desk.setting(_CAME, ()))

    async def open(self) -> str:
        """Take jobs in; the code. The same one while it stays open."""
        return self._code or await self.renew()

    async def renew(self) -> str:
        """Another code; phones with the old one are refused."""
        await self._keep("".join(secrets.choice(SIGNS) for _ in range(LENGTH)))
        return self._code

    async def close(self) -> None:
        """No jobs by the office's own code any more."""
        await self._keep("")

    def letting(self, code: str) -> Letting | None:
        """What this code lets in; None for nothing. Takes the same time for every code of a length."""
        if self._code and hmac.compare_digest(plain_code(code).encode(), self._code.encode()):
            return Letting()
        job = self._sharing.job_of(code)
        return Letting(job) if job else None

    async def take(self, data: bytes, letting: Letting) -> Taken:
        """A job file that was sent. When it returns, it is kept.

        Raises DocumentError with every problem, OtherJobError where the code does not let this job in, StoreError.
        """
        words = read_job(data).as_dict()
        sent = Copy.of(words)
        store = self._desk.store
        if letting.job:
            if sent.uid != letting.job:
                raise OtherJobError(say("intake.other_job"))
            here = Copy.of(store.document(letting.job), letting.job)
            if here.plan.plan["job"]["units"] != sent.plan.plan["job"]["units"]:
                raise OtherJobError(say("intake.other_job"))
            words = Copy(here.uid, here.plans, sent.said).document()
        result = store.merge(None, words)
        await self._desk.kept("jobs", f"job {result.job}", anew=result.job)
        now = Copy.of(store.document(result.job), result.job)
        known = {v.id for v in now.plans} | {earlier for v in now.plans for earlier in v.before}
        news = result.readings + result.moved + result.answers + result.notes
        if result.news:
            await self._note(result.job, result.readings)
        return Taken(result.job, held(keys_of(sent), keys_of(now)), {v.id for v in sent.plans} <= known, news)

    async def _note(self, job: str, readings: int) -> None:
        at = self._clock.now().isoformat(timespec="seconds")
        now = Came(job, self._desk.store.card(job).name, at, readings)
        kept = [asdict(one) for one in (now, *(c for c in self.came if c.job != job))][:MOST_TOLD]
        await self._desk.keep_setting(_CAME, kept, tell=False)
        self._desk.changed("intake")

    async def _keep(self, code: str) -> None:
        await self._desk.keep_setting(_KEPT, {"code": code}, tell=False)
        self._code = code
        self._desk.changed("intake")
