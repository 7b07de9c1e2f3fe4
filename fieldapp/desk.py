"""The desk: every job of this store as it stands now, and word to every open page when something changes.

One desk for one store, on one loop. Whatever writes does so in this order: it is read by `measure` first, then kept by the store,
then `flush`, then taken by the live job, then the others are told. When it returns, the thing is kept.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING, Any

from fieldapp.company import Company
from fieldapp.hosts.ports import Clock
from fieldapp.live_job import LiveJob
from fieldapp.turns import Turns
from fieldapp.words import say
from measure.changes import glass_text, ordered
from measure.conflict import Conflict
from measure.documents import read_answer, read_job, read_moved, read_reading, read_words
from measure.errors import SpanbookError, StoreError
from measure.job_rows import MergeResult
from measure.job_shelf import JobCard
from measure.order import Order, make_order
from measure.order_files import order_bytes
from measure.order_rows import IssuedOrder, OrderNumber
from measure.plan_rows import KeptPlan
from measure.reading import Answer, Moved, Reading
from measure.report import evaluate
from measure.said import SECTIONS
from measure.store import Store

if TYPE_CHECKING:
    from fieldapp.sharing import Sharing

EVERYTHING = frozenset({"everything"})
"""The topic of a page that was away."""
Words = dict[str, Any]
"""A job file, or one entry of its lists, as typed."""
Tell = Callable[[frozenset[str]], None]
_STEP = timedelta(milliseconds=1)


class Desk:
    """Topics of a change: `jobs`, `settings`, `presets`, `job 7`, `orders 7`, and `bay 7 A3` for each bay that may look different.

    Besides: `read-back 7 A3` when somebody read a bay back, `people 7` when somebody comes, goes or moves.
    """

    def __init__(self, store: Store, clock: Clock) -> None:
        self.store, self._clock = store, clock
        self._live: dict[str, LiveJob] = {}
        self._listeners: list[Tell] = []
        self._sides: dict[str, tuple[object, tuple[Conflict, ...]]] = {}
        self.company, self.turns = Company(self.changed), Turns()
        self.sharing: Sharing | None = None
        """Who may join from the network; only where a server stands."""

    # ---- word to the pages ---------------------------------------------------------------------------------------------
    def subscribe(self, tell: Tell) -> Callable[[], None]:
        """Call `tell` with the topics of every change, until the function that this returns is called."""
        self._listeners.append(tell)

        def leave() -> None:
            if tell in self._listeners:
                self._listeners.remove(tell)

        return leave

    def changed(self, *topics: str) -> None:
        """Tell every page."""
        for tell in tuple(self._listeners):
            tell(frozenset(topics))

    # ---- jobs ----------------------------------------------------------------------------------------------------------
    def jobs(self) -> list[JobCard]:
        """All jobs, the one worked on last first."""
        return self.store.jobs()

    def job(self, id: str) -> LiveJob:
        """A job as it stands now. Raises StoreError where there is none."""
        if id not in self._live:
            self._live[id] = LiveJob(id, read_words(self._words(id)).job())
        return self._live[id]

    def is_open(self, id: str) -> bool:
        """Whether the job was looked into already: then it costs nothing to show."""
        return id in self._live

    def words(self, id: str) -> Words:
        """The job file as it stands now, as typed: for the pages that change a plan."""
        return self._words(id)

    async def add_job(self, words: Words) -> str:
        """A new job; its id. Raises DocumentError with every problem."""
        read_words(words)
        id = self.store.add_job(words)
        await self.kept("jobs")
        return id

    async def take_file(self, data: bytes) -> MergeResult:
        """A job file: a new job, or another copy of one that is here. Raises DocumentError with every problem."""
        result = self.store.merge(None, read_job(data).as_dict())
        await self.kept("jobs", f"job {result.job}", anew=result.job)
        return result

    async def take_sample(self, data: bytes) -> str:
        """A sample as a job of this book alone; the same one again is the same job; its id."""
        id = self.store.take_sample(read_job(data).as_dict())
        await self.kept("jobs", f"job {id}", anew=id)
        return id

    def plan_versions(self, id: str) -> list[KeptPlan]:
        """Every version of a job's plan, oldest first."""
        return self.store.plan_versions(id)

    async def keep_plan(self, id: str, words: Words, by: str) -> None:
        """A changed plan, system, glass, tape, limits or head; what was said stays, and waits where its place is gone.

        Raises DocumentError with every problem, SpanbookError where nobody says that they changed it.
        """
        if not by.strip():
            raise SpanbookError(say("change.by_needed"))
        self.store.save_plan(id, words, by, self.moment(id))
        await self.kept("jobs", f"job {id}", anew=id)

    def conflicts(self, id: str) -> tuple[Conflict, ...]:
        """Where two sides said different things and neither knew of the other, the plan first. Looked up anew after each change."""
        live = self.job(id)
        state = (len(live.readings), len(live.moved), len(live.answers))
        if self._sides.get(id, (None, ()))[0] != state:
            self._sides[id] = (state, self.store.conflicts(id))
        return self._sides[id][1]

    async def settle_plan(self, id: str, version: str, by: str) -> None:
        """The plan of this side holds, of a plan that was changed on two. Raises StoreError where there is no such side any more."""
        words = self._words(id)
        history = words.get("history") or {"plan": {"id": ""}}
        sides = {history["plan"]["id"]: words} | {o["id"]: o["plan"] for o in history.get("other_plans", ())}
        if version not in sides:
            raise StoreError(say("app.no_such_page"))
        plan = {k: v for k, v in sides[version].items() if k not in (*SECTIONS, "history")}
        self.store.save_plan(id, plan, by, self.moment(id))
        await self.kept("jobs", f"job {id}", anew=id)

    async def remove_job(self, id: str) -> None:
        """Into the bin; nothing is lost."""
        self.store.remove_job(id)
        self._live.pop(id, None)
        await self.kept("jobs", f"job {id}")

    async def restore_job(self, id: str) -> None:
        """Out of the bin."""
        self.store.restore_job(id)
        await self.kept("jobs")

    def binned_jobs(self) -> list[JobCard]:
        """The jobs in the bin, the one worked on last first."""
        return self.store.binned_jobs()

    def was_opened(self, id: str, place: str) -> None:
        """Somebody is in this job, at this address."""
        self.store.mark_opened(id, place)

    def was_copied(self, id: str) -> None:
        """A copy of the job left this device."""
        self.store.mark_copy(id, self._clock.now())
        self.changed("jobs")

    # ---- what people say -----------------------------------------------------------------------------------------------
    async def keep_reading(self, id: str, by: str, /, **words: Any) -> Reading:
        """One figure, as a job file says it: `bay="A1", what="span", value="41 11/16 in"`. Keys with None are left out.

        Raises DocumentError when it cannot be read so; nothing is kept then.
        """
        live = self.job(id)
        said = self._said(id, by, words)
        reading = read_reading(said, live.units, live.places)
        kept = self.store.add_reading(id, said)
        await self.store.flush()
        reading = replace(reading, id=kept["id"])
        stirred = live.take(reading)
        if reading.role == "read-back" and reading.bay:
            self.changed(f"read-back {id} {reading.bay}")
        self._tell_bays(id, stirred)
        return reading

    async def keep_moved(self, id: str, by: str, post: str) -> Moved:
        """A post was shimmed or moved: what touches it is stale from now on."""
        live = self.job(id)
        said = self._said(id, by, {"post": post})
        moved = read_moved(said, live.places)
        self.store.add_moved(id, said)
        await self.store.flush()
        self._tell_bays(id, live.take_moved(moved))
        return moved

    async def keep_answer(self, id: str, by: str, **words: Any) -> Answer:
        """Why a query stands: `bay="A2", check="off-plan", reason="…"`."""
        live = self.job(id)
        said = self._said(id, by, words)
        answer = read_answer(said, live.places)
        self.store.add_answer(id, said)
        await self.store.flush()
        self._tell_bays(id, live.take_answer(answer))
        return answer

    async def keep_note(self, id: str, by: str, bay: str, text: str, photo: str = "") -> None:
        """A note on a bay, and the name of its photo."""
        self.store.add_note(id, bay, text, photo, by, self.moment(id))
        await self.kept(f"job {id}", f"bay {id} {bay}")

    def notes(self, id: str, bay: str) -> list[Words]:
        """The notes on a bay, oldest first: `text`, `photo`, `by`, `at`."""
        return [note for note in self.store.notes(id) if note["bay"] == bay]

    def _said(self, id: str, by: str, words: Mapping[str, Any]) -> Words:
        said = {k: v for k, v in words.items() if v is not None}
        return {**said, "by": by, "at": self.moment(id).isoformat(timespec="milliseconds").replace("+00:00", "Z")}

    def moment(self, id: str) -> datetime:
        """Now, but later than all that was said of this job: another device's clock may be ahead, and what comes last has to count."""
        now = self._clock.now().astimezone(UTC)
        now = now.replace(microsecond=now.microsecond // 1000 * 1000)
        newest = self.job(id).newest
        return now if newest is None else max(now, newest.astimezone(UTC) + _STEP)

    def _tell_bays(self, id: str, tags: set[str]) -> None:
        self.changed(f"job {id}", *(f"bay {id} {tag}" for tag in sorted(tags)))

    # ---- orders --------------------------------------------------------------------------------------------------------
    def order(self, id: str) -> Order:
        """The order as it would go out now; panels that something stands in the way of are left out."""
        return make_order(evaluate(self.job(id).job))

    def orders(self, id: str) -> list[IssuedOrder]:
        """Issued orders of a job, oldest first."""
        return self.store.orders(id)

    def order_files(self, order_no: int, revision: int) -> dict[str, bytes]:
        """The files of an issued order, as they went out."""
        return self.store.order_files(order_no, revision)

    async def issue_order(self, id: str, by: str, change_of: int | None = None) -> IssuedOrder:
        """Number and freeze the order as it stands now. change_of: the number of the order that it changes.

        Raises SpanbookError where no panel may go out: something is in the way, or two sides still have to be decided.
        """
        order, at = self.order(id), self._clock.now()
        if not order.lines:
            raise SpanbookError(say("order.none"))

        def files(number: OrderNumber) -> dict[str, bytes]:
            date = at.astimezone().date().isoformat()
            return order_bytes(order.issued(str(number.order_no), number.revision, date, by), drawings=True)

        panels = [ordered(line.panel, line.pane, glass_text(order.job.glass, line.finish_face)).as_json() for line in order.lines]
        issued = self.store.issue_order(id, files, by, at, panels=panels, change_of=change_of)
        await self.kept("jobs", f"orders {id}")
        return issued

    # ---- settings, presets, half-typed figures -------------------------------------------------------------------------
    def setting(self, key: str, default: Any = None) -> Any:
        """A setting of the book or of a device, as JSON holds it."""
        return self.store.setting(key, default)

    async def keep_setting(self, key: str, value: Any, tell: bool = True) -> None:
        """value: anything that JSON holds. tell: False for what concerns nobody else."""
        self.store.set_setting(key, value)
        await self.kept(*(["settings"] if tell else []))

    def presets(self, kind: str) -> dict[str, Words]:
        """Presets of a kind (`system`, `glass`, `tape`, `limits`) by name."""
        return self.store.presets(kind)

    async def keep_preset(self, kind: str, name: str, words: Words) -> None:
        """The one that had this name before is gone; jobs made with it keep their own figures."""
        self.store.save_preset(kind, name, words)
        await self.kept("presets")

    async def remove_preset(self, kind: str, name: str) -> None:
        """Forget a preset; jobs made with it keep their own figures."""
        self.store.remove_preset(kind, name)
        await self.kept("presets")

    def drafts(self, device: str) -> dict[str, str]:
        """All that is half-typed on a device, by its place."""
        return self.store.drafts(device)

    async def keep_draft(self, device: str, place: str, text: str) -> None:
        """Keep what is half-typed; empty forgets it."""
        self.store.set_draft(device, place, text or None)
        await self.store.flush()

    def _words(self, id: str) -> Words:
        try:
            self.store.card(id)
        except StoreError:
            raise StoreError(say("app.no_such_job")) from None
        return self.store.document(id)

    async def kept(self, *topics: str, anew: str = "") -> None:
        """The store has it: wait until it is safe, take it in, tell the others. anew: the job to be looked into from the start."""
        await self.store.flush()
        self._sides.pop(anew, None)
        if anew in self._live:
            self._live[anew].replan(read_words(self._words(anew)).job())
        if topics:
            self.changed(*topics)
