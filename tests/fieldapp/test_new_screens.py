"""A new job on a phone, in this process: from the name to the first kept span, in inches and in millimetres."""

import asyncio

import flet as ft
import pytest

from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, Tray, opened, walk

INCH_SIX = [["2", "8/16"], ["13/16"], ["4/16"], ["1/16"], ["1", "5/16"], ["5", "0"]]
MM_SIX = [["6", "0"], ["2", "0"], ["6"], ["2"], ["3", "2"], ["1", "3", "0", "0"]]


async def named(phone, units="in"):
    await phone.type("job", "Mill loft")
    if units == "mm":
        await phone.tap("millimetres")
    await phone.tap("Next: the post system")


async def six(phone, figures):
    await phone.tap("Type its six figures")
    for keys in figures:
        await phone.tap(*keys, "Keep")


async def sheet(phone):
    await phone.type("name of the system", "Slotted 60")
    await phone.type("sheet", "invented sheet 9")
    await phone.type("dated", "3 May 2026")
    await phone.type("your name", "Mona")
    await phone.tap("These are the sheet's figures")


async def glazed(phone, height):
    await phone.tap("10 mm", "clear")
    await phone.tap("height, upright edge to say")
    await phone.tap(*height, "Keep")
    await phone.tap("shop cuts within to say", "2", "Keep", "Next: the runs")


@pytest.mark.parametrize(
    ("units", "figures", "height", "spacing", "span", "kept"),
    [
        ("in", INCH_SIX, ["3", "8"], ["4", "4"], ["4", "1", "8/16"], "41 1/2"),
        ("mm", MM_SIX, ["9", "6", "5"], ["1", "2", "0", "0"], ["1", "1", "4", "0"], "1140"),
    ],
)
def test_a_new_job_gets_from_its_name_to_the_first_kept_span(tmp_path, units, figures, height, spacing, span, kept):
    async def steps(phone):
        await phone.tap("Start a job")
        await named(phone, units)
        assert phone.address == "/new/system"
        await six(phone, figures)
        assert phone.address == "/new/sheet"
        await sheet(phone)
        assert phone.address == "/new/glass"
        await glazed(phone, height)
        assert phone.address == "/new/run/0"
        await phone.tap("one bay more", "one bay more", *spacing, "Keep")
        await phone.tap("at a wall", "Run A is so")
        assert phone.sees("3 bays") and phone.sees("4 posts") and phone.sees("1 end, 2 line, 1 wall")
        await phone.tap("A2, panel", "no glass")
        assert phone.sees("A gate or a way through: no panel.")
        assert phone.sees("2 panels")
        await phone.tap("The plan is right")
        await asyncio.sleep(0.05)
        await phone.settle()
        assert phone.address.endswith("/walk/A1"), phone.texts()[-4:]
        await phone.desk.keep_setting("here person", "Mona")
        await phone.tap(*span, "Keep")
        await asyncio.sleep(0.05)
        await phone.settle()
        id = phone.desk.jobs()[0].id
        words = phone.desk.words(id)
        assert words["job"]["units"] == units
        assert [b.get("glass") for b in words["bays"]] == [None, "none", None]
        assert words["system"]["confirmed"] == {"by": "Mona", "at": "2026-05-03", "sheet": "invented sheet 9"}
        assert [r["value"] for r in words["readings"]] == [kept]
        assert phone.desk.presets("system")["Slotted 60"]["post_face"] == words["system"]["post_face"]
        await phone.wire.went("/new")
        await phone.settle()
        assert phone.app.screen.form.units == units and not phone.app.screen.form.begun

    walk(steps, tmp_path)


def test_a_half_filled_form_and_half_typed_digits_survive_a_new_page(tmp_path):
    async def run():
        with opened(tmp_path) as desk:
            phone = await Phone(desk, Tray()).start("/new")
            await named(phone)
            await phone.tap("Type its six figures", "2", "8/16", "Keep", "13/16")
            await asyncio.sleep(0.02)
            await phone.settle()
        with opened(tmp_path) as desk:
            phone = await Phone(desk, Tray()).start("/")
            assert phone.address == "/new/figure/groove_depth"
            assert phone.marked("entry").label == "13/16 in"
            await phone.tap("Keep", "Back", "Back", "Back", "Back")
            assert phone.address == "/new"

    asyncio.run(run())


def test_the_allowance_says_what_it_leaves_while_it_is_typed(tmp_path):
    async def steps(phone):
        await named(phone)
        await six(phone, INCH_SIX[:4])
        assert phone.sees("Best is 1 5/16 in.")
        await phone.tap("1", "5/16")
        assert phone.sees("Best is 1 5/16 in; yours leaves 1/4 in each way.")
        await phone.tap("Erase", "Erase", "9/16", "Keep")
        assert phone.address == "/new/figure/greatest_spacing"

    walk(steps, tmp_path, "/new")


def test_what_cannot_be_kept_is_said_in_place_and_the_figure_stays(tmp_path):
    async def steps(phone):
        await phone.tap("Next: the post system")
        assert phone.sees("Give the job a name first.") and phone.address == "/new"
        await phone.type("site", "invented")
        assert phone.sees("Give the job a name first.")
        await phone.type("job", "Mill loft")
        assert not phone.sees("Give the job a name first.")
        await named(phone)
        await phone.tap("Type its six figures", "Keep")
        assert phone.sees("The post face is needed.")
        await phone.key("3", "/", "5", "Enter")
        assert phone.marked("entry").label.startswith("3/5 in. ")
        assert phone.address == "/new/figure/post_face"

    walk(steps, tmp_path, "/new")


def test_a_second_run_turns_at_the_angle_that_was_chosen(tmp_path):
    async def steps(phone):
        await named(phone)
        await six(phone, INCH_SIX)
        await sheet(phone)
        await glazed(phone, ["3", "8"])
        await phone.tap("4", "4", "Keep", "corner", "Next: where it turns", "Then run B")
        assert phone.sees("Say the angle first.")
        await phone.tap("135°", "135°: then run B", "whole length", "1", "0", "0", "Keep", "Run B is so")
        assert phone.sees("3 bays")
        await phone.tap("Take run B off")
        assert phone.sees("1 bay")

    walk(steps, tmp_path, "/new")


def test_a_field_is_heard_by_its_name_and_nothing_cuts_its_edge(tmp_path):
    async def steps(phone):
        boxes = [c for c in phone.controls() if isinstance(c, ft.TextField)]
        assert [box.label for box in boxes] == ["job", "site"]
        for box in boxes:  # the outline is left open for as long as the label is, and its padding
            assert box.label_style.size < 0.1
            assert all(edge.gap_padding == 0 for edge in box.border.values())

    walk(steps, tmp_path, "/new")


def test_the_limits_say_that_the_doubt_of_the_tape_is_added_to_the_slope_step(tmp_path):
    async def steps(phone):
        assert phone.sees("1 %, as usual") and phone.sees("The doubt of the tape is added to it.")

    walk(steps, tmp_path, "/new/limits")


def test_a_confirmed_date_is_shown_as_people_say_it(tmp_path):
    async def run():
        with opened(tmp_path) as desk:
            file = deck_file()
            file["system"]["confirmed"] = {"by": "M", "at": "2026-04-20", "sheet": "invented 3"}
            id = await desk.add_job(file)
            phone = await Phone(desk, Tray()).start(f"/job/{id}/plan")
            assert phone.sees("From invented 3: M, 20 Apr 2026.")
            await phone.wire.went(f"/job/{id}/plan/sheet")
            await phone.settle()
            assert next(c for c in phone.controls() if isinstance(c, ft.TextField) and c.label == "dated").value == "20 Apr 2026"

    asyncio.run(run())
