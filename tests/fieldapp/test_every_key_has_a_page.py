"""Whatever a job file can say of a plan can be said on a page of the app, in a new job or in a change."""

import pytest

from fieldapp.screens import change_plan_model, glass_model
from fieldapp.screens.change_figure import PLAN_FIGURES
from fieldapp.screens.change_run import FOLLOWS
from fieldapp.screens.form_words import EDGES, parts
from fieldapp.screens.new_figures import FIGURES, TURNING
from fieldapp.screens.new_form import NewForm
from fieldapp.screens.new_head import HEAD_KEYS
from measure.job_file import keys_at
from measure.plan import RackFollows
from measure.system import PostKind

OF_FIGURES = {part: {f.key for f in FIGURES.values() if f.part == part} for part in ("system", "glass", "tape", "limits")}
SAID = {
    # chosen or written on the first page, on the tape's own and on that of the order's head
    "job": {"name", "site", "units", "order_step", "read_back", "plumb", *HEAD_KEYS},
    "tape": {"division", "class", "from_hook", *OF_FIGURES["tape"]},
    "system": {"name", "confirmed", "turning", *(k for k in OF_FIGURES["system"] if not k.startswith("turning_"))},
    "glass": {"edge", *(w for w in (*glass_model.WORDS, *glass_model.MORE_WORDS) if not w.startswith("edge_")), *OF_FIGURES["glass"]},
    "limits": OF_FIGURES["limits"],
    # the run's name, and the tags and ends of bays, are given by the app itself
    "runs": {"run", "rack_follows", "seen_from"},
    "posts": {"id", "kind", "trimmed", *(key for kind, key in PLAN_FIGURES if kind == "post")},
    "bays": {"tag", "run", "left", "right", "span", "finish_face", *change_plan_model.BAY_CHOICES, *(key for kind, key in PLAN_FIGURES if kind == "bay")},
}  # fmt: skip


@pytest.mark.parametrize("part", ["job", "tape", "system", "glass", "limits"])
def test_every_key_of_a_section_has_a_page(part):
    assert set(keys_at((part,))) - SAID[part] == set()


@pytest.mark.parametrize("part", ["runs", "posts", "bays"])
def test_every_key_of_a_run_a_post_and_a_bay_has_a_page(part):
    assert set(keys_at((part, 0))) - SAID[part] == set()


def test_every_kind_of_post_that_can_turn_has_its_figures():
    assert set(keys_at(("system", "turning", "line"))) == {"each", "grooves"}
    kinds = set(PostKind.__args__) - {"end"}  # an end post has one panel, straight out: nothing turns there
    assert set(TURNING) == kinds
    for kind in kinds:
        assert f"turning_{kind}_each" in FIGURES


def test_every_edge_has_its_words_and_a_run_everything_that_glass_can_follow():
    assert {f"edge_{e}" for e in EDGES} == {w for w in glass_model.WORDS if w.startswith("edge_")}
    assert set(FOLLOWS) == set(RackFollows.__args__)


def test_a_figure_of_the_form_goes_into_the_part_of_the_file_that_knows_it():
    for figure in FIGURES.values():
        form = NewForm.fresh().say(figure.part, **{figure.key: "30"}, **({"turning_line_each": "30", "turning_corner_each": "30"} if figure.key.endswith("_grooves") else {}))
        made = parts(form)[figure.part]
        assert figure.key in made or figure.key.split("_")[1] in made["turning"], figure.key
