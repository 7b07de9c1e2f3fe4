"""The post system of a new job: presets, the live word on its allowance, the sheet."""

import pytest

from fieldapp.screens import system_model as model
from fieldapp.screens.new_figures import SIX
from fieldapp.screens.new_form import NewForm
from measure.allowance import AllowanceBudget
from measure.length import Length, inches, millimetres

FORM = NewForm.fresh("in").say("system", groove_depth="13/16 in", least_bite="1/4 in", least_play="1/16 in")
SYSTEM = {"name": "Slotted 60", "post_face": "2 in", "greatest_spacing": "44 in"}


def test_the_best_allowance_leaves_the_same_both_ways():
    # A = (3D + b − c)/2 with D 13/16, b 1/4, c 1/16 in: 1 5/16 in, 1/4 in each way (by hand).
    budget = AllowanceBudget.of(inches(1, 20), inches(0, 52), inches(0, 16), inches(0, 4))
    assert budget == AllowanceBudget(inches(1, 20), inches(0, 16).nm, inches(0, 16).nm, False)


@pytest.mark.parametrize(
    ("allowance", "sentence", "ok"),
    [
        (None, "Best is 1 5/16 in.", True),
        (inches(1, 20), "Best is 1 5/16 in; yours leaves 1/4 in each way.", True),
        (inches(1, 16), "Best 1 5/16 in; yours: 3/16 in to hold, 5/16 in to go in.", True),
        (inches(1, 0), "Best 1 5/16 in; yours is 1/16 in short to hold.", False),
        (inches(1, 40), "Best 1 5/16 in; yours is 1/16 in too much to go in.", False),
        (inches(0, 48), "For one edge only? Best for both is 1 5/16 in.", False),
    ],
)
def test_the_allowance_says_what_it_leaves(allowance, sentence, ok):
    assert model.live(FORM, allowance) == model.Live(sentence, ok)


def test_nothing_is_said_before_groove_bite_and_play_are_there():
    assert model.live(NewForm.fresh(), inches(1)) == model.Live()


def test_kept_systems_come_first_and_the_same_one_of_a_job_is_not_said_twice():
    other = {**SYSTEM, "post_face": "3 in"}
    rows = model.preset_rows({"Slotted 60": SYSTEM}, [("Deck", SYSTEM), ("Loft", other), ("Barn", other)])
    assert [row.name for row in rows] == ["Slotted 60", "Slotted 60, as in Loft"]
    assert not rows[0].confirmed and "Nobody has confirmed" in rows[0].sentence


def test_a_preset_says_who_confirmed_it_from_which_sheet():
    row = model.preset_rows({"x": {**SYSTEM, "confirmed": {"by": "Mona", "at": "2026-04-20", "sheet": "invented 3"}}}, [])[0]
    assert row.confirmed and "Mona" in row.sentence and "invented 3" in row.sentence


def test_another_system_takes_all_of_the_one_before_away():
    form = model.chosen(FORM.say("system", base_plate="5 in"), SYSTEM)
    assert dict(form.system) == SYSTEM


def test_the_next_figure_is_the_next_that_is_not_said():
    form = NewForm.fresh()
    asked, key = [], SIX[0]
    while key:
        asked.append(key)
        form = form.say("system", **{key: "1 in"})
        key = model.next_asked(form, key)
    assert tuple(asked) == SIX
    assert model.six_said(form) and model.next_asked(form, "post_face") is None


def test_the_drawing_takes_what_is_typed_and_stays_drawable():
    assert model.drawn(FORM, "post_face", inches(3)).face == pytest.approx(3)
    assert model.drawn(FORM, "post_face", millimetres(60)).face == pytest.approx(60 / 25.4)
    assert model.drawn(FORM, "post_face", Length(10**11)).face == 12.0
    assert model.drawn(FORM).groove == 0.8125


@pytest.mark.parametrize(
    ("said", "field"),
    [
        (("", "s", "20 Apr 2026", "M"), "name"),
        (("n", " ", "20 Apr 2026", "M"), "sheet"),
        (("n", "s", "", "M"), "at"),
        (("n", "s", "4/5/2026", "M"), "at"),
        (("n", "s", "20 Apr 2026", ""), "by"),
        (("n", "s", "20 Apr 2026", "M"), ""),
    ],
)
def test_a_sheet_needs_name_date_and_a_person(said, field):
    found, wrong = model.refused_sheet(*said)
    assert found == field and bool(wrong) is bool(field)


def test_a_confirmed_sheet_keeps_its_date_as_the_job_file_says_it():
    form = model.confirmed(FORM, " sheet 3 ", "20 Apr 2026", "Mona ")
    assert form.system["confirmed"] == {"by": "Mona", "at": "2026-04-20", "sheet": "sheet 3"}
    assert model.complete(form.system["confirmed"])


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ({"post_face": "48 mm", "groove_depth": "90 mm"}, "Two grooves of 90 mm in a 48 mm post?"),
        ({"post_face": "60 mm", "groove_depth": "30 mm"}, "Two grooves of 30 mm in a 60 mm post?"),
        ({"post_face": "60 mm", "groove_depth": "20 mm", "least_bite": "21 mm"}, "21 mm of bite in a groove of 20 mm?"),
        ({"post_face": "60 mm", "groove_depth": "20 mm", "least_play": "21 mm"}, "21 mm of play in a groove of 20 mm?"),
        ({"post_face": "60 mm", "greatest_spacing": "60 mm"}, "Posts of 60 mm face, 60 mm apart at most?"),
        ({"post_face": "60 mm", "groove_depth": "20 mm", "least_bite": "6 mm", "least_play": "2 mm", "greatest_spacing": "1300 mm"}, ""),
        ({"groove_depth": "90 mm"}, ""),
    ],
)
def test_figures_that_cannot_well_be_of_one_post_are_asked_about(said, told):
    assert model.odd(NewForm.fresh("mm").say("system", **said)) == told


def test_a_figure_is_asked_about_while_it_is_typed():
    form = NewForm.fresh("mm").say("system", post_face="48 mm", groove_depth="20 mm")
    assert model.odd(form) == "" and model.odd(form, "groove_depth", millimetres(90)).startswith("Two grooves of 90 mm")
