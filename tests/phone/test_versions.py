"""New versions, broken ones, a line that breaks, addresses that do not fit: each says what to do, and nothing is lost."""

import hashlib
import re
import shutil

import pytest
from playwright.sync_api import expect

from fieldapp.hosts.pack import pack
from tests.phone.conftest import STAND_IN
from tests.phone.handset import add_to, change, named, started, tap


def version_of(site):
    return re.search(r'const VERSION = "([0-9a-f]{12})"', (site.folder / "sw.js").read_text()).group(1)


def next_version(site):
    """The folder changes as a new packing changes it: one part, the list, the version."""
    old = version_of(site)
    new = hashlib.sha256(old.encode()).hexdigest()[:12]
    change(site, "index.html", (site.folder / "index.html").read_bytes().replace(old.encode(), new.encode()))
    add_to(site, "page.js", f"\n// after {old}\n")
    keeper = (site.folder / "sw.js").read_text().replace(old, new)
    (site.folder / "sw.js").unlink()
    (site.folder / "sw.js").write_text(keeper)
    return old, new


def look(page):
    """Ask for a newer version, as the app does each hour."""
    tap(page, "Room")


def test_the_old_version_works_on_until_the_person_takes_the_new_one(phone, site):
    page = phone.start(site.address)
    tap(page, "Keep")
    expect(named(page, "kept")).to_have_text("kept 1")
    old, new = next_version(site)
    look(page)
    expect(named(page, "state")).to_contain_text("newer=True", timeout=30_000)
    expect(named(page, "state")).to_contain_text(old)
    phone.kill()
    phone.open()
    page = phone.start(site.address)
    expect(named(page, "state")).to_contain_text("newer=True")
    expect(named(page, "state")).to_contain_text(old)
    tap(page, "Take")
    page.wait_for_selector("#start", state="attached")
    started(page)
    expect(named(page, "state")).to_contain_text(new, timeout=30_000)
    expect(named(page, "state")).to_contain_text("newer=False")
    expect(named(page, "rows")).to_have_text("rows 1 ok")


def test_an_update_fetches_only_what_changed(phone, site):
    page = phone.start(site.address)
    next_version(site)
    site.asked.clear()
    look(page)
    expect(named(page, "state")).to_contain_text("newer=True", timeout=30_000)
    assert {path.split("?")[0] for path, _ in site.asked} == {"/sw.js", "/page.js", "/index.html"}


@pytest.mark.parametrize("instead", [404, 500, b"cut off", b""], ids=["missing", "server error", "half", "empty"])
def test_a_broken_update_leaves_the_working_version_alone(phone, site, instead):
    page = phone.start(site.address)
    old, new = next_version(site)
    site.broken["/page.js"] = instead
    look(page)
    expect(named(page, "state")).to_contain_text("failed=True", timeout=30_000)
    site.stop()
    page.reload()
    started(page)
    expect(named(page, "state")).to_contain_text("ready=True")
    expect(named(page, "state")).to_contain_text(old)
    site.broken.clear()
    site.start()
    look(page)
    expect(named(page, "state")).to_contain_text("newer=True", timeout=30_000)


def test_a_line_that_breaks_on_the_first_visit_is_said_and_what_came_stays(phone, site):
    came = []

    def break_after_some(path):
        if path.endswith(".packed"):
            came.append(path)
        if len(came) > 3:
            site.broken.update({f"/{p.relative_to(site.folder).as_posix()}": 503 for p in site.folder.rglob("*.packed")})

    site.before_answer = break_after_some
    page = phone.page
    page.goto(site.address)
    expect(page.get_by_text("The connection was lost.")).to_be_visible(timeout=60_000)
    site.before_answer = lambda path: None
    site.broken.clear()
    here = {path for path, status in site.asked if status == 200 and path.endswith(".packed")}
    site.asked.clear()
    page.get_by_role("button", name="Go on").click()
    started(page)
    assert not here & {path for path, _ in site.asked}
    expect(named(page, "state")).to_contain_text("ready=True")


def test_it_works_below_any_path_and_two_folders_of_one_address_keep_apart(phone, serve, stand_in):
    site = serve(stand_in, under="m/app")
    shutil.copytree(site.folder / "m/app", site.folder / "other")
    page = phone.start(site.address + "m/app/")
    tap(page, "Keep")
    expect(named(page, "kept")).to_have_text("kept 1")
    page = phone.start(site.address + "other/")
    expect(named(page, "rows")).to_have_text("rows 0 ok")
    site.stop()
    page = phone.start(site.address + "m/app/")
    expect(named(page, "rows")).to_have_text("rows 1 ok")


def test_a_folder_packed_for_another_path_says_so(phone, serve, tmp_path):
    pack(tmp_path / "bound", "/x/", cargo=STAND_IN)
    site = serve(tmp_path / "bound", under="y")
    phone.page.goto(site.address + "y/")
    trouble = phone.page.locator("#start .trouble")
    expect(trouble).to_contain_text("Parts of Spanbook are missing at this address.", timeout=30_000)
    expect(trouble).to_contain_text("--base")
    expect(trouble).to_contain_text(f"{site.address}x/boot.js")
    assert (tmp_path / "bound/manifest.json").read_text().count('"/x/"') == 3


def test_an_address_that_is_not_secure_runs_but_is_never_called_ready(phone, site):
    page = phone.start(f"http://phone.test:{site.port}/")
    expect(named(page, "state")).to_contain_text("record ready=False why=insecure")
    tap(page, "Keep")
    expect(named(page, "kept")).to_have_text("kept 1")
    page.reload()
    started(page)
    expect(named(page, "rows")).to_have_text("rows 1 ok")


def test_a_page_opened_as_a_file_says_what_it_needs(phone, site):
    phone.page.goto((site.folder / "index.html").as_uri())
    expect(phone.page.locator("#start .trouble")).to_contain_text("let a web server hand out the folder")


def test_a_part_that_does_not_come_is_said_in_words_and_can_be_tried_again(phone, site):
    for name in ("sw.js", "pyodide/python_stdlib.zip"):
        site.broken[f"/{name}"] = 404
    page = phone.page
    page.goto(site.address)
    expect(page.get_by_role("button", name="Open it now, with signal only")).to_be_visible(timeout=30_000)
    page.get_by_role("button", name="Open it now, with signal only").click()
    expect(page.get_by_role("button", name="Try again")).to_be_visible(timeout=60_000)
    expect(page.locator("#start .trouble b")).to_have_text("Spanbook has stopped.")
