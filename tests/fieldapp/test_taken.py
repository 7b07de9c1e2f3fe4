"""How figures were taken: remembered for the run, kept beside the book, never assumed."""

from fieldapp.screens.taken import RiseTaken, SpanTaken, Taken


def test_nothing_is_said_until_somebody_says_it():
    assert Taken().span("A").words("in") == {}
    assert Taken().rise("A").words() == {"over": "centres"}


def test_what_was_said_is_remembered_for_its_run_only():
    taken = Taken().with_span("A", SpanTaken("start")).with_rise("A", RiseTaken("faces"))
    assert (taken.span("A").how, taken.rise("A").over) == ("start", "faces")
    assert (taken.span("B").how, taken.rise("B").over) == ("hook", "centres")


def test_the_lengths_of_case_and_level_are_remembered_from_any_run():
    taken = Taken().with_span("A", SpanTaken("case", "3 in")).with_rise("A", RiseTaken("level", "24 in"))
    assert (taken.span("B"), taken.rise("B")) == (SpanTaken(case="3 in"), RiseTaken(level="24 in"))


def test_it_comes_back_as_it_was_kept():
    taken = Taken({"A": SpanTaken("case", "3 in", "along")}, {"A": RiseTaken("slope", form="%")}, True, True, "24 in", "36 in")
    assert Taken.from_dict(taken.as_dict()) == taken


def test_what_a_later_version_kept_beside_it_is_left_out():
    kept = Taken({"A": SpanTaken("start")}).as_dict()
    kept["spans"]["A"]["blade"] = "wide"
    kept["weather"] = "rain"
    assert Taken.from_dict(kept) == Taken({"A": SpanTaken("start")})
