"""Post systems, glass, tapes and limits that the crew uses again: offered where they are asked, named, taken off and put back."""

import asyncio

import pytest

from fieldapp.screens import presets_model as model
from fieldapp.screens.new_form import NewForm
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, Tray, opened
from tests.fieldapp.test_new_model import SYSTEM, whole_form

TAPE = {"division": "1/32 in", "class": "II", "from_hook": "no"}


def at_desk(steps, folder):
    async def run():
        with opened(folder) as desk:
            await steps(desk)

    asyncio.run(run())


async def waited(phone):
    await asyncio.sleep(0.05)
    await phone.settle()


def test_a_preset_takes_the_place_of_all_that_was_said_before():
    form = NewForm.fresh().say("tape", laser="2 mm")
    assert dict(model.taken(form, "tape", TAPE).tape) == TAPE
    limits = model.taken(form, "limits", {"slope": "12 %"})
    assert dict(limits.limits) == {"slope": "12 %"} and limits.tape == form.tape


def test_a_preset_of_a_job_file_s_own_shape_is_taken_too():
    system = {**SYSTEM, "turning": {"line": {"each": 40, "grooves": 180}}}
    form = model.taken(NewForm.fresh(), "system", system)
    assert (form.of("system", "turning_line_each"), form.of("system", "turning_line_grooves")) == ("40", "180")


@pytest.mark.parametrize("kind", model.KINDS)
def test_what_is_kept_under_a_name_already_is_found_by_it_and_not_kept_twice(kind):
    form = whole_form()
    kept = model.of_new_job(form, {})
    name, words = kept[kind]
    assert model.name_of(form, kind, {"ours": words}) == "ours"
    assert kind not in model.of_new_job(form, {kind: {"ours": words}})
    assert model.told(kind, words)


@pytest.mark.parametrize(
    ("name", "but", "refused"),
    [("", "", True), ("  ", "", True), ("Steep", "", True), ("steep", "", True), ("steep", "Steep", False), ("x" * 60, "", False), ("x" * 61, "", True)],
)
def test_a_name_is_given_once(name, but, refused):
    assert bool(model.refused_name(name, {"Steep": {}}, but)) is refused


def test_a_kept_tape_is_used_in_a_new_job(tmp_path):
    async def steps(desk):
        await desk.keep_preset("tape", "steel tape", TAPE)
        phone = await Phone(desk, Tray()).start("/new")
        await phone.tap("more about the tape Tapes used before, its hook, a laser.", "kept tapes 1 is kept. Tap to look.")
        await phone.tap("steel tape marks of 1/32 in, class II", "Use this tape")
        assert phone.address == "/new/tape" and dict(phone.app.screen.form.tape) == TAPE
        assert phone.sees("This is “steel tape”.")

    at_desk(steps, tmp_path)


def test_what_is_said_now_is_kept_under_a_name_of_its_own(tmp_path):
    async def steps(desk):
        phone = await Phone(desk, Tray()).start("/new/kept/limits")
        await phone.tap("Keep it under this name")
        assert phone.sees("Give it a name first.") and desk.presets("limits") == {}
        await phone.type("name", "Flat decks")
        await phone.tap("Keep it under this name")
        await waited(phone)
        assert list(desk.presets("limits")) == ["Flat decks"] and not phone.sees("Keep this for the next job")

    at_desk(steps, tmp_path)


def test_a_preset_gets_a_better_name(tmp_path):
    async def steps(desk):
        await desk.keep_preset("system", "Slotted 60", dict(SYSTEM))
        phone = await Phone(desk, Tray()).start("/new/kept/system/Slotted%2060")
        await phone.type("name", "Slotted 60, black")
        await phone.tap("Give it this name")
        await waited(phone)
        assert list(desk.presets("system")) == ["Slotted 60, black"]
        assert desk.presets("system")["Slotted 60, black"] == {**SYSTEM, "name": "Slotted 60, black"}

    at_desk(steps, tmp_path)


def test_a_preset_that_was_taken_off_can_be_put_back_and_jobs_keep_their_figures(tmp_path):
    async def steps(desk):
        file = deck_file()
        id = await desk.add_job(file)
        await desk.keep_preset("limits", "Steep", {"slope": "12 %"})
        phone = await Phone(desk, Tray()).start(f"/job/{id}/plan/kept/limits/Steep")
        await phone.tap("Take it off the list")
        await waited(phone)
        assert desk.presets("limits") == {} and phone.sees("“Steep” is off the list.")
        assert desk.words(id)["limits"] == file["limits"]
        await phone.tap("Put it back")
        await waited(phone)
        assert desk.presets("limits") == {"Steep": {"slope": "12 %"}} and not phone.sees("is off the list")

    at_desk(steps, tmp_path)


def test_kept_limits_are_a_change_of_a_plan_that_is_there(tmp_path):
    async def steps(desk):
        id = await desk.add_job(deck_file())
        await desk.keep_preset("limits", "Steep", {"slope": "12 %"})
        phone = await Phone(desk, Tray()).start(f"/job/{id}/plan/kept/limits/Steep")
        await phone.tap("Use these limits", "So it is")
        assert phone.address.endswith("/plan") and phone.sees("Limits: slope 12 %, was 8 %.") and phone.sees("Limits: lean no longer 3/16 in.")

    at_desk(steps, tmp_path)


def test_the_settings_lead_to_what_is_kept(tmp_path):
    async def steps(desk):
        await desk.keep_preset("tape", "steel tape", TAPE)
        phone = await Phone(desk, Tray()).start("/settings")
        await phone.tap("kept tapes 1")
        assert phone.address == "/new/kept/tape"
        await phone.tap("Back")
        assert phone.address == "/settings"

    at_desk(steps, tmp_path)
