"""A wide screen shows the bays of the run beside the walk."""

import asyncio

from fieldapp.words import say
from tests.fieldapp.test_walk_screen import keyed, on_deck

DESK = (1280, 800)


def test_the_runs_bays_stand_beside_the_walk_and_follow_what_is_kept(tmp_path):
    async def steps(phone):
        assert phone.sees("Run A") and phone.sees("on the tape now")
        await keyed(phone, "4", "0", "7/16", "Keep")
        assert phone.sees("Span 40 7/16 in.") and not phone.sees("on the tape now")
        await keyed(phone, "Next", "right higher", "6/16", "Keep")
        assert phone.sees("Span 40 7/16 in, rise 3/8 in.\nPanel 41 3/4 in × 38 in.")

    on_deck(tmp_path, steps, size=DESK)


def test_a_figure_that_is_taken_again_is_not_read_off_the_list(tmp_path):
    async def steps(phone):
        await keyed(phone, "4", "0", "7/16", "Keep", "Measure again")
        assert phone.sees("on the tape now") and not phone.sees("40 7/16")

    on_deck(tmp_path, steps, size=DESK)


def test_a_tap_leads_to_another_bay_and_to_the_review(tmp_path):
    async def steps(phone):
        await keyed(phone, say("bays.says", tag="A2", word=say("review.verdict_todo"), told=say("bays.nothing")))
        assert phone.address.endswith("/walk/A2")
        await keyed(phone, "Review the job")
        assert phone.address.endswith("/review")

    on_deck(tmp_path, steps, size=DESK)


def test_what_somebody_else_keeps_stands_in_the_list(tmp_path):
    async def steps(phone):
        await phone.desk.keep_reading(phone.job, "Kai", bay="A2", what="span", value="40 1/2 in")
        await asyncio.sleep(0.02)
        await phone.settle()
        assert phone.sees("Span 40 1/2 in.")

    on_deck(tmp_path, steps, size=DESK)
