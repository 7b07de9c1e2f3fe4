"""Addresses of screens."""

import pytest

from fieldapp.screens import ROUTES
from fieldapp.screens.route import Route, find
from fieldapp.screens.screen import Screen

WALK = Route("/job/{job}/walk/{bay}", "walk:WalkScreen")
TABLE = {"jobs": Route("/", "jobs:JobsScreen"), "walk": WALK, "settings": Route("/settings", "settings:SettingsScreen")}


@pytest.mark.parametrize(
    ("address", "expected"),
    [
        ("/", ("jobs", {})),
        ("", ("jobs", {})),
        ("/?app=1", ("jobs", {})),
        ("/settings/", ("settings", {})),
        ("/settings?x=/job/1/walk/A1", ("settings", {})),
        ("/job/7/walk/A3", ("walk", {"job": "7", "bay": "A3"})),
        ("/job/7/walk/A%203", ("walk", {"job": "7", "bay": "A 3"})),
        ("/job/7/walk/A 3", ("walk", {"job": "7", "bay": "A 3"})),
        ("/job/7/walk/A%2F3", ("walk", {"job": "7", "bay": "A/3"})),
        ("/job/7/walk/A.1", ("walk", {"job": "7", "bay": "A.1"})),
        ("/job/7/walk", None),
        ("/job/7/walk/A3/more", None),
        ("/elsewhere", None),
    ],
)
def test_an_address_finds_its_screen_whatever_its_query(address, expected):
    assert find(TABLE, address) == expected


@pytest.mark.parametrize("tag", ["A1", "A 1", "A.1", "A_1-b", "Ä/1", "50%", "a?b#c", "+"])
def test_an_address_leads_back_to_what_it_was_made_from(tag):
    address = WALK.address(job="j1", bay=tag)
    assert WALK.match(address) == {"job": "j1", "bay": tag}


def test_a_missing_parameter_is_an_error():
    with pytest.raises(KeyError):
        WALK.address(job="j1")


@pytest.mark.parametrize("name", sorted(ROUTES))
def test_every_route_has_its_screen(name):
    assert issubclass(ROUTES[name].load(), Screen)


def test_no_two_routes_share_an_address():
    patterns = ["/".join("*" if p.startswith("{") else p for p in r.pattern.split("/")) for r in ROUTES.values()]
    assert len(patterns) == len(set(patterns))
