"""A question as the stage draws it: from the model's words to the parts' own values."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import astuple, replace

from fieldapp.parts import reading_pictures, taken_pictures
from fieldapp.parts.bay_picture import BayNames
from fieldapp.parts.keypad import PadWords
from fieldapp.parts.question import Question, Typed
from fieldapp.parts.stroke import Shapes, mapped
from fieldapp.parts.tile import Draw
from fieldapp.screens.asking import Asking
from fieldapp.screens.taken import START
from fieldapp.screens.typing_state import LEVEL, Shown, Typing
from fieldapp.theme import Look
from fieldapp.words import say

_TILE = 190.0
"""Width for which the small pictures are drawn."""
SLOPE_EXAMPLES = {"deg": "1.2°", "%": "2 %", "1:n": "1:48", "in/ft": "1/4 in/ft", "mm/m": "20 mm/m"}


def question(look: Look, typing: Typing) -> Question:
    """The question with its drawing turned to the chosen side."""
    asking = typing.asking.sided(typing.side)
    how = asking.span.how if asking.span is not None else "hook"
    names = BayNames(asking.left, asking.right, _drawn(asking), asking.mark, how=how)
    hook, read = tape_ends(asking)
    made = Question(
        asking.tag, asking.what, asking.where, asking.says, "span", asking.shape, names, asking.units, typing.entry.pad,
        hook=hook, read=read, counts=asking.span is not None and asking.span.how in ("start", "case"),
        foot=say("walk.post_top") if asking.draw == "rise" else "", empty=_empty(asking),
        picture=_picture(asking, typing.side), sides=_sides(look, asking),
    )  # fmt: skip
    return made if made.picture is not None else replace(made, ask=asking.draw)  # type: ignore[arg-type]


def tape_ends(asking: Asking) -> tuple[str, str]:
    """What is held to either face as this tape is laid: its hook or its mark, and where it is read."""
    how = asking.span.how if asking.span is not None else "hook"
    if how == "laser":
        return say("walk.laser_from"), say("walk.laser_to")
    if how == "start":
        return say("walk.start_here", start=START[asking.units]), say("walk.read")
    return say("walk.hook"), say("walk.case_here" if how == "case" else "walk.read")


def _empty(asking: Asking) -> str:
    """The words in the blank blade; none where there is no blade: a slope is not taped, and a post's gap leaves no room."""
    return "" if asking.form or asking.draw in ("plumb", "overall-rise", "over-level") else say("walk.empty")


def typed(shown: Shown) -> Typed:
    """What was typed, for the stage."""
    return Typed(*astuple(shown))


def pad_words(units: str) -> PadWords:
    """What the keys show and say: the decimal key of a millimetre job writes a comma."""
    mark = "comma" if units == "mm" else "point"
    return PadWords(
        say("walk.keep"), say("walk.erase"), say("walk.feet"), say("walk.feet_says"), say(f"walk.{mark}"), say(f"walk.{mark}_says")
    )


def _drawn(asking: Asking) -> Callable[[int], str]:
    """How often the slope is drawn; a rise that is only being asked is not to scale."""
    if asking.rise:
        return lambda times: say("walk.not_to_scale")
    return lambda times: say("walk.drawn", times=times) if times > 1 else say("walk.drawn_1")


def _sides(look: Look, asking: Asking) -> tuple[tuple[str, str, str], ...]:
    """Each choice stands under its post; for one who stands outside they change places."""
    if not asking.sides:
        return ()
    names = {
        "rise": ("walk.left_higher", "walk.level", "walk.right_higher"), "plumb": ("walk.head_left", "walk.plumb_side", "walk.head_right"),
    }[asking.sides]  # fmt: skip
    short = ("walk.left_short", names[1], "walk.right_short") if look.big else names
    found = tuple((side, say(word), say(name)) for side, word, name in zip(("left", LEVEL, "right"), short, names, strict=True))
    return found[::-1] if asking.outside else found


def _picture(asking: Asking, side: str | None) -> Draw | None:
    """The drawing that stands in for the bay, where the question is of something else."""
    if asking.draw == "plumb":
        drawn = (say("walk.lean_drawn"), say("walk.lean_times"))
        words = reading_pictures.PlumbWords(say("walk.tape_gap"), (say("walk.level_long"), asking.mark), drawn)
        return reading_pictures.plumb(side or "", words)
    if asking.draw == "overall":
        return reading_pictures.run_overall(
            asking.posts, asking.mark, *tape_ends(asking), how=asking.span.how if asking.span is not None else "hook"
        )
    if asking.draw == "overall-rise":
        return reading_pictures.run_rise(asking.posts, side or "", say("walk.not_to_scale"))
    small: dict[str, Draw] = {
        "over-level": taken_pictures.over_level, "as-slope": taken_pictures.as_slope(""), "case": taken_pictures.cased,
        "level": taken_pictures.over_level, "plumb-level": reading_pictures.level_at_post, "mark": reading_pictures.diagonals,
    }  # fmt: skip
    return enlarged(small[asking.draw]) if asking.draw in small else None


def enlarged(draw: Draw) -> Draw:
    """A tile's picture across the whole stage: the same lines, further apart."""

    def large(look: Look, w: float, h: float) -> Shapes:
        times = w / _TILE
        return mapped(draw(look, _TILE, h / times), lambda x, y: (x * times, y * times))

    return large


def start_mark(units: str) -> str:
    """The mark at which a doubtful tape is begun, as it stands on its blade: `1`, or `10` of centimetres."""
    return "1" if units == "in" else START["mm"].split()[0][:-1]
