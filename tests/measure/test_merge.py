"""Two copies of a job become one: the same whichever comes first, nothing lost, nothing doubled, nothing decided silently."""

from collections import Counter
from copy import deepcopy

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from measure import strict_json
from measure.documents import read_words
from measure.errors import DocumentError
from measure.merge import Copy, merge, uid_of
from measure.plan_version import newest, next_version, version_of
from measure.said import SECTIONS, keyed


def plan_with(bays: int, height: str = "38 in") -> dict:
    """A plan of one run."""
    system = {"post_face": "2 1/2 in", "greatest_spacing": "54 in", "allowance": "1 5/16 in", "groove_depth": "13/16 in"}
    return {
        "format": "spanbook-job/1",
        "job": {"name": "Heron landing", "units": "in"},
        "tape": {"division": "1/16 in"},
        "system": {"name": "Grooved post 65", **system, "least_bite": "1/4 in", "least_play": "1/16 in"},
        "glass": {"thickness": "10 mm", "height": height, "size_tolerance": "2.5 mm"},
        "posts": [{"id": f"P{n}", "kind": "line"} for n in range(bays + 1)],
        "bays": [
            {"tag": f"A{n}", "run": "A", "left": f"P{n - 1}", "right": f"P{n}", "spacing": "44 in"} for n in range(1, bays + 1)
        ],
    }


untimed = settings(deadline=None)
FIRST = version_of(plan_with(3))
TALLER = next_version([FIRST], plan_with(3, "40 in"), "Mona", "2026-05-02T10:00:00Z")
SHORTER = next_version([FIRST], plan_with(1), "Kit", "2026-05-02T09:00:00Z")
SPLIT = next_version([FIRST], {**FIRST.plan, "bays": [*FIRST.plan["bays"][:2], {**FIRST.plan["bays"][2], "run": "B"}]}, "Kit", "")
LAST = next_version([TALLER, SHORTER], plan_with(2, "40 in"), "Mona", "2026-05-02T11:00:00Z")
moments = st.integers(0, 2).map(lambda m: f"2026-05-02T10:0{m}:00Z")
ids = st.sampled_from(["R1", "R2", "R3"])


@st.composite
def readings(draw):
    words = {"value": draw(st.sampled_from(["41 in", "41 1/2 in"])), "by": "Mona", "at": draw(moments)}
    if draw(st.integers(0, 3)):
        words |= {"bay": draw(st.sampled_from(["A1", "A2", "A3"])), "what": "span"}
    else:
        words |= {"post": draw(st.sampled_from(["P1", "P3"])), "what": "plumb", "over": "40 in", "toward": "left"}
        words |= draw(st.sampled_from([{}, {"run": "A"}]))
    if draw(st.booleans()):
        words["id"] = draw(ids)
    if draw(st.integers(0, 3)) == 0:
        words["replaces"] = draw(ids)
    return words


moved = st.fixed_dictionaries({"post": st.sampled_from(["P0", "P3"]), "at": moments, "by": st.sampled_from(["Mona", "Kit"])})
bays = st.sampled_from(["A1", "A3"])
answers = st.fixed_dictionaries({"bay": bays, "check": st.just("lean"), "reason": st.just("x"), "by": st.just("Kit"), "at": moments})
notes = st.fixed_dictionaries({"bay": bays, "text": st.sampled_from(["x", "y"]), "by": st.just("Kit"), "at": moments})
LISTS = {"readings": readings(), "moved": moved, "answers": answers, "notes": notes}


@st.composite
def copies(draw):
    """A file of one and the same job: any lists in any order, any versions of its plan."""
    said = {name: keyed(draw(st.lists(entries, max_size=5))) for name, entries in LISTS.items()}
    plans = draw(st.lists(st.sampled_from([FIRST, TALLER, SHORTER, SPLIT, LAST]), min_size=1, max_size=3))
    return Copy("job of all three", newest(plans), said).document(by_time=draw(st.booleans()))


def spelled(document: dict) -> str:
    return strict_json.write(document, sort_keys=True)


def everything_said(document: dict) -> Counter:
    """How often each thing was said, wherever it stands in the file, its id apart."""
    aside = document.get("history", {}).get("unplaced", {})
    return Counter(
        (name, strict_json.write({k: v for k, v in words.items() if k != "id"}, sort_keys=True))
        for name in SECTIONS
        for words in [*document.get(name, ()), *aside.get(name, ())]
    )


@untimed
@given(copies(), copies())
def test_it_does_not_matter_which_copy_comes_first(one, other):
    assert spelled(merge(one, other)) == spelled(merge(other, one))


@untimed
@given(copies(), copies(), copies())
def test_it_does_not_matter_in_which_order_three_copies_meet(one, other, third):
    assert spelled(merge(merge(one, other), third)) == spelled(merge(one, merge(other, third)))


@untimed
@given(copies(), copies())
def test_a_copy_that_comes_again_changes_nothing(one, other):
    both = merge(one, other)
    assert spelled(merge(both, one)) == spelled(merge(both, other)) == spelled(merge(both, both)) == spelled(both)


@untimed
@given(copies(), copies(), copies(), st.lists(st.tuples(st.integers(0, 2), st.integers(0, 2)), max_size=8))
def test_three_devices_end_alike_whatever_they_exchanged_before(one, other, third, exchanges):
    held = [one, other, third]
    for sender, taker in exchanges:
        held[taker] = merge(held[taker], held[sender])
    first = merge(merge(held[2], held[0]), held[1])
    second = merge(held[1], merge(held[2], held[0]))
    assert spelled(first) == spelled(second) == spelled(merge(merge(one, other), third))


@untimed
@given(copies(), copies())
def test_nothing_is_lost_and_nothing_doubled(one, other):
    left, right, both = everything_said(one), everything_said(other), everything_said(merge(one, other))
    # Without an id, equal things are the same thing; with different ids they are several, at most as many as both sides have.
    assert set(both) == set(left) | set(right)
    assert all(max(left[k], right[k]) <= count <= left[k] + right[k] for k, count in both.items())


@untimed
@given(copies(), copies())
def test_a_merged_file_can_be_read(one, other):
    # Places that are gone, ids that stand twice, readings that replace one another in a circle: the reader refuses all of them.
    both = merge(one, other)
    assert len(read_words(both).job().readings) == len(both["readings"])


@untimed
@given(copies())
def test_all_that_can_be_shown_is_shown(one):
    """Nothing waits aside that the reader would take."""
    aside = one["history"].get("unplaced", {}).get("readings", [])
    for reading in aside:
        # On its own, as what it may be entangled with is aside too.
        with pytest.raises(DocumentError):
            read_words({**one, "readings": [*one["readings"], reading]})


@untimed
@given(st.lists(readings(), max_size=6))
def test_on_a_tie_the_order_of_the_file_is_kept(said):
    alone = Copy("job", (FIRST,), {**dict.fromkeys(SECTIONS, {}), "readings": keyed(said)})
    shown = alone.document(by_time=False)
    merged = merge(shown, deepcopy(shown))
    for at in {r["at"] for r in said}:
        assert [r for r in merged["readings"] if r["at"] == at] == [r for r in shown["readings"] if r["at"] == at]


def one_of(document: dict, *said: dict, **plan: object) -> dict:
    return {**document, **plan, "readings": [*document.get("readings", ()), *said]}


def a_span(value: str, at: str = "2026-05-02T10:00:00Z", **more: str) -> dict:
    return {"bay": "A1", "what": "span", "value": value, "by": "Mona", "at": at, **more}


def test_the_same_file_on_two_devices_is_the_same_job():
    file = plan_with(2)
    assert merge(one_of(file, a_span("41 in")), one_of(file, a_span("42 in")))["history"]["job"] == uid_of(file)


def test_two_jobs_are_never_merged():
    with pytest.raises(DocumentError, match="two different jobs"):
        merge(plan_with(2), plan_with(3))


def test_copies_in_two_units_are_never_merged():
    metric = deepcopy(plan_with(3))
    metric["job"]["units"] = "mm"
    said = dict.fromkeys(SECTIONS, {})
    with pytest.raises(DocumentError, match="inches"):
        _ = Copy("job", (FIRST,), said) | Copy("job", (version_of(metric),), said)


def test_a_newer_plan_takes_the_place_of_the_one_it_stems_from():
    old, new = (Copy("job", (plan,), dict.fromkeys(SECTIONS, {})) for plan in (FIRST, TALLER))
    assert (old | new).plans == (new | old).plans == (TALLER,)


def test_a_plan_changed_on_both_sides_is_kept_twice_until_somebody_chooses():
    one, other, chosen = (Copy("job", (plan,), dict.fromkeys(SECTIONS, {})) for plan in (TALLER, SHORTER, LAST))
    both = one | other
    assert both.plans == (SHORTER, TALLER)
    history = both.document()["history"]
    assert [p["plan"]["bays"] for p in history["other_plans"]] == [SHORTER.plan["bays"]]
    assert (both | chosen).plans == (LAST,)


def test_a_file_changed_by_hand_holds_a_newer_plan_than_the_one_it_was():
    written = Copy("job", (TALLER,), dict.fromkeys(SECTIONS, {})).document()
    by_hand = {**written, "glass": {**written["glass"], "height": "42 in"}}
    assert merge(written, by_hand)["glass"] == merge(by_hand, written)["glass"] == by_hand["glass"]
    assert "other_plans" not in merge(written, by_hand)["history"]


def test_a_reading_changed_by_hand_stands_beside_the_one_it_was():
    file = one_of(plan_with(1), a_span("41 in", id="R1"))
    by_hand = one_of(plan_with(1), a_span("42 in", id="R1"))
    both = merge(file, by_hand)["readings"]
    assert sorted(r["value"] for r in both) == ["41 in", "42 in"]
    assert sorted(r["id"].split("~")[0] for r in both) == ["R1", "R1"]
    assert both[0]["id"] != both[1]["id"]
