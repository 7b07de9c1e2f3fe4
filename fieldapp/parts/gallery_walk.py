"""The walk's boards of the gallery, on an invented run. A small stand-in for the screens: keys answer, nothing is kept."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import flet as ft

from fieldapp.parts.bay_picture import BayNames
from fieldapp.parts.bay_shape import BayShape
from fieldapp.parts.entry import Entry
from fieldapp.parts.head import Signal, WalkHead
from fieldapp.parts.question import Question, Typed
from fieldapp.parts.run_strip import StripBay
from fieldapp.parts.walk_stage import WalkStage
from fieldapp.theme import Look

RUN = [StripBay(f"A{i}", 40.5, "clear" if i < 3 else "todo", 0.375, 2.5) for i in range(1, 6)]
MM_RUN = [StripBay(f"T{i}", 1024, "clear" if i < 2 else "todo", 6, 65) for i in range(1, 5)]
NAMES = BayNames("P3", "P4", lambda n: f"slope drawn {n} times")
SHAPE = BayShape(40.4375, 2.5, 2.5, 0.375 / 42.9, 5)
SIDES = (("left", "left higher", "left higher"), ("level", "level", "level"), ("right", "right higher", "right higher"))

SPAN = Question(
    "A3",
    "span",
    "Tape tight, just above the base plates.",
    "Seen from the deck: hook on the left post, read at the right post's face.",
    "span",
    SHAPE,
    NAMES,
    hook="hook here",
    read="read here",
    empty="your figure will lie here",
)
RISE_IN = replace(
    SPAN, what="rise", where="Straightedge level; tape the gap.", ask="rise", sides=SIDES, foot="post top",
    shape=replace(SHAPE, tan=0.012), names=BayNames("P3", "P4", lambda n: "not to scale"),
    says="Straightedge level on the higher post; the tape stands on the lower one.",
)  # fmt: skip
RISE_MM = replace(RISE_IN, tag="T2", units="mm", pad="decimal", shape=BayShape(1024, 65, 65, 0.013, 130))


def head(look: Look, page: ft.Page, bays: list[StripBay], now: str, what: str) -> WalkHead:
    made = WalkHead(
        look, "Back", lambda _: page.navigate("/"), "Review", lambda _: page.navigate("/"), Signal(look, "no signal", "kept here")
    )
    made.show(bays, now, what)
    return made


def typed(entry: Entry, units: str) -> Typed:
    value = entry.on_blade
    whole, fraction = entry.shown
    mm = float(value) * 25.4 if value is not None else 0
    echo = (
        f"{mm:.{2 if mm < 50 else 1}f} mm"
        if value is not None and units == "in"
        else ""
        if units == "mm"
        else "whole inches first"
    )
    says = f"{entry.text} {units}, {echo}" if echo else f"{entry.text} {units}"
    return Typed(whole, fraction, units, echo, says, value, entry.lit, caret=True)


def board(question: Question, start: str, bays: list[StripBay]) -> Callable[[Look, ft.Page], ft.Control]:
    def show(look: Look, page: ft.Page) -> ft.Control:
        entry = Entry.from_text(start, question.units)
        top = head(look, page, bays, question.tag, question.what)

        def press(key: str) -> None:
            nonlocal entry
            entry = entry.press(key)
            page.update(*stage.show(typed(entry, question.units)))

        def pick(side: str) -> None:
            tan = {"left": -1, "right": 1}.get(side, 0) * abs(question.shape.tan)
            page.update(*stage.show_side(side, replace(question, shape=replace(question.shape, tan=tan))))

        stage = WalkStage(look, top.control, press, pick=pick)
        stage.ask(question, "right" if question.sides else None)
        stage.show(typed(entry, question.units))
        return stage.control

    return show


BOARDS = {
    "/walk-span": board(SPAN, "40 7/16", RUN),
    "/walk-span-empty": board(SPAN, "", RUN),
    "/walk-span-whole": board(SPAN, "36", RUN),
    "/walk-span-last-third": board(SPAN, "40 13/16", RUN),
    "/walk-span-short": board(SPAN, "1 3/8", RUN),
    "/walk-top-span": board(
        replace(SPAN, what="top span", ask="top-span", where="The same two posts, at the head."), "40 1/2", RUN
    ),
    "/walk-rise": board(RISE_IN, "3/8", RUN),
    "/walk-base-rise": board(replace(RISE_IN, ask="base-rise", what="rise at the feet"), "3/8", RUN),
    "/walk-mm": board(
        replace(SPAN, tag="T2", units="mm", pad="decimal", shape=BayShape(1024, 65, 65, 0.006, 130)), "1027.5", MM_RUN
    ),
    "/walk-mm-rise": board(RISE_MM, "14", MM_RUN),
    "/walk-diagonal": board(
        replace(
            SPAN,
            what="rising diagonal",
            ask="diagonal-rising",
            where="Left foot to the mark on the right post.",
            hook="",
            read="",
            names=replace(NAMES, mark="mark: 36 in up"),
        ),
        "54 3/16",
        RUN,
    ),
}
