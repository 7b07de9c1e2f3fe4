"""The plan from above: runs at their angles, left to right as they are walked, looking out is up."""

from __future__ import annotations

import math

import flet.canvas as cv
import pytest

from fieldapp.parts.plan_picture import PlanBay, PlanPicture, PlanRun, course, pieces
from fieldapp.theme import Look


def run(name: str, lengths: list[float], turn: float | None = None) -> PlanRun:
    return PlanRun(name, tuple(PlanBay(f"{name}{i}", length) for i, length in enumerate(lengths, 1)), turn)


def test_a_single_run_lies_level_and_reads_from_left_to_right():
    places = course([run("A", [44, 44, 40])])
    assert [place.a[0] for place in places] == pytest.approx([0, 44, 88])
    assert places[-1].b == pytest.approx((128, 0))


def test_four_right_angles_on_the_deck_side_close_a_rectangle():
    runs = [run("A", [44, 44], 90), run("B", [40], 90), run("C", [44, 44], 90), run("D", [40])]
    places = course(runs)
    assert places[-1].b == pytest.approx(places[0].a, abs=1e-9)


@pytest.mark.parametrize(("angle", "sign"), [(90, 1), (135, 1), (180, 0), (225, -1), (270, -1)])
def test_an_angle_below_180_turns_towards_the_deck_and_one_above_away_from_it(angle: float, sign: int):
    """The deck lies below: towards it means down the page, which is a larger y."""
    places = course([run("A", [50], angle), run("B", [50])], heading=0)
    down = places[1].b[1] - places[1].a[1]
    assert round(down) == round(sign * 50 * abs(math.sin(math.radians(180 - angle))))


@pytest.mark.parametrize("angle", [60, 90, 135, 200, 270])
def test_the_drawn_angle_between_two_runs_is_the_one_that_was_given(angle: float):
    a, b = course([run("A", [50], angle), run("B", [50])])
    back = math.atan2(a.a[1] - a.b[1], a.a[0] - a.b[0])
    on = math.atan2(b.b[1] - b.a[1], b.b[0] - b.a[0])
    # From the run that goes on, turning through the deck (downwards, so clockwise on a page) back to the run that came.
    assert math.degrees(back - on) % 360 == pytest.approx(angle)


def test_a_run_that_shares_no_post_with_the_one_before_stands_apart_with_posts_of_its_own():
    runs = [run("A", [44, 44]), run("B", [40], 90), run("C", [40])]
    places = course(runs, heading=0)
    assert [[place.bay.tag for place in piece] for piece in pieces(places)] == [["A1", "A2"], ["B1", "C1"]]
    assert places[2].a[0] > places[1].b[0]
    picture = PlanPicture(Look(), 390, 322)
    assert len(picture._posts(places)) == 6  # three for A, three for B with C


def test_all_bays_share_one_scale_and_stay_inside_the_picture():
    picture = PlanPicture(Look(), 390, 322)
    runs = [run("A", [44, 44, 44], 135), run("B", [45, 45, 48], 90), run("C", [44, 44])]
    picture.show(runs, "plan")
    spots = [(picture._move(p.a), picture._move(p.b), p.bay.spacing) for p in course(runs)]
    for a, b, spacing in spots:
        assert math.dist(a, b) / spacing == pytest.approx(picture.scale)
        assert min(a[0], b[0]) > 0 and max(a[0], b[0]) < 390 and min(a[1], b[1]) > 0 and max(a[1], b[1]) < 322


def test_each_bay_is_a_button_of_48_that_says_its_name():
    heard: list[str] = []
    picture = PlanPicture(Look(), 390, 322, on_bay=heard.append)
    picture.show([run("A", [44, 44])], "plan")
    for spot in picture.control.controls[1:]:
        assert (spot.content.content.width, spot.content.content.height) == (48, 48)
        spot.content.content.on_click(None)
    assert heard == ["A1", "A2"]


def test_a_plan_without_bays_is_empty_and_not_an_error():
    picture = PlanPicture(Look(), 390, 322)
    picture.show([PlanRun("A", ())], "nothing planned yet")
    assert picture._canvas.shapes == []


def test_words_beside_a_run_that_goes_down_the_page_stand_one_below_the_other():
    look = Look()
    picture = PlanPicture(look, 390, 280)
    runs = [run("A", [44, 44, 44, 44], 90), PlanRun("B", (PlanBay("G1", 44, glass=False, gate="no glass"), PlanBay("B1", 44)))]
    picture.show(runs, "the plan")
    drawn = [s for s in picture._canvas.shapes if isinstance(s, cv.Text) and s.value in ("no", "glass")]
    assert [s.value for s in drawn] == ["no", "glass"]
    assert drawn[0].x == drawn[1].x < 390 and drawn[0].y < drawn[1].y
