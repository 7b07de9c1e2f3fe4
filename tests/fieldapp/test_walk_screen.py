"""The walk on a phone, in this process."""

import asyncio

from tests.fieldapp.deck_file import deck_file
from tests.fieldapp.harness import Phone, Tray, opened

PERSON = "Mona"


def on_deck(folder, steps, route="/job/{id}/walk/A1", person=PERSON, size=(390, 844), **deck):
    """Steps on a phone that stands at a bay of a fresh deck."""

    async def run():
        with opened(folder) as desk:
            job = await desk.add_job(deck_file(**deck))
            if person:
                await desk.keep_setting("here person", person)
            phone = Phone(desk, Tray(), width=size[0], height=size[1])
            phone.job = job
            await phone.start(route.format(id=job))
            await steps(phone)

    asyncio.run(run())


def entry(phone):
    return phone.marked("entry").label


def readings(phone):
    return phone.desk.words(phone.job).get("readings", [])


async def keyed(phone, *keys):
    await phone.tap(*keys)
    await asyncio.sleep(0.02)
    await phone.settle()


def test_the_walk_begins_with_the_span_of_its_bay(tmp_path):
    async def steps(phone):
        assert phone.marked("question").label == "span. Tape tight, just above the base plates."
        assert entry(phone) == "nothing typed yet, in"

    on_deck(tmp_path, steps)


def test_keys_show_the_figure_and_keep_answers_with_the_verdict(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16")
        assert entry(phone) == "40 7/16 in"
        await keyed(phone, "Keep")
        assert phone.sees("clear")
        assert readings(phone)[0] | {"at": "", "id": ""} == {
            "bay": "A1", "what": "span", "value": "40 7/16", "by": PERSON, "at": "", "id": "",
        }  # fmt: skip

    on_deck(tmp_path, steps)


def test_next_goes_on_with_the_rise_and_then_with_the_next_bay(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16", "Keep", "Next")
        assert phone.marked("question").label.startswith("rise.")
        await keyed(phone, "right higher", "6/16", "Keep")
        assert phone.marked("verdict")
        assert phone.sees("Panel 41 3/4 in wide")
        await keyed(phone, "Next")
        assert phone.address.endswith("/walk/A2")
        assert phone.marked("question").label.startswith("span.")

    on_deck(tmp_path, steps)


def test_nobody_is_invented_who_measured(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16", "Keep")
        assert readings(phone) == []
        assert phone.sees("This phone is held by")
        await phone.type("your name", "Kit")
        await keyed(phone, "That is me")
        assert [r["by"] for r in readings(phone)] == ["Kit"]
        assert phone.marked("verdict")
        assert phone.desk.setting("crew") == [{"name": "Kit", "role": "tape"}]
        await keyed(phone, "Next", "level", "Keep")
        assert [r["by"] for r in readings(phone)] == ["Kit", "Kit"]

    on_deck(tmp_path, steps, person="")


def test_level_is_one_tap_and_keep_keeps_nothing_higher(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16", "Keep", "Next", "level")
        assert entry(phone) == "0 in"
        await keyed(phone, "Keep")
        assert readings(phone)[1] | {"at": "", "id": "", "by": ""} == {
            "bay": "A1", "what": "rise", "over": "centres", "value": "0", "at": "", "id": "", "by": "",
        }  # fmt: skip

    on_deck(tmp_path, steps)


def test_what_cannot_be_kept_is_said_and_stays_typed(tmp_path):
    async def steps(phone):
        await phone.key(*"35 5/4", "Enter")
        assert entry(phone).startswith("35 5/4")
        assert phone.sees("one or more")
        await phone.key("Backspace")
        assert not phone.sees("one or more")
        assert readings(phone) == []

    on_deck(tmp_path, steps)


def test_a_rise_without_its_high_end_is_asked_for_it(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16", "Keep", "Next", "6/16", "Keep")
        assert phone.sees("Tap left higher or right higher.")
        assert len(readings(phone)) == 1
        await keyed(phone, "right higher", "Keep")
        assert readings(phone)[1]["high"] == "right"

    on_deck(tmp_path, steps)


def test_a_real_keyboard_writes_to_the_entry_and_enter_keeps(tmp_path):
    async def steps(phone):
        await phone.key("2", " ", "F", "T", " ", "1", "1", " ", "1", "/", "4")
        assert entry(phone) == "2 ft 11 1/4"
        await phone.key("Enter")
        await phone.settle()
        assert readings(phone)[0]["value"] == "2 ft 11 1/4"

    on_deck(tmp_path, steps)


def test_half_typed_digits_come_back_on_the_same_screen(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16")
        again = await Phone(phone.desk, Tray()).start("/")
        assert again.address == phone.address
        assert entry(again) == "40 7/16 in"

    on_deck(tmp_path, steps)


def test_the_answer_comes_back_after_a_reload_too(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "1", "7/16", "Keep")
        again = await Phone(phone.desk, Tray()).start("/")
        assert again.sees("query") and again.sees("span kept")
        await keyed(again, "Measure again")
        assert entry(again) == "nothing typed yet, in"
        last = await Phone(phone.desk, Tray()).start("/")
        assert entry(last) == "nothing typed yet, in"

    on_deck(tmp_path, steps)


def test_measuring_again_is_left_by_back_and_what_is_kept_is_seen(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16", "Keep", "Measure again")
        assert phone.marked("question").label.startswith("span.")
        await keyed(phone, "Back")
        assert phone.marked("verdict") and phone.sees("span kept")
        await keyed(phone, "Measure again", "More readings")
        assert phone.sees("Go on: A1, rise")
        await keyed(phone, "Go on: A1, rise")
        assert phone.marked("question").label.startswith("rise.")

    on_deck(tmp_path, steps)


def test_a_look_at_how_it_is_taken_comes_back_to_the_figure_that_is_measured_again(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16", "Keep", "Measure again", "How it was taken: hooked", "Back")
        assert phone.marked("question").label.startswith("span.")

    on_deck(tmp_path, steps)


def test_it_was_begun_at_the_one_inch_mark_is_said_in_one_tap(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "1", "7/16", "Keep", "It was 40 7/16 in")
        first, second = readings(phone)
        assert (second["value"], second["start"], second["replaces"]) == ("41 7/16", "1 in", first["id"])
        assert phone.sees("clear")

    on_deck(tmp_path, steps)


def test_measuring_again_replaces_and_forgets_nothing(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "1", "7/16", "Keep", "Measure again", "4", "0", "7/16", "Keep")
        first, second = readings(phone)
        assert (first["value"], second["value"], second["replaces"]) == ("41 7/16", "40 7/16", first["id"])
        assert phone.sees("clear")

    on_deck(tmp_path, steps)


def test_a_query_is_answered_with_a_reason_and_a_name(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "1", "Keep", "It stands")
        assert phone.address.endswith("/stands/A1/off-plan")
        await keyed(phone, "It stands")
        assert phone.sees("Tap a reason, or write one.")
        await keyed(phone, "post set clear of a joist", "It stands")
        assert not phone.desk.words(phone.job).get("answers")
        await keyed(phone, PERSON, "It stands")
        answer = phone.desk.words(phone.job)["answers"][0]
        assert (answer["check"], answer["reason"], answer["by"]) == ("off-plan", "post set clear of a joist", PERSON)
        assert phone.address.endswith("/walk/A1")
        assert phone.sees("clear")

    on_deck(tmp_path, steps)


def test_above_three_per_cent_it_is_asked_which_way_the_tape_lay(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16", "Keep", "Next", "right higher", "2", "Keep")
        assert phone.sees("which way the tape lay")
        await keyed(phone, "along the slope")
        assert [(r["what"], r.get("taped")) for r in readings(phone)] == [("span", None), ("rise", None), ("span", "along")]
        assert readings(phone)[2]["replaces"] == readings(phone)[0]["id"]
        assert phone.marked("verdict")

    on_deck(tmp_path, steps)


def test_how_it_is_taken_is_one_tap_away_and_remembered_for_the_run(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "1", "7/16", "How it was taken: hooked", "started at 1 in")
        assert phone.sees("40 7/16 in")
        await keyed(phone, "It was so")
        assert entry(phone) == "41 7/16 in"
        assert phone.sees("counts as 40 7/16 in")
        await keyed(phone, "Keep", "Next", "level", "Keep", "Next", "4", "1", "8/16", "Keep")
        assert [r.get("start") for r in readings(phone) if r["what"] == "span"] == ["1 in", "1 in"]

    on_deck(tmp_path, steps)


def test_the_length_of_the_case_is_asked_once_and_added(tmp_path):
    async def steps(phone):
        await keyed(phone, "3", "7", "7/16", "How it was taken: hooked", "case in the opening", "It was so")
        assert phone.marked("question").label.startswith("length of the case.")
        await keyed(phone, "3", "Keep")
        assert entry(phone) == "37 7/16 in"
        assert phone.sees("counts as 40 7/16 in")
        await keyed(phone, "Keep")
        assert (readings(phone)[0]["value"], readings(phone)[0]["case"]) == ("37 7/16", "3")

    on_deck(tmp_path, steps)


def test_what_the_glass_follows_is_saved_to_the_plan(tmp_path):
    async def steps(phone):
        await keyed(phone, "the slope", "It was so")
        assert phone.desk.words(phone.job)["runs"] == [{"run": "A", "rack_follows": "slope"}]

    on_deck(tmp_path, steps, route="/job/{id}/taken/A1/rise")


def test_plumb_asks_for_the_level_first_and_says_the_side(tmp_path):
    async def steps(phone):
        assert phone.marked("question").label.startswith("length of the level.")
        await keyed(phone, "2", "4", "Keep", "head to left", "3/16", "Keep")
        assert readings(phone)[0] | {"at": "", "id": "", "by": ""} == {
            "post": "P1", "what": "plumb", "over": "24", "value": "3/16", "toward": "left", "at": "", "id": "", "by": "",
        }  # fmt: skip
        assert phone.sees("plumb of P1 kept")
        await keyed(phone, "Next")
        assert phone.marked("question").label.startswith("plumb.")

    on_deck(tmp_path, steps, route="/job/{id}/read/A1/plumb-left")


def test_a_moved_post_makes_its_readings_old_and_asks_them_again(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16", "Keep", "More readings", "a post was moved")
        await keyed(phone, "It was moved")
        assert phone.sees("Tap the post that was moved.")
        await keyed(phone, "P2, right", "It was moved")
        assert phone.desk.words(phone.job)["moved"][0]["post"] == "P2"
        assert phone.marked("question").label.startswith("span.")

    on_deck(tmp_path, steps)


def test_a_note_stays_with_its_bay(tmp_path):
    async def steps(phone):
        await phone.type("what is to be known of this bay", "gutter in the way")
        await keyed(phone, "Keep the note")
        assert phone.desk.notes(phone.job, "A1")[0]["text"] == "gutter in the way"
        assert phone.sees("gutter in the way")

    on_deck(tmp_path, steps, route="/job/{id}/note/A1")


def test_an_older_reading_can_count_again(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "1", "7/16", "Keep", "Measure again", "4", "0", "7/16", "Keep", "More readings", "what was read here")
        await keyed(phone, "Let it count again: span 41 7/16 in, reading 1 of 2")
        assert [r["value"] for r in readings(phone)] == ["41 7/16", "40 7/16", "41 7/16"]

    on_deck(tmp_path, steps)


def test_from_the_right_end_the_next_bay_is_the_one_to_the_left(tmp_path):
    async def steps(phone):
        await keyed(phone, "the right end")
        assert phone.sees("Go on: A3, span")
        await keyed(phone, "Go on: A3, span", "4", "0", "Keep", "Next", "level", "Keep", "Next")
        assert phone.address.endswith("/walk/A2")

    on_deck(tmp_path, steps, route="/job/{id}/more/A3")


def test_one_who_stands_outside_has_left_at_the_right(tmp_path):
    async def steps(phone):
        await keyed(phone, "outside", "Back")
        await keyed(phone, "4", "0", "Keep", "Next")
        sides = [t for t in phone.texts() if t.endswith(" higher") or t == "level"]
        assert sides == ["right higher", "level", "left higher"]

    on_deck(tmp_path, steps, route="/job/{id}/more/A1")


def test_neither_plan_nor_neighbour_is_seen_before_keep(tmp_path):
    async def steps(phone):
        await keyed(phone, "3", "9", "Keep", "Next", "level", "Keep", "Next")
        assert not any("40 1/2" in t or "39" in t for t in phone.texts())

    on_deck(tmp_path, steps)


def test_a_millimetre_job_shows_no_fractions_and_writes_a_comma(tmp_path):
    async def steps(phone):
        await keyed(phone, "1", "0", "2", "7", "comma", "5", "Keep")
        assert readings(phone)[0]["value"] == "1027,5"
        assert not any("/16" in name for name in phone.texts())

    on_deck(tmp_path, steps, units="mm")


def test_what_another_phone_keeps_meanwhile_does_not_touch_what_is_being_typed(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0")
        other = await Phone(phone.desk, Tray(), device="other").start(phone.address)
        await phone.desk.keep_setting("other person", "Kit")
        await keyed(other, "4", "0", "8/16", "Keep")
        await phone.settle()
        assert entry(phone) == "40 in"
        await keyed(phone, "7/16", "Keep")
        assert [("replaces" in r, r["by"]) for r in readings(phone)] == [(False, "Kit"), (False, PERSON)]

    on_deck(tmp_path, steps)


def test_two_quick_taps_on_keep_keep_one_reading(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0")
        keep = phone.tappable("Keep")
        await asyncio.gather(phone.fire(keep, "click"), phone.fire(keep, "click"))
        await asyncio.sleep(0.02)
        assert len(readings(phone)) == 1

    on_deck(tmp_path, steps)


def test_a_press_sends_a_small_packet_without_any_key_but_the_lit_one(tmp_path):
    async def steps(phone):
        await keyed(phone, "4")
        before = len(phone.packets)
        await keyed(phone, "0")
        sent = sum(len(phone.wire.packed([m.action, m.body])) for m in phone.packets[before:])
        assert sent < 2500

    on_deck(tmp_path, steps)
