"""A job goes in and comes out letter for letter, grows by rows, and is never lost."""

import sqlite3

import pytest

from measure import strict_json
from measure.errors import StoreError


def test_a_job_file_comes_out_letter_for_letter(store, deck_file, deck_text):
    job = store.add_job(deck_file)
    given_out = store.document(job)
    assert given_out == deck_file
    # Order of keys and the digits of bare numbers too.
    assert strict_json.write(given_out) == strict_json.write(strict_json.read(deck_text))


def test_it_still_does_after_the_store_was_closed_and_opened(store, another, deck_file):
    from measure.store import Store

    job = store.add_job(deck_file)
    store.close()
    with Store.open(store.path) as again:
        assert strict_json.write(again.document(job)) == strict_json.write(deck_file)


def test_a_file_that_leaves_its_lists_out_comes_out_without_them(store, deck_file):
    for name in ("readings", "moved", "answers"):
        del deck_file[name]
    assert store.document(store.add_job(deck_file)) == deck_file


def test_a_file_whose_lists_are_not_in_the_order_of_time_keeps_its_order(store, deck_file):
    deck_file["readings"].reverse()
    assert store.document(store.add_job(deck_file)) == deck_file


def test_two_equal_readings_of_a_file_stay_two(store, deck_file):
    deck_file["readings"].append(dict(deck_file["readings"][0]))
    assert store.document(store.add_job(deck_file)) == deck_file


def test_the_same_file_taken_in_twice_as_new_makes_two_jobs(store, deck_file):
    assert store.add_job(deck_file) != store.add_job(deck_file)
    assert len(store.jobs()) == 2


def test_a_sample_is_one_job_of_each_store_and_another_one_in_every_store(store, another, deck_file, span):
    here, there = store, another()
    mine, theirs = here.take_sample(deck_file), there.take_sample(deck_file)
    assert mine != theirs
    assert here.take_sample(deck_file) == mine
    there.add_reading(theirs, span("A4", "41 1/2 in"))
    assert here.merge(None, there.document(theirs)).added  # what was tried there comes as a job of its own
    assert {j.id for j in here.jobs()} == {mine, theirs}
    assert here.document(mine)["readings"] == deck_file["readings"]


def test_a_sample_in_the_bin_comes_out_of_it_when_it_is_tried_again(store, deck_file):
    job = store.take_sample(deck_file)
    store.remove_job(job)
    assert store.take_sample(deck_file) == job
    assert [j.id for j in store.jobs()] == [job]


def test_a_file_that_says_which_job_it_is_cannot_be_added_where_that_job_is(store, deck_file, span):
    job = store.add_job(deck_file)
    store.add_reading(job, span("A4", "41 1/2 in"))
    with pytest.raises(StoreError, match="Heron landing.*Merge"):
        store.add_job(store.document(job))


def test_a_kept_reading_gets_an_id_and_stands_last(store, deck_file, span):
    job = store.add_job(deck_file)
    kept = store.add_reading(job, span("A4", "41 1/2 in"))
    assert {**span("A4", "41 1/2 in"), "id": kept["id"]} == kept
    assert store.document(job)["readings"] == [*deck_file["readings"], kept]


def test_ids_begin_with_the_name_of_the_store_that_made_them(store, another, deck_file, span):
    job = store.add_job(deck_file)
    ids = [store.add_reading(job, span("A4", "41 1/2 in", at=n))["id"] for n in range(5)]
    assert len(set(ids)) == 5
    assert {i.split("-")[0] for i in ids} == {store.device()}
    assert another().device() != store.device()


def test_a_reading_sent_again_is_kept_once(store, deck_file, span):
    job = store.add_job(deck_file)
    kept = store.add_reading(job, span("A4", "41 1/2 in"))
    changes = store.card(job).changes
    store.add_reading(job, kept)
    assert store.document(job)["readings"] == [*deck_file["readings"], kept]
    assert store.card(job).changes == changes


def test_another_reading_with_an_id_that_is_taken_is_refused(store, deck_file, span):
    job = store.add_job(deck_file)
    with pytest.raises(StoreError, match="id R3"):
        store.add_reading(job, span("A4", "41 1/2 in", id="R3"))
    assert store.document(job) == deck_file


def test_answers_moved_posts_and_notes_are_kept(store, deck_file):
    job = store.add_job(deck_file)
    answer = {"run": "A", "check": "closing", "reason": "gate not hung yet", "by": "Mona", "at": "2026-05-02T10:00:00Z"}
    moved = {"post": "P4", "at": "2026-05-02T10:01:00Z", "by": "Kit"}
    for _ in range(2):
        store.add_answer(job, answer)
        store.add_moved(job, moved)
        note = store.add_note(job, "A2", "downpipe in the way", "A2-1.jpg", "Kit", "2026-05-02T10:02:00Z")
    document = store.document(job)
    assert document["answers"] == [*deck_file["answers"], answer]
    assert document["moved"] == [*deck_file["moved"], moved]
    assert document["notes"] == [note] == store.notes(job)
    assert note == {"bay": "A2", "text": "downpipe in the way", "photo": "A2-1.jpg", "by": "Kit", "at": "2026-05-02T10:02:00Z"}


def test_a_changed_plan_is_a_new_version_and_the_old_one_stays(store, deck_file):
    job = store.add_job(deck_file)
    changed = store.document(job)
    changed["glass"]["height"] = "40 in"
    version = store.save_plan(job, changed, "Mona", "2026-05-02T10:00:00Z")
    assert [(v.plan["glass"]["height"], v.newest) for v in store.plan_versions(job)] == [
        (deck_file["glass"]["height"], False),
        ("40 in", True),
    ]
    assert store.plan_versions(job)[-1].version.id == version
    assert store.document(job)["glass"]["height"] == "40 in"
    assert store.document(job)["readings"] == deck_file["readings"]


def test_a_plan_saved_unchanged_changes_nothing(store, deck_file):
    job = store.add_job(deck_file)
    store.save_plan(job, deck_file, "Mona", "2026-05-02T10:00:00Z")
    assert store.document(job) == deck_file
    assert len(store.plan_versions(job)) == 1


def test_a_job_keeps_its_units(store, deck_file):
    job = store.add_job(deck_file)
    deck_file["job"]["units"] = "mm"
    with pytest.raises(StoreError, match="keeps its units"):
        store.save_plan(job, deck_file, "Mona", "2026-05-02T10:00:00Z")


def test_what_was_said_of_a_bay_that_is_gone_waits_until_the_bay_returns(store, deck_file):
    job = store.add_job(deck_file)
    shorter = store.document(job)
    shorter["bays"], shorter["posts"] = shorter["bays"][:1], shorter["posts"][:2]
    store.save_plan(job, shorter, "Mona", "2026-05-02T10:00:00Z")
    document = store.document(job)
    assert [r["value"] for r in document["readings"]] == ["41 7/16", "3/8 in", "178 1/2 in"]
    assert document["moved"] == document["answers"] == []
    assert [r["id"] for r in document["history"]["unplaced"]["readings"]] == ["R3", "R4"]
    store.save_plan(job, deck_file, "Mona", "2026-05-02T10:05:00Z")
    assert store.document(job)["readings"] == deck_file["readings"]
    assert store.document(job)["answers"] == deck_file["answers"]


@pytest.mark.parametrize("table", ["reading", "answer", "moved", "note", "plan"])
@pytest.mark.parametrize("sql", ["UPDATE {} SET words = '{{}}'", "DELETE FROM {}", "REPLACE INTO {} SELECT * FROM {}"])
def test_what_was_said_cannot_be_changed_or_removed_even_by_sql(store, deck_file, table, sql):
    job = store.add_job(deck_file)
    store.add_note(job, "A2", "downpipe", "", "Kit", "2026-05-02T10:02:00Z")
    before = store.document(job)
    with sqlite3.connect(store.path) as other:
        other.execute("PRAGMA recursive_triggers = ON")
        with pytest.raises(sqlite3.IntegrityError, match="only ever added to"):
            other.execute(sql.format(table, table))
    other.close()
    assert store.document(job) == before


def test_a_card_counts_bays_with_glass_and_those_that_are_measured(store, deck_file, span):
    job = store.add_job(deck_file)
    card = store.card(job)
    assert (card.name, card.site, card.units, card.bays, card.measured) == ("Heron landing", "invented", "in", 3, 1)
    store.add_reading(job, {"bay": "A2", "what": "base-rise", "value": "0", "by": "Mona", "at": "2026-05-02T10:00:00Z"})
    assert store.card(job).measured == 2


def test_a_bay_beside_a_moved_post_is_not_measured_until_it_is_taped_again(store, deck_file, span):
    job = store.add_job(deck_file)
    store.add_moved(job, {"post": "P2", "at": "2026-05-02T10:00:00Z", "by": "Kit"})
    assert store.card(job).measured == 0
    store.add_reading(job, span("A1", "41 1/2 in", at=1))
    store.add_reading(job, {**span("A1", "0", at=2), "what": "rise"})
    assert store.card(job).measured == 1


def test_a_trimmed_post_asks_for_the_rise_at_the_feet(store, deck_file):
    deck_file["posts"][1]["trimmed"] = True
    job = store.add_job(deck_file)
    assert store.card(job).measured == 0
    store.add_reading(job, {"bay": "A1", "what": "base-rise", "value": "0", "by": "Mona", "at": "2026-05-02T10:00:00Z"})
    assert store.card(job).measured == 1


def test_jobs_stand_with_the_one_worked_on_last_first(store, deck_file, span):
    first, second = store.add_job(deck_file), store.add_job(deck_file)
    assert [c.id for c in store.jobs()] == [second, first]
    store.mark_opened(first, "bay A2")
    assert [(c.id, c.place) for c in store.jobs()] == [(first, "bay A2"), (second, "")]
    store.add_reading(second, span("A4", "41 1/2 in"))
    assert [c.id for c in store.jobs()] == [second, first]


def test_a_job_is_found_by_its_name_or_id(store, deck_file):
    job = store.add_job(deck_file)
    assert store.job_by_name("Heron landing") == store.job_by_name(job) == job
    assert store.job_by_name("heron") is None
    second = store.add_job(deck_file)
    with pytest.raises(StoreError, match=f"{job}, {second}"):
        store.job_by_name("Heron landing")
    assert store.job_by_name(second) == second


def test_a_removed_job_lies_whole_in_the_bin(store, deck_file):
    job = store.add_job(deck_file)
    store.remove_job(job)
    assert store.jobs() == []
    assert store.job_by_name("Heron landing") is None
    assert [c.id for c in store.binned_jobs()] == [job]
    store.restore_job(job)
    assert store.document(job) == deck_file
    assert [c.id for c in store.jobs()] == [job]


def test_a_copy_is_old_as_soon_as_something_was_said_after_it_was_made(store, deck_file, span):
    job = store.add_job(deck_file)
    assert store.last_copy_at(job) is None
    assert store.card(job).copy_is_old
    made_with = store.card(job).changes
    store.add_reading(job, span("A4", "41 1/2 in"))
    store.mark_copy(job, "2026-05-02T10:05:00Z", changes=made_with)
    assert store.card(job).copy_is_old
    store.mark_copy(job)
    assert not store.card(job).copy_is_old
    assert store.last_copy_at(job) > "2026-05-02T12"
    store.add_answer(job, {"bay": "A1", "check": "lean", "reason": "x", "by": "M", "at": "2026-05-02T10:00:00Z"})
    assert store.card(job).copy_is_old


@pytest.mark.parametrize(
    "act",
    [
        lambda s: s.document("none"),
        lambda s: s.card("none"),
        lambda s: s.add_answer("none", {"bay": "A1", "check": "lean", "reason": "x", "by": "M", "at": "2026-05-02T10:00:00Z"}),
        lambda s: s.remove_job("none"),
        lambda s: s.mark_copy("none"),
        lambda s: s.mark_opened("none"),
        lambda s: s.issue_order("none", {"order.csv": b"x"}, "M", "2026-05-02T10:00:00Z"),
    ],
)
def test_a_job_that_is_not_there_is_said(store, act):
    with pytest.raises(StoreError, match="no such job"):
        act(store)


def test_one_action_is_kept_whole_or_not_at_all(store, deck_file, span):
    job = store.add_job(deck_file)
    with pytest.raises(ZeroDivisionError), store.action():
        store.add_reading(job, span("A4", "41 1/2 in"))
        store.set_setting("last", 1)
        1 / 0  # noqa: B018
    assert store.document(job) == deck_file
    assert store.setting("last") is None
