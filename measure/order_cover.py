"""The cover of the printed order: totals, rules for the shop, panes, cautions, and who answers for what."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from measure.markup import markup_safe as safe
from measure.order import NOTE, Order
from measure.order_csv import head_values
from measure.pane_text import area_text, double_area, double_volume, length_text, mass_text
from measure.rounding import plain_text

_HEAD_LEFT = (("customer", "Customer"), ("po", "Purchase order"), ("site", "Site"), ("system", "Post system"), ("glass", "Glass"))
_HEAD_RIGHT = (
    ("wanted_by", "Wanted by"),
    ("deliver_to", "Deliver to"),
    ("contact", "Contact"),
    ("phone", "Phone"),
    ("unloading", "Unloading"),
)
_NO_BREAK = "\u00a0"
_NUMBER = ' class="n"'
STANDING_CAUTIONS = (
    "Until the glass is in, the edge of the deck is open: barrier or fall arrest (29 CFR 1926.501(b)(1) from 6 ft, 1.8 m; the "
    "local rule goes first), nobody below.",
    "Before ordering, ask the local building official whether this glass, single toughened or laminated, and its permanent mark "
    "are accepted in a guard. Guard height, openings, loads and fixing are matters of the local code and a licensed designer.",
    "Two people for every panel, a third or a lifter above 30 kg. Glass goes in from above: look for headroom. No lifting in "
    "gusts.",
    "Glass stands on timber or rubber, on its long edge, tied, leaning 3 to 5 degrees, never on metal, stone or concrete. "
    "A chipped panel is refused.",
)


def cover(order: Order) -> str:
    """The first page, then every pane and every query that stands."""
    first = (_title(order), _totals(order), _rules(order), _left_out(order), _answerable(order), _cautions(order), _signing())
    return "".join((*first, _panes(order), _standing(order)))


def _title(order: Order) -> str:
    values = head_values(order)
    number = (
        f"Order {safe(order.order_no)}, revision {order.revision}, {safe(order.date)}"
        if order.order_no
        else "Not issued: no order number yet"
    )
    halves = "".join(
        f'<table class="plain"><tbody>{_rows((w, values[k]) for k, w in half)}</tbody></table>'
        for half in (_HEAD_LEFT, _HEAD_RIGHT)
    )
    return f'<h1>Glass order: {safe(order.job.name)}</h1>\n<p>{number}</p>\n<div class="head">{halves}</div>\n'


def _rows(told: Iterable[tuple[str, str]]) -> str:
    return "".join(f'<tr><th scope="row">{words}</th><td>{safe(said)}</td></tr>\n' for words, said in told if said)


def _totals(order: Order) -> str:
    heaviest = order.heaviest
    cells = (
        (str(len(order.lines)), "panel" if len(order.lines) == 1 else "panels"),
        (f"{area_text(order.double_area)} m²", "of glass"),
        (f"{mass_text(order.double_volume)} kg", "in all"),
        (f"{mass_text(double_volume(heaviest.pane))} kg", f"the heaviest, {heaviest.panel}"),
    )
    return '<div class="totals">' + "".join(f"<div><b>{big}</b>{safe(words)}</div>" for big, words in cells) + "</div>\n"


def _rules(order: Order) -> str:
    step = plain_text(order.job.order_step, order.governs)
    unit = "inches" if order.governs == "in" else "millimetres"
    tolerance = plain_text(order.job.glass.size_tolerance, order.governs)
    said = (
        f"{NOTE[:1].upper()}{NOTE[1:]}. Toughened glass cannot be cut, drilled or ground afterwards.",
        f"Every panel is seen from {order.seen_from}. Left, right and high end are meant from there. Do not mirror.",
        f"Sizes in {unit} bind. They are rounded to {step} already: do not round again, add or take off. "
        f"Size tolerance {tolerance.replace(' ', _NO_BREAK)} either way.",
        "Width is square across, upright to upright, never along the slope. Uprights stay plumb.",
        "Racked and level-top panels have unequal diagonals on purpose: check both figures. Only a rectangle's are equal.",
    )
    return '<div class="rule">' + "".join(f"<p>{safe(line)}</p>" for line in said) + "</div>\n"


def _panes(order: Order) -> str:
    def row(cells: Sequence[str], numbers: int) -> str:
        return "".join(f"<td{_NUMBER if at >= numbers else ''}>{safe(cell)}</td>" for at, cell in enumerate(cells))

    rows = []
    for group in order.groups:
        pane = group.pane
        sizes = [length_text(size, order.governs).text for size in (pane.width, pane.left_edge, pane.right_edge, pane.rack)]
        handed = pane.shape if pane.high_end == "none" else f"{pane.shape}, {pane.high_end} high"
        mass = mass_text(group.qty * double_volume(pane))
        cells = (
            group.letters,
            ", ".join(group.panels),
            handed,
            str(group.qty),
            *sizes,
            area_text(group.qty * double_area(pane)),
            mass,
        )
        rows.append(f"<tr>{row(cells, 3)}</tr>\n")
    names = ("Pane", "Panels", "Shape", "Qty", "Width", "Left edge", "Right edge", "Rack", "m²", "kg")
    heads = "".join(f'<th scope="col"{_NUMBER if at >= 3 else ""}>{name}</th>' for at, name in enumerate(names))
    turned = (
        '<p class="small">Panels under one letter are the same pane; a plain racked one turned round fits the other slope. '
        "High end as the first of them stands.</p>\n"
    )
    return f"<h2>Panes</h2>\n{_wide_table(heads, ''.join(rows))}{turned}"


def _left_out(order: Order) -> str:
    if not order.left_out:
        return ""
    rows = "".join(
        f'<tr><th scope="row">{safe(where)}</th><td>{safe(f.check)}</td><td>{safe(f.verdict)}</td><td>{safe(f.sentence)}</td></tr>\n'
        for where, f in order.in_the_way
    )
    tags = ", ".join(tag for tag, _ in order.left_out)
    head = f"<h2>Left out of this order</h2>\n<p>Not ordered yet, do not make them: <b>{safe(tags)}</b>.</p>\n"
    return f'{head}<table class="left-out"><tbody>\n{rows}</tbody></table>\n'


def _answerable(order: Order) -> str:
    confirmed = order.job.system.confirmed
    taped = Counter(line.read_by for line in order.lines)
    back = Counter(line.read_back_by for line in order.lines if line.read_back_by)
    silent = len(order.lines) - sum(back.values())
    told = [
        ("Taped", _counted(taped)),
        ("Read back", (_counted(back) or "nobody") + (f"; {silent} not read back" if silent and back else "")),
        (
            "Confirmed the system's figures",
            f"{confirmed.by}, {confirmed.at}, {confirmed.sheet}" if confirmed is not None else "nobody",
        ),
        ("Issued the order", f"{order.issued_by}, {order.date}" if order.issued_by else "not issued"),
    ]
    rows = "".join(f'<tr><th scope="row">{safe(words)}</th><td>{safe(said)}</td></tr>\n' for words, said in told)
    return f"<h2>Who answers for what</h2>\n<table><tbody>\n{rows}</tbody></table>\n"


def _standing(order: Order) -> str:
    """Queries that somebody let stand, each with why and who."""
    answers = dict.fromkeys(answer for line in order.lines for answer in line.answered)
    if not answers:
        return ""
    rows = "".join(
        f'<tr><th scope="row">{safe(a.bay or f"run {a.run}")}</th>'
        f"<td>{safe(a.check)}</td><td>{safe(a.reason)}</td><td>{safe(a.by)}</td></tr>\n"
        for a in answers
    )
    heads = "".join(f'<th scope="col">{name}</th>' for name in ("Where", "Query", "Why it stands", "Who says so"))
    return f"<h2>Queries that stand</h2>\n{_wide_table(heads, rows)}"


def _wide_table(heads: str, rows: str) -> str:
    """A table that a narrow screen scrolls sideways."""
    return f'<div class="wide"><table><thead><tr>{heads}</tr></thead><tbody>\n{rows}</tbody></table></div>\n'


def _counted(names: Counter[str]) -> str:
    return ", ".join(f"{name} ({count} {'panel' if count == 1 else 'panels'})" for name, count in names.items())


def _cautions(order: Order) -> str:
    found = (f"{f.place}: {f.sentence}" if f.place != "job" else f.sentence for f in order.cautions)
    items = "".join(f"<li>{safe(sentence)}</li>\n" for sentence in (*found, *STANDING_CAUTIONS))
    return f"<h2>Cautions</h2>\n<ul>\n{items}</ul>\n"


def _signing() -> str:
    line = '<div class="sign"><span>{}: name</span><span>date</span></div>\n'
    return line.format("Shop's drawing checked against this order")
