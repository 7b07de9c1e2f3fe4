"""Jobs on their way to the office: sent when the person says so, in the background where they switched it on, until acknowledged.

Nothing is sent of a job that nobody asked for. What counts as sent is what the office answered that it keeps: by its content, not
by anybody's clock. The time that is shown is the office's.
"""

from __future__ import annotations

import asyncio
import contextvars
import json
from collections.abc import Awaitable, Callable, Mapping
from dataclasses import asdict, dataclass, replace
from datetime import datetime
from typing import TYPE_CHECKING, Any, Literal

from fieldapp.office_said import LARGEST_JOB, PATH, PROTOCOL, SCHEME, tally_of
from fieldapp.sharing import plain_code
from measure.documents import dump

if TYPE_CHECKING:
    from fieldapp.desk import Desk
    from fieldapp.hosts.ports import Clock

Kind = Literal["unreachable", "later", "code", "wait", "job", "large", "file", "stranger", "partly"]
"""What went wrong. `later`: the office is busy or has trouble of its own. `partly`: it does not keep all that was sent."""
NEEDS_A_PERSON = frozenset({"code", "job", "large", "file"})
"""Trying again changes nothing; a wrong code tried on and on would shut others out. A stranger may be a hotspot's own page."""
QUIET = 1.5
"""Seconds after the last change before a job goes out: a burst of figures goes as one."""
FIRST_WAIT, LONGEST_WAIT = 5.0, 600.0
"""Seconds until the next try; each failure doubles the wait."""
LONGEST_ANSWER = 64 * 1024
_BY_STATUS: dict[int, Kind] = {
    401: "code",
    403: "code",
    429: "wait",
    409: "job",
    413: "large",
    422: "file",
    415: "stranger",
    405: "stranger",
}


@dataclass(frozen=True, slots=True)
class Reply:
    """What an address answered."""

    status: int
    body: bytes


class UnreachableError(OSError):
    """No answer came: no network, no such address, a certificate that is not trusted, a page that may not ask there."""


Post = Callable[[str, Mapping[str, str], bytes], Awaitable[Reply]]
"""Send these bytes to an address, never on to another one. Raises UnreachableError."""


@dataclass(frozen=True, slots=True)
class Trouble:
    """seconds: how long the office wants to be left alone. told: what it said itself of the file."""

    kind: Kind
    seconds: int = 0
    told: str = ""


@dataclass(frozen=True, slots=True)
class Sending:
    """As it is kept for one job. on: it is sent by itself. at: the office's time of its last answer, empty: never.

    changes, readings: of the job as it was sent then. plan: the office has its plan too.
    """

    address: str = ""
    code: str = ""
    on: bool = False
    at: str = ""
    changes: int = -1
    readings: int = 0
    plan: bool = True


@dataclass(frozen=True, slots=True)
class Standing:
    """How a job stands with the office. waiting: readings not yet with it. all_there: nothing of the job is missing there."""

    sending: Sending
    busy: bool
    trouble: Trouble | None
    waiting: int
    all_there: bool


class Office:
    """One for a desk. here: the address that this app came from, where that is a Spanbook; else empty.

    waits: first and longest wait between two tries, and the quiet before one, in seconds.
    """

    def __init__(
        self, desk: Desk, post: Post, clock: Clock, here: str = "", secure_page: bool = False,
        waits: tuple[float, float, float] = (FIRST_WAIT, LONGEST_WAIT, QUIET),
    ) -> None:  # fmt: skip
        self._desk, self._post, self._clock, self.here, self.secure_page, self._waits = (
            desk,
            post,
            clock,
            here,
            secure_page,
            waits,
        )
        self._work: dict[str, asyncio.Task[None]] = {}
        self._busy: set[str] = set()
        self._trouble: dict[str, Trouble] = {}
        self._nudged = asyncio.Event()
        self._leave: Callable[[], None] = lambda: None

    # ---- what the person chose -----------------------------------------------------------------------------------------
    def sending(self, job: str) -> Sending:
        """As it is kept; for a job that was never sent, the office that another one went to."""
        kept = self._desk.setting(_key(job))
        if kept is not None:
            return Sending(**kept)
        last = self._desk.setting("office", {})
        return Sending(str(last.get("address", "") or self.here), str(last.get("code", "")))

    def standing(self, job: str) -> Standing:
        """How it stands now. Raises StoreError where there is no such job."""
        sending, card = self.sending(job), self._desk.store.card(job)
        readings = len(self._desk.job(job).readings)
        waiting = max(readings - sending.readings, 0) if sending.at else readings
        all_there = bool(sending.at) and sending.changes >= card.changes and sending.plan
        return Standing(sending, job in self._busy, self._trouble.get(job), waiting, all_there)

    async def choose(self, job: str, address: str, code: str, on: bool) -> None:
        """Keep where a job goes, and whether by itself. Another office has nothing of it yet."""
        before = self.sending(job)
        now = replace(before, address=address, code=plain_code(code), on=on)
        if before.address != address:
            now = replace(Sending(), address=now.address, code=now.code, on=on)
        self._trouble.pop(job, None)
        await self._keep(job, now)
        await self._desk.keep_setting("office", {"address": now.address, "code": now.code}, tell=False)
        self._soon(job)

    # ---- in the background ---------------------------------------------------------------------------------------------
    def start(self) -> None:
        """Go on with what is switched on; on the loop. A second call changes nothing."""
        self._leave()
        self._leave = self._desk.subscribe(self._heard)
        for card in self._desk.jobs():
            self._soon(card.id)

    async def close(self) -> None:
        """No more; what was not acknowledged goes out after the next start."""
        self._leave()
        work, self._work = list(self._work.values()), {}
        for one in work:
            one.cancel()
        await asyncio.gather(*work, return_exceptions=True)

    def nudge(self) -> None:
        """The network is back: waiting is over."""
        self._nudged.set()
        self._nudged = asyncio.Event()

    def _heard(self, topics: frozenset[str]) -> None:
        for topic in topics:
            what, _, job = topic.partition(" ")
            if what == "job":
                self._soon(job)

    def _soon(self, job: str) -> None:
        """See to a job, unless somebody does already. Cheap where it is not switched on: it stands in the way of every tap."""
        if job in self._work or not self._desk.setting(_key(job), {}).get("on"):
            return
        # A context of its own: every page is told of what comes of it, the one whose tap began it too.
        self._work[job] = contextvars.Context().run(asyncio.ensure_future, self._see_to(job))

    def _wanted(self, job: str) -> bool:
        """Whether it is switched on and something of it is not with the office; one that went into the bin is left alone."""
        kept = self._desk.setting(_key(job))
        if not kept or not kept["on"] or not any(card.id == job for card in self._desk.jobs()):
            return False
        trouble = self._trouble.get(job)
        return not (trouble and trouble.kind in NEEDS_A_PERSON) and kept["changes"] < self._desk.store.card(job).changes

    async def _see_to(self, job: str) -> None:
        first, longest, quiet = self._waits
        wait = first
        try:
            await asyncio.sleep(quiet)
            while self._wanted(job):
                trouble = await self.send_now(job)
                if trouble is None:
                    wait = first
                    await asyncio.sleep(quiet)
                    continue
                nudged, pause = self._nudged, max(wait, float(trouble.seconds))
                wait = min(wait * 2, longest)
                try:
                    await asyncio.wait_for(nudged.wait(), pause)
                except TimeoutError:
                    continue
        finally:
            self._work.pop(job, None)

    # ---- one try -------------------------------------------------------------------------------------------------------
    async def send_now(self, job: str) -> Trouble | None:
        """Send a job as it stands; None once the office has acknowledged it. While one is under way another does nothing."""
        if job in self._busy:
            return self._trouble.get(job)
        self._busy.add(job)
        self._desk.changed(f"office {job}")
        try:
            trouble = await self._send(job)
        finally:
            self._busy.discard(job)
        self._trouble.pop(job, None)
        if trouble is not None:
            self._trouble[job] = trouble
        self._desk.changed(f"office {job}")
        return trouble

    async def _send(self, job: str) -> Trouble | None:
        sending, changes = self.sending(job), self._desk.store.card(job).changes
        words, readings = self._desk.words(job), len(self._desk.job(job).readings)
        data, sent = dump(words), tally_of(words, job)
        if len(data) > LARGEST_JOB:
            return Trouble("large")
        headers = {"content-type": "application/json", "authorization": f"{SCHEME} {sending.code}"}
        try:
            reply = await self._post(sending.address + PATH, headers, data)
        except UnreachableError as problem:
            return Trouble("unreachable", told=str(problem))
        told = _told(reply.body)
        if told is None:
            return Trouble("later") if reply.status >= 500 else Trouble("stranger")
        if reply.status != 200:
            return _trouble(reply.status, told)
        if told.get("digest") != sent.digest:
            return Trouble("partly")
        if not (at := _moment(told.get("at"))):
            return Trouble("stranger")
        await self._acknowledged(job, replace(sending, at=at, changes=changes, readings=readings, plan=told.get("plan") is True))
        return None

    async def _acknowledged(self, job: str, now: Sending) -> None:
        """It is with the office: that is a copy outside this device. What the person chose meanwhile stays."""
        chosen = self.sending(job)
        if chosen.address != now.address:
            return
        if now.plan:
            self._desk.store.mark_copy(job, self._clock.now(), now.changes)
        await self._keep(job, replace(now, code=chosen.code, on=chosen.on))

    async def _keep(self, job: str, sending: Sending) -> None:
        await self._desk.keep_setting(_key(job), asdict(sending), tell=False)
        self._desk.changed(f"office {job}")


def _key(job: str) -> str:
    return f"office {job}"


def _told(body: bytes) -> dict[str, Any] | None:
    """The answer of a Spanbook; None where it is none."""
    try:
        told = json.loads(body[:LONGEST_ANSWER])
    except (ValueError, RecursionError):
        return None
    return told if isinstance(told, dict) and told.get("office") == PROTOCOL else None


def _trouble(status: int, told: dict[str, Any]) -> Trouble:
    seconds, sentence = told.get("seconds", 0), told.get("sentence", "")
    kind = _BY_STATUS.get(status, "later")
    patient = min(max(seconds, 0), 3600) if isinstance(seconds, int) else 0
    plain = "".join(c for c in sentence if c.isprintable() or c == "\n") if isinstance(sentence, str) else ""
    return Trouble(kind, patient, plain[:400])


def _moment(text: Any) -> str:
    """The office's time as it told it; its own words are trusted no further than that they are a time."""
    try:
        moment = datetime.fromisoformat(text)
        return text if moment.tzinfo is not None else ""
    except (TypeError, ValueError):
        return ""
