"""Where two plans differ is told as people on a job say it. Common practice, no source."""

import copy

import pytest

from measure.plan_told import names_of, places_told, plan_says
from measure.plan_version import differing
from tests.measure.checks.three_bays import base_job


def changed(change):
    plan = {k: v for k, v in base_job().items() if k != "readings"}
    other = copy.deepcopy(plan)
    change(other)
    places = differing(plan, other)
    return places_told(places, names_of(plan)), plan_says(plan, places), plan_says(other, places)


@pytest.mark.parametrize(
    ("change", "where", "one", "other"),
    [
        (
            lambda p: p["bays"][1].update(glass="none", shape="level-top"),
            "A2: glass, shape of the opening.", "A2: glass, racked.", "A2: no glass, level top.",
        ),
        (lambda p: p["glass"].update(height="39 in"), "Glass: height.", "Glass: height 38 in.", "Glass: height 39 in."),
        (lambda p: p["job"].update(po="H-8"), "Job: order number.", "Job: order number not said.", "Job: order number H-8."),
        (lambda p: p["bays"][0].update(status="on site"), "A1: whether it is ordered.", "A1: to order.", "A1: on site."),
        (lambda p: p["posts"][1].update(face="3"), "Post P2: post face.", "Post P2: post face not said.", "Post P2: post face 3 in."),
        (lambda p: p["bays"][0].update(height="36"), "A1: height.", "A1: height as the job's.", "A1: height 36 in."),
        (lambda p: p["bays"].pop(), "The row of bays.", "The row of bays: A1, A2, A3.", "The row of bays: A1, A2."),
        (lambda p: p.update(limits={**p.get("limits", {}), "lean": "1/4 in"}), None, None, "Limits: lean 1/4 in."),
    ],
)  # fmt: skip
def test_places_and_values_are_in_the_words_of_the_trade(change, where, one, other):
    told = changed(change)
    for said, wanted in zip(told, (where, one, other), strict=True):
        assert wanted is None or said == wanted


def test_of_many_places_some_are_named():
    def change(plan):
        for bay in plan["bays"]:
            bay["height"] = "30 in"
        plan["glass"]["height"], plan["job"]["po"], plan["tape"]["division"] = "39 in", "7", "1/8 in"

    where, _, other = changed(change)
    assert where.endswith(" And more.") and other.endswith("\nAnd more.")
    assert "[" not in where and "_" not in where
