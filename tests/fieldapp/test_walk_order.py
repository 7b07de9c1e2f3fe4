"""Which question comes next on the walk."""

import pytest

from fieldapp.screens.walk_order import Ask, next_ask, open_asks
from tests.fieldapp.deck import Deck


def done(deck, *tags):
    for tag in tags:
        deck.span(tag, "40 7/16").rise(tag, "3/8", "right")
    return deck


def test_a_bay_is_asked_its_span_and_then_its_rise():
    d = Deck()
    assert open_asks(d.live(), "A1") == ("span", "rise")
    assert open_asks(d.span("A1", "40 7/16").live(), "A1") == ("rise",)
    assert open_asks(d.rise("A1").live(), "A1") == ()


def test_a_way_through_is_asked_nothing():
    assert open_asks(Deck().live(), "G1") == ()


def test_a_bay_at_a_trimmed_post_is_asked_the_rise_at_the_feet():
    d = Deck(trimmed=("P2",)).span("A1", "40 7/16").rise("A1")
    assert open_asks(d.live(), "A1") == ("base-rise",)


def test_a_reading_older_than_a_moved_post_is_asked_again():
    d = done(Deck(), "A1", "A2").move("P3")
    assert open_asks(d.live(), "A1") == ()
    assert open_asks(d.live(), "A2") == ("span", "rise")


@pytest.mark.parametrize(
    ("rise", "taped", "expected"),
    [
        ("1 1/4", None, ()),  # 2.9 % over 42 15/16 in between centres
        ("1 5/16", None, ("lay",)),  # 3.06 %
        ("1 5/16", "level", ()),
        ("1 5/16", "along", ()),
        ("2 %", None, ()),
        ("3 %", None, ()),
        ("1:33", None, ("lay",)),  # 3.03 %
    ],
)
def test_above_three_per_cent_it_is_asked_which_way_the_tape_lay(rise, taped, expected):
    d = Deck().span("A1", "40 7/16", taped=taped).rise("A1", rise, "right")
    assert open_asks(d.live(), "A1") == expected


@pytest.mark.parametrize(
    ("taped", "here", "from_right", "expected"),
    [
        ((), None, False, Ask("A1", "span")),
        ((), None, True, Ask("B1", "span")),
        (("A1",), "A1", False, Ask("A2", "span")),
        (("A3",), "A3", False, Ask("A4", "span")),
        (("A3",), "A3", True, Ask("A2", "span")),
        (("A5",), "A5", False, Ask("A1", "span")),
        (("A1", "A2", "A3", "A4", "A5"), "A5", False, Ask("B1", "span")),
        (("A1", "A3", "A4", "A5"), "A5", False, Ask("A2", "span")),
        (("A1", "A2", "A3", "A4", "B1"), "B1", False, Ask("A5", "span")),
        (("A1", "A2", "A3", "A4", "A5", "B1"), "A1", False, None),
    ],
)
def test_the_next_question_follows_the_run_then_what_it_left_then_the_other_runs(taped, here, from_right, expected):
    assert next_ask(done(Deck(), *taped).live(), here, from_right) == expected


def test_what_is_still_open_in_the_bay_comes_first():
    live = Deck().span("A3", "40 7/16").live()
    assert next_ask(live, "A3") == Ask("A3", "rise")
