"""What the screen says that puts the app on a phone. Pure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from fieldapp.hosts.phone_app import Handing
from fieldapp.words import say

Sign = Literal["clear", "query", "hold", "todo"]


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do on the phone, numbered."""

    number: str
    words: str
    why: str


@dataclass(frozen=True, slots=True)
class PhonesView:
    """sign, words, under: how things stand. action: of the foot, empty where nothing is to be done; main: it is the main one.

    address: to open on the phone, empty where no phone reaches it. steps: what to do there. warning: the sentences of a line that
    is not encrypted. here: a sentence for whoever sits at this machine.
    """

    sign: Sign | None
    words: str
    under: str
    action: str = ""
    main: bool = True
    making: bool = False
    address: str = ""
    steps: tuple[Step, ...] = ()
    warning: tuple[str, ...] = ()
    here: str = ""


def phones_view(handing: Handing) -> PhonesView:
    """Everything that stands there."""
    if handing.stage == "making":
        return PhonesView(None, say("phones.making"), handing.told or say("phones.making_how"), making=True)
    if handing.stage == "failed":
        return PhonesView("hold", say("phones.failed"), handing.told, say("phones.again"))
    if not handing.there:
        return PhonesView(None, say("phones.none"), say("phones.none_how"), say("phones.make"))
    anew = "" if handing.given else say("phones.anew")
    here = say("phones.here", address=handing.here)
    if not handing.address:
        return PhonesView("todo", say("phones.unreached"), say("phones.unreached_how"), anew, False, here=here)
    steps = tuple(Step(str(n), say(f"phones.step_{n}"), say(f"phones.step_{n}_why")) for n in (1, 2, 3))
    if handing.secure:
        return PhonesView(None, say("phones.open"), "", anew, False, address=handing.address, steps=steps, here=here)
    warning = (say("phones.plain"), say("phones.plain_how"))
    return PhonesView(
        None, say("phones.open"), "", anew, False, address=handing.address, steps=steps[:1], warning=warning, here=here
    )
