"""Reading back by letter: what is asked, and what an answer does when it comes in. Pure but for the desk that keeps it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Literal

from fieldapp.letter import MOST_BAYS, Answer, Ask, LetterError, digest_of
from fieldapp.live_job import LiveJob
from fieldapp.screens.readback_model import first_span, to_read, words_of
from fieldapp.words import listed, say
from measure.checks.presence import difference

if TYPE_CHECKING:
    from fieldapp.desk import Desk


@dataclass(frozen=True, slots=True)
class Intake:
    """words: readings to keep, as a job file says them, ids too. known: figures that are here already. stale: bays taped anew since.

    differ: bays whose figure is another one than the first here, once it is kept.
    """

    words: tuple[dict[str, object], ...]
    known: int
    stale: tuple[str, ...]
    differ: tuple[str, ...] = ()

    @property
    def sign(self) -> Literal["hold", "clear"]:
        """What stands beside it: good news only where every figure agrees."""
        return "hold" if self.stale or self.differ else "clear"

    @property
    def sentence(self) -> str:
        """What came of it."""
        told = say("letter.taken", n=len(self.words)) if self.words else say("letter.known") if self.known else ""
        differ = say("letter.differ", n=len(self.differ), bays=listed(list(self.differ))) if self.differ else ""
        stale = say("letter.stale", bays=listed(list(self.stale))) if self.stale else ""
        return " ".join(part for part in (told, differ, stale) if part)


def ask_of(live: LiveJob, uid: str) -> Ask | None:
    """A handful of the bays that are to be read back; None where there are none. uid: the job's own id."""
    bays = [(tag, digest_of(first.id, first.text)) for tag in to_read(live, "") if (first := first_span(live, live.bay(tag)))]
    return Ask(uid, live.name, live.units, tuple(bays[:MOST_BAYS])) if bays else None


def intake(live: LiveJob, uid: str, answer: Answer) -> Intake:
    """Raises LetterError where the answer belongs to another job."""
    if answer.job != uid:
        raise LetterError(say("letter.other_job"))
    here = {r.id for r in live.readings}
    words, known, stale = [], 0, []
    for tag, digest, text in answer.figures:
        first = first_span(live, live.bay(tag)) if tag in live.book.bays else None
        if answer.id_of(tag) in here:
            known += 1
        elif first is None or digest_of(first.id, first.text) != digest:
            stale.append(tag)
        else:
            words.append({**words_of(live, tag, text), "id": answer.id_of(tag)})
    return Intake(tuple(words), known, tuple(stale))


async def take_in(desk: Desk, live: LiveJob, uid: str, answer: Answer) -> Intake:
    """Keep what an answer says, under the name that it says. Raises LetterError for another job's, DocumentError for what cannot be read."""
    found = intake(live, uid, answer)
    for words in found.words:
        await desk.keep_reading(uid, answer.by, **words)
    return replace(found, differ=tuple(tag for tag, _, _ in answer.figures if tag not in found.stale and _differs(live, tag)))


def _differs(live: LiveJob, tag: str) -> bool:
    first = first_span(live, live.bay(tag))
    back = live.book.read_back(first) if first is not None else None
    return first is not None and back is not None and bool(difference(first, back))
