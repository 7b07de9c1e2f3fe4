"""The gallery's boards of answers, review, order, read-back, arrival and the wide screen, on an invented job."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import flet as ft

from fieldapp.parts.action import main_action, side_by_side, small_action
from fieldapp.parts.answer_page import Answer, AnswerPage
from fieldapp.parts.bay_picture import BayNames, BayPicture
from fieldapp.parts.bay_shape import BayShape
from fieldapp.parts.blade import two_on_blade
from fieldapp.parts.choice import Choice
from fieldapp.parts.facts import facts
from fieldapp.parts.field import Field
from fieldapp.parts.figure import still_figure
from fieldapp.parts.finding_row import finding_row
from fieldapp.parts.gallery_walk import NAMES, RUN, SHAPE, head
from fieldapp.parts.head import Signal, tag_head, title_head
from fieldapp.parts.leaf import Plate, badge, letter, quoted
from fieldapp.parts.ledger import LedgerLine, ledger
from fieldapp.parts.order_leaf import OrderLeaf, OrderPanel
from fieldapp.parts.page import Spread, page_sheet
from fieldapp.parts.panel_drawing import PanelShape, PanelWords, changed_panel, lengths_drawing, turned_round
from fieldapp.parts.row import open_row
from fieldapp.parts.run_block import run_block, shared_scale
from fieldapp.parts.run_strip import RunStrip, StripBay
from fieldapp.parts.slip_picture import case_left_out, far_apart, hook_end, other_mark, tilted
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.table import Column, Table, TableRow
from fieldapp.parts.text import heading, rich, text
from fieldapp.parts.verdict import Sign, sign, tally, verdict_band
from fieldapp.theme import Look

Show = Callable[[Look, ft.Page], ft.Control]
WORDS = ("query", "Reads like the tape started at the 1 in mark: 41 7/16 instead of 40 7/16.")
SUM = [
    LedgerLine("five spans", "203", "5/16"),
    LedgerLine("four posts of 2 1/2", "10"),
    LedgerLine("together", "213", "5/16", "sum"),
    LedgerLine("taped in one pull", "212", "5/16"),
    LedgerLine("does not close by", "1", "in", "apart"),
]
RUN_A = [StripBay(f"A{i}", 40.5, "query" if i == 3 else "clear", 0.375) for i in range(1, 6)]
RUN_B = [StripBay("B1", 40.5, "clear"), StripBay("B2", 48.4, "hold"), StripBay("B3", 40.4, "clear")]


def nothing(_: object = None) -> None:
    """A gallery's actions do nothing."""


def signal(look: Look) -> Signal:
    return Signal(look, "no signal", "kept here")


def answer(verdict: Sign, sentence: str, whole: str, body: Callable[[Look], list[ft.Control]], *labels: str) -> Show:
    def show(look: Look, page: ft.Page) -> ft.Control:
        board = AnswerPage(look, head(look, page, RUN, "A3", "span kept").control)
        acts: list[ft.Control] = [main_action(look, labels[0], nothing, onward=verdict == "clear")]
        acts.append(side_by_side(look, *(small_action(look, label, nothing) for label in labels[1:])))
        names = replace(NAMES, kept="1027.1 mm")
        board.show(
            Answer(
                "A3",
                "span kept",
                verdict,
                verdict,
                sentence,
                SHAPE,
                names,
                "Bay A3 as kept",
                whole,
                Fraction(7, 16),
                "in",
                f"{whole} 7/16 in",
                body(look),
                acts,
            )
        )
        return board.control

    return show


def clear_body(look: Look) -> list[ft.Control]:
    rows = [
        ("plan 40 1/2 in", "1/16 in under"),
        ("hold in both grooves", "1/4 in to spare"),
        ("room to go in", "1/4 in to spare"),
    ]
    return [facts(look, [*rows, ("rise 3/8 in, right", "as its neighbours")], look.clear)]


def query_body(look: Look) -> list[ft.Control]:
    drawn = ft.Container(
        hook_end(look, "in", look.width, 1, "Blade begun at its 1 in mark"), margin=ft.Margin.symmetric(horizontal=-16)
    )
    return [
        drawn,
        facts(look, [("41 7/16 against the plan", "15/16 in over"), ("40 7/16 against the plan", "1/16 in under")], look.query),
    ]


def hold_body(look: Look) -> list[ft.Control]:
    return [
        facts(
            look, [("48 3/8 and one post", "50 7/8 in"), ("most for this system", "50 in"), ("too far by", "7/8 in")], look.hold
        )
    ]


def review(look: Look, page: ft.Page) -> ft.Control:
    scale = shared_scale([RUN_A, RUN_B], look.width - 32)
    would = [("A3", True), " an inch shorter would close it."]
    blocks = [
        run_block(look, "Run A", "P1 to P6 · rises drawn 10 times", RUN_A, scale, nothing, 10, SUM, "query", would),
        run_block(look, "Run B", "P6 to P9 · level", RUN_B, scale, nothing, 0, (), "clear", ["Closes within 1/16 in."]),
    ]
    rows = [
        finding_row(look, "query", "query", "A3, span", "Started at the 1 in mark?", nothing),
        finding_row(look, "hold", "hold", "B2, spacing", "50 7/8 in, and 50 is the most.", nothing),
    ]
    top = title_head(look, "Boathouse deck", "seen from the deck", "Back", nothing, [signal(look).control])
    title = inset(heading(look, "Two panels stand in the way"), top=4, bottom=8)
    foot = side_by_side(look, main_action(look, "Go to A3", nothing, height=64), small_action(look, "Order the 6 clear", nothing))
    return page_sheet(look, [top, title, *rows, *blocks, gap(8)], [foot])


ORDERED = OrderPanel(
    "Panel A1",
    "1 of 6, run A",
    PanelShape(41.75, 38, 38, 0.375, "right"),
    PanelWords("A1", "41 3/4 in", "38 in", "38 in", "rack 3/8 in", "high end"),
    "Seen from the deck, looking out.",
    lambda n: f"slope drawn {n} times",
    [
        ("glass", "10 mm clear toughened"),
        ("edges", "polished all round"),
        ("diagonals ↗ ↘", "1440.4 · 1427.5 mm"),
        ("mass", "26 kg, two people"),
    ],
    "Panel A1 seen from the deck, looking out: width 41 3/4 in, both edges 38 in, rack 3/8 in, high end right",
)


def order(look: Look, page: ft.Page) -> ft.Control:
    panel = OrderLeaf(look, nothing, "Panel before", "Next panel")
    panel.show(ORDERED)
    top = title_head(look, "Order 1", "Boathouse deck · not issued", "Back", nothing, [signal(look).control])
    totals = [text(look, "6 panels", "lead", bold=True), text(look, "6.15 m²", "lead"), text(look, "154 kg", "lead")]
    out = [sign(look, "query", 32, 24), text(look, "A3", bold=True), sign(look, "hold", 32, 24), text(look, "B2", bold=True)]
    work = [
        top,
        panel.control,
        inset(ft.Row(totals, alignment=ft.MainAxisAlignment.SPACE_BETWEEN, wrap=look.big), top=14),
        inset(ft.Row([*out, text(look, "stay out of this order.")], spacing=6, wrap=True), top=8),
    ]
    note = text(look, "An issued order never changes.", "note", look.ink2, align=ft.TextAlign.CENTER)
    return page_sheet(look, work, [main_action(look, "Issue order", nothing), note])


def read_back(second: Fraction) -> Show:
    def show(look: Look, page: ft.Page) -> ft.Control:
        first = Fraction(7, 16)
        figure = lambda f: still_figure(look, "40", f, "in", f"40 {f} in", look.width - 60, 60 if look.big else 72)  # noqa: E731
        plates = [
            Plate(look, who, figure(f), 128 if look.big else 124).control for who, f in (("tape M", first), ("scribe K", second))
        ]
        top = tag_head(
            look, "A3", "read back", "", "Back", nothing, "both figures", [badge(look, "scribe K", ft.Icons.EDIT_OUTLINED)]
        )
        same = first == second
        blade = two_on_blade(look, "in", 40 + first, 40 + second, ("M", "K"), look.width, says="Both figures on the tape")
        rows = facts(look, [("M typed 09:31", "1/16 in under plan"), ("K typed 09:33", "3/16 in over plan")])
        band = verdict_band(
            look,
            "clear" if same else "hold",
            "clear" if same else "hold",
            "Two people, one figure: 40 7/16 in." if same else "1/4 in apart. Seven and eleven sound alike.",
            [rows],
        )
        ground = look.clear_bg if same else look.hold_bg
        above = ft.Container(column([top, gap(12), plates[0], gap(8), plates[1], gap(4), blade]), bgcolor=look.paper)
        pair = side_by_side(look, small_action(look, "K reads again", nothing), small_action(look, "M tapes it anew", nothing))
        return page_sheet(look, [above, band], [main_action(look, "Read again, both", nothing, height=64), pair], ground=ground)

    return show


def covered(look: Look, page: ft.Page) -> ft.Control:
    top = tag_head(
        look, "A3", "read back", "", "Back", nothing, "Read the tape yourself.", [badge(look, "scribe K", ft.Icons.EDIT_OUTLINED)]
    )
    plate = Plate(look, "tape M", gap(1), 140 if look.big else 96, "covered until yours is in").control
    crew = [
        open_row(look, "Mara", "", "tape, this phone", letter(look, "M"), nothing, 60),
        open_row(look, "Kit", "", "scribe", letter(look, "K"), nothing, 60),
    ]
    quote = inset(
        quoted(look, "On the order it will say", text(look, "off plan: post set clear of a joist (Mara)", bold=True)), top=16
    )
    field = Field(look, "or in your own words")
    field.show("Say why in a few words.")
    names = Choice(look, [("M", "Mara"), ("K", "Kit"), ("J", "Jo")], "M", nothing, 56)
    return page_sheet(look, [top, gap(12), plate, gap(12), *crew, quote, inset(field.control, 8, 8, 12), gap(12), names.control])


def receive(look: Look, page: ft.Page) -> ft.Control:
    panel = PanelShape(41.75, 38, 38, 0.375, "right")
    drawn, factor = lengths_drawing(
        look,
        panel,
        min(look.width, 560),
        244,
        "falling",
        {"width": "41 3/4", "left": "38", "right": "38", "rising": "56 3/16"},
        "Panel A1",
    )
    turned = turned_round(look, "A1", "as it stands", "as it goes in", "high end", "left", min(look.width, 560), "Turned round")
    changed, times = changed_panel(
        look, panel, "A2", "as ordered 2 May", "41 13/16 in", 0.1875, min(look.width, 560), "A2 as ordered and as it is now"
    )
    top = tag_head(look, "A1", "falling diagonal", "5 of 5", "Back", nothing)
    return page_sheet(
        look, [top, drawn, inset(text(look, f"slope drawn {factor} times", "note", look.ink2)), turned, changed,
               inset(text(look, f"slope, difference drawn {times} times", "note", look.ink2))],
    )  # fmt: skip


def slips(look: Look, page: ft.Page) -> ft.Control:
    w = min(look.width, 560)
    return page_sheet(
        look,
        [
            hook_end(look, "in", w, 1, "1 in"),
            hook_end(look, "mm", w, 100, "100 mm"),
            hook_end(look, "in", w, 0),
            other_mark(look, "in", Fraction(643, 16), Fraction(646, 16), ("3/16", "3/8"), w),
            far_apart(look, "28 7/16", "40 7/16", "1 ft", w),
            case_left_out(look, "3 in", w),
            tilted(look, "reads too long", w),
            tally(look, [("clear", "8 clear"), ("todo", "1 to tape")]),
        ],
    )


COLUMNS = [
    Column("bay", 40),
    Column("posts", 76),
    Column("plan", 62, "right"),
    Column("span", 74, "right"),
    Column("off plan", 72, "right"),
    Column("rise", 52, "right"),
    Column("high end", 72),
    Column("width", 78, "right"),
    Column("rack", 52, "right"),
]
ROWS = [
    TableRow(
        f"A{i}",
        (
            f"A{i}",
            f"P{i} – P{i + 1}",
            "40 1/2",
            "41 7/16" if i == 3 else "40 7/16",
            "+15/16" if i == 3 else "−1/16",
            "3/8",
            "right",
            "42 3/4" if i == 3 else "41 3/4",
            "3/8",
        ),
        "query" if i == 3 else "clear",
        "query" if i == 3 else "clear",
    )
    for i in range(1, 7)
]


def office(look: Look, page: ft.Page) -> ft.Control:
    table = Table(look, COLUMNS, nothing)
    table.show(ROWS, "A3")
    under = "inches · seen from the deck, looking out"
    top = title_head(look, "Boathouse deck", under, "", None, [small_action(look, "Order the 6 clear", nothing)])
    strip = inset(ft.Row([RunStrip(look, RUN_A, 452, 34, on_bay=nothing).control]), 24, 24, 16, 12)
    left = [strip, table.control, inset(ft.Row([ft.Container(ledger(look, SUM), width=366)]), 24, 24, 14)]
    return Spread(look, top, left if look.wide else left[:1], detail(look.on(468))).control


def detail(look: Look) -> ft.Control:
    """The right-hand page of a wide screen."""
    bay = BayPicture(look, 420, 170, still_figure(look, "41", Fraction(7, 16), "in", "41 7/16 in", 280, 44), foot=24)
    bay.show(BayShape(40.4, 2.5, 2.5, 0.0087, 5), "span", BayNames("P3", "P4", lambda n: f"slope drawn {n} times"), "Bay A3")
    work = [
        inset(rich(look, [("A3", True), " span"], "title"), 24, 24, 16),
        inset(bay.control, 24, 24),
        verdict_band(look, "query", "query", WORDS[1], [hook_end(look, "in", 400, 1)]),
        inset(facts(look, [("M, tape, 2 May 09:31", "41 7/16 in"), ("K, read-back", "not yet")]), 24, 24, 12),
    ]
    ask = main_action(look, "Ask the site again", nothing, height=56)
    return page_sheet(look, work, [side_by_side(look, ask, small_action(look, "It stands", nothing))], paper=look.leaf)


BOARDS: dict[str, Show] = {
    "/answer-clear": answer("clear", "Panel 41 3/4 × 38 in, rack 3/8.", "40", clear_body, "Next", "Measure again"),
    "/answer-query": answer("query", WORDS[1], "41", query_body, "Measure again", "It was 40 7/16", "It stands, because …"),
    "/answer-hold": answer(
        "hold",
        "Posts too far apart. No order for this panel until that changes.",
        "48",
        hold_body,
        "Measure again",
        "Go on with B3",
    ),
    "/review": review,
    "/order": order,
    "/read-back-agree": read_back(Fraction(7, 16)),
    "/read-back-differ": read_back(Fraction(11, 16)),
    "/covered": covered,
    "/receive": receive,
    "/slips": slips,
    "/office": office,
}
