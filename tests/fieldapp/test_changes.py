"""What an issued order and the bays of today differ in."""

import pytest

from measure.changes import changes, from_json, glass_text, ordered
from measure.documents import read_words
from measure.report import evaluate
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.test_plan_effects import taped


def solved(**glass):
    file = taped(deck_file(), "A1", "A2")
    file["glass"] = {**file["glass"], **glass}
    report = evaluate(read_words(file).job())
    return report.job, report.openings


def out(job, openings):
    return [ordered(tag, o.panel, glass_text(job.glass, o.finish_face)).as_json() for tag, o in openings.items()]


def test_an_order_that_is_as_the_bays_ask_differs_in_nothing():
    job, openings = solved()
    assert changes(out(job, openings), openings, job.glass) == []


@pytest.mark.parametrize(
    ("glass", "said"),
    [
        ({"thickness": "12 mm"}, "12 mm"), ({"kind": "frosted toughened"}, "10 mm frosted toughened"), ({"edge": "polished"}, "10 mm, top polished, uprights polished, bottom polished"),
        ({"stamp": "lower left"}, "10 mm, stamp lower left"), ({"finish_face": "frosted face inward"}, "10 mm, face frosted face inward"),
    ],
)  # fmt: skip
def test_another_glass_of_the_same_size_is_another_panel(glass, said):
    job, openings = solved()
    now, asked = solved(**glass)
    found = changes(out(job, openings), asked, now.glass)
    assert [c.was.tag for c in found] == ["A1", "A2"]
    assert all(c.other_glass and c.now.glass == said and not c.width_apart for c in found)


def test_an_order_that_wrote_no_glass_down_is_compared_by_its_sizes():
    job, openings = solved()
    panels = [{k: v for k, v in one.items() if k != "glass"} for one in out(job, openings)]
    now, asked = solved(thickness="12 mm")
    assert changes(panels, asked, now.glass) == [] and from_json(panels[0]).glass == ""


def test_a_panel_whose_bay_is_gone_is_told_without_a_size():
    job, openings = solved()
    found = changes(out(job, openings), {"A2": openings["A2"]}, job.glass)
    assert [(c.was.tag, c.now) for c in found] == [("A1", None)]
