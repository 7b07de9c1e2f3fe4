"""Two sides that said different things: no panel of it is ordered until a person says which one holds. Common practice, no source."""

import copy
import io

import pytest

from measure import command_check, command_order
from measure.documents import read_words
from measure.report import evaluate
from tests.measure.checks.three_bays import base_job, plumb, rise, span

MINE, THEIRS = ("aaaaaaaa-" + f"{n:016x}" for n in (1, 2))
OTHER = "bbbbbbbb-" + f"{3:016x}"
"""Ids as two devices make them."""


def job_with(*readings, **more):
    words = base_job()
    places = {(r.get("bay"), r["what"]) for r in readings}
    words["readings"] = [r for r in words["readings"] if (r.get("bay"), r["what"]) not in places] + list(readings)
    return {**words, **more}


def two_spans(second="41 9/16", **more):
    return job_with(span("A2", "41 1/2", id=MINE), span("A2", second, by="K", at="2026-05-02T09:40:00Z", id=OTHER), **more)


def found(words):
    return [(f.place, f.word) for f in evaluate(read_words(words).job()).findings if f.check == "two-sides"]


def ordered(words, folder, partial=False):
    out, err = io.StringIO(), io.StringIO()
    return command_order.run(read_words(words).job(), folder, partial, False, out, err), out.getvalue(), err.getvalue()


def test_two_first_spans_of_two_devices_are_a_query_that_names_both_and_the_one_that_counts():
    report = evaluate(read_words(two_spans()).job())
    (query,) = (f for f in report.findings if f.check == "two-sides")
    assert (query.place, query.word) == ("A2", "query")
    for part in ("41 1/2 in (M)", "41 9/16 in (K)", "41 9/16 in counts now"):
        assert part in query.sentence
    assert [o.bay.tag for o in report.to_order()] == ["A1", "A3"]


def test_the_command_line_writes_no_order_of_it_unless_told_to_leave_that_panel_out(tmp_path):
    code, out, err = ordered(two_spans(), tmp_path / "out")
    assert (code, out) == (1, "") and err.startswith("A2\tquery\ttwo-sides\t") and not (tmp_path / "out").exists()
    code, out, _ = ordered(two_spans(), tmp_path / "out", partial=True)
    assert code == 0 and "left out: A2\tquery\ttwo-sides" in out
    told = io.StringIO()
    assert command_check.run(read_words(two_spans()).job(), False, told) == 1
    assert "1 query" in told.getvalue().splitlines()[-1]


def test_the_device_tells_two_sides_of_one_person_apart():
    same = span("A2", "41 1/2", id=MINE), span("A2", "41 9/16", at="2026-05-02T09:40:00Z", id=THEIRS)
    assert found(job_with(*same)) == []
    assert found(job_with(same[0], {**same[1], "id": OTHER})) == [("A2", "query")]


@pytest.mark.parametrize(
    ("why", "words"),
    [
        ("the same figure", two_spans("41.5")),
        ("written by hand: the newest counts", job_with(span("A2", "41 1/2", id="R1"), span("A2", "41 9/16", by="K", id="R2"))),
        ("one that takes the place of the other", job_with(span("A2", "41 1/2", id=MINE), span("A2", "41 9/16", by="K", id=OTHER, replaces=MINE))),
        ("a post moved since", two_spans(moved=[{"post": "P2", "at": "2026-05-02T09:50:00Z", "by": "M"}])),
        ("a second tape is compared by its own check", job_with(span("A2", "41 1/2", id=MINE), span("A2", "41 9/16", by="K", id=OTHER, role="second"))),
    ],
)  # fmt: skip
def test_honest_work_is_no_query(why, words):
    assert found(words) == [], why


def test_a_written_answer_lets_the_one_that_counts_stand_and_the_order_prints_it(tmp_path):
    answer = {"bay": "A2", "check": "two-sides", "reason": "the other one was a trial", "by": "M", "at": "2026-05-02T10:00:00Z"}
    words = two_spans(answers=[answer])
    assert found(words) == [("A2", "answered")]
    assert ordered(words, tmp_path / "out")[0] == 0
    assert "two-sides: the other one was a trial (M)" in (tmp_path / "out" / "order.csv").read_text("utf-8-sig")
    early = two_spans(answers=[{**answer, "at": "2026-05-02T09:39:00Z"}])
    assert found(early) == [("A2", "query")]


def test_a_rise_to_the_other_side_a_post_and_a_run_are_told_where_they_stand():
    rises = rise("A2", "3/8", "left", id=MINE), rise("A2", "3/8", "right", by="K", id=OTHER)
    assert found(job_with(*rises)) == [("A2", "query")]
    posts = plumb("P2", "1/16", "left", id=MINE), {**plumb("P2", "1/16", "right", id=OTHER), "by": "K"}
    assert found(job_with(*posts)) == [("A1", "query"), ("A2", "query")]
    over = [{"run": "A", "what": "overall", "value": v, "by": by, "at": "2026-05-02T09:50:00Z", "id": i} for v, by, i in (("130", "M", MINE), ("131", "K", OTHER))]
    assert found(job_with(*over)) == [("run A", "query")]


def test_a_plan_that_was_changed_on_two_sides_holds_every_panel_until_one_is_chosen(tmp_path):
    words = base_job()
    other = copy.deepcopy({k: v for k, v in words.items() if k != "readings"})
    other["glass"]["height"] = "39 in"
    theirs = {"id": "0" * 16, "by": "K", "at": "2026-05-02T09:00:00Z", "before": [], "plan": other}
    words["history"] = {"job": "j", "plan": {"id": "1" * 16, "by": "M", "at": "2026-05-02T09:10:00Z", "before": []}, "other_plans": [theirs]}
    assert found(words) == [("job", "hold")]
    for partial in (False, True):
        code, out, err = ordered(words, tmp_path / "out", partial)
        assert (code, out) == (1, "") and "job (A1, A2, A3)\thold\ttwo-sides\tThe plan was changed on two sides. Glass: height." in err
    assert not (tmp_path / "out").exists()
    words["history"]["other_plans"][0]["plan"] = {k: v for k, v in words.items() if k not in ("readings", "history")}
    assert found(words) == []
