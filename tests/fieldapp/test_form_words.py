"""What the form of a job says and what its job file says are the same; what was not changed stays letter for letter."""

from decimal import Decimal

import pytest

from fieldapp.samples import samples
from fieldapp.screens import form_words as words
from measure.documents import read_job, read_words
from tests.fieldapp.deck_file import deck_file

MORE = {
    "tape": {"division": 1, "from_hook": False, "laser": "2 mm"},
    "system": {
        "turning": {"line": {"each": Decimal("22.5"), "grooves": 180}, "wall": {"each": 35}},
        "confirmed": {"by": "M", "at": "2026-04-20", "sheet": "invented"},
    },
    "glass": {"edge": "polished", "finish_face": "frosted face inward", "least_corner_angle": 30, "greatest_mass_kg": Decimal("60.5")},
}


def whole_file():
    file = deck_file("mm")
    for part, more in MORE.items():
        file[part] = {**file[part], **more}
    return file


def test_a_form_that_changes_nothing_leaves_the_job_file_as_it_was_typed():
    file = whole_file()
    assert words.changed_words(file, words.form_of(file)) == file


@pytest.mark.parametrize("sample", samples(), ids=lambda s: s.name)
def test_the_form_of_a_sample_makes_the_same_job(sample):
    file = read_job(sample.data).as_dict()
    again = {**file, **words.parts(words.form_of(file))}
    assert read_words(again).job() == read_words(file).job()


@pytest.mark.parametrize(
    ("part", "said", "expected"),
    [
        ("system", {"allowance": "34 mm"}, {"allowance": "34 mm"}),
        ("tape", {"from_hook": ""}, {"from_hook": None}),
        ("system", {"turning_corner_each": "50"}, {"turning": {**MORE["system"]["turning"], "corner": {"each": 50}}}),
        ("glass", {"edge_top": "ground"}, {"edge": {"top": "ground", "uprights": "polished", "bottom": "polished"}}),
        ("limits", {"lean": ""}, {"lean": None}),
        ("job", {"wanted_by": "2026-06-12"}, {"wanted_by": "2026-06-12"}),
    ],
)
def test_one_change_changes_its_own_key_and_no_other(part, said, expected):
    file = whole_file()
    made = words.changed_words(file, words.form_of(file).say(part, **said))
    wanted = {k: v for k, v in {**file[part], **expected}.items() if v is not None}
    assert made == {**file, part: wanted}


def test_grooves_of_a_kind_that_may_turn_by_nobody_knows_how_much_are_left_out():
    assert words.system_words({"turning_line_grooves": "180"}) == {}
    assert words.system_words({"turning_line_grooves": "180", "turning_line_each": "40"}) == {"turning": {"line": {"grooves": 180, "each": 40}}}


@pytest.mark.parametrize(
    ("glass", "sort"),
    [({}, "clear"), ({"finish_face": "inward"}, "frosted"), ({"holes": "none"}, "clear"), ({"holes": "two", "finish_face": "in"}, "hole"), ({"finish_face": " "}, "clear")],
)
def test_a_finish_face_or_a_hole_hands_the_glass(glass, sort):
    assert words.sort_of(glass) == sort
