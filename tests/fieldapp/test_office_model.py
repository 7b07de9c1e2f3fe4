"""What is told of a job on its way to the office, and how an office's address is read."""

from datetime import UTC, datetime

import pytest

from fieldapp.office import Sending, Standing, Trouble
from fieldapp.screens.office_model import AddressError, office_address, office_view

NOW = datetime(2026, 5, 2, 15, 0).astimezone()
AT = NOW.replace(hour=14, minute=2).astimezone(UTC).isoformat()
YESTERDAY = NOW.replace(day=1, hour=9, minute=31).astimezone(UTC).isoformat()
SENT = Sending("https://office.example", "7A3K", False, AT, 5, 3)
ALL = Standing(SENT, False, None, 0, True)


def standing(sending=SENT, busy=False, trouble=None, waiting=0, all_there=False):
    return Standing(sending, busy, trouble, waiting, all_there)


def test_what_is_there_is_told_by_the_offices_time_in_this_devices_zone():
    view = office_view(ALL, NOW)
    assert (view.sign, view.words, view.more) == ("clear", "The office has everything up to 14:02.", ())


def test_an_answer_of_another_day_carries_its_day():
    view = office_view(Standing(Sending("", "", True, YESTERDAY, 5, 3), False, None, 0, True), NOW)
    assert (view.words, view.more) == ("The office has everything up to 1 May, 09:31.", ("Whatever is new goes by itself.",))


@pytest.mark.parametrize(
    ("given", "words", "more"),
    [
        (standing(Sending(), waiting=2), "Nothing of this job is with the office yet.", "Settings, Jobs from phones"),
        (standing(waiting=1), "1 reading not yet with the office.", "It has everything up to 14:02."),
        (standing(waiting=4), "4 readings not yet with the office.", "It has everything up to 14:02."),
        (standing(), "Something is not yet with the office.", "It has everything up to 14:02."),
    ],
)
def test_what_is_not_there_yet_is_counted(given, words, more):
    view = office_view(given, NOW)
    assert (view.sign, view.words) == ("todo", words) and more in view.more[0]


@pytest.mark.parametrize(
    ("trouble", "sign", "words"),
    [
        (Trouble("unreachable"), "query", "did not answer"), (Trouble("unreachable", told="Connection refused"), "query", "Connection refused"),
        (Trouble("later"), "query", "hands full"), (Trouble("wait", 90), "query", "wait 90 seconds"), (Trouble("stranger"), "query", "no office of Spanbook"),
        (Trouble("partly"), "query", "did not keep all"), (Trouble("code"), "hold", "does not know this code"), (Trouble("job"), "hold", "another job"),
        (Trouble("large"), "hold", "too large"), (Trouble("file", told="bay A9: no such bay"), "hold", "bay A9: no such bay"),
    ],
)  # fmt: skip
def test_the_last_trouble_is_told_in_plain_words_and_whether_it_is_tried_again(trouble, sign, words):
    on = Sending("https://office.example", "7A3K", True, AT, 5, 3)
    view = office_view(standing(on, trouble=trouble, waiting=1), NOW)
    assert (view.sign, view.words) == (sign, "1 reading not yet with the office.") and words in view.more[0]
    assert view.more[1] == ("It is tried again by itself." if sign == "query" else "It is not tried again until you tap Send now.")
    assert "again" not in " ".join(office_view(standing(trouble=trouble, waiting=1), NOW).more[1:])


def test_a_trouble_is_told_even_where_all_was_there_before():
    assert office_view(Standing(SENT, False, Trouble("code"), 0, True), NOW).sign == "hold"


def test_another_plan_at_the_office_is_told_once_every_reading_is_there():
    other = Sending("", "", False, AT, 5, 3, plan=False)
    view = office_view(standing(other), NOW)
    assert (view.sign, view.words) == ("query", "The office has another plan of this job.") and "as a file" in view.more[0]
    assert office_view(standing(other, waiting=1), NOW).words.startswith("1 reading")


def test_while_it_is_on_its_way_it_says_so():
    assert office_view(standing(busy=True, trouble=Trouble("later")), NOW).words == "Sending …"


@pytest.mark.parametrize(
    ("typed", "plain", "secure"),
    [
        ("192.0.2.7:8455", "http://192.0.2.7:8455", "https://192.0.2.7:8455"), (" HTTPS://Office.Example/ ", "https://office.example", "https://office.example"),
        ("https://office.example/join", "https://office.example", "https://office.example"), ("http://127.0.0.1:8455/phone/", "http://127.0.0.1:8455", "http://127.0.0.1:8455"),
        ("[2001:db8::1]:8455", "http://[2001:db8::1]:8455", "https://[2001:db8::1]:8455"), ("office", "http://office", "https://office"),
    ],
)  # fmt: skip
def test_an_address_is_read_as_people_type_it(typed, plain, secure):
    assert (office_address(typed), office_address(typed, True)) == (plain, secure)


@pytest.mark.parametrize(
    "typed",
    ["", "  ", "ftp://office.example", "https://", "office example", "user:word@office.example", "https://office.example/x", "https://office.example?code=7A3K",
     "javascript://x", "https://office.example:port", "//office.example/..", "https://office.example\\@evil.example", "-office"],
)  # fmt: skip
def test_what_is_no_address_of_an_office_is_refused_with_what_to_type(typed):
    with pytest.raises(AddressError, match="like https://office.example:8455"):
        office_address(typed)


def test_an_app_that_came_over_https_sends_to_no_plain_address_but_that_of_its_own_machine():
    with pytest.raises(AddressError, match="https"):
        office_address("http://192.0.2.7:8455", True)
    assert office_address("http://localhost:8455", True) == "http://localhost:8455"


@pytest.mark.parametrize(
    ("given", "row"),
    [
        (ALL, "The office has everything up to 14:02."),
        (standing(Sending()), "Nothing of this job is with the office yet."),
        (standing(busy=True), "Sending …"),
        (standing(Sending("https://office.example", "7A3K", True, AT, 5, 3), trouble=Trouble("unreachable"), waiting=2), "2 readings not yet with the office. Waiting for the network."),
        (standing(Sending("https://office.example", "7A3K", True, AT, 5, 3), trouble=Trouble("later"), waiting=1), "1 reading not yet with the office. It is tried again."),
        (standing(Sending("https://office.example", "7A3K", True, AT, 5, 3), trouble=Trouble("code"), waiting=1), "1 reading not yet with the office. The last try did not get through."),
        (standing(trouble=Trouble("unreachable"), waiting=1), "1 reading not yet with the office. The last try did not get through."),
    ],
)  # fmt: skip
def test_the_row_of_other_pages_says_it_in_one_line(given, row):
    assert office_view(given, NOW).row == row
