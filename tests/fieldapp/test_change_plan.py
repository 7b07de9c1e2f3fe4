"""The plan of a measured job is changed from its own page: what that does is seen first, then it is kept by name; nothing is lost."""

import asyncio

import pytest

from fieldapp.screens import ROUTES
from fieldapp.screens import change_plan_model as model
from fieldapp.screens.plan_draft import PlanDraft
from measure.said import SECTIONS
from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, Tray, opened
from tests.fieldapp.test_new_model import SYSTEM
from tests.fieldapp.test_plan_effects import taped

PLAN = deck_file()
CHANGE_PAGES = sorted(n for n in ROUTES if n.startswith("change-"))


async def begun(desk, *tags, route="/job/{id}/plan", **phone):
    id = await desk.add_job(taped(deck_file(), *tags) if tags else deck_file())
    return id, await Phone(desk, Tray(), **phone).start(route.format(id=id))


async def waited(phone):
    await asyncio.sleep(0.05)
    await phone.settle()


def went(steps, folder):
    async def run():
        with opened(folder) as desk:
            await steps(desk)

    asyncio.run(run())


# ---- in words --------------------------------------------------------------------------------------------------------------
def test_what_the_plan_leaves_out_is_what_it_means():
    bay = PLAN["bays"][0]
    assert [model.chosen(bay, part) for part in ("glass", "status", "shape", "taller")] == ["panel", "to order", "racked", "no"]


@pytest.mark.parametrize(
    ("part", "word", "expected"),
    [("glass", "none", "none"), ("status", "on site", "on site"), ("shape", "level-top", "level-top"), ("taller", "yes", True)],
)
def test_a_choice_stands_in_the_plan_and_is_taken_out_again_by_what_is_meant_anyway(part, word, expected):
    made = model.choose(PLAN, "A1", part, word)
    assert made["bays"][0][part] == expected and part not in PLAN["bays"][0]
    assert model.choose(made, "A1", part, model.options(part)[0][0]) == PLAN


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"bays": [{**PLAN["bays"][0], "span": "39 in"}, *PLAN["bays"][1:]]}, "A1: planned span 39 in, was 40 1/2 in."),
        ({"bays": PLAN["bays"][:-1]}, "B1: taken off."),
        ({"posts": [{**PLAN["posts"][0], "kind": "end"}, *PLAN["posts"][1:]]}, "post P1: kind end, was wall."),
        ({"tape": {**PLAN["tape"], "from_hook": False}}, "Tape: from its hook no."),
        ({"limits": {k: v for k, v in PLAN["limits"].items() if k != "lean"}}, "Limits: lean no longer 3/16 in."),
        ({"runs": [{"run": "A", "rack_follows": "slope"}]}, "run A: glass follows slope."),
        ({"system": {**PLAN["system"], "confirmed": {"by": "M", "at": "", "sheet": ""}}}, "Post system: who confirmed it said anew."),
    ],
)
def test_every_change_is_told_in_a_sentence(change, told):
    assert model.told(PlanDraft.begin("v", PLAN).to({**PLAN, **change})) == [told]


def test_a_part_that_was_changed_says_so():
    draft = PlanDraft.begin("v", PLAN).to({**PLAN, "limits": {}})
    assert [row.page for row in model.part_rows(draft) if row.changed] == ["limits"]
    assert model.part_rows(draft)[0].sentence == "4 × 43 in, wall to corner"


# ---- on the phone ----------------------------------------------------------------------------------------------------------
@pytest.mark.parametrize("size", [(390, 844), (1280, 800)], ids=["phone", "wide"])
@pytest.mark.parametrize("name", ["plan", *CHANGE_PAGES])
def test_every_page_of_the_plan_opens_on_a_job_that_is_there(tmp_path, name, size):
    places = {
        "run": "A", "post": "P1", "kind": "bay" if name.endswith("-of") else "tape", "place": "A1", "name": "steel tape",
        "key": {"change-figure": "allowance", "change-figure-of": "spacing", "change-words": "stamp"}.get(name, "finish_face"),
    }  # fmt: skip

    async def steps(desk):
        await desk.keep_preset("tape", "steel tape", {"division": "1/32 in"})
        id = await desk.add_job(taped(deck_file(), "A1"))
        phone = await Phone(desk, Tray(), width=size[0], height=size[1]).start(ROUTES[name].address(job=id, **places))
        assert phone.address == ROUTES[name].address(job=id, **places), phone.texts()
        assert phone.sees("Change the plan") and phone.sees("Boathouse deck")
        await phone.tap("Back")
        assert phone.address != ROUTES[name].address(job=id, **places)

    went(steps, tmp_path)


def test_another_spacing_of_a_taped_bay_shows_its_verdict_before_it_is_kept(tmp_path):
    async def steps(desk):
        id, phone = await begun(desk, "A1", "A2")
        await phone.tap("run A 4 × 43 in, wall to corner", "A2 43 in", "Erase", "Erase", "4", "2", "Keep")
        assert phone.address.endswith("/plan/run/A") and phone.sees("42 in")
        assert desk.words(id)["bays"] == deck_file()["bays"]
        await phone.tap("So it is")
        assert phone.sees("A2: spacing 42 in.") and phone.sees("changed")
        await phone.tap("See what it changes")
        await waited(phone)
        assert phone.sees("1 place is judged or cut otherwise") and phone.sees("A2, was clear")
        await phone.tap("M", "Keep the changed plan")
        await waited(phone)
        assert phone.address.endswith("/review") and desk.job(id).sign("A2") == "query"
        kept = desk.plan_versions(id)
        assert [v.version.by for v in kept] == ["", "M"] and len(desk.words(id)["readings"]) == 6

    went(steps, tmp_path)


@pytest.mark.parametrize("kept", [True, False], ids=["kept", "left as it was"])
@pytest.mark.parametrize("start", ["/", "/job/{id}/review"], ids=["from the jobs", "from the review's address"])
def test_back_comes_to_the_jobs_from_a_plan_that_was_changed_and_from_one_that_was_not(tmp_path, start, kept):
    async def steps(desk):
        id, phone = await begun(desk, "A1", "A2", route=start)
        phone.app.go("review", job=id)
        phone.app.go("plan", job=id)
        await phone.settle()
        await phone.tap("run A 4 × 43 in, wall to corner", "A2 43 in", "Erase", "Erase", "4", "2", "Keep", "So it is", "See what it changes")
        await waited(phone)
        if kept:
            await phone.tap("M", "Keep the changed plan")
            await waited(phone)
            assert phone.address.endswith("/review") and len(desk.plan_versions(id)) == 2
        went = []
        while phone.address != "/" and len(went) < 6:
            await phone.tap("Back")
            went.append(phone.address)
        assert phone.address == "/" and (not kept or not any("/plan" in address for address in went)), went

    went(steps, tmp_path)


def test_nobody_keeps_a_plan_without_a_name(tmp_path):
    async def steps(desk):
        id, phone = await begun(desk)
        await phone.tap("See what it changes")
        assert phone.sees("Nothing is changed yet.") and phone.address.endswith("/plan")
        await phone.tap("A2, panel", "no glass", "See what it changes", "Keep the changed plan")
        assert len(desk.plan_versions(id)) == 1 and phone.sees("Write the name first.")
        await phone.type("your name", "Mona")
        await phone.tap("Keep the changed plan")
        await waited(phone)
        assert not desk.job(id).bay("A2").has_glass and desk.plan_versions(id)[-1].version.by == "Mona"

    went(steps, tmp_path)


def test_a_bay_that_was_taped_is_taken_off_and_its_readings_come_back_with_it(tmp_path):
    async def steps(desk):
        id, phone = await begun(desk, "A1", "A2", route="/job/{id}/plan/run/A")
        await phone.tap("take A1 off the left end")
        assert phone.sees("A1 is taken off. What was read there is kept aside until it is back.")
        await phone.tap("So it is", "See what it changes")
        await waited(phone)
        assert phone.sees("Its 3 readings are kept aside")
        await phone.tap("M", "Keep the changed plan")
        await waited(phone)
        assert "A1" not in desk.job(id).book.bays and len(desk.words(id)["readings"]) == 3
        await phone.wire.went(f"/job/{id}/plan/earlier")
        await phone.settle()
        await phone.tap("as it came How the plan began.", "See what it changes")
        await waited(phone)
        assert phone.sees("Back, with all that was read there.")
        await phone.tap("M", "Keep the changed plan")
        await waited(phone)
        assert desk.job(id).sign("A1") == "clear" and len(desk.words(id)["readings"]) == 6
        assert len(desk.plan_versions(id)) == 3

    went(steps, tmp_path)


def test_a_change_that_cannot_be_says_what_to_do_instead(tmp_path):
    async def steps(desk):
        id, phone = await begun(desk, "A1", route="/job/{id}/plan/bay/A1/figure/spacing")
        await phone.tap("Erase", "Erase", "6", "0", "Keep")
        assert phone.sees("A1: 50 in is the most for these posts. Add a bay to the run, or type less.")
        assert phone.marked("entry").label.startswith("60 in")

    went(steps, tmp_path)


@pytest.mark.parametrize(
    ("page", "taps", "part", "key", "value"),
    [
        ("/plan/figure/allowance", ["Erase", "Erase", "1", "4/16", "Keep"], "system", "allowance", "1 1/4 in"),
        ("/plan/limits", ["lean 3/16 in", "Erase", "2/16", "Keep"], "limits", "lean", "1/8 in"),
        ("/plan/tape", ["no hook"], "tape", "from_hook", False),
        ("/plan/glass", ["12 mm"], "glass", "thickness", "12 mm"),
        ("/plan/name", ["a must"], "job", "read_back", "required"),
        ("/plan/turning", ["line post, either way not said", "4", "0", "Keep"], "system", "turning", {"line": {"each": 40}}),
    ],
)
def test_each_part_of_the_plan_is_changed_by_the_page_that_made_it_new(tmp_path, page, taps, part, key, value):
    async def steps(desk):
        id, phone = await begun(desk, route="/job/{id}" + page)
        await phone.tap(*taps)
        kept = desk.words(id)
        await phone.wire.went(f"/job/{id}/plan/keep")
        await waited(phone)
        await phone.type("your name", "Mona")
        await phone.tap("Keep the changed plan")
        await waited(phone)
        assert desk.words(id)[part] == {**kept[part], key: value}
        assert {k: v for k, v in desk.words(id).items() if k not in (part, "history", *SECTIONS)} == {
            k: v for k, v in kept.items() if k not in (part, "history", *SECTIONS)
        }

    went(steps, tmp_path)


def test_a_confirmed_figure_that_is_changed_is_confirmed_by_nobody_until_somebody_does_again(tmp_path):
    async def steps(desk):
        file = deck_file()
        file["system"]["confirmed"] = {"by": "M", "at": "2026-04-20", "sheet": "invented 3"}
        id = await desk.add_job(file)
        phone = await Phone(desk, Tray()).start(f"/job/{id}/plan/figure/groove_depth")
        await phone.tap("Erase", "14/16", "Keep")
        assert phone.address.endswith("/plan/sheet")
        await phone.type("sheet", "invented 4")
        await phone.type("dated", "3 May 2026")
        await phone.type("your name", "Mona")
        await phone.tap("These are the sheet's figures")
        await waited(phone)
        assert phone.address.endswith("/plan") and phone.sees("Post system: who confirmed it said anew.")

    went(steps, tmp_path)


def test_a_plan_that_somebody_else_kept_meanwhile_is_taken_in_first(tmp_path):
    async def steps(desk):
        id, phone = await begun(desk)
        await phone.tap("A2, panel", "no glass", "See what it changes")
        await waited(phone)
        words = desk.words(id)
        await desk.keep_plan(id, {**words, "limits": {}}, "Kai")
        await phone.type("your name", "Mona")
        await phone.tap("Keep the changed plan")
        await waited(phone)
        assert phone.address.endswith("/plan") and phone.sees("changed by somebody else meanwhile")
        await phone.tap("See what it changes")
        await waited(phone)
        await phone.type("your name", "Mona")
        await phone.tap("Keep the changed plan")
        await waited(phone)
        assert desk.words(id)["limits"] == {} and not desk.job(id).bay("A2").has_glass

    went(steps, tmp_path)


def test_dropped_changes_can_be_had_again(tmp_path):
    async def steps(desk):
        _, phone = await begun(desk)
        await phone.tap("A2, panel", "no glass", "Drop the changes")
        assert phone.sees("Nothing is changed yet.")
        await phone.tap("Take the changes up again")
        assert phone.sees("A2: no glass, was panel.")

    went(steps, tmp_path)


def test_what_the_glass_follows_is_kept_with_the_name_of_who_said_it(tmp_path):
    async def steps(desk):
        id, phone = await begun(desk, route="/job/{id}/taken/A1/rise")
        follows = next(c for c in phone.controls() if getattr(c, "on_click", None) and "slope" in " ".join(phone.names(c)) and "posts" not in " ".join(phone.names(c)) and "as a" not in " ".join(phone.names(c)))
        await phone.fire(follows, "click")
        await phone.tap("It was so")
        assert len(desk.plan_versions(id)) == 1 and phone.sees("Write the name first.")
        await phone.type("your name", "Mona")
        await phone.tap("It was so")
        await waited(phone)
        assert desk.plan_versions(id)[-1].version.by == "Mona"

    went(steps, tmp_path)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"allowance": "1 1/4 in"}, "A1 is 1/16 in too wide as ordered."),
        ({"allowance": "1 3/8 in"}, "A1 is 1/16 in too narrow as ordered."),
        ({"height": "36 in"}, "A1 is ordered with another rack or height."),
        ({"thickness": "12 mm"}, "A1 is ordered of another glass than the plan says now."),
    ],
)
def test_a_change_after_the_order_went_out_shows_which_panel_now_differs(tmp_path, change, told):
    async def steps(desk):
        id = await desk.add_job(taped(deck_file(), "A1"))
        await desk.issue_order(id, "Ines")
        phone = await Phone(desk, Tray()).start(f"/job/{id}/order")
        assert not phone.sees("differs from what its bay asks")
        words = desk.words(id)
        part = "system" if "allowance" in change else "glass"
        await desk.keep_plan(id, {**words, part: {**words[part], **change}}, "Ines")
        await waited(phone)
        assert phone.sees("1 panel differs from what its bay asks") and phone.sees(told), phone.texts()

    went(steps, tmp_path)


@pytest.mark.parametrize(
    ("keys", "typed"),
    [(["4", "2"], "42 in"), (["8/16"], "43 1/2 in"), (["Erase", "2"], "42 in"), (["4"], "4 in"), (["Erase", "Erase", "Erase"], "nothing")],
)
def test_the_first_digit_begins_another_figure_and_anything_else_goes_on_with_the_one_that_was_said(tmp_path, keys, typed):
    async def steps(desk):
        _, phone = await begun(desk, route="/job/{id}/plan/bay/A2/figure/spacing")
        await phone.tap(*keys)
        assert phone.marked("entry").label.startswith(typed)

    went(steps, tmp_path)


def test_another_kept_system_takes_the_place_of_the_job_s_own_as_a_whole(tmp_path):
    async def steps(desk):
        await desk.keep_preset("system", "Slotted 60", {**SYSTEM, "turning_line_each": "40"})
        id, phone = await begun(desk, route="/job/{id}/plan/sheet")
        await phone.tap("another system in its place")
        await phone.tap("Slotted 60 2 1/2 in face, to 50 in apart. Nobody has confirmed it yet.")
        assert phone.address.endswith("/plan/sheet") and phone.sees("line post 40°")
        await phone.tap("Go on, not confirmed")
        await waited(phone)
        assert phone.address.endswith("/plan") and phone.sees("Post system: name Slotted 60, was Grooved post.")
        await phone.wire.went(f"/job/{id}/plan/keep")
        await waited(phone)
        await phone.type("your name", "Mona")
        await phone.tap("Keep the changed plan")
        await waited(phone)
        assert desk.words(id)["system"] == {**SYSTEM, "turning": {"line": {"each": 40}}}

    went(steps, tmp_path)
