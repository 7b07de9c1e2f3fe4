"""A plan that is there is changed: gates, panels that are ordered already, tops; kept as a new version with a name."""

import asyncio

import pytest

from fieldapp.screens import change_plan_model as model
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, Tray, opened

BAY = {"tag": "A1", "run": "A", "left": "P1", "right": "P2", "spacing": "44 in"}


def test_what_the_plan_leaves_out_is_what_it_means():
    assert [model.now(BAY, model.Changes(), part) for part in ("glass", "status", "shape")] == ["panel", "to order", "racked"]


@pytest.mark.parametrize(
    ("part", "word", "expected"),
    [
        ("glass", "none", {"glass": "none"}),
        ("status", "on site", {"status": "on site"}),
        ("shape", "level-top", {"shape": "level-top"}),
    ],
)
def test_a_change_stands_in_the_new_plan_and_the_old_one_is_left_alone(part, word, expected):
    words = {"bays": [BAY]}
    changes = model.change(BAY, model.Changes(), part, word)
    assert model.changed(words, changes)["bays"] == [{**BAY, **expected}]
    assert words == {"bays": [BAY]}
    assert model.change(BAY, changes, part, model.now(BAY, model.Changes(), part)) == model.Changes()


def test_a_gate_becomes_a_panel_by_leaving_out_that_it_has_no_glass():
    gate = {**BAY, "glass": "none"}
    assert model.changed({"bays": [gate]}, model.change(gate, model.Changes(), "glass", "panel"))["bays"] == [BAY]


@pytest.mark.parametrize("text", ["", "{", "[]", '{"Z9": {"glass": "none"}}', '{"A1": {"glass": "wood"}}', '{"A1": 3}'])
def test_a_draft_of_another_plan_changes_nothing(text):
    assert model.Changes.from_text(text, {"A1": BAY}) == model.Changes()


def test_a_draft_comes_back():
    changes = model.change(BAY, model.Changes(), "status", "ordered")
    assert model.Changes.from_text(changes.text, {"A1": BAY}) == changes
    assert model.told(changes) == "A1: ordered."


def test_a_gate_is_kept_by_its_name_and_readings_stay(tmp_path):
    async def run():
        with opened(tmp_path) as desk:
            id = await desk.add_job(deck_file())
            await desk.keep_reading(id, "Mona", bay="A1", what="span", value="40 7/16")
            phone = await Phone(desk, Tray()).start(f"/job/{id}/review")
            await phone.tap("Change the plan Gates, level tops, panels that are ordered or on site.")
            await phone.tap("Keep the changed plan")
            assert phone.sees("Nothing is changed yet.")
            bay = next(c for c in phone.controls() if getattr(c, "label", None) and str(c.label).startswith("A2"))
            await phone.tap(bay.label, "no glass", "Mona", "Keep the changed plan")
            await asyncio.sleep(0.05)
            await phone.settle()
            assert phone.address.endswith("/review")
            words = desk.words(id)
            assert [b.get("glass") for b in words["bays"]][:2] == [None, "none"]
            assert len(words["readings"]) == 1 and not desk.job(id).bay("A2").has_glass

    asyncio.run(run())
