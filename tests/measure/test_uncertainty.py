"""What a tape is worth, against published tables and the `uncertainties` library."""

import math

import pytest
from uncertainties import ufloat

from measure import uncertainty
from measure.length import NM_PER_FOOT, NM_PER_METRE, inches, millimetres
from measure.system import Tape

MM = millimetres(1)
US = Tape(inches(0, 4), "US")

# Directive 2014/32/EU Annex X, OIML R 35-1 (check value V1): class, metres, mm.
CLASSES = [
    ("I", 2, 0.3), ("I", 3, 0.4), ("I", 5, 0.6), ("I", 8, 0.9), ("I", 10, 1.1),
    ("II", 2, 0.7), ("II", 3, 0.9), ("II", 5, 1.3), ("II", 8, 1.9), ("II", 10, 2.3),
    ("III", 2, 1.4), ("III", 3, 1.8), ("III", 5, 2.6), ("III", 8, 3.8), ("III", 10, 4.6),
]  # fmt: skip


@pytest.mark.parametrize(("name", "metres", "mm"), CLASSES)
def test_a_tape_class_allows_what_the_directive_says(name, metres, mm):
    assert uncertainty.tape_permissible_mm(Tape(MM, name), metres * NM_PER_METRE, False) == pytest.approx(mm)


def test_length_is_rounded_up_to_the_next_metre_and_the_hook_adds_its_own():
    # Check value V1: 59 3/8 in = 1508.125 mm, class II: 0.7 mm; 0.9 mm from the end face.
    tape, span = Tape(MM, "II"), inches(59, 24)
    assert uncertainty.tape_permissible_mm(tape, span.nm, False) == pytest.approx(0.7)
    assert uncertainty.tape_permissible_mm(tape, span.nm, True) == pytest.approx(0.9)


# NIST Handbook 44 §5.52 (check value V2). Between 6 and 7 ft the table is silent: the wider row.
@pytest.mark.parametrize(
    ("nm", "inch"),
    [(inches(59, 24).nm, 1 / 32), (6 * NM_PER_FOOT, 1 / 32), (6 * NM_PER_FOOT + 1, 1 / 16), (7 * NM_PER_FOOT, 1 / 16),
     (30 * NM_PER_FOOT, 1 / 16), (55 * NM_PER_FOOT, 1 / 8), (80 * NM_PER_FOOT, 3 / 16), (100 * NM_PER_FOOT, 1 / 4)],
)  # fmt: skip
def test_an_inch_tape_allows_what_handbook_44_says(nm, inch):
    assert uncertainty.tape_permissible_mm(US, nm, True) == pytest.approx(inch * 25.4)


def test_only_an_inch_tape_beyond_thirty_feet_has_no_row_to_lean_on():
    over = inches(30 * 12, 1)
    assert uncertainty.beyond_inch_rows(US, over)
    assert not uncertainty.beyond_inch_rows(US, inches(360))
    assert not uncertainty.beyond_inch_rows(Tape(MM, "II"), over)


def test_a_sixteenth_is_worth_0_4583_mm():
    # JCGM 100:2008 F.2.2.1, r/√12: 1.5875 mm → 0.4583 mm.
    assert uncertainty.span_doubt(US, inches(40).nm).read == pytest.approx(0.4583, abs=5e-5)


def test_the_parts_of_a_span_add_as_the_uncertainties_library_adds_them():
    doubt = uncertainty.span_doubt(Tape(MM, "II"), 895 * 10**6)
    read, tape, placing = ufloat(895, doubt.read), ufloat(0, doubt.tape), ufloat(0, doubt.placing)
    assert doubt.u == pytest.approx((read + tape + placing).std_dev)
    second = ufloat(895, doubt.read) + ufloat(0, doubt.placing)
    same_tape = (read + placing) - second
    assert doubt.same_tape_difference == pytest.approx(2 * same_tape.std_dev)
    other_tape = (read + tape + placing) - (second + ufloat(0, doubt.tape))
    assert doubt.two_tape_difference == pytest.approx(2 * other_tape.std_dev)


def test_a_margin_carries_the_shop_and_the_tape():
    doubt = uncertainty.span_doubt(US, inches(40).nm)
    width = ufloat(0, 2.5 / math.sqrt(3))
    assert uncertainty.margin_u_mm(millimetres(2, 5), doubt.u) == pytest.approx((width + ufloat(0, doubt.u)).std_dev)


@pytest.mark.parametrize(("how", "case", "mm"), [(None, False, 0.3), ("marks", False, 0.3), (None, True, 0.5), ("case", False, 0.5), ("bent", True, 1.0)])
def test_how_the_tape_was_placed_counts(how, case, mm):
    assert uncertainty.span_doubt(US, inches(40).nm, how, case).placing == mm


def test_a_laser_has_one_figure_for_reading_and_tape():
    tape = Tape(MM, "II", laser=millimetres(2))
    doubt = uncertainty.span_doubt(tape, 10**9, "laser")
    assert (doubt.read, doubt.tape) == (pytest.approx(2 / math.sqrt(3)), 0.0)


def test_a_tape_begun_at_a_mark_has_no_hook_term():
    tape = Tape(MM, "II")
    hooked, begun = (uncertainty.span_doubt(tape, 10**9, started=s).tape for s in (False, True))
    assert hooked - begun == pytest.approx(0.2 / math.sqrt(3))


def test_two_diagonals_tell_the_rack_to_about_a_millimetre():
    # Trade figure, no source: 2u(R) about 1 mm. The same propagated by the uncertainties library.
    doubt = uncertainty.span_doubt(Tape(MM, "II"), 1400 * 10**6)
    p, q = ufloat(1400, doubt.repeat), ufloat(1390, doubt.repeat)
    ours = uncertainty.diagonals_u_mm(1400, 1390, 2000, 1.05, doubt.repeat)
    assert ours == pytest.approx(((p * p - q * q) / 4000 * 1.05).std_dev)
    assert 2 * ours == pytest.approx(1, abs=0.3)
