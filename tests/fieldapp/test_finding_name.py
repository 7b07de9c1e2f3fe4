"""What a finding is called in the review and in an answer."""

import pytest

from fieldapp.screens.finding_name import finding_name
from fieldapp.screens.review_model import review
from tests.fieldapp.deck import Deck


@pytest.mark.parametrize(
    ("deck", "names"),
    [
        (Deck(), ["span not read", "rise not read"]),
        (Deck(trimmed=("P3",)).span("A3", "40 7/16"), ["rise at the feet not read", "read-back still to come"]),
        (Deck(plumb="asked").span("A3", "40 7/16").rise("A3"), ["read-back still to come", "plumb not read"]),
        (Deck(read_back="no").span("A3", "41 1/4").rise("A3"), ["off plan"]),
    ],
)
def test_what_is_missing_is_named_and_not_called_unread_as_a_whole(deck, names):
    assert [finding_name(f) for f in deck.live().in_the_way() if f.place == "A3"] == names


def test_what_was_found_at_a_bay_comes_before_what_is_only_still_to_come():
    live = Deck(plumb="asked").span("A3", "41 1/4").rise("A3").live()
    way = next(w for w in review(live).ways if w.bay == "A3")
    assert way.place == "A3, off plan"
