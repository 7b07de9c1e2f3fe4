"""What is asked: one figure of a bay, a post, a run or the tools, worded, with what goes into its reading. Pure."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Literal

from fieldapp.live_job import LiveJob
from fieldapp.parts.bay_shape import BayShape
from fieldapp.screens.taken import START, RiseTaken, SpanTaken, Taken
from fieldapp.words import say
from measure.as_read import with_unit
from measure.job import Units
from measure.length import NM_PER_INCH, NM_PER_MM
from measure.plan import Bay

Words = dict[str, Any]
Draw = Literal[
    "span", "top-span", "rise", "base-rise", "diagonal-rising", "diagonal-falling", "over-level", "as-slope", "plumb", "overall",
    "overall-rise", "second", "case", "level", "plumb-level", "mark",
]  # fmt: skip
"""Which drawing stands with the question."""
Sides = Literal["", "rise", "plumb"]
USUAL_SPAN: Mapping[Units, float] = {"in": 40.0, "mm": 1000.0}
"""How wide an untaped bay is drawn, whatever its plan: people read what they expect."""
SHOWN_TAN = 0.012
"""How steep a rise is drawn while only its high end is known."""
FORM_UNITS = {"deg": "°", "%": "%", "1:n": "", "in/ft": "in/ft", "mm/m": "mm/m"}


@dataclass(frozen=True, slots=True)
class Asking:
    """key: names its draft. said: all of the reading but its figure and side. units: the job's. form: a slope's spelling, or none.

    tag, what, where: the question; says: its drawing in words. shape, left, right: the bay as the person sees it, mirrored for
    one who stands outside. posts: of a run that is drawn. zero: whether 0 is a figure here. remembers: kept for the device instead of as a reading.
    """

    key: str
    tag: str
    what: str
    where: str
    says: str
    units: Units
    draw: Draw
    said: Words = field(default_factory=dict)
    form: str = ""
    rise: bool = False
    zero: bool = False
    sides: Sides = ""
    outside: bool = False
    shape: BayShape = BayShape(40, 2.5, 2.5, 0, 5)
    left: str = ""
    right: str = ""
    mark: str = ""
    posts: int = 2
    remembers: str = ""
    span: SpanTaken | None = None
    over: RiseTaken | None = None

    @property
    def unit(self) -> str:
        """The unit that stands beside the figure."""
        return FORM_UNITS[self.form] if self.form else self.units

    def sided(self, side: str | None) -> Asking:
        """The same question with its drawing turned to a side (`left`, `level` or `right`, as seen from the deck)."""
        if self.sides != "rise":
            return self
        turn = {"left": -1, "right": 1}.get(side or "", 0) * (-1 if self.outside else 1)
        return replace(self, shape=replace(self.shape, tan=turn * SHOWN_TAN))


def asking(live: LiveJob, tag: str, what: str, taken: Taken) -> Asking:
    """The question `what` (a key of `ASKED`) at a bay. KeyError for one that there is not."""
    made = ASKED[what](live, live.bay(tag), taken)
    return _outside(made) if taken.outside and made.left else made


# ---- the bay as it is drawn --------------------------------------------------------------------------------------------
def shape_of(live: LiveJob, bay: Bay) -> BayShape:
    """A bay's drawing: as read where it was read, level and of a usual width before. One unit, the job's."""
    per = NM_PER_INCH if live.units == "in" else NM_PER_MM
    span, opening = live.book.counting("bay", bay.tag, "span"), live.opening(bay.tag)
    wide = span.corrected.nm / per if span is not None and span.corrected.nm > 0 else USUAL_SPAN[_units(live)]
    faces = [live.book.face(post).nm / per for post in (bay.left, bay.right)]
    plate = live.plan.system.base_plate
    return BayShape(
        wide, faces[0], faces[1], opening.tan if opening else 0.0, plate.nm / per if plate else 2 * faces[0], bay.shape == "level-top"
    )


def mirrored(shape: BayShape) -> BayShape:
    """The same bay for a person who stands outside."""
    return replace(shape, left_face=shape.right_face, right_face=shape.left_face, tan=-shape.tan)


def _outside(made: Asking) -> Asking:
    """Names stay as seen from the deck; the picture turns."""
    turned = {"diagonal-rising": "diagonal-falling", "diagonal-falling": "diagonal-rising"}.get(made.draw, made.draw)
    where = say("walk.outside", where=made.where)
    return replace(
        made, outside=True, shape=mirrored(made.shape), left=made.right, right=made.left, draw=turned, where=where
    )  # type: ignore[arg-type]


def _units(live: LiveJob) -> Units:
    return live.plan.units


def _bay(live: LiveJob, bay: Bay, key: str, draw: Draw, words: str, said: Words, level: str = "", **more: Any) -> Asking:
    """A question of a bay. words: its key in words/english/walk.py. level: the length of a level, with its unit."""
    shape = shape_of(live, bay)
    return Asking(
        key, bay.tag, say(f"walk.{words}"), say(f"walk.{words}_where", level=level),
        say(f"walk.{words}_says", left=bay.left, right=bay.right), _units(live), draw, said, left=bay.left, right=bay.right,
        **{"shape": shape, **more},
    )  # fmt: skip


# ---- spans -------------------------------------------------------------------------------------------------------------
def _span(live: LiveJob, bay: Bay, taken: Taken) -> Asking:
    how = taken.span(bay.run)
    made = _bay(live, bay, "span", "span", "span", {"bay": bay.tag, "what": "span", **how.words(_units(live))}, span=how)
    if how.how == "hook":
        return made
    said_of = {"start": START[_units(live)], "left": bay.left, "right": bay.right}
    return replace(made, where=say(f"walk.span_{how.how}_where", **said_of), says=say(f"walk.span_{how.how}_says", **said_of))


def _second(live: LiveJob, bay: Bay, taken: Taken) -> Asking:
    how = taken.span(bay.run)
    said = {"bay": bay.tag, "what": "span", "role": "second", **how.words(_units(live))}
    return _bay(live, bay, "second-span", "span", "second", said, span=how)


def _top_span(live: LiveJob, bay: Bay, taken: Taken) -> Asking:
    how = taken.span(bay.run)
    return _bay(live, bay, "top-span", "top-span", "top", {"bay": bay.tag, "what": "top-span", **how.words(_units(live))}, span=how)


def _diagonal(way: str) -> Callable[[LiveJob, Bay, Taken], Asking]:
    def ask(live: LiveJob, bay: Bay, taken: Taken) -> Asking:
        if not taken.mark:
            return _mark(live, bay, taken)
        key = f"diagonal-{way}"
        said = {"bay": bay.tag, "what": key, "mark": taken.mark}
        mark = say("walk.mark_up", mark=with_unit(taken.mark, _units(live)))
        return _bay(live, bay, key, key, way, said, mark=mark)  # type: ignore[arg-type]

    return ask


# ---- rises -------------------------------------------------------------------------------------------------------------
def _rise(what: str) -> Callable[[LiveJob, Bay, Taken], Asking]:
    def ask(live: LiveJob, bay: Bay, taken: Taken) -> Asking:
        over = taken.rise(bay.run)
        if what == "base-rise" and over.over == "centres":
            over = replace(over, over="faces")
        if over.over == "level" and not over.level:
            return _level(live, bay, taken)
        draws: dict[str, Draw] = {"centres": "rise", "faces": "base-rise", "level": "over-level", "slope": "as-slope"}
        said = {"bay": bay.tag, "what": what, **over.words()}
        made = _bay(
            live, bay, what, draws[over.over], f"{what}_{over.over}", said, with_unit(over.level, _units(live)), rise=True,
            zero=True, sides="rise", over=over, form=over.form if over.over == "slope" else "",
        )  # fmt: skip
        return replace(made, shape=replace(made.shape, tan=0.0))

    return ask


# ---- posts and runs ----------------------------------------------------------------------------------------------------
def _plumb(side: str) -> Callable[[LiveJob, Bay, Taken], Asking]:
    def ask(live: LiveJob, bay: Bay, taken: Taken) -> Asking:
        post = bay.left if side == "left" else bay.right
        if not taken.level:
            where, says = (say(f"walk.level-length_plumb_{of}", post=post) for of in ("where", "says"))
            return replace(_level(live, bay, taken), tag=post, where=where, says=says, draw="plumb-level")
        said: Words = {"post": post, "what": "plumb", "over": taken.level}
        if len({b.run for b in live.book.job.bays if post in (b.left, b.right)}) > 1:
            said["run"] = bay.run
        level = with_unit(taken.level, _units(live))
        return Asking(
            f"plumb-{side}", post, say("walk.plumb"), say("walk.plumb_where", level=level), say("walk.plumb_says", post=post),
            _units(live), "plumb", said, zero=True, sides="plumb", mark=say("walk.plumb_over", level=level),
        )  # fmt: skip

    return ask


def _overall(hooked: str) -> Callable[[LiveJob, Bay, Taken], Asking]:
    def ask(live: LiveJob, bay: Bay, taken: Taken) -> Asking:
        said = {"run": bay.run, "what": "overall", "from": hooked, **taken.span(bay.run).words(_units(live))}
        return Asking(
            f"overall-{hooked}", say("walk.run", run=bay.run), say("walk.overall"), say(f"walk.overall_{hooked}_where"),
            say(f"walk.overall_{hooked}_says"), _units(live), "overall", said, mark=hooked, span=taken.span(bay.run),
            posts=len(live.book.run_bays[bay.run]) + 1,
        )  # fmt: skip

    return ask


def _overall_rise(live: LiveJob, bay: Bay, taken: Taken) -> Asking:
    said = {"run": bay.run, "what": "overall-rise", "over": "centres"}
    return Asking(
        "overall-rise", say("walk.run", run=bay.run), say("walk.overall_rise"), say("walk.overall_rise_where"),
        say("walk.overall_rise_says"), _units(live), "overall-rise", said, rise=True, zero=True, sides="rise",
        posts=len(live.book.run_bays[bay.run]) + 1,
    )  # fmt: skip


# ---- lengths of tools, remembered on this device -----------------------------------------------------------------------
def _tool(key: str, draw: Draw) -> Callable[[LiveJob, Bay, Taken], Asking]:
    def ask(live: LiveJob, bay: Bay, taken: Taken) -> Asking:
        name = f"walk.{key}"
        return Asking(
            key, bay.tag, say(name), say(f"{name}_where"), say(f"{name}_says"), _units(live), draw, remembers=key
        )

    return ask


_level = _tool("level-length", "level")
_mark = _tool("mark-height", "mark")
_case = _tool("case-length", "case")

ASKED: dict[str, Callable[[LiveJob, Bay, Taken], Asking]] = {
    "span": _span, "rise": _rise("rise"), "base-rise": _rise("base-rise"), "second-span": _second, "top-span": _top_span,
    "diagonal-rising": _diagonal("rising"), "diagonal-falling": _diagonal("falling"),
    "plumb-left": _plumb("left"), "plumb-right": _plumb("right"),
    "overall-outside": _overall("outside"), "overall-inside": _overall("inside"), "overall-rise": _overall_rise,
    "case-length": _case, "level-length": _level, "mark-height": _mark,
}  # fmt: skip
"""Everything that can be asked, by its key."""
