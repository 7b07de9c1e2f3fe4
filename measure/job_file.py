"""The job file's shape: which keys a part has, which of them are needed, and what kind of thing each one is.

Checked by pydantic's core, strictly: no number for a text, no `true` for a number, no key that is not named here. The schemas are
written out for it, not derived from classes: that takes a fifth of the time at every start, and a key that is left out is
simply not there, so what was typed stays as it was typed. pydantic makes the JSON Schema from them (job_schema.py).
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from functools import cache
from typing import Any, Literal, get_args

from pydantic_core import CoreSchema, SchemaValidator
from pydantic_core import core_schema as core

from measure.plan import RackFollows, Shape, Status
from measure.reading import How, Role, Side, What
from measure.system import PostKind, TapeClass
from measure.tag import TAG_PATTERN

Part = Literal["job", "reading", "moved", "answer", "note"]
FORMAT = "spanbook-job/1"
LONGEST_TEXT = 2000
# What a schema's metadata says goes into the JSON Schema beside the kind of thing.


def _text(**told: Any) -> CoreSchema:
    return core.str_schema(strict=True, max_length=LONGEST_TEXT, metadata=told)


def _one_of(*words: str) -> CoreSchema:
    return core.literal_schema(list(words))


def _figure(told: str) -> CoreSchema:
    """A text as a person would type it, or a bare number."""
    return core.union_schema(
        [core.str_schema(strict=True), _WHOLE, _DECIMAL],
        mode="left_to_right",
        custom_error_type="figure",
        custom_error_message="figure",
        metadata={"type": ["string", "number"], "description": told},
    )


def _number(told: str) -> CoreSchema:
    """A bare number."""
    return core.union_schema(
        [_WHOLE, _DECIMAL],
        mode="left_to_right",
        custom_error_type="number",
        custom_error_message="number",
        metadata={"type": "number", "description": told},
    )


def _part(description: str, needed: dict[str, CoreSchema], more: dict[str, CoreSchema]) -> core.TypedDictSchema:
    """An object with keys that are needed and keys that may be left out."""
    fields = {k: core.typed_dict_field(v, required=True) for k, v in needed.items()}
    fields |= {k: core.typed_dict_field(v, required=False) for k, v in more.items()}
    return core.typed_dict_schema(fields, strict=True, extra_behavior="forbid", metadata={"description": description})


def _words(keys: str, kind: CoreSchema) -> dict[str, CoreSchema]:
    return dict.fromkeys(keys.split(), kind)


def _many(part: CoreSchema) -> CoreSchema:
    return core.list_schema(part, strict=True)


def _text_or_by_edge(value: Any, by_edge: core.ValidatorFunctionWrapHandler) -> Any:
    return value if isinstance(value, str) else by_edge(value)


_WHOLE = core.int_schema(strict=True)
_DECIMAL = core.is_instance_schema(Decimal)
TEXT = _text()
NAME = _text(minLength=1)
"""Blank is refused where the figures are read, so that one sentence says it."""
TAG = _text(pattern=TAG_PATTERN)
MOMENT = _text(format="date-time")
TRUTH = core.bool_schema(strict=True)
LENGTH = _figure("a length above 0, as `35 1/4 in`, or a bare number in the job's units")
LENGTH_OR_0 = _figure("a length, 0 too, as `1/16 in`, or a bare number in the job's units")
SLOPE = _figure("a slope: `2 %`, `1.2 deg`, `1:48`, `1/4 in/ft`, `20 mm/m`")
VALUE = _figure("a length as it was read, or a bare number in the job's units; a rise may be a slope")
OVER = _figure("`centres`, `faces`, or the length that it was taken over")
DEGREES = _number("degrees")
KILOGRAMS = _number("kilograms")
SIDE = _one_of(*get_args(Side))

_JOB = _part(
    "Units, how it is read and ordered, and the order's head",
    {"name": NAME, "units": _one_of("in", "mm")},
    {
        "order_step": LENGTH,
        "read_back": _one_of("no", "asked", "required"),
        "plumb": _one_of("no", "asked"),
        **_words("site customer po wanted_by deliver_to contact phone unloading", TEXT),
    },
)
_TAPE = _part(
    "What was measured with",
    {"division": LENGTH},
    {"class": _one_of(*get_args(TapeClass)), "from_hook": TRUTH, "placing": LENGTH_OR_0, "laser": LENGTH},
)
_TURN = _part("How far a panel may turn in a post, and the angle between its grooves", {"each": DEGREES}, {"grooves": DEGREES})
_TURNING = _part("By kind of post", {}, dict.fromkeys(get_args(PostKind), _TURN))
_CONFIRMED = _part("Who confirmed the figures, when and from which sheet", _words("by at sheet", TEXT), {})
_SYSTEM = _part(
    "The figures of the post system, from its maker's sheet",
    {
        "name": NAME,
        **_words("post_face greatest_spacing allowance groove_depth least_bite", LENGTH),
        "least_play": LENGTH_OR_0,
    },
    {
        **_words("base_plate post_height", LENGTH),
        "turn_axis": LENGTH_OR_0,
        "turning": _TURNING,
        "confirmed": _CONFIRMED,
    },
)
_BY_EDGE = _part("By edge", {}, _words("top uprights bottom", TEXT))
_GLASS = _part(
    "What is ordered, and what the shop can make",
    {"thickness": LENGTH, "height": LENGTH, "size_tolerance": LENGTH_OR_0},
    {
        **_words("kind corners holes stamp standard", TEXT),
        "edge": core.no_info_wrap_validator_function(_text_or_by_edge, _BY_EDGE, metadata={"or": {"type": "string"}}),
        "finish_face": core.nullable_schema(TEXT),
        **_words("least_width greatest_width least_height greatest_height", LENGTH),
        "least_corner_angle": DEGREES,
        "greatest_mass_kg": KILOGRAMS,
    },
)
_LIMITS = _part(
    "What is left out is not checked",
    {},
    {**_words("plan_tolerance second_tape lean", LENGTH_OR_0), "slope": SLOPE, "slope_step": SLOPE},
)
_RUN = _part("Neighbouring bays in one line", {"run": TAG}, {"rack_follows": _one_of(*get_args(RackFollows)), "seen_from": NAME})
_POST = _part(
    "A post",
    {"id": NAME, "kind": _one_of(*get_args(PostKind))},
    {"angle": DEGREES, "face": LENGTH, "height": LENGTH, "trimmed": TRUTH},
)
_BAY = _part(
    "The opening between two neighbouring posts; its tag is the panel's mark",
    {"tag": TAG, "run": TAG, "left": NAME, "right": NAME},
    {
        **_words("spacing span height", LENGTH),
        "shape": _one_of(*get_args(Shape)),
        "finish_face": core.nullable_schema(TEXT),
        "glass": _one_of("none"),
        "taller": TRUTH,
        "status": _one_of(*get_args(Status)),
    },
)
READING = _part(
    "One figure of a bay, a post or a run, as it was read",
    {"what": _one_of(*get_args(What)), "value": VALUE, "by": NAME, "at": MOMENT},
    {
        **_words("bay post run id replaces", NAME),
        "role": _one_of(*get_args(Role)),
        "high": SIDE,
        "over": OVER,
        "taped": _one_of("level", "along"),
        "how": _one_of(*get_args(How)),
        "start": LENGTH_OR_0,
        "case": LENGTH_OR_0,
        "toward": SIDE,
        "mark": LENGTH,
        "from": _one_of("inside", "outside"),
    },
)
MOVED = _part("A post that was shimmed or moved", {"post": NAME, "at": MOMENT, "by": NAME}, {})
ANSWER = _part("Why a query stands", {**_words("check reason by", NAME), "at": MOMENT}, _words("bay run", NAME))
NOTE = _part(
    "Something said of a bay that no check looks at", {"bay": NAME, "by": NAME, "at": MOMENT}, {"text": TEXT, "photo": TEXT, "id": NAME}
)
_PLAN = {"format": _one_of(FORMAT), "job": _JOB, "tape": _TAPE, "system": _SYSTEM, "glass": _GLASS, "posts": _many(_POST), "bays": _many(_BAY)}
_PLAN_MORE = {"limits": _LIMITS, "runs": _many(_RUN)}
_SAID = {"readings": _many(READING), "moved": _many(MOVED), "answers": _many(ANSWER), "notes": _many(NOTE)}
_VERSION = {"id": NAME, "by": TEXT, "at": TEXT, "before": _many(NAME)}
_OTHER_PLAN = _part("A plan that was changed on another device", {**_VERSION, "plan": _part("Its words", _PLAN, _PLAN_MORE)}, {})
_TIES = _part("The order of what was said at the same instant", {}, dict.fromkeys(_SAID, core.dict_schema(TEXT, _WHOLE, strict=True)))
_HISTORY = _part(
    "What copies of one job need to become one again; written by Spanbook, not by hand",
    {"job": NAME},
    {
        "plan": _part("The version of the plan", _VERSION, {}),
        "other_plans": _many(_OTHER_PLAN),
        "ties": _TIES,
        "unplaced": _part("What was said of places that the plan no longer has", {}, _SAID),
    },
)
JOB_FILE = _part(
    "A job as a file: one site's system, glass, plan, readings and answers", _PLAN, {**_PLAN_MORE, **_SAID, "history": _HISTORY}
)


@cache
def validator(part: Part) -> SchemaValidator:
    """Of a whole `job`, or of one `reading`, `moved`, `answer` or `note`; made when first asked for."""
    return SchemaValidator({"job": JOB_FILE, "reading": READING, "moved": MOVED, "answer": ANSWER, "note": NOTE}[part])


def keys_at(path: Iterable[str | int]) -> tuple[str, ...]:
    """The keys that are known at a place of the file; none where there is no such place."""
    at: Any = JOB_FILE
    for key in path:
        fields = _inner(at).get("fields", {})
        if isinstance(key, int):
            at = at.get("items_schema", {})
        elif key in fields:
            at = fields[key]["schema"]
        else:
            return ()
    return tuple(_inner(at).get("fields", ()))


def _inner(schema: Any) -> Any:
    return schema["schema"] if schema.get("type") == "function-wrap" else schema
