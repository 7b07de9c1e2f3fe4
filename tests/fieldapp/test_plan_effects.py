"""What a changed plan does is told before it is kept: verdicts, panels, an order that went out, readings that wait."""

import pytest

from fieldapp.live_job import LiveJob
from fieldapp.screens import plan_edit as edit
from fieldapp.screens.form_words import changed_words, form_of
from fieldapp.screens.plan_effects import effects, job_under, ordered_panels, panel_text, tags_read
from measure.changes import ordered
from measure.documents import read_words
from measure.plan_version import plan_of
from tests.fieldapp.deck_file import deck_file


def taped(file, *tags, span="40 7/16 in"):
    """The deck with these bays taped level."""
    readings = []
    for n, tag in enumerate(tags):
        at = f"2026-05-02T09:{n:02d}"
        readings.append({"bay": tag, "what": "span", "value": span, "by": "M", "at": f"{at}:00Z"})
        readings.append({"bay": tag, "what": "rise", "value": "0", "by": "M", "at": f"{at}:10Z"})
        readings.append({"bay": tag, "what": "span", "value": span, "by": "K", "at": f"{at}:20Z", "role": "read-back"})
    return {**file, "readings": readings}


FILE = taped(deck_file(), "A1", "A2", "A3", "A4")


def found(change, file=FILE, panels=None):
    before = LiveJob("j", read_words(file).job())
    after = job_under("j", file, change(plan_of(file)))
    return {e.place: e for e in effects(before, after, file, panels or {}) if e is not None}


def system(**said):
    return lambda plan: changed_words(plan, form_of(plan).say("system", **said))


def test_a_plan_that_is_the_same_changes_nothing():
    assert found(lambda plan: plan) == {}


def test_another_spacing_makes_a_taped_bay_stand_off_its_plan():
    told = found(lambda plan: edit.with_spacing(plan, ["A2"], "42 in"))
    assert list(told) == ["A2"]
    assert (told["A2"].before, told["A2"].after) == ("clear", "query")
    assert "15/16 in" in told["A2"].sentences[0]  # 40 7/16 taped, 42 less 2 1/2 planned


def test_another_allowance_makes_every_taped_panel_another_one():
    told = found(system(allowance="1 1/4 in"))
    assert list(told) == ["A1", "A2", "A3", "A4"]
    assert "41 11/16 in wide" in told["A1"].sentences[-1] and "It was: 41 3/4 in wide" in told["A1"].sentences[-1]


def test_a_limit_that_is_left_out_lets_a_query_go():
    off = taped(deck_file(), "A1", span="40 7/8 in")
    told = found(lambda plan: {**plan, "limits": {}}, off)
    assert (told["A1"].before, told["A1"].after) == ("query", "clear") and "no longer" in told["A1"].sentences[0]


def test_a_bay_taken_off_says_how_much_waits_for_it_and_nothing_is_lost():
    told = found(lambda plan: edit.with_bay_removed(plan, "A", "left"))
    assert told["A1"].after is None and told["A1"].sentences[0].startswith("Taken off. Its 3 readings are kept aside")


def test_what_waits_is_there_again_once_the_bay_is_back():
    off = edit.with_bay_removed(plan_of(FILE), "A", "left")
    waits = {**off, "readings": [r for r in FILE["readings"] if r["bay"] != "A1"]}
    waits["history"] = {"job": "j", "unplaced": {"readings": [r for r in FILE["readings"] if r["bay"] == "A1"]}}
    back = job_under("j", waits, plan_of(FILE))
    assert back.sign("A1") == "clear" and tags_read(waits) == {"A1", "A2", "A3", "A4"}


def test_other_glass_of_the_same_size_is_told_too():
    told = found(lambda plan: changed_words(plan, form_of(plan).say("glass", kind="frosted toughened", finish_face="inward")))
    assert "Its glass is ordered otherwise." in told["A1"].sentences and told["A1"].before == told["A1"].after == "clear"


@pytest.mark.parametrize(("allowance", "differs"), [("1 5/16 in", False), ("1 1/4 in", True)])
def test_a_panel_that_went_out_is_named_where_it_differs(allowance, differs):
    live = LiveJob("j", read_words(FILE).job())
    out = ordered_panels([ordered("A1", live.opening("A1").panel).as_json()], "in")
    assert out == {"A1": panel_text(live, "A1")}
    told = found(system(allowance=allowance), panels=out)
    assert any("change order" in s for e in told.values() for s in e.sentences) is differs


def test_a_panel_that_went_out_of_other_glass_needs_a_change_order_too():
    live = LiveJob("j", read_words(FILE).job())
    out = ordered_panels([ordered("A1", live.opening("A1").panel).as_json()], "in")
    told = found(lambda plan: changed_words(plan, form_of(plan).say("glass", kind="frosted toughened")), panels=out)
    assert any("of the glass as it was" in s for s in told["A1"].sentences)
    assert not any("change order" in s for s in told["A2"].sentences)
