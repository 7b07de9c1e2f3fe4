"""`order.html`: the printed order. A cover, then every panel with its drawing; one file, nothing loaded, no script."""

from __future__ import annotations

from collections.abc import Iterator

from measure.drawing import panel_drawing
from measure.finding import Finding
from measure.markup import markup_safe as safe
from measure.order import Order, OrderLine
from measure.order_cover import cover
from measure.order_csv import answer_text
from measure.order_style import style_sheet
from measure.pane_text import LengthText, PaneText, pane_text
from measure.panel import Panel
from measure.rounding import mm_decimal

_POLICY = "default-src 'none'; style-src 'unsafe-inline'"


def order_html(order: Order) -> bytes:
    """The whole page, UTF-8."""
    return "".join(page_parts(order)).encode("utf-8", "replace")


def page_parts(order: Order) -> Iterator[str]:
    """The page piece by piece: the cover, then a piece a panel."""
    issue = f"{order.order_no} revision {order.revision}" if order.order_no else "not issued"
    title = f"Glass order, {order.job.name}, {issue}"
    yield (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        f'<meta name="viewport" content="width=device-width, initial-scale=1">\n<title>{safe(title)}</title>\n'
        f"<style>{style_sheet(title)}</style>\n</head>\n<body>\n"
    )
    yield cover(order)
    yield '<section class="panels">\n'
    lifts = {f.bay: f for f in order.cautions if f.bay is not None and f.check == "lift"}
    for line in order.lines:
        yield _panel(order, line, lifts.get(line.panel))
    yield "</section>\n</body>\n</html>\n"


def grip_words(line: OrderLine) -> str:
    """The grip margin as one would say it."""
    spare = f"{mm_decimal(line.margin_nm, 1)} mm to spare"
    if line.margin_side == "fit":
        return f"{spare} before it no longer goes in between the groove floors"
    return f"{spare} before an edge, the other pushed home, holds too little"


def corner_angles(text: PaneText, pane: Panel) -> str:
    """Both lower corners: the smaller one stands at the low foot."""
    if pane.high_end == "none":
        return "both 90°"
    other = f"{90 + (90 - float(text.lower_angle)):.2f}"
    left, right = (other, text.lower_angle) if pane.high_end == "left" else (text.lower_angle, other)
    return f"left {left}°, right {right}°"


def _panel(order: Order, line: OrderLine, lift: Finding | None) -> str:
    pane, text = line.pane, pane_text(line.pane, order.governs)
    heavy = f" {safe(lift.sentence)}" if lift is not None else ""
    return (
        f'<article class="panel">\n<header><h3>Panel {safe(line.panel)}</h3><span>run {safe(line.run)} · pane {line.group} · '
        f'{_shape_words(pane)} · seen from {safe(line.seen_from)}</span></header>\n<div class="sheet">\n<div>'
        f'{panel_drawing(line, order.governs)}</div>\n<table class="figures"><tbody>\n{_sizes(order, pane, text)}'
        f"{_glass_rows(order, line)}</tbody></table>\n</div>\n"
        f'<p class="small">{_made_from(line)}{heavy}</p>\n{_answers(line)}</article>\n'
    )


def _shape_words(pane: Panel) -> str:
    return pane.shape if pane.high_end == "none" else f"{pane.shape}, {pane.high_end} end high"


def _sizes(order: Order, pane: Panel, text: PaneText) -> str:
    def both(words: str, size: LengthText) -> str:
        other = f"{size.mm} mm" if order.governs == "in" else f"{size.inch} in"
        return f'<tr class="cut"><th scope="row">{words}</th><td class="n">{size.text}</td><td class="n">{other}</td></tr>\n'

    def one(words: str, figure: str) -> str:
        return f'<tr><th scope="row">{words}</th><td class="n" colspan="2">{figure}</td></tr>\n'

    rows = [both("Width, across", text.width), both("Left edge", text.left_edge), both("Right edge", text.right_edge)]
    if pane.rack:
        rows += [both("Rack", text.rack), one("High end", f"<b>{pane.high_end}</b>")]
        edge = "Top, bottom edge" if pane.shape == "racked" else "Bottom edge"
        rows.append(one(edge, f"{text.sloped_edge} mm"))
    rows += [
        one("Rising diagonal", f"{text.diagonal_rising} mm"),
        one("Falling diagonal", f"{text.diagonal_falling} mm"),
        one("Lower corners", corner_angles(text, pane)),
        one("Around it", f"{text.bound_width} × {text.bound_height} mm"),
        one("Area, mass", f"{text.area} m², {text.mass} kg"),
    ]
    return "".join(rows)


def _glass_rows(order: Order, line: OrderLine) -> str:
    glass = order.job.glass
    told = (
        ("Edges", _edge_words(glass.edge_top, glass.edge_uprights, glass.edge_bottom)),
        ("Corners", glass.corners),
        ("Holes", glass.holes),
        (
            "Finish face",
            f"{line.finish_face}: handed, not to be turned round" if line.finish_face else "none, plain on both faces",
        ),
        ("Mark", glass.stamp),
        ("Standard", glass.standard),
    )
    return "".join(f'<tr><th scope="row">{words}</th><td colspan="2">{safe(said)}</td></tr>\n' for words, said in told if said)


def _edge_words(top: str, uprights: str, bottom: str) -> str:
    if top == uprights == bottom:
        return top
    told = (("top", top), ("uprights", uprights), ("bottom", bottom))
    return "; ".join(f"{name} {work}" for name, work in told if work)


def _made_from(line: OrderLine) -> str:
    """Where the width comes from, how it will sit, and who read it."""
    read_back = f"read back by {safe(line.read_back_by)}" if line.read_back_by else "not read back"
    return (
        f"Span {mm_decimal(line.span_nm)} mm (read {safe(line.span_as_read)}), allowance {mm_decimal(line.allowance_nm)} mm, "
        f"rise {safe(line.rise_as_read)}. Taped by {safe(line.read_by)}, {read_back}. Grip: {grip_words(line)}."
    )


def _answers(line: OrderLine) -> str:
    if not line.answered:
        return ""
    return f'<p class="small">It stands: {safe("; ".join(map(answer_text, line.answered)))}.</p>\n'
