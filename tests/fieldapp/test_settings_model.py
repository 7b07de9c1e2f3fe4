"""Settings, crew and the copy of every job."""

import io
import zipfile
from datetime import UTC, datetime

import pytest

from fieldapp.screens.settings_model import (
    Person,
    changed,
    copied,
    copy_name,
    copy_of_all,
    crew_of,
    file_stem,
    refused_name,
    under,
)

CREW = [Person("Mara"), Person("Kit", "scribe"), Person("Jo", "office")]


def test_a_crew_survives_being_kept():
    assert crew_of([p.as_dict() for p in CREW]) == CREW


def test_an_unknown_role_becomes_the_first_one():
    assert crew_of([{"name": "Ola", "role": "pilot"}]) == [Person("Ola", "tape")]


@pytest.mark.parametrize(("here", "expected"), [("Mara", "tape, this phone"), ("mara ", "tape, this phone"), ("Kit", "tape"), ("", "tape")])
def test_the_line_under_a_name_says_whose_phone_this_is(here, expected):
    assert under(CREW[0], here) == expected


@pytest.mark.parametrize(
    ("name", "but", "refused"),
    [
        ("Ola", "", False),
        ("", "", True),
        ("   ", "", True),
        ("x" * 40, "", False),
        ("x" * 41, "", True),
        ("Kit", "", True),
        (" kit ", "", True),
        ("Kit", "Kit", False),
        ("KIT", "Kit", False),
        ("Jo", "Kit", True),
    ],
)
def test_a_name_is_needed_fits_a_line_and_stands_once(name, but, refused):
    assert bool(refused_name(name, CREW, but)) is refused


def test_a_person_is_added_changed_and_taken_off():
    assert changed(CREW, "", Person("Ola")) == [*CREW, Person("Ola")]
    assert changed(CREW, "kit", Person("Kit", "tape")) == [CREW[0], Person("Kit", "tape"), CREW[2]]
    assert changed(CREW, "Kit", None) == [CREW[0], CREW[2]]


def test_the_copy_holds_every_job_under_a_name_of_its_own():
    jobs = [("Boathouse deck", b"1"), ("boathouse deck", b"2"), ("../../etc", b"3"), ("===", b"4"), ("Café №5", b"5")]
    with zipfile.ZipFile(io.BytesIO(copy_of_all(jobs))) as archive:
        found = {name: archive.read(name) for name in archive.namelist()}
    assert found == {"Boathouse-deck.json": b"1", "boathouse-deck-2.json": b"2", "etc.json": b"3", "job.json": b"4", "Caf-5.json": b"5"}


@pytest.mark.parametrize("name", ["..", ".", "", "/", "a/b", "C:\\x", "con\0x", "x" * 300])
def test_a_file_name_is_never_a_path_and_never_long(name):
    stem = file_stem(name)
    assert stem and len(stem) <= 60 and not set(stem) & set('/\\:\0 ') and not stem.startswith(".")


def test_the_copy_is_named_by_its_day():
    assert copy_name(datetime(2026, 5, 2, tzinfo=UTC)) == "spanbook-2026-05-02.zip"


@pytest.mark.parametrize(
    ("times", "expected"),
    [
        ([], "never"),
        (["2026-05-02T12:00:00.000Z", ""], "never"),
        (["2026-05-02T12:00:00.000Z"], "2 May"),
        (["2026-05-20T12:00:00.000Z", "2026-04-11T12:00:00.000Z"], "11 Apr"),
    ],
)
def test_the_copy_is_as_old_as_that_of_the_job_copied_longest_ago(times, expected):
    assert copied(times) == expected
