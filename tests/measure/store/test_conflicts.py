"""Two sides that said different things and did not know of each other: told until somebody settles it."""

import pytest

from measure.book import Book
from measure.errors import StoreError
from measure.store import Store


@pytest.fixture
def two(store, another, deck_file):
    """Two devices with one job, and the job's id."""
    other = another()
    job = store.add_job(deck_file)
    other.add_job(deck_file)
    return store, other, job


def meet(one, other, job):
    one.merge(job, other.document(job))
    other.merge(job, one.document(job))
    assert one.conflicts(job) == other.conflicts(job)
    return one.conflicts(job)


def test_two_first_readings_from_two_devices_are_told_on_both(two, span):
    one, other, job = two
    mine = one.add_reading(job, span("A4", "41 1/2 in", by="Mona", at=1))
    theirs = other.add_reading(job, span("A4", "41 9/16 in", by="Kit", at=2))
    (conflict,) = meet(one, other, job)
    assert (conflict.kind, conflict.place, conflict.what) == ("reading", "A4", "span")
    assert [(s.id, s.by, s.said) for s in conflict.sides] == [
        (mine["id"], "Mona", "41 1/2 in"),
        (theirs["id"], "Kit", "41 9/16 in"),
    ]
    assert "41 1/2 in (Mona)" in conflict.sentence and "41 9/16 in (Kit)" in conflict.sentence


def test_the_merge_itself_tells_of_them(two, span):
    one, other, job = two
    one.add_reading(job, span("A4", "41 1/2 in", by="Mona", at=1))
    other.add_reading(job, span("A4", "41 9/16 in", by="Kit", at=2))
    assert one.merge(job, other.document(job)).conflicts == one.conflicts(job) != ()


def test_two_people_on_one_device_are_two_sides_too(store, deck_file, span):
    job = store.add_job(deck_file)
    store.add_reading(job, span("A4", "41 1/2 in", by="Mona", at=1))
    store.add_reading(job, span("A4", "41 9/16 in", by="Kit", at=2))
    assert [c.place for c in store.conflicts(job)] == ["A4"]


@pytest.mark.parametrize(
    ("why", "first", "second"),
    [
        ("the same figure, spelled otherwise", {"value": "41 1/2 in"}, {"value": '41.5"'}),
        ("the same person on the same device taped again", {"value": "41 1/2 in"}, {"value": "41 9/16 in", "by": "mona"}),
        ("a second tape is another matter", {"value": "41 1/2 in"}, {"value": "41 9/16 in", "by": "Kit", "role": "second"}),
        ("another place", {"value": "41 1/2 in"}, {"value": "41 9/16 in", "by": "Kit", "bay": "A1"}),
        ("written by hand: the newest counts", {"value": "41 1/2 in", "id": "R8"}, {"value": "41 in", "by": "Kit", "id": "R9"}),
    ],
)
def test_honest_work_is_no_conflict(store, deck_file, span, why, first, second):
    job = store.add_job(deck_file)
    store.add_reading(job, {**span("A4", "", at=1), **first})
    store.add_reading(job, {**span("A4", "", at=2), **second})
    assert store.conflicts(job) == (), why


def test_a_reading_that_replaces_the_other_knew_of_it(two, span):
    one, other, job = two
    mine = one.add_reading(job, span("A4", "41 1/2 in", at=1))
    other.merge(job, one.document(job))
    other.add_reading(job, span("A4", "41 9/16 in", by="Kit", at=2, replaces=mine["id"]))
    assert meet(one, other, job) == ()


def test_replacing_one_side_by_what_the_other_said_settles_it(two, span):
    one, other, job = two
    mine = one.add_reading(job, span("A4", "41 1/2 in", at=1))
    other.add_reading(job, span("A4", "41 9/16 in", by="Kit", at=2))
    assert len(meet(one, other, job)) == 1
    one.add_reading(job, span("A4", "41 9/16 in", by="Mona", at=3, replaces=mine["id"]))
    assert meet(one, other, job) == ()


def test_one_tape_settles_all_sides_wherever_the_job_travels(two, another, span):
    one, other, job = two
    mine = one.add_reading(job, span("A4", "41 1/2 in", by="Mona", at=1))
    theirs = other.add_reading(job, span("A4", "41 9/16 in", by="Kit", at=2))
    assert len(meet(one, other, job)) == 1
    kept = one.add_reading(job, span("A4", "41 5/8 in", by="Mara", at=3, replaces=theirs["id"]))
    assert meet(one, other, job) == ()
    book = Book(one.job(job))
    assert [r.id for r in book.standing("bay", "A4", "span", "first")] == [kept["id"]]
    assert all(book.replaced(r) for r in one.job(job).readings if r.id in (mine["id"], theirs["id"]))
    third = another()
    third.merge(None, other.document(job))
    assert third.document(job)["readings"] == one.document(job)["readings"] and third.conflicts(job) == ()


def test_what_was_not_on_the_device_is_not_settled(two, another, span):
    one, other, job = two
    third = another()
    third.add_job(one.document(job))
    theirs = other.add_reading(job, span("A4", "41 9/16 in", by="Kit", at=2))
    one.add_reading(job, span("A4", "41 1/2 in", by="Mona", at=1))
    third.add_reading(job, span("A4", "41 in", by="Ned", at=1))
    meet(one, other, job)
    one.add_reading(job, span("A4", "41 5/8 in", by="Mara", at=3, replaces=theirs["id"]))
    one.merge(job, third.document(job))
    (conflict,) = one.conflicts(job)
    assert [(s.by, s.said) for s in conflict.sides] == [("Ned", "41 in"), ("Mara", "41 5/8 in")]


def test_one_figure_said_twice_by_one_person_on_one_device_is_one_side(two, span):
    one, other, job = two
    for at in (3, 4):
        one.add_reading(job, span("A4", "41 5/8 in", by="Mara", at=at))
    other.add_reading(job, span("A4", "41 1/2 in", by="Kit", at=5))
    (conflict,) = meet(one, other, job)
    assert sorted(s.said for s in conflict.sides) == ["41 1/2 in", "41 5/8 in"]


def test_a_post_moved_since_ends_it(two, span):
    one, other, job = two
    one.add_reading(job, span("A4", "41 1/2 in", at=1))
    other.add_reading(job, span("A4", "41 9/16 in", by="Kit", at=2))
    one.add_moved(job, {"post": "P5", "at": "2026-05-02T10:03:00Z", "by": "Mona"})
    assert meet(one, other, job) == ()


def test_a_rise_to_the_other_side_is_another_figure(two):
    one, other, job = two
    rise = {"bay": "A4", "what": "rise", "value": "3/8 in", "at": "2026-05-02T10:01:00Z"}
    one.add_reading(job, {**rise, "by": "Mona", "high": "left"})
    other.add_reading(job, {**rise, "by": "Kit", "high": "right"})
    assert [(c.place, c.what) for c in meet(one, other, job)] == [("A4", "rise")]


def test_plumb_readings_of_a_post_in_two_runs_stand_apart(store, deck_file):
    deck_file["posts"].append({"id": "P6", "kind": "end"})
    deck_file["posts"][4]["kind"] = "corner"
    deck_file["bays"].append({"tag": "B1", "run": "B", "left": "P5", "right": "P6", "spacing": "44 in"})
    job = store.add_job(deck_file)
    plumb = {"post": "P5", "what": "plumb", "value": "1/8 in", "over": "40 in", "toward": "left", "at": "2026-05-02T10:01:00Z"}
    store.add_reading(job, {**plumb, "by": "Mona", "run": "A"})
    store.add_reading(job, {**plumb, "by": "Kit", "run": "B", "value": "1/4 in"})
    assert store.conflicts(job) == ()
    store.add_reading(job, {**plumb, "by": "Kit", "run": "A", "value": "1/4 in"})
    assert [(c.place, len(c.sides)) for c in store.conflicts(job)] == [("post P5", 2)]


def test_plans_that_differ_are_told_with_the_places_where_they_do(two, deck_file):
    one, other, job = two
    one.save_plan(job, {**deck_file, "glass": {**deck_file["glass"], "height": "39 in"}}, "Mona", "2026-05-02T10:00:00Z")
    other.save_plan(job, {**deck_file, "job": {**deck_file["job"], "po": "H-8"}}, "Kit", "2026-05-02T10:01:00Z")
    (conflict,) = meet(one, other, job)
    assert (conflict.kind, conflict.place, conflict.differs) == ("plan", "job", ("glass.height", "job.po"))
    assert [s.by for s in conflict.sides] == ["Mona", "Kit"]


def test_the_same_change_on_both_sides_is_no_conflict(two, deck_file):
    one, other, job = two
    changed = {**deck_file, "glass": {**deck_file["glass"], "height": "39 in"}}
    one.save_plan(job, changed, "Mona", "2026-05-02T10:00:00Z")
    other.save_plan(job, changed, "Kit", "2026-05-02T10:01:00Z")
    assert meet(one, other, job) == ()


def test_a_job_is_read_by_its_name_from_a_folder_without_writing_there(tmp_path, deck_file, span):
    with Store.open(tmp_path) as store:
        job = store.add_job(deck_file)
        store.add_reading(job, span("A4", "41 1/2 in"))
    before = (tmp_path / "spanbook.db").read_bytes()
    assert len(Store.job_named(tmp_path, "Heron landing").readings) == 6
    with pytest.raises(StoreError, match="“Herons”. Jobs there: “Heron landing”"):
        Store.job_named(tmp_path, "Herons")
    assert (tmp_path / "spanbook.db").read_bytes() == before
