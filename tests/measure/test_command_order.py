"""`spanbook order`: exit codes, and what is written where."""

import io

import pytest

from measure import command_order
from measure.system import Limits

STEEP = Limits(slope=1 / 12)


def ordered(deck, folder, partial=False, drawings=False, **said):
    """Exit code, standard output, standard error."""
    out, err = io.StringIO(), io.StringIO()
    return command_order.run(deck.job(**said), folder, partial, drawings, out, err), out.getvalue(), err.getvalue()


def mixed(deck):
    """One bay that is fine, one with an open query, one that is held for want of a high end."""
    return deck().bay("A1", "41 in").gate().bay("A2", "41 in", "12 in", "right").gate().bay("A3", "41 in", "1 in")


def test_a_job_with_nothing_in_the_way_is_written_and_told(deck, tmp_path):
    code, out, err = ordered(deck().bay("A1", "41 in").bay("A2", "41 in"), tmp_path / "out", drawings=True)
    assert (code, err) == (0, "")
    # 42 5/16 by 38 in, twice: 2.0746732 m² at 25 kg/m².
    assert out == f"2 panels (1 different pane), 2.0747 m², 51.9 kg: 7 files in {tmp_path / 'out'}\n"
    assert len(list((tmp_path / "out").iterdir())) == 7


def test_a_hold_or_an_open_query_stops_everything_and_is_named(deck, tmp_path):
    code, out, err = ordered(mixed(deck), tmp_path / "out", limits=STEEP)
    assert (code, out) == (1, "")
    told = [line.split("\t")[:3] for line in err.splitlines()]
    assert ["A2", "query", "slope"] in told
    assert ["A3", "hold", "high-end"] in told
    assert not (tmp_path / "out").exists()


def test_partial_orders_the_others_and_lists_what_it_left_out(deck, tmp_path):
    code, out, err = ordered(mixed(deck), tmp_path, partial=True, limits=STEEP)
    assert (code, err) == (0, "")
    assert [line.split("\t")[0] for line in out.splitlines()[:-1]] == ["left out: A2", "left out: A3"]
    assert out.splitlines()[-1].startswith("1 panel (1 different pane)") and ", 2 left out: 5 files in " in out
    assert b"\r\nA1," in (tmp_path / "order.csv").read_bytes()
    assert b"A2," not in (tmp_path / "order.csv").read_bytes()


def test_partial_with_no_panel_left_writes_nothing(deck, tmp_path):
    code, out, err = ordered(deck().bay("A3", "41 in", "1 in"), tmp_path / "out", partial=True)
    assert (code, out) == (1, "")
    assert err.splitlines()[0].startswith("A3\thold\thigh-end\t") and err.endswith(
        "No panel is left to order: nothing was written.\n"
    )
    assert not (tmp_path / "out").exists()


def test_a_job_whose_glass_is_all_ordered_writes_nothing(deck, tmp_path):
    code, out, err = ordered(deck().bay("A1", "41 in", status="ordered"), tmp_path / "out")
    assert (code, out, err) == (1, "", "No panel is left to order: nothing was written.\n")


def test_an_open_query_on_a_run_stops_all_its_panels_and_is_told_once(deck, tmp_path):
    made = deck().bay("A1", "41 in").bay("A2", "41 in").overall("A", "90 in")
    for partial in (False, True):
        code, out, err = ordered(made, tmp_path / "out", partial=partial)
        assert (code, out) == (1, "")
        assert err.splitlines()[0].startswith("run A (A1, A2)\tquery\tclosing\t")
        assert err.count("closing") == 1
    assert not (tmp_path / "out").exists()


def test_an_answer_lets_the_order_pass(deck, tmp_path):
    made = deck().bay("A1", "41 in").bay("A2", "41 in").overall("A", "90 in").answer("closing", "lip of the wall", run="A")
    assert ordered(made, tmp_path)[0] == 0


@pytest.mark.parametrize("partial", [False, True])
def test_a_folder_that_cannot_be_made_is_a_sentence_and_exit_two(deck, tmp_path, partial):
    (tmp_path / "out").write_text("")
    code, out, err = ordered(deck().bay("A1", "41 in"), tmp_path / "out", partial=partial)
    assert (code, out) == (2, "")
    assert err.startswith("The order was not written to ") and err.count("\n") == 1


def test_a_large_order_tells_a_terminal_how_far_it_is(deck, tmp_path):
    made = deck()
    for at in range(500):
        made.bay(f"A{at}", "41 in")

    class Terminal(io.StringIO):
        def isatty(self):
            return True

    err = Terminal()
    assert command_order.run(made.job(), tmp_path, False, True, io.StringIO(), err) == 0
    assert "writing order.html\n" in err.getvalue() and "drawing 500 of 500\n" in err.getvalue()
