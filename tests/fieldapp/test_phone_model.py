"""What a phone alone says of itself, and in which order."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from fieldapp.hosts.keeping import NEARLY_FULL, Keeping
from fieldapp.screens.phone_model import Copied, lines, pressing

WELL = Keeping("files", ready=True, stays=True, installed=True, room=10_000_000_000)
COPIED = [Copied("2026-05-02T12:00:00Z", False)]
GONE = datetime(2026, 5, 2, 9, 31, tzinfo=UTC)


def test_where_all_is_well_nothing_presses_and_every_line_is_clear():
    assert pressing(WELL, COPIED) is None
    assert [line.sign for line in lines(WELL, COPIED)] == ["clear", "clear", "clear"]
    assert lines(WELL, COPIED)[0].words == "Ready with no signal."


@pytest.mark.parametrize(
    "change, words, do",
    [
        ({"gone": GONE}, "thrown away", "understood"),
        ({"how": "nowhere"}, "Nothing is kept", "copy"),
        ({"used": 10_000_000_000 - NEARLY_FULL + 1}, "nearly full", "copy"),
        ({"newer": True}, "newer Spanbook is here", "newer"),
        ({"ready": False, "why_not": "insecure"}, "signal only", ""),
        ({"ready": False, "why_not": "room"}, "signal only", ""),
        ({"ready": False}, "Not all of the tool", ""),
    ],
)
def test_what_cannot_wait_is_told_on_the_list_of_jobs(change, words, do):
    line = pressing(replace(WELL, **change), COPIED)
    assert line is not None and words in line.words and line.do == do


def test_lost_jobs_come_before_everything_else():
    bad = replace(WELL, gone=GONE, newer=True, ready=False, stays=False)
    assert pressing(bad, [Copied("", True)]).do == "understood"
    assert "2 May" in lines(bad, [])[0].under


def test_a_copy_is_offered_while_something_here_lies_nowhere_else():
    (line,) = [x for x in lines(WELL, [*COPIED, Copied("", False), Copied("2026-05-01T12:00:00Z", True)]) if x.do == "copy"]
    assert (line.sign, line.words) == ("query", "2 jobs have something that no copy holds.")


def test_the_oldest_copy_tells_the_day():
    said = lines(WELL, [*COPIED, Copied("2026-04-28T12:00:00Z", False)])
    assert "28 Apr" in next(x.under for x in said if x.words.startswith("Every job"))


def test_nothing_is_said_of_copies_while_there_is_no_job():
    assert all("copy" not in x.words for x in lines(WELL, []))


def test_what_the_browser_did_not_promise_can_be_asked_for():
    (line,) = [x for x in lines(replace(WELL, stays=False), COPIED) if x.do == "stay"]
    assert line.sign == "query" and not line.pressing


@pytest.mark.parametrize("installed, may, offered", [(False, True, True), (True, True, False), (False, False, False)])
def test_the_home_screen_is_offered_where_the_browser_can(installed, may, offered):
    said = lines(replace(WELL, installed=installed, may_install=may), COPIED)
    assert any(x.do == "install" for x in said) is offered


@pytest.mark.parametrize("why, words", [("NoRoom", "There is no room for a newer Spanbook."), ("TypeError", "A newer Spanbook did not come whole.")])
def test_a_newer_version_that_did_not_come_tells_a_full_phone_from_a_broken_line(why, words):
    (line,) = [x for x in lines(replace(WELL, newer_failed=why), COPIED) if x.do == "again"]
    assert line.words == words
