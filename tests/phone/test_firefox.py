"""The packed app in Firefox: it opens, keeps, and is there again without a server, after a reload and after a killed browser."""

from __future__ import annotations

import pytest

from fieldapp.words import say
from tests.phone.firefox import Firefox


@pytest.fixture
def firefox(tmp_path):
    phone = Firefox(tmp_path / "firefox")
    phone.open()
    yield phone
    phone.close()


def test_a_reading_is_kept_and_there_again_without_a_server_after_a_reload_and_a_kill(firefox, serve, whole_app):
    site = serve(whole_app)
    firefox.start(site.address)
    firefox.tap(say("jobs.sample"))
    firefox.tap(say("samples.row_untaped", bays=13, units=say("jobs.units_in")) + "…")
    firefox.expect("question", "span")
    for key in ("4", "1", "11/16", "Keep"):
        firefox.tap(key)
    for _ in range(5):  # it draws on the processor: a touch may come before the page that it is meant for
        firefox.tap("Mona")
        firefox.tap(say("walk.who_mine"))
        if firefox.sees("verdict", 5):
            break
    firefox.expect("verdict", "clear")
    site.stop()
    firefox.reload()
    firefox.expect("place", "A1")
    firefox.tap("Next")
    firefox.expect("question", "rise")
    firefox.kill()
    firefox.open()
    firefox.start(site.address)
    firefox.expect("question", "rise")
    assert {status for path, status in site.asked} <= {200, 304}


def test_what_was_kept_survives_killed_browsers_in_firefox_too(firefox, site):
    firefox.start(site.address)
    firefox.expect("state", "files ready=True")
    for number in (1, 2, 3):
        firefox.tap("Keep")
        firefox.expect("kept", f"kept {number}")
        firefox.kill()
        firefox.open()
        firefox.start(site.address)
        firefox.expect("rows", f"rows {number} ok")
