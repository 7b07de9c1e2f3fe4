"""Which jobs are open to phones on the same network: the join code of each, who came in with it, and who was put out.

A code lasts for its job, over restarts too, until the owner makes a new one or closes the job; then everybody who came in with
it is out. What a phone holds is a token of its own; here only its digest is kept.
"""

from __future__ import annotations

import hashlib
import hmac
import secrets
from collections.abc import Callable
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any, Protocol

from fieldapp.screens.settings_model import ROLES, refused_name
from fieldapp.words import say
from measure.book import same_person
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.desk import Desk

SIGNS = "ACDEFGHJKMNPQRTVWXY34679"
"""No two of them look alike: no I L 1, O 0, S 5, B 8, Z 2, U V."""
LENGTH = 4
MOST_GUESTS = 60
MOST_GONE = 60
"""So many of those who are out are remembered, the last ones."""
_KEPT = "sharing"


class RefusedError(SpanbookError):
    """Somebody may not do what they asked for."""


@dataclass(frozen=True, slots=True)
class Guest:
    """Somebody who came in with a code. device: the name under which their phone keeps its own. digest: of their token."""

    id: str
    job: str
    name: str
    role: str
    device: str
    digest: str


@dataclass(frozen=True, slots=True)
class Gone:
    """Somebody who is out, and why: `put_out`, `renewed` or `closed`. Their phone is told so, and finds what was half-typed when it comes again."""

    guest: Guest
    why: str


class Line(Protocol):
    """The way in for phones, opened and closed by the owner."""

    async def open(self) -> str:
        """The address where phones find it from now on. Raises SpanbookError where there is no network."""

    async def close(self) -> None:
        """Nobody but the owner from now on."""


class Sharing:
    """One for a desk. Reading is from memory; what changes is kept before it counts."""

    def __init__(self, desk: Desk, address: str = "") -> None:
        self._desk = desk
        self.address = address
        """Where phones find this machine; empty where it is not on the network."""
        kept = desk.setting(_KEPT, {})
        self._codes: dict[str, str] = dict(kept.get("codes", {}))
        self._guests: dict[str, Guest] = {g["id"]: Guest(**g) for g in kept.get("guests", ())}
        self._gone = [Gone(Guest(**g["guest"]), g["why"]) for g in kept.get("gone", ())]
        self.line: Line | None = None
        """The switch that lets phones in while the server runs; None where it was started for phones, or cannot."""
        self.wrong_lately: Callable[[], int] = lambda: 0
        """How many wrong codes were tried at the door in the last while."""
        self._leavers: list[Callable[[Guest], None]] = []

    # ---- the owner -----------------------------------------------------------------------------------------------------
    def code(self, job: str) -> str:
        """The job's join code; empty while it is not open."""
        return self._codes.get(job, "")

    def guests(self, job: str) -> list[Guest]:
        """Who came in, in that order."""
        return [g for g in self._guests.values() if g.job == job]

    async def open(self, job: str) -> str:
        """Open a job to phones; its code, the same one while it stays open."""
        if not self.code(job):
            self._codes[job] = self._new_code()
            await self._keep(job)
        return self._codes[job]

    async def let_phones_in(self, job: str) -> None:
        """Answer this network too; the job is open then."""
        if self.line is not None:
            self.address = await self.line.open()
        await self.open(job)

    async def shut_phones_out(self, job: str) -> None:
        """Answer this machine only; codes stay as they are."""
        if self.line is not None:
            self.address = ""
            await self.line.close()
            self._desk.changed(f"people {job}")

    async def renew(self, job: str) -> str:
        """Another code; everybody is out."""
        self._clear(job, "renewed")
        self._codes[job] = self._new_code()
        await self._keep(job)
        return self._codes[job]

    async def close(self, job: str) -> None:
        """No more phones in this job."""
        self._clear(job, "closed")
        self._codes.pop(job, None)
        await self._keep(job)

    async def put_out(self, id: str) -> None:
        """Somebody has to leave, at once; with the code they could come again."""
        guest = self._guests.get(id)
        if guest is not None:
            self._drop(guest, "put_out")
            await self._keep(guest.job)

    def leaving(self, tell: Callable[[Guest], None]) -> None:
        """Call `tell` for everybody who is put out from now on."""
        self._leavers.append(tell)

    # ---- at the door ---------------------------------------------------------------------------------------------------
    def job_of(self, code: str) -> str:
        """The job that a code opens; empty where it opens none. Takes the same time for every code of a job that is open."""
        said = plain_code(code).encode()
        found = ""
        for job, own in self._codes.items():
            if hmac.compare_digest(said, own.encode()):
                found = job
        return found

    async def admit(self, job: str, name: str, role: str, before: str = "") -> tuple[Guest, str]:
        """Let somebody into an open job; the token that their phone holds from now on. Raises RefusedError.

        before: the token that the phone had. Under the same name in the same job it finds again what was half-typed on it.
        """
        name = " ".join(name.split())
        wrong = refused_name(name, ()) or ("" if name.isprintable() else say("join.name_letters"))
        if wrong or role not in ROLES:
            raise RefusedError(wrong or say("join.role_needed"))
        if len(self.guests(job)) >= MOST_GUESTS:
            raise RefusedError(say("join.full"))
        token = secrets.token_urlsafe(32)
        device = self._device(before, job, name) or f"guest-{secrets.token_hex(6)}"
        guest = Guest(secrets.token_hex(8), job, name, role, device, _digest(token))
        self._guests[guest.id] = guest
        await self._desk.keep_setting(f"{guest.device} person", name, tell=False)
        await self._keep(job)
        return guest, token

    def guest(self, token: str) -> Guest | None:
        """Whose token it is; None where it is nobody's, or no longer."""
        digest, found = _digest(token), None
        for guest in self._guests.values():
            if hmac.compare_digest(digest, guest.digest):
                found = guest
        return found

    def gone(self, token: str) -> Gone | None:
        """Who is out that had this token, and why; None where nobody is. Takes the same time for everybody who is remembered."""
        digest, found = _digest(token), None
        for one in self._gone:
            if hmac.compare_digest(digest, one.guest.digest):
                found = one
        return found

    def _device(self, token: str, job: str, name: str) -> str:
        """The name under which this phone kept its own, when it was this person's in this job; empty else."""
        gone = self.gone(token) if token else None
        known = self.guest(token) if token else None
        known = known or (gone.guest if gone else None)
        return known.device if known is not None and known.job == job and same_person(known.name, name) else ""

    def stands(self, guest: Guest) -> bool:
        """Whether they were not put out since."""
        return guest.id in self._guests

    # ---- how it is kept ------------------------------------------------------------------------------------------------
    def _new_code(self) -> str:
        while True:
            code = "".join(secrets.choice(SIGNS) for _ in range(LENGTH))
            if code not in self._codes.values():
                return code

    def _clear(self, job: str, why: str) -> None:
        for guest in self.guests(job):
            self._drop(guest, why)

    def _drop(self, guest: Guest, why: str) -> None:
        self._guests.pop(guest.id, None)
        self._gone = [*self._gone, Gone(guest, why)][-MOST_GONE:]
        for tell in tuple(self._leavers):
            tell(guest)

    async def _keep(self, job: str) -> None:
        kept: dict[str, Any] = {
            "codes": self._codes, "guests": [asdict(g) for g in self._guests.values()], "gone": [asdict(g) for g in self._gone],
        }  # fmt: skip
        await self._desk.keep_setting(_KEPT, kept, tell=False)
        self._desk.changed(f"people {job}")


def plain_code(code: str) -> str:
    """A code as it is compared, however it was written: `7x-3 k` is `7X3K`. At most so many signs as are worth a look."""
    return "".join(c for c in code[:40].upper() if c.isalnum())


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
