"""Both figures of a bay, large, both marks on one blade, and what they come to: the same on either phone."""

from __future__ import annotations

import flet as ft

from fieldapp.parts.blade import FOOT, HEAD, two_on_blade
from fieldapp.parts.figure import still_figure
from fieldapp.parts.leaf import Plate
from fieldapp.parts.space import gap
from fieldapp.parts.verdict import verdict_band
from fieldapp.screens.readback_model import Outcome
from fieldapp.theme import GRID, MARGIN, Look
from fieldapp.words import say
from measure.units import Unit


def both_figures(look: Look, unit: Unit, found: Outcome) -> list[ft.Control]:
    """From the first plate to the verdict's band."""
    room = look.width - 2 * MARGIN
    plates: list[ft.Control] = []
    for said, key, name in ((found.first, "tape", found.first_by), (found.second, "heard" if found.aloud else "mine", found.second_by)):
        figure = still_figure(look, said.whole, said.fraction, said.unit, said.text, room - 30)
        plates += [Plate(look, say(f"readback.{key}", name=name), figure, 110 if look.big else 124).control, gap(GRID)]
    blade = two_on_blade(look, unit, found.first.at, found.second.at, (found.first_by[:1], found.second_by[:1]), look.width, says=found.marks)
    verdict = "clear" if found.agree else "hold"
    band = verdict_band(look, verdict, say(f"review.verdict_{verdict}"), found.sentence, [])
    return [*plates, ft.Container(blade, height=HEAD + FOOT + 96), band]


def agreed_title(bay: str, agree: bool) -> str:
    """The page's title while the outcome stands there. Its first sign lets the page sound it."""
    return say("share.agrees_title", bay=bay) if agree else say("share.differs_title", bay=bay)
