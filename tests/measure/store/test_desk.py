"""Settings, half-typed figures and presets."""

import asyncio

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from measure import strict_json
from measure.store import Store


@pytest.mark.parametrize("value", [True, 1.25, "½ in", None, {"theme": "sun", "text": 1.0}, ["a", 1]])
def test_a_setting_is_what_it_was_set_to(store, value):
    assert store.setting("look", "unset") == "unset"
    store.set_setting("look", "before")
    store.set_setting("look", value)
    assert store.setting("look", "unset") == value


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(st.text())
def test_what_is_half_typed_is_kept_as_typed(store, text):
    store.set_draft("phone 1", "A1 span", text)
    assert store.draft("phone 1", "A1 span") == text


def test_half_a_character_from_a_keyboard_stops_nothing(store):
    store.set_draft("phone 1", "A1 span", "41\ud800")
    assert store.draft("phone 1", "A1 span") == "41?"


def test_drafts_of_one_scope_are_its_own_and_none_forgets(store):
    store.set_draft("phone 1", "A1 span", "41 7")
    store.set_draft("phone 1", "screen", "/job/7/A1")
    store.set_draft("phone 2", "A1 span", "12")
    assert store.drafts("phone 1") == {"A1 span": "41 7", "screen": "/job/7/A1"}
    store.set_draft("phone 1", "A1 span", None)
    assert store.draft("phone 1", "A1 span") is None
    assert store.draft("phone 2", "A1 span") == "12"


def test_a_draft_is_there_for_whoever_opens_the_store_next_and_writing_it_leaves_the_rest_durable(store):
    store.set_draft("phone 1", "A1 span", "41 7")
    assert store.rows("PRAGMA synchronous")[0]["synchronous"] == 2
    with Store.open(store.path) as other:
        assert other.draft("phone 1", "A1 span") == "41 7"


def test_a_draft_costs_no_wait_for_the_disk_and_a_reading_does(store):
    # SQLite's own figures: 1 NORMAL (a power cut may take it, never the file), 2 FULL.
    for action, expected in ((store.lesser_action, 1), (store.action, 2)):
        with action():
            assert store.rows("PRAGMA synchronous") == [{"synchronous": expected}]


def test_a_draft_inside_an_action_goes_with_it(store):
    with store.action():
        store.set_draft("phone 1", "A1 span", "41 7")
    assert store.draft("phone 1", "A1 span") == "41 7"


def test_presets_are_kept_by_kind_and_name_with_their_digits(store):
    words = strict_json.read('{"name": "Grooved post 65", "post_face": 2.50, "greatest_mass_kg": 60.0}')
    store.save_preset("system", "Grooved post 65", {"name": "old"})
    store.save_preset("system", "Grooved post 65", words)
    store.save_preset("system", "another", {"name": "another"})
    store.save_preset("glass", "Grooved post 65", {})
    assert list(store.presets("system")) == ["another", "Grooved post 65"]
    assert strict_json.write(store.presets("system")["Grooved post 65"]) == strict_json.write(words)
    store.remove_preset("system", "another")
    assert list(store.presets("system")) == ["Grooved post 65"]


def test_there_is_nothing_to_wait_for_on_a_disk(store):
    assert asyncio.run(store.flush()) is None
