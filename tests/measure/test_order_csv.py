"""The three CSV files: bytes after RFC 4180, columns after the contract, figures by an arithmetic of this test's own."""

import csv
import io
from decimal import ROUND_HALF_EVEN, Decimal, localcontext
from fractions import Fraction

import pytest

from measure.job import OrderHead
from measure.order import make_order
from measure.order_csv import COLUMNS, head_csv, order_csv, summary_csv
from measure.plan import Post, Run
from measure.report import evaluate

# The contract's own list, copied by hand; nothing in the project reads it.
CONTRACT = """panel, qty, run, shape, width_in, width_mm, left_edge_in, left_edge_mm, right_edge_in, right_edge_mm, rack_in, rack_mm,
high_end, width_text, left_edge_text, right_edge_text, rack_text, governs, seen_from, thickness_mm, glass, edge_top, edge_uprights,
edge_bottom, corners, holes, finish_face, stamp, standard, sloped_edge_mm, lower_angle_deg, diagonal_rising_mm, diagonal_falling_mm,
bound_width_mm, bound_height_mm, area_m2, mass_kg, size_tolerance_mm, group, span_mm, span_as_read, rise_as_read, allowance_mm,
margin_mm, read_by, read_back_by, answered, order_no, revision"""


def order_of(deck, **said):
    return make_order(evaluate(deck.job(**said)))


def rows(data):
    """What a CSV reader makes of a file."""
    return list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))


def test_the_columns_are_the_contracts_in_its_order():
    assert list(COLUMNS) == [name.strip() for name in CONTRACT.replace("\n", " ").split(",")]


def test_files_are_utf8_with_a_byte_order_mark_and_crlf(deck):
    order = order_of(deck(name="Bådhus").bay("A1", "41 in").bay("A2", "41 in"))
    for data, lines in ((order_csv(order), 3), (summary_csv(order), 2), (head_csv(order), 27)):
        assert data.startswith(b"\xef\xbb\xbf") and data.count(b"\xef\xbb\xbf") == 1
        assert data.endswith(b"\r\n")
        assert data.count(b"\r\n") == data.count(b"\n") == data.count(b"\r") == lines
    assert "Bådhus".encode() in head_csv(order)


def test_inch_marks_commas_and_formulas_are_written_as_the_published_row_says(deck):
    # Check value V20: RFC 4180 quotes, OWASP ASVS apostrophe.
    words = {"kind": '59 3/8"', "corners": "Deck, rear", "stamp": "=A1", "standard": "-25"}
    order = order_of(deck(glass=words).bay("A1", "41 in"))
    line = order_csv(order).decode().split("\r\n")[1]
    for cell in ('"59 3/8"""', '"Deck, rear"', ",'=A1,", ",'-25,"):
        assert cell in line
    (row,) = rows(order_csv(order))
    assert [row[c] for c in ("glass", "corners", "stamp", "standard")] == ['59 3/8"', "Deck, rear", "'=A1", "'-25"]


def test_the_contracts_first_bay_reads_as_worked_by_hand(deck):
    # Bay A1 of the contract's sample: 41 11/16 + 1 5/16 = 43 in; rise 3/8 in over the centres is the rack.
    # Hold: 43 - 41 11/16 - 13/16 - 1/4 = 1/4 in; fit: 41 11/16 + 1 5/8 - 1/16 - 43 = 1/4 in; M = 6.35 mm.
    # Edge √(1092.2² + 9.525²), diagonals √(1092.2² + (965.2 ± 9.525)²), angle 90° - atan(3/344), by bc.
    made = deck(posts=[Post("P1", "wall", face=deck().length("2 in"))])
    made.bay("A1", "41 11/16 in", "3/8 in", "right", by="M", read_back_by="K", post=Post("P2", "line"))
    (row,) = rows(order_csv(order_of(made)))
    assert row == {
        "panel": "A1", "qty": "1", "run": "A", "shape": "racked", "width_in": "43", "width_mm": "1092.20",
        "left_edge_in": "38", "left_edge_mm": "965.20", "right_edge_in": "38", "right_edge_mm": "965.20",
        "rack_in": "0.375", "rack_mm": "9.52", "high_end": "right", "width_text": "43 in", "left_edge_text": "38 in",
        "right_edge_text": "38 in", "rack_text": "3/8 in", "governs": "in", "seen_from": "the deck, looking out",
        "thickness_mm": "10", "glass": "clear toughened", "edge_top": "polished", "edge_uprights": "ground", "edge_bottom": "ground",
        "corners": "dubbed", "holes": "none", "finish_face": "", "stamp": "lower right, shows after fitting", "standard": "",
        "sloped_edge_mm": "1092.24", "lower_angle_deg": "89.50", "diagonal_rising_mm": "1463.90", "diagonal_falling_mm": "1451.28",
        "bound_width_mm": "1092.20", "bound_height_mm": "974.72", "area_m2": "1.0542", "mass_kg": "26.4", "size_tolerance_mm": "2.50",
        "group": "A", "span_mm": "1058.86", "span_as_read": "41 11/16 in", "rise_as_read": "3/8 in over centres",
        "allowance_mm": "33.34", "margin_mm": "6.35", "read_by": "M", "read_back_by": "K", "answered": "", "order_no": "", "revision": "0",
    }  # fmt: skip


# span, rise over the centres (signed, right up), shape: all in sixty-fourths of an inch or tenths of a millimetre.
INCH_BAYS = [(2668, 24, "racked"), (2655, -41, "racked"), (2641, 13, "level-top"), (2701, 0, "racked"), (2688, 1, "racked")]
MM_BAYS = [
    (10525, 105, "racked"),
    (10515, -95, "racked"),
    (9984, -254, "level-top"),
    (10500, 3, "racked"),
    (9995, 5, "level-top"),
]
INCH_FIGURES = {"unit": Decimal("25.4") / 64, "step": 4, "allowance": 84, "groove": 52, "bite": 16, "play": 4, "height": 38 * 64}
MM_FIGURES = {"unit": Decimal("0.1"), "step": 10, "allowance": 330, "groove": 200, "bite": 60, "play": 20, "height": 9650}


def half_even(top, step):
    """To the nearest step, an exact half to the even one, with whole numbers only."""
    whole, rest = divmod(top, step)
    return (whole + (2 * rest > step or (2 * rest == step and whole % 2))) * step


def worked(bay, figures):
    """The figures of one bay by the formulas of the trade, in decimals of forty digits."""
    span, rise, shape = bay
    unit, step = figures["unit"], figures["step"]
    width, height = half_even(span + figures["allowance"], step), half_even(figures["height"], step)
    rack = half_even(abs(rise), step)
    high = "none" if not rack else "right" if rise > 0 else "left"
    low = height + rack if shape == "level-top" else height
    left, right = (low, height) if high == "right" else (height, low)
    feet = (rack if high == "left" else 0, rack if high == "right" else 0)
    with localcontext() as exact:
        exact.prec = 40
        w, r = width * unit, rack * unit
        rising, falling = (right + feet[1] - feet[0]) * unit, (left + feet[0] - feet[1]) * unit
        area = w * (left + right) * unit / 2 / 10**6
        hold = width - span - figures["groove"] - figures["bite"]
        fit = span + 2 * figures["groove"] - figures["play"] - width
        values = {
            "width_mm": w, "left_edge_mm": left * unit, "right_edge_mm": right * unit, "rack_mm": r,
            "sloped_edge_mm": (w**2 + r**2).sqrt(), "diagonal_rising_mm": (w**2 + rising**2).sqrt(),
            "diagonal_falling_mm": (w**2 + falling**2).sqrt(), "bound_width_mm": w,
            "bound_height_mm": max(left + feet[0], right + feet[1]) * unit, "span_mm": span * unit,
            "allowance_mm": figures["allowance"] * unit, "margin_mm": min(hold, fit) * unit,
        }  # fmt: skip
        told = {key: str(value.quantize(Decimal("0.01"), ROUND_HALF_EVEN)) for key, value in values.items()}
        told["area_m2"] = str(area.quantize(Decimal("0.0001"), ROUND_HALF_EVEN))
        told["mass_kg"] = str((area * 25).quantize(Decimal("0.1"), ROUND_HALF_EVEN))
    return told | {"high_end": high, "shape": shape if rack else "rectangle"}


def typed(sixty_fourths):
    whole, part = divmod(sixty_fourths, 64)
    return f"{whole} {Fraction(part, 64)} in" if part else f"{whole} in"


@pytest.mark.parametrize(("units", "bays", "figures"), [("in", INCH_BAYS, INCH_FIGURES), ("mm", MM_BAYS, MM_FIGURES)])
def test_every_figure_follows_the_trades_arithmetic(deck, units, bays, figures):
    made = deck(units=units)
    for at, (span, rise, shape) in enumerate(bays):
        text = typed if units == "in" else (lambda tenths: f"{Decimal(tenths) / 10} mm")
        high = "right" if rise > 0 else "left" if rise else None
        made.bay(f"A{at}", text(span), text(abs(rise)), high, shape=shape).gate()
    found = rows(order_csv(order_of(made)))
    assert len(found) == len(bays)
    for row, bay in zip(found, bays, strict=True):
        expected = worked(bay, figures)
        assert {key: row[key] for key in expected} == expected


def test_inch_columns_are_exact_in_an_inch_job_and_four_decimals_in_a_metric_one(deck):
    (inch,) = rows(order_csv(order_of(deck().bay("A1", "41 1/16 in", "1/16 in", "right"))))
    assert (inch["width_in"], inch["left_edge_in"], inch["rack_in"]) == ("42.375", "38", "0.0625")
    assert (inch["width_text"], inch["rack_text"]) == ("42 3/8 in", "1/16 in")
    (metric,) = rows(order_csv(order_of(deck(units="mm").bay("A1", "1000", "10", "right"))))
    assert (metric["width_in"], metric["left_edge_in"], metric["rack_in"]) == ("40.6693", "37.9921", "0.3937")
    assert (metric["width_text"], metric["rack_text"], metric["width_mm"]) == ("1033 mm", "10 mm", "1033.00")


def test_a_rack_that_rounds_to_nothing_makes_a_rectangle_without_a_high_end(deck):
    (row,) = rows(order_csv(order_of(deck().bay("A1", "41 in", "1/64 in", "left", shape="level-top"))))
    assert (row["shape"], row["high_end"], row["rack_in"], row["rack_mm"], row["rack_text"]) == (
        "rectangle",
        "none",
        "0",
        "0.00",
        "0 in",
    )
    assert row["lower_angle_deg"] == "90.00"
    assert row["diagonal_rising_mm"] == row["diagonal_falling_mm"]


def test_a_turned_post_adds_to_the_allowance_and_to_the_span_of_the_margin(deck):
    # Trade figure, no source: 1.4 mm an edge at 22.5° with d = 17.5 mm; 17.5 × (1/cos 22.5° - 1) = 1.44186. Width 1034.44 → 1034 mm.
    # Fit: 1000 + 1.44 + 40 - 2 - 1034 = 5.44, less than hold: 1034 - 1001.44 - 20 - 6 = 6.56.
    made = deck(units="mm").bay("A1", "1000 mm", post=Post("C", "corner", Fraction(135)))
    (row,) = rows(order_csv(order_of(made)))
    assert [row[c] for c in ("span_mm", "allowance_mm", "width_mm", "margin_mm")] == ["1000.00", "34.44", "1034.00", "5.44"]


@pytest.mark.parametrize(
    ("said", "as_read"),
    [
        ({"span": "41 11/16 in"}, "41 11/16 in"),
        ({"span": "41 11/16"}, "41 11/16 in"),
        ({"span": " 41-11/16 "}, "41-11/16 in"),
        ({"span": "41½"}, "41½ in"),
        ({"span": '41 11/16"'}, '41 11/16"'),
        ({"span": "3' 5 11/16"}, "3' 5 11/16"),
        ({"span": "3 ft 5 in"}, "3 ft 5 in"),
        ({"span": "42 11/16", "start": "1 in"}, "42 11/16 in, start 1 in"),
        ({"span": "42 11/16", "start": "1"}, "42 11/16 in, start 1 in"),
        ({"span": "38 11/16 in", "case": "3"}, "38 11/16 in, case 3 in"),
        ({"span": "39 11/16 in", "start": "1", "case": "3 in"}, "39 11/16 in, start 1 in, case 3 in"),
        ({"span": "41 in", "taped": "along"}, "41 in, along"),
        ({"span": "41 in", "taped": "level"}, "41 in"),
        ({"span": "39 in", "start": "1", "case": "3", "taped": "along"}, "39 in, start 1 in, case 3 in, along"),
    ],
)
def test_a_span_is_told_as_it_was_read(deck, said, as_read):
    (row,) = rows(order_csv(order_of(deck().bay("A1", said.pop("span"), "0", **said))))
    assert row["span_as_read"] == as_read


@pytest.mark.parametrize(
    ("rise", "said", "as_read"),
    [
        ("3/8", {}, "3/8 in over centres"),
        ("3/8 in", {"over": "faces"}, "3/8 in over faces"),
        ("1/4", {"over": "24"}, "1/4 in over 24 in"),
        ("1/4", {"over": "600 mm"}, "1/4 in over 600 mm"),
        ("3/8 in", {"what": "base-rise"}, "3/8 in over faces"),
        ("3/8 in", {"what": "base-rise", "over": "centres"}, "3/8 in over centres"),
        ("1.2 deg", {}, "slope 1.2 deg"),
        ("1.1 %", {}, "slope 1.1 %"),
        ("1/8 in/ft", {}, "slope 1/8 in/ft"),
        ("1:96", {}, "slope 1:96"),
        ("0", {}, "0 in over centres"),
    ],
)
def test_a_rise_is_told_as_it_was_read(deck, rise, said, as_read):
    (row,) = rows(order_csv(order_of(deck().bay("A1", "41 in", rise, "right", **said))))
    assert row["rise_as_read"] == as_read


def test_the_answers_of_the_bay_come_before_those_of_its_run(deck):
    made = deck().bay("A1", "41 in", "1:12", "right").bay("A2", "41 in", "1:12", "right").overall("A", "86 in")
    made.answer("closing", "lip of the wall", run="A").answer("rack-line", "looked at it", bay="A1").answer(
        "slope", "no such", bay="A1"
    )
    made.answer("design-slope", "read on site", 'Kai; of "Lea"', bay="A1").answer("design-slope", "so is this", bay="A2")
    made.answer("rack-line", "as A1", bay="A2")
    made.runs["A"] = Run("A")
    one, two = rows(order_csv(order_of(made)))
    run = "closing: lip of the wall (Mona)"
    assert one["answered"] == f'rack-line: looked at it (Mona); design-slope: read on site (Kai; of "Lea"); {run}'
    assert two["answered"] == f"design-slope: so is this (Mona); rack-line: as A1 (Mona); {run}"


def test_issued_numbers_and_names_stand_on_every_line_and_in_the_head(deck):
    order = order_of(deck().bay("A1", "41 in").bay("A2", "41 in")).issued("SB-7", 2, "2026-05-03", "Mona")
    assert [(row["order_no"], row["revision"]) for row in rows(order_csv(order))] == [("SB-7", "2")] * 2
    head = {row["key"]: row["value"] for row in rows(head_csv(order))}
    assert (head["order_no"], head["revision"], head["date"], head["issued_by"]) == ("SB-7", "2", "'2026-05-03", "Mona")


def test_the_head_tells_its_keys_in_the_contracts_order(deck):
    words = OrderHead("Invented & Sons", "4711", "2026-06-12", "12 Quay Lane", "Ada", "+1 555 0100", "forklift")
    order = order_of(deck(head=words).bay("A1", "41 11/16 in", by="Mona", read_back_by="Kai").bay("A2", "41 in", by="Lea"))
    assert [(row["key"], row["value"]) for row in rows(head_csv(order))] == [
        ("order_no", ""), ("revision", "0"), ("date", ""), ("job", "Boathouse deck"), ("site", "invented"),
        ("customer", "Invented & Sons"), ("po", "'4711"), ("wanted_by", "'2026-06-12"), ("deliver_to", "12 Quay Lane"),
        ("contact", "Ada"), ("phone", "'+1 555 0100"), ("unloading", "forklift"), ("system", "Grooved post 65"),
        ("glass", "10 mm clear toughened"), ("governs", "in"), ("seen_from", "the deck, looking out"), ("size_tolerance_mm", "2.50"),
        # 43 in and 42 5/16 in by 38 in: 1.0541914 + 1.0373366 m², at 25 kg/m².
        ("panels", "2"), ("area_m2", "2.0915"), ("mass_kg", "52.3"), ("heaviest_kg", "26.4"),
        ("taped_by", "Mona, Lea"), ("read_back_by", "Kai"), ("confirmed_by", "Mona"), ("issued_by", ""),
        ("note", "no cutting before the shop's drawing is signed"),
    ]  # fmt: skip


def test_the_summary_has_a_line_a_pane_with_area_and_mass_of_all_its_panes(deck):
    made = deck(units="mm").bay("A1", "1000 mm", "10", "right").gate().bay("A2", "1000 mm", "10", "left").gate().bay("A3", "900")
    assert [list(row.values()) for row in rows(summary_csv(order_of(made)))] == [
        # 1.033 × 0.965 m = 0.996845 m²; 0.933 × 0.965 m = 0.900345 m²; 25 kg/m².
        ["A", "2", "A1, A2", "racked", "1033 mm", "965 mm", "965 mm", "10 mm", "1.9937", "49.8"],
        ["B", "1", "A3", "rectangle", "933 mm", "965 mm", "965 mm", "0 mm", "0.9003", "22.5"],
    ]


def test_what_people_typed_is_guarded_in_every_text_column(deck):
    bad = "=cmd|' /C calc'!A0"
    names = ("kind", "edge_top", "edge_uprights", "edge_bottom", "corners", "holes", "stamp", "standard", "finish_face")
    made = deck(glass=dict.fromkeys(names, bad), runs={"A": Run("A", "posts", bad)}, head=OrderHead(*[bad] * 7), name=bad)
    made.bay("A1", "41 in", by=bad, read_back_by="@" + bad)
    order = order_of(made).issued(bad, 1, bad, bad)
    for data in (order_csv(order), head_csv(order)):
        cells = [cell for row in csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")) for cell in row]
        assert sum("cmd" in cell for cell in cells) >= 11
        assert not [cell for cell in cells if cell[:1] in set("=+-@\t\r")]
