"""Devices that send each other job files end with the same job, in any order and any number of times."""

from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from measure import strict_json
from measure.errors import DocumentError
from measure.merge import merge
from measure.store import Store


def test_a_file_of_a_job_that_is_not_here_becomes_one(store, deck_file):
    result = store.merge(None, deck_file)
    assert (result.added, result.readings, result.moved, result.answers, result.notes) == (True, 5, 1, 1, 0)
    assert store.document(result.job) == deck_file


def test_the_same_file_again_changes_nothing(store, deck_file):
    job = store.add_job(deck_file)
    before = store.card(job)
    result = store.merge(None, deck_file)
    assert (result.job, result.added, result.news, result.plan, result.only_here) == (job, False, False, "same", 0)
    assert store.document(job) == deck_file
    assert store.card(job) == before


def test_two_devices_that_took_in_one_file_find_it_to_be_one_job(store, another, deck_file, span):
    here, there = store, another()
    job = here.add_job(deck_file)
    assert there.add_job(deck_file) == job
    mine = here.add_reading(job, span("A4", "41 1/2 in", at=1))
    theirs = there.add_reading(job, span("A1", "41 1/2 in", by="Kit", at=2))
    result = here.merge(None, there.document(job))
    assert (result.readings, result.only_here, result.plan) == (1, 1, "same")
    assert [r["id"] for r in here.document(job)["readings"] if "id" in r] == ["R3", "R4", mine["id"], theirs["id"]]
    there.merge(None, here.document(job))
    assert there.document(job) == here.document(job)


def test_what_the_store_merges_is_what_merging_the_files_gives(store, another, deck_file, span):
    here, there = store, another()
    job = here.add_job(deck_file)
    there.add_job(deck_file)
    here.add_reading(job, span("A4", "41 1/2 in", at=1))
    there.add_reading(job, span("A4", "41 9/16 in", by="Kit", at=1))
    there.add_note(job, "A1", "downpipe", "", "Kit", "2026-05-02T10:00:00Z")
    expected = merge(here.document(job), there.document(job))
    here.merge(job, there.document(job))
    assert strict_json.write(here.document(job), True) == strict_json.write(expected, True)


def test_a_newer_plan_is_taken_and_an_older_one_is_not(store, another, deck_file):
    here, there = store, another()
    job = here.add_job(deck_file)
    there.add_job(deck_file)
    old = there.document(job)
    there.save_plan(job, {**deck_file, "glass": {**deck_file["glass"], "height": "40 in"}}, "Kit", "2026-05-02T10:00:00Z")
    assert here.merge(None, there.document(job)).plan == "theirs"
    assert here.document(job)["glass"]["height"] == "40 in"
    assert here.merge(None, old).plan == "ours"
    assert here.document(job)["glass"]["height"] == "40 in"


def test_a_plan_changed_on_both_sides_is_told_on_both_and_settled_by_saving(store, another, deck_file):
    here, there = store, another()
    job = here.add_job(deck_file)
    there.add_job(deck_file)
    here.save_plan(job, {**deck_file, "glass": {**deck_file["glass"], "height": "39 in"}}, "Mona", "2026-05-02T10:00:00Z")
    there.save_plan(job, {**deck_file, "glass": {**deck_file["glass"], "height": "40 in"}}, "Kit", "2026-05-02T10:01:00Z")
    assert here.merge(None, there.document(job)).plan == "both"
    assert there.merge(None, here.document(job)).plan == "theirs"
    assert not here.card(job).settled and not there.card(job).settled
    assert here.document(job) == there.document(job)
    here.save_plan(job, {**here.document(job), "tape": {"division": "1/32 in"}}, "Mona", "2026-05-02T10:05:00Z")
    assert here.card(job).settled
    assert there.merge(None, here.document(job)).plan == "theirs"
    assert there.card(job).settled
    assert there.document(job)["tape"] == {"division": "1/32 in"}
    assert len(there.plan_versions(job)) == 4


def test_a_job_in_the_bin_comes_out_of_it_when_a_copy_arrives(store, deck_file):
    job = store.add_job(deck_file)
    store.remove_job(job)
    assert store.merge(None, deck_file).job == job
    assert [c.id for c in store.jobs()] == [job]


def test_a_file_of_another_job_cannot_be_merged_into_this_one(store, another, deck_file, span):
    job = store.add_job(deck_file)
    other = another()
    deck_file["job"]["name"] = "Heron landing, upper deck"
    stranger = other.add_job(deck_file)
    other.add_reading(stranger, span("A4", "41 1/2 in"))
    before = store.document(job)
    with pytest.raises(DocumentError, match="two different jobs"):
        store.merge(job, other.document(stranger))
    assert store.document(job) == before


def test_a_file_written_by_hand_can_be_merged_into_a_job_that_it_does_not_name(store, deck_file):
    job = store.add_job(deck_file)
    deck_file["readings"].append({"bay": "A4", "what": "span", "value": "41", "by": "Kit", "at": "2026-05-02T10:00:00Z"})
    deck_file["glass"]["height"] = "40 in"
    result = store.merge(job, deck_file)
    assert (result.job, result.readings, result.plan) == (job, 1, "both")


def test_a_wrong_order_on_a_tie_is_put_right_by_a_copy_that_knows(store, another, deck_file, span):
    here, there = store, another()
    deck_file["readings"] = []
    job = here.add_job(deck_file)
    there.add_job(deck_file)
    first, second = span("A1", "41 in", id="R9"), span("A1", "42 in", id="R1")
    here.add_reading(job, second)
    there.add_reading(job, first)
    there.add_reading(job, second)
    here.merge(None, there.document(job))
    there.merge(None, here.document(job))
    assert here.document(job)["readings"] == there.document(job)["readings"] == [first, second]


said = st.sampled_from(["41 in", "41 1/2 in", "41 9/16 in"])
acts = st.one_of(
    st.tuples(st.just("read"), st.integers(0, 2), st.sampled_from(["A1", "A2", "A4"]), said, st.integers(0, 2)),
    st.tuples(st.just("answer"), st.integers(0, 2), st.sampled_from(["A1", "A2"]), st.just(""), st.integers(0, 2)),
    st.tuples(st.just("plan"), st.integers(0, 2), st.sampled_from(["38 in", "40 in", "less"]), st.just(""), st.integers(0, 2)),
    st.tuples(st.just("send"), st.integers(0, 2), st.integers(0, 2), st.just(""), st.integers(0, 9)),
)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(acts, max_size=14))
def test_three_devices_end_alike_after_any_exchange(deck_file, happened):
    devices = [Store.open(":memory:") for _ in range(3)]
    files: list[dict[str, Any]] = [deck_file]
    job = [d.add_job(deck_file) for d in devices][0]
    kept: list[set[str]] = [set(), set(), set()]
    for what, who, place, value, at in happened:
        act(devices[who], job, what, place, value, f"2026-05-02T10:0{at}:00Z", files, kept[who])
        # Every file stays in somebody's mailbox and may come again at any time.
        files.append(devices[who].document(job))
    for _ in range(2):
        for taker in devices:
            for sender in devices:
                taker.merge(job, sender.document(job))
    documents = [strict_json.write(d.document(job), True) for d in devices]
    assert documents[0] == documents[1] == documents[2]
    everything = devices[0].document(job)
    aside = everything.get("history", {}).get("unplaced", {}).get("readings", [])
    assert set().union(*kept) <= {r.get("id") for r in [*everything["readings"], *aside]}
    assert all(d.troubles() == [] for d in devices)
    for device in devices:
        device.close()


def act(device: Store, job: str, what: str, place: Any, value: str, at: str, files: list[dict[str, Any]], kept: set[str]) -> None:
    if what == "read":
        if place in {b["tag"] for b in device.document(job)["bays"]}:
            kept.add(device.add_reading(job, {"bay": place, "what": "span", "value": value, "by": "Mona", "at": at})["id"])
    elif what == "answer":
        device.add_answer(job, {"bay": place, "check": "lean", "reason": "x", "by": "Mona", "at": at})
    elif what == "plan":
        plan = device.document(job)
        if place == "less":
            plan["bays"], plan["posts"] = plan["bays"][:2], plan["posts"][:3]
        else:
            plan["glass"] = {**plan["glass"], "height": place}
        device.save_plan(job, plan, "Mona", at)
    else:
        device.merge(job, files[(place * 7 + int(at[15])) % len(files)])
