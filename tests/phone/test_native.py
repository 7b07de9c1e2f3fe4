"""What a native package would be built from: checked as far as it can be without the tools of phones."""

import os
import subprocess
import sys
import tomllib
from pathlib import Path

from PIL import Image, ImageChops

from fieldapp.hosts import sign

PROJECT = Path(__file__).parents[2]
FLET = tomllib.loads((PROJECT / "pyproject.toml").read_text())["tool"]["flet"]


def test_the_module_and_the_icons_are_where_the_builder_looks():
    assert (PROJECT / FLET["app"]["path"] / f"{FLET['app']['module']}.py").is_file()
    assert (PROJECT / "assets/icon.png").is_file() and (PROJECT / "assets/splash.png").is_file()
    assert (PROJECT / "assets").resolve() == PROJECT / "fieldapp/assets"


def test_nothing_is_asked_for_that_the_app_does_not_use():
    asked = {name for name, wanted in FLET["android"]["permission"].items() if wanted}
    assert asked == {"android.permission.INTERNET"}
    assert "permissions" not in FLET


def test_what_is_asked_for_has_its_reason_in_words_a_person_understands():
    asked = FLET["macos"]["entitlement"]
    assert {name for name, wanted in asked.items() if wanted and "app-sandbox" not in name} == {
        "com.apple.security.network.client", "com.apple.security.files.user-selected.read-write",
    }  # fmt: skip
    reasons = [text for part in ("ios", "macos") for name, text in FLET[part]["info"].items() if name.endswith("UsageDescription")]
    assert len(reasons) == 2 and all("when you ask for it" in reason for reason in reasons)


def test_a_package_sends_to_the_office_over_the_systems_own_line_and_carries_no_server():
    code = "import sys, fieldapp.hosts.packaged; print(sorted({'uvicorn', 'fastapi', 'flet_web', 'starlette', 'httpx'} & set(sys.modules)))"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert told.stdout.strip() == "[]", told.stderr


def test_jobs_lie_in_the_folder_that_the_system_gives(tmp_path):
    code = "from fieldapp.hosts.packaged import data_folder; print(data_folder())"
    told = subprocess.run([sys.executable, "-c", code], env={**os.environ, "FLET_APP_STORAGE_DATA": str(tmp_path / "kept")}, capture_output=True, text=True)
    assert told.stdout.strip() == str(tmp_path / "kept") and (tmp_path / "kept").is_dir()


def test_every_picture_is_the_sign_as_it_is_drawn_now():
    for path, side, share, ground in sign.PICTURES:
        drawn = sign.draw(side, share, ground).convert("RGBA")
        kept = Image.open(path).convert("RGBA")
        assert kept.size == drawn.size == (side, side)
        # 64 colours are kept of those that smooth edges have
        apart = max(most for _, most in ImageChops.difference(kept, drawn).getextrema())
        assert apart <= 32, path


def test_the_whole_sign_stays_inside_what_a_round_icon_shows():
    picture = sign.draw(512, 0.54, ground=False)
    left, top, right, bottom = picture.getbbox()
    corner = max(((x - 256) ** 2 + (y - 256) ** 2) ** 0.5 for x in (left, right) for y in (top, bottom))
    assert corner <= 0.8 * 256
