"""One family, bundled: it has every sign that the app can show, and figures of one width."""

from __future__ import annotations

import ast
import json
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

import fieldapp

ROOT = Path(fieldapp.__file__).parent
FONTS = ROOT / "assets" / "assets" / "fonts"
FACES = ("Spanbook-Regular.ttf", "Spanbook-Bold.ttf")
SAID_TO_FLUTTER = {"\u00a0"}
"""Signs that need no glyph: a no-break space is drawn as a space."""


def spoken(tree: ast.Module) -> set[str]:
    """Every letter of every text in a file, but for what only programmers read: docstrings and the texts below a name."""
    notes = {
        node.value
        for parent in ast.walk(tree)
        for body in [getattr(parent, "body", None)]
        if isinstance(body, list)
        for node in body
        if isinstance(node, ast.Expr)
    }
    texts = [n for n in ast.walk(tree) if isinstance(n, ast.Constant) and isinstance(n.value, str) and n not in notes]
    return {letter for text in texts for letter in text.value}


def signs_of_the_app() -> dict[str, str]:
    """Each sign beyond plain letters and the file that first shows it."""
    found: dict[str, str] = {}
    for path in sorted(ROOT.rglob("*.py")):
        for letter in spoken(ast.parse(path.read_text("utf-8"))):
            if ord(letter) >= 127 and letter not in SAID_TO_FLUTTER:
                found.setdefault(letter, path.name)
    return found


@pytest.mark.parametrize("face", FACES)
def test_the_font_has_every_sign_that_the_app_shows(face: str):
    has = TTFont(FONTS / face).getBestCmap()
    shown = signs_of_the_app()
    assert len(shown) > 20  # the search finds them
    assert {sign: where for sign, where in shown.items() if ord(sign) not in has} == {}


@pytest.mark.parametrize("face", FACES)
def test_the_font_has_all_plain_letters_and_what_names_are_written_with(face: str):
    has = TTFont(FONTS / face).getBestCmap()
    plain = [chr(c) for c in range(0x20, 0x7F)]
    assert [c for c in [*plain, *"ÄÖÜäöüßéèêàâçñåæøčćšžłńőű€£§½¼¾⅛⅜⅝⅞′″×÷±°≥≤–—…“”‘’"] if ord(c) not in has] == []


@pytest.mark.parametrize("face", FACES)
def test_figures_are_all_of_one_width(face: str):
    font = TTFont(FONTS / face)
    names, widths = font.getBestCmap(), font["hmtx"]
    assert len({widths[names[ord(figure)]][0] for figure in "0123456789"}) == 1


def test_the_fonts_are_loaded_before_the_first_frame_and_their_licence_stands_beside_them():
    manifest = json.loads((FONTS.parent / "FontManifest.json").read_text())
    ours = next(one for one in manifest if one["family"] == "Spanbook")
    assert [(font["asset"], font.get("weight")) for font in ours["fonts"]] == [
        ("fonts/Spanbook-Regular.ttf", None),
        ("fonts/Spanbook-Bold.ttf", 700),
    ]
    assert all((FONTS.parent / font["asset"]).is_file() for font in ours["fonts"])
    assert "SIL OPEN FONT LICENSE Version 1.1" in (FONTS / "OFL.txt").read_text()


def test_flutters_own_fallback_family_is_ours_so_that_nothing_is_asked_for():
    manifest = json.loads((FONTS.parent / "FontManifest.json").read_text())
    fallback = next(one for one in manifest if one["family"] == "Roboto")
    assert {font["asset"] for font in fallback["fonts"]} == {f"fonts/{face}" for face in FACES}
