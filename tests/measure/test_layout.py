"""Equal bays below the greatest spacing. Practice (check values, section 6): n = ceil(L/max), spacing L/n on centres."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from measure.errors import SpanbookError
from measure.layout import RunPlan, lay_out, post_counts, spacings
from measure.length import Length, inches, millimetres


@pytest.mark.parametrize(
    ("length", "greatest", "step", "bays", "each"),
    [
        (inches(240), inches(60), inches(0, 4), 4, inches(60)),
        (inches(250), inches(60), inches(0, 4), 5, inches(50)),
        (millimetres(7315), millimetres(1500), millimetres(1), 5, millimetres(1463)),
    ],
)
def test_published_cases(length, greatest, step, bays, each):
    assert spacings(length, greatest, step) == (each,) * bays


def test_a_hair_over_takes_one_bay_more():
    assert len(spacings(Length(inches(240).nm + 1), inches(60), inches(0, 4))) == 5


@given(st.integers(1, 50_000), st.integers(200, 3000))
def test_bays_add_up_stay_below_the_greatest_and_differ_by_a_step(length, greatest):
    laid = spacings(millimetres(length), millimetres(greatest), millimetres(1))
    assert sum(s.nm for s in laid) == length * 10**6
    assert max(laid) <= millimetres(greatest)
    assert max(s.nm for s in laid) - min(s.nm for s in laid) <= 10**6


def test_a_run_of_no_length_is_refused():
    with pytest.raises(SpanbookError, match="longer than nothing"):
        spacings(Length(0), inches(50), inches(0, 4))


def test_runs_that_turn_share_their_post_and_the_posts_are_counted():
    laid = lay_out(
        [RunPlan("A", inches(88)), RunPlan("B", inches(44), turn=Fraction(90), end="wall")], inches(50), inches(0, 4), "in"
    )
    assert [b["tag"] for b in laid["bays"]] == ["A1", "A2", "B1"]
    assert laid["bays"][2]["left"] == laid["bays"][1]["right"]
    assert post_counts(laid["posts"]) == {"end": 1, "line": 1, "corner": 1, "wall": 1}


def test_given_spacings_are_laid_as_they_are():
    laid = lay_out([RunPlan("A", inches(88), laid=(inches(44), inches(44)))], inches(100), inches(0, 4), "in")
    assert [bay["spacing"] for bay in laid["bays"]] == ["44 in", "44 in"]
