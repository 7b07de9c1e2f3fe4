"""Contrast of every pair of colours that meet on a screen, in both themes."""

from __future__ import annotations

import pytest

from fieldapp.theme import SHADE, SUN, Look, Palette

TEXT = [("ink", g) for g in ("paper", "leaf", "rule", "tape2", "glass", "clear_bg", "query_bg", "hold_bg")]
TEXT += [("ink2", g) for g in ("paper", "leaf", "glass")]
TEXT += [("on_tape", "tape"), ("on_main", "main"), ("tape", "on_tape"), ("paper", "hold")]
TEXT += [(verdict, g) for verdict in ("clear", "query", "hold") for g in ("paper", "leaf", f"{verdict}_bg")]
MARKS = [(m, g) for m in ("line", "post", "deck", "glass_edge", "tape_edge") for g in ("paper", "leaf", "glass")]
MARKS += [("query", "query_bg"), ("hold", "leaf"), ("line", "tape2")]


def luminance(color: str) -> float:
    """Relative luminance of #RRGGBB: WCAG 2.1, definition of "relative luminance"."""
    channels = [int(color[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.03928 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(a: str, b: str) -> float:
    """WCAG 2.1, definition of "contrast ratio"."""
    low, high = sorted((luminance(a), luminance(b)))
    return (high + 0.05) / (low + 0.05)


def mixed(over: str, under: str, share: float) -> str:
    """The colour that is seen where `over` lies on `under` with this opacity."""
    parts = [round(int(over[i : i + 2], 16) * share + int(under[i : i + 2], 16) * (1 - share)) for i in (1, 3, 5)]
    return "#" + "".join(f"{part:02X}" for part in parts)


def test_black_on_white_has_the_contrast_of_the_standard():
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21)  # WCAG 2.1: from 1 to 21


@pytest.mark.parametrize("palette", [SUN, SHADE], ids=["sun", "shade"])
@pytest.mark.parametrize(("ink", "ground"), TEXT)
def test_text_has_seven_to_one(palette: Palette, ink: str, ground: str):
    assert contrast(getattr(palette, ink), getattr(palette, ground)) >= 7


@pytest.mark.parametrize("palette", [SUN, SHADE], ids=["sun", "shade"])
@pytest.mark.parametrize(("mark", "ground"), MARKS)
def test_marks_and_edges_have_three_to_one(palette: Palette, mark: str, ground: str):
    assert contrast(getattr(palette, mark), getattr(palette, ground)) >= 3


@pytest.mark.parametrize("palette", [SUN, SHADE], ids=["sun", "shade"])
def test_numerals_beyond_the_posts_face_stay_readable(palette: Palette):
    assert contrast(palette.on_tape, mixed(palette.on_tape, palette.tape, 0.16)) >= 7


def test_at_200_per_cent_words_double_and_the_figure_gives_way():
    once, twice = Look(), Look(text=2.0)
    assert [twice.size(role) / once.size(role) for role in ("lead", "body", "note")] == [2, 2, 2]
    assert (once.size("hero"), twice.size("hero")) == (72, 60)
    assert all(twice.size(role) > once.size(role) for role in ("figure", "word", "title"))


def test_no_text_is_smaller_than_14():
    roles = ("hero", "figure", "word", "title", "lead", "body", "note")
    assert min(Look().size(role) for role in roles) == 14


def test_a_look_reads_the_colours_of_its_theme():
    assert (Look("sun").paper, Look("shade").paper) == (SUN.paper, SHADE.paper)
    with pytest.raises(AttributeError):
        _ = Look().violet


@pytest.mark.parametrize(
    ("look", "tight", "named"),
    [(Look(), False, False), (Look(text=2.0), True, False), (Look(height=667), True, True), (Look(large_keys=True), True, True)],
)
def test_words_scroll_where_there_is_no_room_for_all(look: Look, tight: bool, named: bool):
    assert (look.tight, look.named) == (tight, named)
