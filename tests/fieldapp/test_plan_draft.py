"""Changes of a plan wait as a draft, and stand on top of what somebody else kept meanwhile."""

import pytest

from fieldapp.screens.plan_draft import PlanDraft
from tests.fieldapp.deck_file import deck_file

PLAN = deck_file()


def with_bay(plan, tag, **said):
    return {**plan, "bays": [{**b, **said} if b["tag"] == tag else b for b in plan["bays"]]}


def test_a_draft_comes_back_as_it_was_left():
    draft = PlanDraft.begin("v1", PLAN).to(with_bay(PLAN, "A2", span="39 in"))
    assert PlanDraft.from_text(draft.text, "v2", {"v1": PLAN, "v2": {}}) == draft
    assert draft.places == ["bays[1].span"]


@pytest.mark.parametrize("text", ["", "{", "[]", "3", '{"base": "gone", "now": {}}', '{"now": {}}'])
def test_a_draft_that_means_nothing_any_more_is_begun_anew(text):
    assert PlanDraft.from_text(text, "v1", {"v1": PLAN}) == PlanDraft.begin("v1", PLAN)


def test_a_draft_without_a_change_is_not_kept():
    assert PlanDraft.begin("v1", PLAN).text == ""


def test_two_changes_of_different_places_both_stand():
    mine, theirs = with_bay(PLAN, "A2", span="39 in"), {**with_bay(PLAN, "A3", glass="none"), "tape": {"division": "1/32 in"}}
    draft, clashes = PlanDraft.begin("v1", PLAN).to(mine).onto("v2", theirs)
    assert clashes == [] and draft.base == "v2" and draft.was == theirs
    assert draft.now == with_bay(theirs, "A2", span="39 in")


def test_where_both_changed_the_same_the_kept_one_stands_and_it_is_told():
    mine, theirs = with_bay(PLAN, "A2", span="39 in"), with_bay(PLAN, "A2", span="38 in")
    draft, clashes = PlanDraft.begin("v1", PLAN).to(mine).onto("v2", theirs)
    assert (clashes, draft.now, draft.changed) == (["bays[1].span"], theirs, False)


def test_a_key_that_was_taken_out_stays_out():
    mine = {**PLAN, "limits": {k: v for k, v in PLAN["limits"].items() if k != "lean"}}
    theirs = {**PLAN, "limits": {**PLAN["limits"], "slope": "5 %"}}
    draft, clashes = PlanDraft.begin("v1", PLAN).to(mine).onto("v2", theirs)
    assert clashes == [] and draft.now["limits"] == {"plan_tolerance": "1/4 in", "second_tape": "1/8 in", "slope": "5 %"}


def test_bays_added_on_both_sides_are_a_clash():
    more = {"tag": "A9", "run": "A", "left": "P5", "right": "P9", "spacing": "40 in"}
    mine, theirs = {**PLAN, "bays": [*PLAN["bays"], more]}, {**PLAN, "bays": PLAN["bays"][:-1]}
    draft, clashes = PlanDraft.begin("v1", PLAN).to(mine).onto("v2", theirs)
    assert clashes == ["bays"] and draft.now == theirs
