"""The form of a new job, its figures, and the job file that comes of it."""

from dataclasses import replace

import pytest

from fieldapp.parts.entry import Entry
from fieldapp.screens import glass_model, new_model, presets_model
from fieldapp.screens.new_figures import FIGURES, SIX, begun, kept, shown
from fieldapp.screens.new_form import NewForm, RunForm
from fieldapp.screens.sheet_date import date_text, read_date
from measure.documents import read_words
from measure.errors import EntryError
from measure.length import inches

SYSTEM = {
    "name": "Slotted 60", "post_face": "2 1/2 in", "groove_depth": "13/16 in", "least_bite": "1/4 in", "least_play": "1/16 in",
    "allowance": "1 5/16 in", "greatest_spacing": "50 in",
}  # fmt: skip


def whole_form(**run):
    form = NewForm.fresh("in").say("job", name="Mill loft").say("system", **SYSTEM)
    form = glass_model.with_kind(form, "clear").say("glass", thickness="10 mm", height="38 in", size_tolerance="2 mm")
    return replace(form, runs=(RunForm(**{"bays": 3, "spacing": "44 in", **run}),))


def test_a_form_comes_back_from_its_draft_as_it_was_left():
    form = whole_form(without={"2": "none"}).say("glass", stamp="lower “right”, ⅜")
    assert NewForm.from_text(form.text) == form


@pytest.mark.parametrize("text", ["", "{", "[]", "null", '{"runs": 3}', '{"runs": [], "job": {}, "tape": {}, "limits": {}}'])
def test_a_draft_that_cannot_be_read_begins_anew(text):
    assert NewForm.from_text(text) == NewForm.fresh()


def test_a_fresh_form_has_not_begun_and_any_answer_begins_it():
    assert not NewForm.fresh("mm").begun
    assert NewForm.fresh("mm").say("job", name="x").begun
    assert not NewForm.fresh("mm").say("job", name="x").say("job", name="").begun


def test_other_units_begin_steps_and_limits_anew_and_keep_what_has_its_own_unit():
    form = whole_form().in_units("mm")
    assert (
        form.of("job", "order_step") == "1 mm" and form.of("tape", "division") == "1 mm" and form.of("limits", "lean") == "5 mm"
    )
    assert form.of("job", "name") == "Mill loft" and form.of("system", "allowance") == "1 5/16 in"
    assert read_words(new_model.job_words(form)).job().system.allowance == inches(1, 20)


def test_the_steps_come_in_their_order_and_each_says_what_it_lacks():
    form = NewForm.fresh()
    assert new_model.reached(form) == "name" and new_model.missing(form, "name")
    form = form.say("job", name="Mill loft")
    assert new_model.reached(form) == "system"
    form = form.say("system", **SYSTEM)
    assert new_model.reached(form) == "glass"
    assert new_model.reached(replace(whole_form(), runs=())) == "runs"
    assert not any(new_model.missing(whole_form(), step) for step in new_model.STEPS)


def test_the_strip_shows_what_is_said():
    signs = [bay.sign for bay in new_model.strip(NewForm.fresh().say("job", name="x"))]
    assert signs == ["clear", "todo", "todo", "todo"]


@pytest.mark.parametrize(
    ("name", "refused"), [("", True), ("  ", True), ("x" * 60, False), ("x" * 61, True), ("Mill loft", False)]
)
def test_a_job_needs_a_name_that_fits(name, refused):
    assert bool(new_model.refused_name(name)) is refused


def test_a_whole_form_makes_a_job_that_is_read():
    job = read_words(new_model.job_words(whole_form())).job()
    assert (job.name, job.units, job.order_step) == ("Mill loft", "in", inches(0, 4))
    assert [b.spacing for b in job.bays] == [inches(44)] * 3
    assert job.glass.kind == "clear toughened" and job.glass.finish_face is None and job.glass.edge_top == "polished"
    assert job.limits.plan_tolerance == inches(0, 16)


@pytest.mark.parametrize(
    ("kind", "face", "holes"),
    [("clear", None, "none"), ("frosted", "frosted face inward", "none"), ("hole", None, "as on the shop's drawing")],
)
def test_a_kind_of_glass_says_what_makes_a_panel_handed(kind, face, holes):
    glass = read_words(new_model.job_words(glass_model.with_kind(whole_form(), kind))).job().glass
    assert (glass.finish_face, glass.holes) == (face, holes)


def test_limits_that_are_left_out_are_not_checked_and_numbers_are_read():
    form = whole_form().say("limits", plan_tolerance="").say("glass", greatest_mass_kg="60", least_corner_angle="30.5")
    job = read_words(new_model.job_words(form)).job()
    assert job.limits.plan_tolerance is None and job.limits.second_tape is not None
    assert (float(job.glass.greatest_mass_kg), float(job.glass.least_corner_angle)) == (60.0, 30.5)


@pytest.mark.parametrize(
    ("key", "units", "text", "expected"),
    [
        ("post_face", "in", "2 1/2", "2 1/2 in"),
        ("post_face", "mm", "63,5", "63,5 mm"),
        ("size_tolerance", "in", "2", "2 mm"),
        ("least_play", "in", "0", "0 in"),
        ("slope", "mm", "8", "8 %"),
        ("greatest_mass_kg", "in", "60", "60"),
        ("base_plate", "in", "", ""),
    ],
)
def test_a_figure_is_kept_with_its_unit(key, units, text, expected):
    asked = FIGURES[key]
    assert kept(begun(NewForm.fresh(units), asked, text), asked) == expected


@pytest.mark.parametrize(
    ("key", "text"), [("post_face", ""), ("post_face", "0"), ("allowance", "3/5"), ("base_plate", "0"), ("height", "12 stone")]
)
def test_a_figure_that_cannot_be_is_refused(key, text):
    asked = FIGURES[key]
    with pytest.raises(EntryError):
        kept(Entry("in").type(text), asked)


def test_a_figure_is_shown_as_typed_and_a_missing_one_says_so():
    form = NewForm.fresh().say("glass", height="38 1/2 in")
    assert (shown(form, "height"), shown(form, "post_face"), shown(form, "base_plate")) == ("38 1/2 in", "to say", "not said")


def test_the_six_figures_ask_for_the_allowance_once_it_can_be_judged():
    assert {"groove_depth", "least_bite", "least_play"} <= set(SIX[: SIX.index("allowance")])


def test_the_glass_says_what_is_missing_one_after_the_other():
    form = NewForm.fresh()
    told = []
    for words in ({"thickness": "10 mm"}, {"sort": "clear"}, {"height": "38 in"}, {"size_tolerance": "2 mm"}):
        told.append(glass_model.missing(form))
        form = form.say("glass", **words)
    assert len(set(told)) == 4 and glass_model.missing(form) == ""


def test_a_usual_panel_is_as_heavy_as_its_area_of_glass():
    # 25 kg/m² for 10 mm (EN 572-1: 2500 kg/m³): width 50 − 2 1/2 + 1 5/16 in = 1239.84 mm, height 965.2 mm.
    assert "about 30 kg, two people" in glass_model.usual_mass(whole_form())
    assert "a lifter" in glass_model.usual_mass(whole_form().say("glass", thickness="12 mm"))
    assert glass_model.usual_mass(NewForm.fresh()) == ""


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("20 Apr 2026", "2026-04-20"),
        ("20 april 2026", "2026-04-20"),
        ("April 20, 2026", "2026-04-20"),
        ("3rd Sept. 2026", "2026-09-03"),
        ("2026-4-20", "2026-04-20"),
        ("29 Feb 2028", "2028-02-29"),
        ("29 Feb 2026", ""),
        ("4/5/2026", ""),
        ("20.4.2026", ""),
        ("20 Foo 2026", ""),
        ("Ma 3 2026", ""),
        ("3 May", ""),
        ("", ""),
        ("1 Jan 1200", ""),
    ],
)
def test_a_sheet_s_date_is_read_where_it_can_be_read_in_one_way_only(text, expected):
    assert read_date(text) == expected


def test_presets_are_kept_by_the_names_they_are_looked_for():
    presets = presets_model.of_new_job(whole_form(), {})
    assert presets["system"][0] == "Slotted 60" and presets["glass"][0] == "Mill loft"


def test_every_limit_is_told_with_its_name():
    form = NewForm.fresh("mm").say("limits", plan_tolerance="6 mm", second_tape="3 mm", lean="5 mm", slope="8 %")
    assert glass_model.limits_said(form) == "off plan 6 mm, second tape 3 mm, lean 5 mm, slope 8 %"
    assert glass_model.limits_said(NewForm.fresh("mm").say("limits", plan_tolerance="", second_tape="", lean="", slope="")) == "nothing checked"


@pytest.mark.parametrize(("said", "shown"), [("2026-04-20", "20 Apr 2026"), ("2026-09-01", "1 Sept 2026"), ("spring 2026", "spring 2026"), ("", "")])
def test_a_date_is_shown_as_people_say_it_and_read_back_the_same(said, shown):
    assert date_text(said) == shown and read_date(shown) == (said if said[:1].isdigit() else "")
