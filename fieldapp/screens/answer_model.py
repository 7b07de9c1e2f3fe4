"""The answer that takes the place of the keys: a word, one sentence, what it rests on, and what to do next. Pure.

What was measured is judged here; what is only still to come (a read-back, a plumb) is a line among the facts, not a query to
be tapped away at every bay. The review lists those.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from fieldapp.live_job import LiveJob
from fieldapp.parts.bay_shape import BayShape
from fieldapp.parts.entry import Entry
from fieldapp.screens.answer_facts import clear_facts, clear_sentence, query_facts
from fieldapp.screens.answer_pictured import Pictured, pictured
from fieldapp.screens.asking import mirrored, shape_of
from fieldapp.screens.taken import Taken
from fieldapp.screens.typing_state import other_units
from fieldapp.screens.walk_order import Ask, next_ask, rise_of
from fieldapp.words import say
from measure.as_read import with_unit
from measure.conflict import CHECK
from measure.finding import Finding, Slip
from measure.length import NM_PER_INCH, NM_PER_MM, Length
from measure.opening import rise_reading
from measure.parse import parse_length
from measure.plan import Bay
from measure.reading import Reading
from measure.rounding import plain_text

Sign = Literal["clear", "query", "hold", "todo"]
ActName = Literal["next", "again", "it-was", "stands", "ask", "taken", "more", "review", "sides"]
_WORST = {"hold": 0, "query": 1}
_OF_BAY = ("span", "rise", "base-rise")
_OF_RISE = ("slope", "neighbour", "design-slope", "high-end", "closing-rise")
_OF_RUN = ("overall-outside", "overall-inside", "overall-rise")
RELEVANT: dict[str, tuple[str, ...]] = {
    "second-span": ("second-tape",), "top-span": ("lean", "grip"), "plumb-left": ("plumb", "lean"), "plumb-right": ("plumb", "lean"),
    "diagonal-rising": ("plumb",), "diagonal-falling": ("plumb",), "overall-outside": ("closing",), "overall-inside": ("closing",),
    "overall-rise": ("closing-rise", "high-end"),
}  # fmt: skip
"""The checks that a further reading is taken for; of span and rise all of them speak."""
_ASK_FOR = {"second-tape": "second-span", "plumb": "plumb-left", "closing-rise": "overall-rise"}
MOST_OTHERS = 2


@dataclass(frozen=True, slots=True)
class Act:
    """name: what it does; to: the question or bay that it leads to. says: its spoken name."""

    name: ActName
    label: str
    says: str
    to: str = ""


@dataclass(frozen=True, slots=True)
class SlipDrawn:
    """A likely slip as it is drawn. kind `start`: the blade begins at that mark; `marks`: both figures on one blade.

    start: units from the hook. read, was: the figure as typed and as it would be, in units.
    """

    kind: Literal["start", "marks"]
    says: str
    start: Fraction = Fraction(0)
    read: Fraction = Fraction(0)
    was: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Answer:
    """title: what was kept. sentence: the finding that decides. others: further findings, (word, sentence).

    whole, fraction, unit, says: the kept figure in its bay. beside: the same in the other unit, or what it counts as.
    pictured: what is drawn in place of the bay, where the figure is not its span. acts: the main action first. finding: the one that decides; None when all is clear.
    """

    tag: str
    title: str
    sign: Sign
    word: str
    sentence: str
    facts: tuple[tuple[str, str], ...]
    others: tuple[tuple[str, str], ...]
    slip: SlipDrawn | None
    acts: tuple[Act, ...]
    finding: Finding | None
    whole: str
    fraction: Fraction | None
    unit: str
    says: str
    beside: str
    shape: BayShape
    left: str
    right: str
    pictured: Pictured | None = None


def answer(live: LiveJob, tag: str, told: str, taken: Taken) -> Answer:
    """told: the question that was just kept, a key of asking.ASKED."""
    bay = live.bay(tag)
    findings = judged(live, bay, told)
    standing = _standing(findings, told)
    worst = standing[0] if standing else None
    sentence, compared = clear_sentence(live, bay, told, findings, RELEVANT.get(told, ()))
    reading = reading_of(live, bay, told)
    figure, beside = _figure(live, reading)
    shape, left, right = _drawn(live, bay, taken)
    sign: Sign = worst.verdict if worst else "clear" if compared else "todo"  # type: ignore[assignment]
    place = say("walk.run", run=bay.run) if told in _OF_RUN else tag
    return Answer(
        place, _title(live, bay, told), sign, worst.verdict if worst else say(f"answer.{'clear' if compared else 'kept_word'}"),
        worst.sentence if worst else sentence,
        query_facts(live, bay, worst) if worst else clear_facts(live, bay, told, findings),
        tuple((f.verdict, f.sentence) for f in standing[1 : 1 + MOST_OTHERS]),
        _slip(live, worst, reading) if worst else None, _acts(live, bay, told, worst, taken), worst,
        figure[0], figure[1], figure[2], figure[3], beside, shape, left, right, pictured(live, bay, told, reading),
    )  # fmt: skip


def judged(live: LiveJob, bay: Bay, told: str) -> list[Finding]:
    """What speaks at this answer: the bay's findings but for what is only not read yet, or the run's."""
    if told in _OF_RUN:
        return [f for f in live.findings_of_run(bay.run) if f.check != "missing"]
    span = live.book.counting("bay", bay.tag, "span")
    impossible = span is not None and span.corrected.nm <= 0
    return [f for f in live.findings_of_bay(bay.tag) if f.check != "missing" or (impossible and f.verdict == "hold")]


def walk_sign(live: LiveJob, tag: str) -> Sign:
    """A bay's sign in the walk's own strip: what was measured there, not what is still to come."""
    standing = _standing(judged(live, live.bay(tag), "span"), "span")
    if standing and live.bay(tag).has_glass:
        return standing[0].verdict  # type: ignore[return-value]
    return "clear" if live.taped(tag) else "todo"


def reading_of(live: LiveJob, bay: Bay, told: str) -> Reading | None:
    """The reading that an answer shows: of span and rise the span, of anything else its own."""
    book = live.book
    if told in _OF_BAY:
        return book.counting("bay", bay.tag, "span") or rise_reading(book, bay)
    if told == "second-span":
        return book.counting("bay", bay.tag, "span", "second")
    if told in ("plumb-left", "plumb-right"):
        return book.plumb(bay.left if told == "plumb-left" else bay.right, bay.run)
    if told in ("overall-outside", "overall-inside"):
        return book.counting("run", bay.run, "overall")
    if told == "overall-rise":
        return book.counting("run", bay.run, "overall-rise")
    return book.counting("bay", bay.tag, told)  # type: ignore[arg-type]


def it_was(found: Answer) -> Slip | None:
    """The slip that says how the tape really lay, so that a new reading can say so; None where it has to be measured again."""
    slips = found.finding.slips if found.finding else ()
    return slips[0] if slips and (slips[0].start or slips[0].case) else None


def _standing(findings: Iterable[Finding], told: str) -> list[Finding]:
    """Holds first, then queries that nobody answered; what the reading was taken for before the rest."""
    wanted = RELEVANT.get(told, ())
    found = [f for f in findings if f.verdict == "hold" or (f.verdict == "query" and f.answer is None)]
    return sorted(found, key=lambda f: (_WORST[f.verdict], wanted and f.check not in wanted))


def _title(live: LiveJob, bay: Bay, told: str) -> str:
    if told in _OF_BAY:
        key = "both" if _both(live, bay, told) else "rise" if rise_reading(live.book, bay) else "span"
        return say(f"answer.kept_{key}")
    if told in ("plumb-left", "plumb-right"):
        return say("answer.kept_plumb", post=bay.left if told == "plumb-left" else bay.right)
    return say(f"answer.kept_{told}")


def _figure(live: LiveJob, reading: Reading | None) -> tuple[tuple[str, Fraction | None, str, str], str]:
    """The figure as typed with its unit, spoken; and what stands in its dimension line."""
    units = live.plan.units
    if reading is None:
        return ("", None, "", ""), ""
    said = with_unit(reading.text, units)
    entry = Entry.from_text(reading.text, units)
    unit = "" if entry.free and said == reading.text.strip() else units
    whole, fraction = entry.shown
    if not isinstance(reading.value, Length):
        return (reading.text, None, "", reading.text), ""
    if reading.corrected != reading.value:
        return (whole, fraction, unit, said), say("walk.counts_as", figure=plain_text(reading.corrected, units))
    return (whole, fraction, unit, said), other_units(reading.value, units) if reading.value.nm else ""


def _drawn(live: LiveJob, bay: Bay, taken: Taken) -> tuple[BayShape, str, str]:
    shape = shape_of(live, bay)
    return (mirrored(shape), bay.right, bay.left) if taken.outside else (shape, bay.left, bay.right)


def _slip(live: LiveJob, finding: Finding, reading: Reading | None) -> SlipDrawn | None:
    """Drawn where a picture tells it: begun at a mark, or two figures that lie on one blade."""
    if not finding.slips or reading is None or not isinstance(reading.value, Length):
        return None
    slip, units = finding.slips[0], live.plan.units
    per = NM_PER_INCH if units == "in" else NM_PER_MM
    if slip.start:
        return SlipDrawn("start", slip.sentence, Fraction(parse_length(slip.start, units).nm, per))
    read, was = Fraction(reading.value.nm, per), Fraction(parse_length(slip.read, units).nm, per)
    near = 2 if units == "in" else 50
    return SlipDrawn("marks", slip.sentence, read=read, was=was) if 0 < abs(read - was) <= near else None


# ---- what to do --------------------------------------------------------------------------------------------------------
def _acts(live: LiveJob, bay: Bay, told: str, finding: Finding | None, taken: Taken) -> tuple[Act, ...]:
    onward_ = _next(live, bay, told, finding, taken)
    again = Act("again", say("answer.again"), say("answer.again"), _again(live, told, finding))
    if finding is None:
        return (onward_, *_either(live, bay, told)) if _both(live, bay, told) else (onward_, again)
    main = _main(live, bay, told, finding) or again
    side = [again] if main is not again and finding.check != CHECK else []
    if finding.verdict == "hold":
        return (main, *side, onward_)
    slip = finding.slips[0] if finding.slips else None
    if slip is not None and (slip.start or slip.case):
        label = say("answer.it_was", figure=slip.read)
        side.append(Act("it-was", label, label))
    stands = Act("stands", say("answer.stands"), say("answer.stands_says"), finding.check)
    return (main, *side, stands, onward_)


def _both(live: LiveJob, bay: Bay, told: str) -> bool:
    """Whether the answer speaks of a span and a rise."""
    return told in _OF_BAY and live.book.counting("bay", bay.tag, "span") is not None and rise_reading(live.book, bay) is not None


def _either(live: LiveJob, bay: Bay, told: str) -> tuple[Act, Act]:
    """Measure one of the two again: which one is said."""
    rise = "base-rise" if told == "base-rise" else rise_of(live, bay.tag)
    return tuple(Act("again", say(f"answer.again_{what}"), say(f"answer.again_{what}"), to) for what, to in (("span", "span"), ("rise", rise)))  # type: ignore[return-value]


def _again(live: LiveJob, told: str, finding: Finding | None) -> str:
    """What is measured again: the rise where the rise is queried, else the span, else what was just kept."""
    if told not in _OF_BAY:
        return told
    if finding is None:
        return told
    return ("base-rise" if told == "base-rise" else "rise") if finding.check in _OF_RISE else "span"


def _main(live: LiveJob, bay: Bay, told: str, finding: Finding) -> Act | None:
    """The reading that a finding calls for, where it is not the same one again."""
    if finding.check == "rack-line":
        return Act("taken", say("answer.follows"), say("answer.follows"), "rise")
    if finding.check == CHECK:
        return Act("sides", say("answer.sides"), say("answer.sides"))
    wanted = _ASK_FOR.get(finding.check)
    if finding.check == "lean":
        wanted = "plumb-left" if told == "top-span" else "top-span"
    if wanted is None or wanted == told:
        return None
    known = finding.check in ("plumb", "lean") and reading_of(live, bay, wanted) is not None
    if known and told not in _OF_BAY:
        return None  # it was just read: the same once more
    label = say(f"answer.{'again' if known else 'ask'}_{wanted}", post=bay.left)
    return Act("ask", label, label, wanted)


def _next(live: LiveJob, bay: Bay, told: str, finding: Finding | None, taken: Taken) -> Act:
    """On to the next open question. A hold is gone past in plain words: it stays on hold."""
    follow = {"diagonal-rising": "diagonal-falling", "plumb-left": "plumb-right"}.get(told)
    if follow is not None and reading_of(live, bay, follow) is None:
        label = say(f"answer.follow_{follow}", post=bay.right)
        return Act("ask", label, say("answer.next_says"), follow)
    ahead = next_ask(live, bay.tag, taken.from_right)
    if ahead is None:
        return Act("review", say("answer.review"), say("answer.review"))
    key = "next" if finding is None else "go_on_hold" if finding.verdict == "hold" and ahead.bay != bay.tag else "go_on"
    return Act("next", say(f"answer.{key}", bay=ahead.bay, what=asked_word(ahead)), say("answer.next_says"), ahead.bay)


def asked_word(ask: Ask) -> str:
    """`span`, `rise`, `how it lay`."""
    return say(f"answer.what_{ask.what}")
