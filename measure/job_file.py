"""The job file's shape: which keys a part has, which of them are needed, and what kind of thing each one is.

pydantic checks the shape and makes the JSON Schema from it. Every part is strict (no number for a text, no `true` for a
number) and knows no other keys; a key that is left out is simply not there, so what was typed stays as it was typed.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any, Literal, Required

from pydantic import ConfigDict, Field, GetCoreSchemaHandler, GetJsonSchemaHandler, with_config
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema
from typing_extensions import TypedDict

from measure.json_path import Path
from measure.plan import RackFollows, Shape, Status
from measure.reading import How, Role, Side, What
from measure.system import PostKind, TapeClass
from measure.tag import TAG_PATTERN

FORMAT = "spanbook-job/1"
LONGEST_TEXT = 2000
_part = with_config(ConfigDict(strict=True, extra="forbid"))
_whole = core_schema.int_schema(strict=True)
_decimal = core_schema.is_instance_schema(Decimal)


class Figure:
    """A text as a person would type it, or a bare number. told: what it is, for the schema."""

    def __init__(self, told: str) -> None:
        self.told = told

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        choices: list[CoreSchema | tuple[CoreSchema, str]] = [core_schema.str_schema(strict=True), _whole, _decimal]
        return core_schema.union_schema(choices, mode="left_to_right", custom_error_type="figure", custom_error_message="figure")

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {"type": ["string", "number"], "description": self.told}


class BareNumber:
    """A bare number. told: what it counts, for the schema."""

    def __init__(self, told: str) -> None:
        self.told = told

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        choices: list[CoreSchema | tuple[CoreSchema, str]] = [_whole, _decimal]
        return core_schema.union_schema(choices, mode="left_to_right", custom_error_type="number", custom_error_message="number")

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {"type": "number", "description": self.told}


class TextForAll:
    """One text for all edges may stand in place of the words by edge."""

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        def text_or(value: Any, by_edge: core_schema.ValidatorFunctionWrapHandler) -> Any:
            return value if isinstance(value, str) else by_edge(value)

        return core_schema.no_info_wrap_validator_function(text_or, handler(EdgeWords))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return {"anyOf": [{"type": "string"}, handler(schema)]}


Typed = str | int | Decimal
Number = int | Decimal
LengthText = Annotated[Typed, Figure("a length above 0, as `35 1/4 in`, or a bare number in the job's units")]
ZeroText = Annotated[Typed, Figure("a length, 0 too, as `1/16 in`, or a bare number in the job's units")]
SlopeText = Annotated[Typed, Figure("a slope: `2 %`, `1.2 deg`, `1:48`, `1/4 in/ft`, `20 mm/m`")]
RiseText = Annotated[Typed, Figure("a length as it was typed or a bare number in the job's units; a rise may be a slope")]
OverText = Annotated[Typed, Figure("`centres`, `faces`, or the length that it was taken over")]
Degrees = Annotated[Number, BareNumber("degrees")]
Kilograms = Annotated[Number, BareNumber("kilograms")]
Text = Annotated[str, Field(max_length=LONGEST_TEXT)]
Name = Annotated[str, Field(max_length=LONGEST_TEXT, json_schema_extra={"minLength": 1})]
"""Blank is refused later, with the tag and date rules, so that one sentence says it."""
Tag = Annotated[str, Field(max_length=LONGEST_TEXT, json_schema_extra={"pattern": TAG_PATTERN})]
Moment = Annotated[str, Field(json_schema_extra={"format": "date-time"})]


@_part
class JobHead(TypedDict, total=False):
    """`job`: units, how it is read and ordered, and the order's head."""

    name: Required[Name]
    units: Required[Literal["in", "mm"]]
    site: Text
    order_step: LengthText
    read_back: Literal["no", "asked", "required"]
    plumb: Literal["no", "asked"]
    customer: Text
    po: Text
    wanted_by: Text
    deliver_to: Text
    contact: Text
    phone: Text
    unloading: Text


_TapeClass = TypedDict("_TapeClass", {"class": TapeClass}, total=False)


@_part
class TapeWords(_TapeClass, total=False):
    """`tape`: what was measured with."""

    division: Required[LengthText]
    from_hook: bool
    placing: ZeroText
    laser: LengthText


@_part
class TurnWords(TypedDict, total=False):
    """How far a panel may turn in a post, and the angle between the post's grooves."""

    each: Required[Degrees]
    grooves: Degrees


@_part
class TurningWords(TypedDict, total=False):
    """Turning by kind of post."""

    end: TurnWords
    line: TurnWords
    corner: TurnWords
    wall: TurnWords


@_part
class ConfirmedWords(TypedDict):
    """Who confirmed the system's figures, when and from which sheet."""

    by: Text
    at: Text
    sheet: Text


@_part
class SystemWords(TypedDict, total=False):
    """`system`: the figures of the post system, from its maker's sheet."""

    name: Required[Name]
    post_face: Required[LengthText]
    greatest_spacing: Required[LengthText]
    allowance: Required[LengthText]
    groove_depth: Required[LengthText]
    least_bite: Required[LengthText]
    least_play: Required[ZeroText]
    base_plate: LengthText
    turn_axis: ZeroText
    post_height: LengthText
    turning: TurningWords
    confirmed: ConfirmedWords


@_part
class EdgeWords(TypedDict, total=False):
    """How the glass is worked, by edge."""

    top: Text
    uprights: Text
    bottom: Text


@_part
class GlassWords(TypedDict, total=False):
    """`glass`: what is ordered, and what the shop can make."""

    thickness: Required[LengthText]
    height: Required[LengthText]
    size_tolerance: Required[ZeroText]
    kind: Text
    edge: Annotated[str | EdgeWords, TextForAll()]
    corners: Text
    holes: Text
    stamp: Text
    standard: Text
    finish_face: Text | None
    least_width: LengthText
    greatest_width: LengthText
    least_height: LengthText
    greatest_height: LengthText
    least_corner_angle: Degrees
    greatest_mass_kg: Kilograms


@_part
class LimitWords(TypedDict, total=False):
    """`limits`: what is left out is not checked."""

    plan_tolerance: ZeroText
    second_tape: ZeroText
    lean: ZeroText
    slope: SlopeText
    slope_step: SlopeText


@_part
class RunWords(TypedDict, total=False):
    """One of `runs`."""

    run: Required[Tag]
    rack_follows: RackFollows
    seen_from: Name


@_part
class PostWords(TypedDict, total=False):
    """One of `posts`."""

    id: Required[Name]
    kind: Required[PostKind]
    angle: Degrees
    face: LengthText
    height: LengthText
    trimmed: bool


@_part
class BayWords(TypedDict, total=False):
    """One of `bays`."""

    tag: Required[Tag]
    run: Required[Tag]
    left: Required[Name]
    right: Required[Name]
    spacing: LengthText
    span: LengthText
    shape: Shape
    height: LengthText
    finish_face: Text | None
    glass: Literal["none"]
    taller: bool
    status: Status


_ReadingFrom = TypedDict("_ReadingFrom", {"from": Literal["inside", "outside"]}, total=False)


@_part
class ReadingWords(_ReadingFrom, total=False):
    """One of `readings`: of a bay, a post or a run."""

    what: Required[What]
    value: Required[RiseText]
    by: Required[Name]
    at: Required[Moment]
    bay: Name
    post: Name
    run: Name
    role: Role
    id: Name
    replaces: Name
    high: Side
    over: OverText
    taped: Literal["level", "along"]
    how: How
    start: ZeroText
    case: ZeroText
    toward: Side
    mark: LengthText


@_part
class MovedWords(TypedDict):
    """One of `moved`: a post that was shimmed or moved."""

    post: Name
    at: Moment
    by: Name


@_part
class AnswerWords(TypedDict, total=False):
    """One of `answers`: why a query stands."""

    check: Required[Name]
    reason: Required[Name]
    by: Required[Name]
    at: Required[Moment]
    bay: Name
    run: Name


@_part
class NoteWords(TypedDict, total=False):
    """One of `notes`: something said of a bay that no check looks at."""

    bay: Required[Name]
    by: Required[Name]
    at: Required[Moment]
    text: Text
    photo: Text
    id: Name


@_part
class VersionWords(TypedDict):
    """A version of the plan: its id, who made it when, and the versions it stems from."""

    id: Name
    by: Text
    at: Text
    before: list[Name]


@_part
class PlanFile(TypedDict, total=False):
    """The plan's part of a job file."""

    format: Required[Literal["spanbook-job/1"]]
    job: Required[JobHead]
    tape: Required[TapeWords]
    system: Required[SystemWords]
    glass: Required[GlassWords]
    limits: LimitWords
    runs: list[RunWords]
    posts: Required[list[PostWords]]
    bays: Required[list[BayWords]]


@_part
class OtherPlan(VersionWords):
    """A plan that was changed on another device."""

    plan: PlanFile


@_part
class SaidWords(TypedDict, total=False):
    """What was said of places that the shown plan no longer has."""

    readings: list[ReadingWords]
    moved: list[MovedWords]
    answers: list[AnswerWords]
    notes: list[NoteWords]


@_part
class TieWords(TypedDict, total=False):
    """The order of things said at the same instant, by list and key."""

    readings: dict[str, int]
    moved: dict[str, int]
    answers: dict[str, int]
    notes: dict[str, int]


@_part
class HistoryWords(TypedDict, total=False):
    """`history`: what copies of one job need to become one again. Written by Spanbook, not by hand."""

    job: Required[Name]
    plan: VersionWords
    other_plans: list[OtherPlan]
    ties: TieWords
    unplaced: SaidWords


@_part
class JobFile(PlanFile, total=False):
    """A job as a file: one site's system, glass, plan, readings and answers."""

    readings: list[ReadingWords]
    moved: list[MovedWords]
    answers: list[AnswerWords]
    notes: list[NoteWords]
    history: HistoryWords


_PARTS: dict[tuple[str, ...], type] = {
    (): JobFile,
    ("job",): JobHead,
    ("tape",): TapeWords,
    ("system",): SystemWords,
    ("system", "turning"): TurningWords,
    ("system", "confirmed"): ConfirmedWords,
    ("glass",): GlassWords,
    ("glass", "edge"): EdgeWords,
    ("limits",): LimitWords,
    ("runs",): RunWords,
    ("posts",): PostWords,
    ("bays",): BayWords,
    ("readings",): ReadingWords,
    ("moved",): MovedWords,
    ("answers",): AnswerWords,
    ("notes",): NoteWords,
}


def keys_at(path: Path) -> tuple[str, ...]:
    """The keys that are known at a place of the file; none for a place that is not written by hand."""
    part = _PARTS.get(tuple(key for key in path if isinstance(key, str)))
    return () if part is None else tuple(part.__annotations__)
