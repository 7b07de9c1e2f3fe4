"""The desk as a guest has it: one job, and of it what their role may do. The one place where roles are enforced.

Whatever a phone asks for goes through here, also what no screen offers. What is not in a table below is refused.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from fieldapp.desk import Desk, Tell, Words
from fieldapp.sharing import Guest, RefusedError, Sharing
from fieldapp.turns import Turns
from fieldapp.words import say
from measure.book import same_person
from measure.errors import StoreError

READS = frozenset({"job", "is_open", "words", "moment", "notes", "order", "orders", "conflicts"})
"""What everybody in a job may look at. The job is the first argument."""
MAY: dict[str, frozenset[str]] = {
    "keep_reading": frozenset({"tape", "scribe"}),
    "keep_moved": frozenset({"tape", "scribe"}),
    "keep_answer": frozenset({"tape", "scribe", "office"}),
    "keep_note": frozenset({"tape", "scribe", "office"}),
    "issue_order": frozenset({"office"}),
    "was_opened": frozenset({"tape", "scribe", "office"}),
    "was_copied": frozenset({"tape", "scribe", "office"}),
}
"""What is changed in a job, and by whom. The job is the first argument; where one is given, the second says who did it."""
SIGNED = frozenset({"keep_reading", "keep_moved", "keep_answer", "keep_note", "issue_order"})
"""The second argument is a name that stands on the order: it has to be the guest's own."""
OWN = frozenset({"jobs", "setting", "keep_setting", "presets", "drafts", "keep_draft", "order_files", "subscribe", "changed", "company", "sharing", "turns"})
"""What is written out below."""
OWNERS = frozenset(
    {
        "add_job", "take_file", "take_sample", "keep_plan", "plan_versions", "remove_job", "restore_job", "binned_jobs", "keep_preset",
        "remove_preset", "kept", "store", "settle_plan",
    }
)  # fmt: skip
"""What only the owner of the serving machine does."""
LONGEST_TEXT, LARGEST_SETTING = 4000, 20_000
"""Letters of one thing said; bytes of one thing that a phone keeps for itself."""


class GuestDesk:
    """Stands where a `Desk` stands. Every call asks anew whether the guest was put out."""

    def __init__(self, desk: Desk, sharing: Sharing, guest: Guest) -> None:
        self._desk, self._people, self._guest = desk, sharing, guest

    def __getattr__(self, name: str) -> Callable[..., Any]:
        if name in READS:
            return lambda job, *given, **more: getattr(self._in(job), name)(job, *given, **more)
        if name in MAY:
            return lambda job, *given, **more: self._may(name, job, given, more)
        if name in OWNERS:
            return self._owners
        raise AttributeError(name)

    # ---- what is checked -----------------------------------------------------------------------------------------------
    def _here(self) -> Desk:
        if not self._people.stands(self._guest):
            raise RefusedError(say("join.put_out"))
        return self._desk

    def _in(self, job: str) -> Desk:
        if job != self._guest.job:
            raise StoreError(say("app.no_such_job"))
        return self._here()

    def _may(self, name: str, job: str, given: tuple[Any, ...], more: dict[str, Any]) -> Any:
        """Refused where the role may not, where somebody else's name would be written, or where it is too long."""
        desk = self._in(job)
        if self._guest.role not in MAY[name]:
            raise RefusedError(say(f"join.not_{self._guest.role}"))
        by = given[0] if given else more.get("by", "")
        if name in SIGNED and not same_person(str(by), self._guest.name):
            raise RefusedError(say("join.not_your_name", name=self._guest.name))
        texts = [v for v in (*given, *more.values()) if isinstance(v, str)]
        if any(len(t) > LONGEST_TEXT for t in texts):
            raise RefusedError(say("join.too_long", most=LONGEST_TEXT))
        return getattr(desk, name)(job, *given, **more)

    def _owners(self, *given: Any, **more: Any) -> Any:
        raise RefusedError(say("join.owners"))

    # ---- what is a guest's own -----------------------------------------------------------------------------------------
    @property
    def company(self) -> Any:
        """Who is here; names and bays of their own job."""
        return self._desk.company

    @property
    def turns(self) -> Turns:
        """Whose page is drawn next; it tells nothing of anybody's job."""
        return self._desk.turns

    @property
    def sharing(self) -> None:
        """Whom the owner lets in is nothing that a guest sees."""

    def jobs(self) -> list[Any]:
        """The one job."""
        return [card for card in self._here().jobs() if card.id == self._guest.job]

    def setting(self, key: str, default: Any = None) -> Any:
        """Their own settings, and the names of the crew."""
        return self._desk.setting(key, default) if key == "crew" or self._is_own(key) else default

    async def keep_setting(self, key: str, value: Any, tell: bool = True) -> None:
        """Only what their own phone keeps for itself."""
        desk = self._here()
        if not self._is_own(key) or key == f"{self._guest.device} person":
            raise RefusedError(say("join.owners"))
        if len(json.dumps(value)) > LARGEST_SETTING:
            raise RefusedError(say("join.too_long", most=LARGEST_SETTING))
        await desk.keep_setting(key, value, tell=False)

    def presets(self, kind: str) -> dict[str, Words]:
        """None: they are for new jobs."""
        return {}

    def drafts(self, device: str) -> dict[str, str]:
        """What is half-typed on their own phone."""
        return self._here().drafts(self._guest.device)

    async def keep_draft(self, device: str, place: str, text: str) -> None:
        """Half-typed on their own phone."""
        if len(place) + len(text) > LONGEST_TEXT:
            raise RefusedError(say("join.too_long", most=LONGEST_TEXT))
        await self._here().keep_draft(self._guest.device, place, text)

    def order_files(self, order_no: int, revision: int) -> dict[str, bytes]:
        """Files of an order of their job."""
        if (order_no, revision) not in {(o.order_no, o.revision) for o in self._here().orders(self._guest.job)}:
            raise StoreError(say("app.no_such_job"))
        return self._desk.order_files(order_no, revision)

    def subscribe(self, tell: Tell) -> Callable[[], None]:
        """Word of what changes in their job only."""
        own = (f"job {self._guest.job}", f"orders {self._guest.job}", f"people {self._guest.job}")

        def heard(topics: frozenset[str]) -> None:
            ours = {t for t in topics if t in own or t.startswith((f"bay {self._guest.job} ", f"read-back {self._guest.job} "))}
            if ours and self._people.stands(self._guest):
                tell(frozenset(ours))

        return self._desk.subscribe(heard)

    def changed(self, *topics: str) -> None:
        """A guest's page tells nobody by itself."""

    def _is_own(self, key: str) -> bool:
        return key.startswith(f"{self._guest.device} ")
