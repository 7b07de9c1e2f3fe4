"""Every row of the verdict table: what is clear, what is a query, what is a hold. Rules of the trade, common practice, no source."""

import pytest

from measure.checks import BAY_CHECKS
from tests.measure.checks.three_bays import plumb, rise, span


def test_the_small_job_is_clear_but_for_the_guard(deck):
    assert [(f.place, f.word, f.check) for f in deck.report().findings] == [("job", "caution", "guard")]


def test_every_bay_check_says_something_when_all_is_wanted(deck):
    said = {f.check for f in deck.report(every=True).findings if f.verdict == "clear" and f.bay == "A2"}
    assert said >= {"missing", "high-end", "off-plan", "spacing", "grip", "slope", "neighbour", "rack-line", "glass-size", "glass-mass"}
    assert all(check.__doc__ for check in BAY_CHECKS)


# ---- missing


@pytest.mark.parametrize("what", ["span", "rise"])
def test_a_span_or_rise_that_was_not_read_holds_the_panel(deck, what):
    deck.drop("A2", what)
    assert deck.found("missing") == [("A2", "hold")]


def test_a_rise_of_nothing_is_said_and_counts(deck):
    for bay in ("A1", "A2", "A3"):
        deck.drop(bay, "rise")
        deck.add(rise(bay, "0"))
    assert deck.found("missing") == []
    assert deck.report().openings["A2"].panel.shape == "rectangle"


@pytest.mark.parametrize(("asked", "word"), [("no", []), ("asked", [("A2", "query")]), ("required", [("A2", "hold")])])
def test_a_read_back_is_missed_as_the_job_asks_for_it(deck, asked, word):
    deck.job["job"]["read_back"] = asked
    deck.add(*(span(b, "41 1/2", by="K", at="2026-05-02T09:40:00Z", role="read-back") for b in ("A1", "A3")))
    assert deck.found("missing") == word


def test_a_read_back_by_the_same_person_counts_for_nothing(deck):
    deck.job["job"]["read_back"] = "required"
    deck.add(*(span(b, "41 1/2", by="K", at="2026-05-02T09:40:00Z", role="read-back") for b in ("A1", "A3")))
    deck.add(span("A2", "41 1/2", by=" m ", at="2026-05-02T09:40:00Z", role="read-back"))
    assert deck.found("missing") == [("A2", "hold")]


def test_a_read_back_older_than_what_it_repeats_counts_for_nothing(deck):
    deck.job["job"]["read_back"] = "required"
    deck.add(*(span(b, "41 1/2", by="K", at="2026-05-02T09:40:00Z", role="read-back") for b in ("A1", "A3")))
    deck.add(span("A2", "41 1/2", by="K", at="2026-05-02T09:30:59Z", role="read-back"))
    assert deck.found("missing") == [("A2", "hold")]


def test_plumb_is_missed_where_the_job_asks_for_it(deck):
    deck.job["job"]["plumb"] = "asked"
    deck.add(plumb("P1", "0", None), plumb("P2", "0", None), plumb("P3", "0", None))
    for reading in deck.job["readings"]:
        if reading.get("toward", "") is None:
            del reading["toward"]
    assert deck.found("missing") == [("A3", "query")]


def test_a_trimmed_post_asks_for_the_rise_at_the_feet(deck):
    deck.job["posts"][1]["trimmed"] = True
    assert deck.found("missing") == [("A1", "hold"), ("A2", "hold")]
    for bay in ("A1", "A2"):
        deck.add({**rise(bay, "3/8", "right"), "what": "base-rise"})
    assert deck.found("missing") == []


def test_a_gate_needs_neither_span_nor_rise(deck):
    deck.job["bays"][1]["glass"] = "none"
    deck.drop("A2", "span")
    deck.drop("A2", "rise")
    assert [f.place for f in deck.report().findings if f.stands_in_the_way] == []
    assert [o.bay.tag for o in deck.report().to_order()] == ["A1", "A3"]


# ---- stale, replaced, answered


def test_a_moved_post_makes_every_older_reading_that_touches_it_stale(deck):
    deck.job["moved"] = [{"post": "P3", "at": "2026-05-02T10:05:00Z", "by": "M"}]
    assert deck.found("missing") == [("A2", "hold"), ("A2", "hold"), ("A3", "hold"), ("A3", "hold")]
    assert "P3 was moved" in deck.sentence("missing")


def test_a_reading_at_the_very_moment_of_the_move_still_counts(deck):
    deck.job["moved"] = [{"post": "P3", "at": "2026-05-02T09:32:00Z", "by": "M"}]
    assert deck.found("missing") == [("A2", "hold"), ("A3", "hold")]  # the spans of 09:31; the rises of 09:32 count


def test_the_newest_reading_counts_whatever_its_place_in_the_file(deck):
    deck.job["readings"].insert(0, span("A2", "41 9/16", at="2026-05-02T09:50:00Z"))
    assert deck.report().openings["A2"].span_reading.text == "41 9/16"


def test_on_a_tie_the_later_in_the_file_counts(deck):
    deck.add(span("A2", "41 9/16"))
    assert deck.report().openings["A2"].span_reading.text == "41 9/16"


def test_what_is_replaced_does_not_count_even_where_it_is_newer(deck):
    deck.add(span("A2", "41 7/16", at="2026-05-02T11:00:00Z", id="wrong"))
    deck.add(span("A2", "41 9/16", at="2026-05-02T10:00:00Z", replaces="wrong"))
    assert deck.report().openings["A2"].span_reading.text == "41 9/16"


def answer(check, at="2026-05-02T12:00:00Z", **place):
    return {"check": check, "reason": "post set clear of a joist", "by": "M", "at": at, **place}


def test_an_answer_lets_a_query_stand(deck):
    deck.change("A2", "span", value="42")
    assert deck.found("off-plan") == [("A2", "query")]
    deck.job["answers"] = [answer("off-plan", bay="A2")]
    assert deck.found("off-plan") == [("A2", "answered")]


@pytest.mark.parametrize("at", ["2026-05-02T09:31:00Z", "2026-05-02T09:00:00Z"])
def test_an_answer_no_newer_than_the_reading_counts_for_nothing(deck, at):
    deck.change("A2", "span", value="42")
    deck.job["answers"] = [answer("off-plan", at=at, bay="A2")]
    assert deck.found("off-plan") == [("A2", "query")]


def test_a_hold_cannot_be_answered(deck):
    deck.drop("A2", "rise")
    deck.job["answers"] = [answer("missing", bay="A2")]
    assert deck.found("missing") == [("A2", "hold")]


def test_what_is_ordered_or_on_site_is_told_and_stops_nothing(deck):
    deck.change("A2", "span", value="42")
    deck.job["bays"][1]["status"] = "ordered"
    report = deck.report()
    assert deck.found("off-plan") == [("A2", "query")]
    assert not any(f.stands_in_the_way for f in report.findings)
    assert [o.bay.tag for o in report.to_order()] == ["A1", "A3"]


# ---- read-back and second tape


@pytest.mark.parametrize(
    ("back", "word"),
    [({"value": "41 1/2"}, []), ({"value": "41.5"}, []), ({"value": "41 7/16"}, [("A2", "hold")]), ({"value": "42 1/2", "start": "1 in"}, [])],
)
def test_any_difference_of_a_read_back_holds_compared_as_lengths(deck, back, word):
    deck.add(span("A2", by="K", at="2026-05-02T09:40:00Z", role="read-back", **back))
    assert deck.found("read-back") == word


def test_a_read_back_takes_the_start_from_what_it_repeats(deck):
    deck.change("A2", "span", value="42 1/2", start="1 in")
    deck.add(span("A2", "42 1/2", by="K", at="2026-05-02T09:40:00Z", role="read-back"))
    assert deck.found("read-back") == []


def test_a_newer_read_back_that_agrees_lifts_the_hold(deck):
    deck.add(span("A2", "41 7/16", by="K", at="2026-05-02T09:40:00Z", role="read-back"))
    deck.add(span("A2", "41 1/2", by="K", at="2026-05-02T09:41:00Z", role="read-back"))
    assert deck.found("read-back") == []


def test_a_span_taped_again_lifts_the_hold_of_an_older_read_back(deck):
    deck.add(span("A2", "41 7/16", by="K", at="2026-05-02T09:40:00Z", role="read-back"))
    deck.add(span("A2", "41 1/2", at="2026-05-02T09:41:00Z"))
    assert deck.found("read-back") == []


def test_the_other_high_end_read_back_holds(deck):
    deck.add(rise("A2", "3/8", "left", by="K", at="2026-05-02T09:40:00Z", role="read-back"))
    assert deck.found("read-back") == [("A2", "hold")]


@pytest.mark.parametrize(("value", "word"), [("41 5/8", []), ("41 11/16", [("A2", "hold")]), ("41 3/8", []), ("41 5/16", [("A2", "hold")])])
def test_a_second_tape_beyond_its_tolerance_holds(deck, value, word):
    deck.add(span("A2", value, by="K", at="2026-05-02T09:40:00Z", role="second"))
    assert deck.found("second-tape") == word


@pytest.mark.parametrize(
    ("begun", "said"),
    [
        ({"value": "42 1/2", "start": "1 in"}, "reads 41 11/16, the first 42 1/2 (counts as 41 1/2): 3/16 in apart"),
        ({"value": "42 1/2 in", "start": "1 in"}, "reads 41 11/16, the first 42 1/2 in (counts as 41 1/2 in): 3/16 in apart"),
        ({"value": "38 1/2", "case": "3 in", "how": "case"}, "reads 41 11/16, the first 38 1/2 (counts as 41 1/2): 3/16 in apart"),
        ({"value": "41 1/2"}, "reads 41 11/16, the first 41 1/2: 3/16 in apart"),
    ],
)
def test_a_tape_begun_at_a_mark_is_told_with_what_it_counts_as(deck, begun, said):
    deck.change("A2", "span", **begun)
    deck.add(span("A2", "41 11/16", by="K", at="2026-05-02T09:40:00Z", role="second"))
    assert said in deck.sentence("second-tape")


def test_a_figure_that_a_read_back_differs_from_is_told_with_what_it_counts_as(deck):
    deck.change("A2", "span", value="42 1/2", start="1 in")
    deck.add(span("A2", "41 7/16", by="K", at="2026-05-02T09:40:00Z", role="read-back", start="0"))
    assert "M read 42 1/2 (counts as 41 1/2), K read back 41 7/16" in deck.sentence("read-back")


def test_the_second_tape_never_becomes_the_width(deck):
    deck.add(span("A2", "41 5/8", by="K", at="2026-05-02T09:40:00Z", role="second"))
    assert deck.report().openings["A2"].span_reading.text == "41 1/2"


# ---- plan, spacing, lean, grip


@pytest.mark.parametrize(("value", "word"), [("41 3/4", []), ("41 1/4", []), ("41 13/16", [("A2", "query")]), ("41 3/16", [("A2", "query")])])
def test_a_span_beyond_the_plan_tolerance_is_a_query(deck, value, word):
    deck.change("A2", "span", value=value)
    assert deck.found("off-plan") == word


def test_less_than_a_sentence_tells_off_the_plan_is_as_planned(deck):
    deck.change("A2", "span", value="1054.2 mm")  # planned 1054.1 mm
    assert [f.sentence for f in deck.report(every=True).findings if f.check == "off-plan"] == ["As planned."] * 3


def test_a_tape_begun_at_its_one_inch_mark_is_named(deck):
    deck.change("A2", "span", value="42 1/2")
    assert "1 in mark" in deck.sentence("off-plan")


def test_a_reading_that_says_where_the_tape_began_is_as_planned(deck):
    deck.change("A2", "span", value="42 1/2", start="1 in")
    assert deck.found("off-plan") == []
    assert deck.report().openings["A2"].span_nm == int(41.5 * 25_400_000)


@pytest.mark.parametrize(("greatest", "word"), [("44 in", []), ("43 31/32 in", [("A2", "query")]), ("43 7/8 in", [("A2", "hold")])])
def test_above_the_greatest_spacing_is_a_query_within_the_tapes_doubt_and_a_hold_beyond(deck, greatest, word):
    # U = 2·√((1.5875/√12)² + (0.79375/√3)² + 0.3²) = 1.43 mm; 1/32 in = 0.79 mm, 1/8 in = 3.2 mm.
    deck.job["system"]["greatest_spacing"] = greatest
    assert [p for p in deck.found("spacing") if p[0] == "A2"] == word


@pytest.mark.parametrize(("value", "word"), [("41 11/16", []), ("41 3/4", [("A2", "query")])])
def test_a_top_span_beyond_the_lean_limit_is_a_query(deck, value, word):
    deck.add({**span("A2", value), "what": "top-span"})
    assert deck.found("lean") == word


def test_posts_that_lean_apart_over_the_glass_height_are_a_query(deck):
    deck.add(plumb("P2", "1/4", "left"), plumb("P3", "1/4", "right"))  # 0.5/40 · 38 = 0.475 in
    assert deck.found("lean") == [("A2", "query")]


def test_posts_that_lean_the_same_way_do_not_lean_apart_but_change_the_rack(deck):
    deck.add(plumb("P2", "1/4", "right"), plumb("P3", "1/4", "right"))  # 44·tan(0.358°) = 0.275 in
    assert deck.found("lean") == []
    assert deck.found("plumb") == [("A2", "query")]


def test_the_grip_is_clear_queried_or_held_by_its_smaller_margin(deck):
    # W − S = 1 5/16; hold = 1 5/16 − 13/16 − 1/4 = 1/4 in; 2u_M = 2·√(2.5²/3 + 0.714²) = 3.2 mm = 0.127 in.
    assert deck.report().openings["A2"].margin_nm == 25_400_000 // 4
    deck.job["system"]["least_bite"] = "7/16 in"
    assert ("A2", "query") in deck.found("grip")
    deck.job["system"]["least_bite"] = "9/16 in"
    assert ("A2", "hold") in deck.found("grip")


# ---- slope, neighbours, rack


def test_a_slope_above_the_jobs_limit_is_a_query(deck):
    deck.job["limits"]["slope"] = "0.8 %"
    assert deck.found("slope") == [("A1", "query"), ("A2", "query"), ("A3", "query")]


def test_opposite_high_ends_are_a_query_on_both_bays(deck):
    deck.change("A3", "rise", high="left")
    assert deck.found("neighbour") == [("A2", "query"), ("A3", "query")]


def test_a_bay_without_glass_parts_the_pattern(deck):
    deck.job["bays"][1]["glass"] = "none"
    deck.change("A3", "rise", high="left")
    assert deck.found("neighbour") == []


def test_below_half_a_per_cent_high_ends_may_differ(deck):
    for bay, high in (("A1", "right"), ("A2", "left"), ("A3", "right")):
        deck.change(bay, "rise", value="3/16", high=high)  # 0.43 %
    assert deck.found("neighbour") == []


def test_slopes_apart_by_more_than_step_and_doubt_are_a_query(deck):
    deck.change("A3", "rise", value="1 3/4")
    assert deck.found("neighbour") == [("A2", "query"), ("A3", "query")]


def test_a_rise_without_its_high_end_is_held(deck):
    for reading in deck.job["readings"]:
        if reading["what"] == "rise" and reading["bay"] == "A2":
            del reading["high"]
    assert deck.found("high-end") == [("A2", "hold")]


def test_on_a_ramp_the_job_must_say_what_the_glass_follows(deck):
    # tan = 4/44; posts 4 in, slope 4/44 · 42.8125 = 3.892: 0.108 in apart, more than 1/16.
    for bay in ("A1", "A2", "A3"):
        deck.change(bay, "rise", value="4")
    assert deck.found("rack-line") == [("A1", "query"), ("A2", "query"), ("A3", "query")]
    deck.job["runs"][0]["rack_follows"] = "slope"
    assert deck.found("rack-line") == []


@pytest.mark.parametrize(("value", "word"), [("1:12", ["query"]), ("5 %", ["query"]), ("5.0 %", ["query"]), ("4.9 %", []), ("1:48", []), ("3 %", [])])
def test_a_drawings_slope_typed_as_a_reading_above_three_per_cent_is_a_query(deck, value, word):
    deck.change("A2", "rise", value=value)
    assert [w for p, w in deck.found("design-slope") if p == "A2"] == word


def test_diagonals_that_give_another_rack_are_a_query(deck):
    # For S 41 1/2, h 40: rack over the span of 3/8·41.5/44 = 0.354 in: p² − q² = 4·40·0.354.
    def diagonals(p, q):
        return [{"bay": "A2", "what": f"diagonal-{n}", "value": v, "mark": "40 in", "by": "M", "at": "2026-05-02T09:45:00Z"} for n, v in (("rising", p), ("falling", q))]

    deck.add(*diagonals("57 7/8", "57 3/8"))
    assert deck.found("plumb") == []
    deck.add(*({**d, "at": "2026-05-02T09:46:00Z"} for d in diagonals("57 5/8", "57 5/8")))
    assert deck.found("plumb") == [("A2", "query")]


# ---- closing


def overall(value, from_="outside", **more):
    return {"run": "A", "what": "overall", "from": from_, "value": value, "by": "M", "at": "2026-05-02T09:50:00Z", **more}


@pytest.mark.parametrize(("value", "from_", "word"), [("134 1/2", "outside", []), ("129 1/2", "inside", []), ("133 1/2", "outside", [("run A", "query")])])
def test_a_run_closes_outside_over_every_face_and_inside_less_the_ends(deck, value, from_, word):
    # 3 · 41 1/2 + 4 · 2 1/2 = 134 1/2; less 2 · 2 1/2 = 129 1/2.
    deck.add(overall(value, from_))
    assert deck.found("closing") == word


def test_the_bay_whose_slip_would_close_the_run_is_named(deck):
    deck.change("A2", "span", value="42 1/2")
    deck.add(overall("134 1/2"))
    assert "Look first at A2." in deck.sentence("closing")


def test_a_query_on_a_run_stops_all_its_panels(deck):
    deck.add(overall("133 1/2"))
    assert deck.report().to_order() == []


def test_a_gate_without_a_span_is_not_compared_and_a_caution_says_so(deck):
    deck.job["bays"][1]["glass"] = "none"
    deck.drop("A2", "span")
    deck.add(overall("134 1/2"))
    assert deck.found("closing") == [("run A", "caution")]


def test_rises_add_with_their_sign(deck):
    deck.add({"run": "A", "what": "overall-rise", "value": "1 1/8", "high": "right", "by": "M", "at": "2026-05-02T09:51:00Z"})
    assert deck.found("closing-rise") == []
    deck.change("A2", "rise", high="left")
    assert deck.found("closing-rise") == [("run A", "query")]
    assert "A2" in deck.sentence("closing-rise")


# ---- glass, posts, turns, cautions


@pytest.mark.parametrize(
    ("key", "value"),
    [("least_width", "43 in"), ("greatest_width", "42 in"), ("least_height", "39 in"), ("greatest_height", "38 1/4 in"), ("least_corner_angle", 89.9)],
)
def test_what_the_shop_cannot_make_is_held(deck, key, value):
    deck.job["glass"][key] = value
    assert deck.found("glass-size") == [(b, "hold") for b in ("A1", "A2", "A3")]


def test_a_panel_too_heavy_is_held(deck):
    # 42.8125 × 38 in · 25 kg/m² = 26.2 kg (EN 572-1).
    deck.job["glass"]["greatest_mass_kg"] = 26
    assert deck.found("glass-mass") == [(b, "hold") for b in ("A1", "A2", "A3")]


def test_a_level_top_upright_longer_than_its_post_is_a_query_unless_meant(deck):
    deck.job["bays"][1].update(shape="level-top", height="41 3/4 in")  # low upright 41 3/4 + 3/8 = 42 1/8, post 42
    assert deck.found("post-height") == [("A2", "query")]
    deck.job["bays"][1]["taller"] = True
    assert deck.found("post-height") == []


@pytest.mark.parametrize(("angle", "axis", "word"), [(170, True, []), (160, False, [("A3", "query")]), (90, True, [("A3", "hold")])])
def test_a_turn_is_held_beyond_what_the_post_allows_and_asks_for_an_axis_over_five_degrees(deck, angle, axis, word):
    deck.job["posts"][3].update(kind="line", angle=angle)
    if not axis:
        del deck.job["system"]["turn_axis"]
    assert deck.found("turn") == word


def test_a_kind_without_turning_is_not_checked_for_turn(deck):
    deck.job["posts"][3].update(kind="line", angle=90)
    del deck.job["system"]["turning"]
    assert deck.found("turn") == []


def test_cautions_stand_beside_and_never_in_the_way(deck):
    del deck.job["system"]["confirmed"]
    deck.job["system"]["allowance"] = "3/4 in"
    deck.job["limits"]["plan_tolerance"] = "1/32 in"
    deck.job["glass"]["thickness"] = "12 mm"
    found = [(f.place, f.check) for f in deck.report().findings if f.verdict == "caution"]
    assert {("job", "sheet"), ("job", "system"), ("job", "tape"), ("job", "guard"), ("A2", "lift")} <= set(found)
    assert not any(f.stands_in_the_way for f in deck.report().findings if f.verdict == "caution")


def test_no_difference_at_all_is_clear_under_the_finest_tolerance(deck):
    deck.job["limits"]["plan_tolerance"] = "0 in"
    assert deck.found("off-plan") == []


def test_a_slope_of_exactly_the_limit_is_clear(deck):
    deck.job["limits"]["slope"] = "7 %"
    deck.change("A2", "rise", value="7.0 %")
    assert [f for f in deck.found("slope") if f[0] == "A2"] == []


def test_a_way_through_with_its_rise_read_counts_in_the_rises(deck):
    deck.job["bays"][1]["glass"] = "none"
    deck.add({"run": "A", "what": "overall-rise", "value": "1 1/8", "high": "right", "by": "M", "at": "2026-05-02T09:51:00Z"})
    assert deck.found("closing-rise") == []
    deck.drop("A2", "rise")
    assert deck.found("closing-rise") == [("run A", "caution")]


def test_an_answer_older_than_a_plumb_reading_behind_its_query_counts_for_nothing(deck):
    deck.add(plumb("P2", "1/4", "right", at="2026-05-02T13:00:00Z"), plumb("P3", "1/4", "right"))
    deck.job["answers"] = [answer("plumb", bay="A2")]
    assert deck.found("plumb") == [("A2", "query")]
    deck.job["answers"] = [answer("plumb", at="2026-05-02T13:00:01Z", bay="A2")]
    assert deck.found("plumb") == [("A2", "answered")]


def test_an_answer_to_a_span_along_the_slope_must_be_newer_than_its_rise(deck):
    deck.change("A2", "span", value="42", taped="along")
    deck.change("A2", "rise", at="2026-05-02T12:30:00Z")
    deck.job["answers"] = [answer("off-plan", bay="A2")]
    assert deck.found("off-plan") == [("A2", "query")]


def test_thirty_five_inside_with_an_allowance_of_one_and_a_quarter_takes_thirty_six_and_a_quarter(deck):
    # Common practice, no source.
    deck.job["system"]["allowance"] = "1 1/4 in"
    deck.change("A2", "span", value="35")
    assert deck.report().openings["A2"].panel.width.nm == int(36.25 * 25_400_000)


@pytest.mark.parametrize(("beyond_u", "word"), [(-0.5, []), (0.4, ["query"]), (1.1, ["hold"])])
def test_spacing_is_decided_with_a_guard_band_of_u(deck, beyond_u, word):
    # ILAC-G8:09/2019 4.1, check value V8 (TL 3.0, U 1.0: 2.5 within, 3.4 conditional fail, 4.1 fail), here in units of U.
    u_nm = deck.report().openings["A2"].doubt.U * 1e6
    limit = 44 * 25_400_000 - round(beyond_u * u_nm)
    deck.job["system"]["greatest_spacing"] = f"{limit / 1e6:.6f} mm"
    assert [w for p, w in deck.found("spacing") if p == "A2"] == word


# ---- readings that repeat or check another one


def test_a_second_tape_that_reads_the_same_agrees_between_posts_that_lean(deck):
    deck.job["limits"]["second_tape"] = "0 in"
    for bay in ("A1", "A2", "A3"):
        deck.change(bay, "rise", value="4")
    deck.add(plumb("P2", "1", "right"), plumb("P3", "1", "right"))
    deck.add(span("A2", "41 1/2", at="2026-05-02T09:50:00Z", role="second"))
    assert deck.found("second-tape") == []


def test_an_answer_to_a_span_off_its_plan_must_be_newer_than_the_plumb_readings_behind_it(deck):
    deck.change("A2", "rise", value="6")
    deck.change("A2", "span", value="41 1/4")
    deck.add(plumb("P2", "2", "left", at="2026-05-02T13:00:00Z"), plumb("P3", "2", "left"))
    deck.job["answers"] = [answer("off-plan", bay="A2")]
    assert deck.found("off-plan") == [("A2", "query")]
    deck.job["answers"] = [answer("off-plan", at="2026-05-02T13:00:01Z", bay="A2")]
    assert deck.found("off-plan") == [("A2", "answered")]


@pytest.mark.parametrize("high", ["left", "right"])
@pytest.mark.parametrize(("value", "word"), [("3/8", []), ("5/8", [("A2", "hold")])])
def test_a_second_rise_without_a_high_end_is_compared_whichever_way_the_first_runs(deck, high, value, word):
    deck.change("A2", "rise", high=high)
    deck.add(rise("A2", value, at="2026-05-02T09:50:00Z", role="second"))
    assert deck.found("second-tape") == word


def test_a_top_span_taped_along_agrees_with_the_level_one(deck):
    # 1:3 over the centres: 41 1/2 level is 43.745 along (41.5 · √10/3).
    deck.change("A2", "rise", value="1:3")
    deck.add(span("A2", "41 1/2", what="top-span"), span("A2", "43.745", what="top-span", taped="along", role="second"))
    assert deck.found("second-tape") == []


@pytest.mark.parametrize("role", ["read-back", "second"])
def test_what_checks_a_rise_that_a_base_rise_replaced_checks_nothing(deck, role):
    deck.add(rise("A2", "3/4", "right", by="K", at="2026-05-02T09:40:00Z", role=role))
    check = {"read-back": "read-back", "second": "second-tape"}[role]
    assert deck.found(check) == [("A2", "hold")]
    deck.add(rise("A2", "3/8", "right", at="2026-05-02T09:45:00Z", what="base-rise"))
    assert deck.found(check) == []


@pytest.mark.parametrize(("value", "word"), [("1/8", []), ("3/16", [("A1", "hold"), ("A2", "hold")])])
def test_a_plumb_read_back_takes_the_level_and_the_side_from_what_it_repeats(deck, value, word):
    back = plumb("P2", value, "left", by="K", at="2026-05-02T09:40:00Z", role="read-back")
    del back["over"], back["toward"]
    deck.add(plumb("P2", "1/8", "left"), {**back, "by": "K"})
    assert deck.found("read-back") == word


@pytest.mark.parametrize(("more", "word"), [({}, []), ({"mark": "36 in"}, []), ({"mark": "30 in"}, [("A2", "hold")])])
def test_a_diagonal_read_back_to_another_mark_differs(deck, more, word):
    first = {"bay": "A2", "what": "diagonal-rising", "value": "55", "by": "M", "at": "2026-05-02T09:40:00Z"}
    deck.add({**first, "mark": "36 in"}, {**first, "by": "K", "role": "read-back", **more})
    assert deck.found("read-back") == word


@pytest.mark.parametrize(("more", "word"), [({}, []), ({"from": "outside"}, []), ({"from": "inside"}, [("run A", "hold")])])
def test_an_overall_read_back_from_the_other_side_differs(deck, more, word):
    back = {**overall("134 1/2"), "by": "K", "role": "read-back"}
    del back["from"]
    deck.add(overall("134 1/2"), {**back, **more})
    assert deck.found("read-back") == word


@pytest.mark.parametrize(("value", "from_", "taped", "word"), [
    ("129 1/2", "inside", "level", []), ("129 3/4", "inside", "level", [("run A", "hold")]),
    ("134 9/16", "outside", "level", []), ("141.784", "outside", "along", []), ("136.513", "inside", "along", []),
])  # fmt: skip
def test_a_run_taped_a_second_time_is_compared_whichever_way_the_tape_lay(deck, value, from_, taped, word):
    # 1:3: 134 1/2 level is 141.784 along (134.5 · √10/3 = 141.774), 129 1/2 is 136.503.
    for bay in ("A1", "A2", "A3"):
        deck.change(bay, "rise", value="1:3")
    deck.add(overall("134 1/2"), overall(value, from_, role="second", taped=taped))
    assert deck.found("second-tape") == word


@pytest.mark.parametrize("high", ["left", "right"])
@pytest.mark.parametrize(("value", "more", "word"), [
    ("1 1/8", {}, []), ("1 1/4", {}, []), ("1 9/32", {}, [("run A", "hold")]), ("1.1037", {"over": "faces"}, []),
])  # fmt: skip
def test_the_rise_of_the_whole_run_read_a_second_time_is_compared_over_the_centres(deck, high, value, more, word):
    # Centres are 132 in apart, faces 129 1/2: 1 1/8 over centres is 1.1037 over the faces.
    for bay in ("A1", "A2", "A3"):
        deck.change(bay, "rise", high=high)
    first = {"run": "A", "what": "overall-rise", "value": "1 1/8", "by": "M", "at": "2026-05-02T09:51:00Z"}
    deck.add({**first, "high": high}, {**first, "value": value, "role": "second", **more})
    assert deck.found("second-tape") == word


@pytest.mark.parametrize("high", ["left", "right"])
def test_a_rise_of_the_whole_run_without_its_high_end_is_held(deck, high):
    for bay in ("A1", "A2", "A3"):
        deck.change(bay, "rise", high=high)
    deck.add({"run": "A", "what": "overall-rise", "value": "1 1/8", "by": "M", "at": "2026-05-02T09:51:00Z"})
    assert deck.found("high-end") == [("run A", "hold")]
    assert deck.found("closing-rise") == [("run A", "caution")]


def test_a_panel_of_just_the_greatest_mass_is_clear(deck):
    # 600 × 910 × 12 mm · 2500 kg/m³ = 16.38 kg (EN 572-1).
    deck.job["job"].update(units="mm")
    deck.job["system"].update(allowance="33 mm")
    deck.job["glass"].update(thickness="12 mm", height="910", greatest_mass_kg=16.38)
    for bay in ("A1", "A2", "A3"):
        deck.change(bay, "span", value="567")
        deck.change(bay, "rise", value="0")
    assert deck.found("glass-mass") == []
    deck.job["glass"]["height"] = "911"
    assert deck.found("glass-mass") == [(b, "hold") for b in ("A1", "A2", "A3")]


def test_a_laser_has_no_row_of_inch_tapes_to_go_beyond(deck):
    deck.job["tape"]["laser"] = "1.5 mm"
    deck.add(overall("40 ft", how="laser"))
    assert deck.found("tape") == []
    deck.add(overall("40 ft"))
    assert deck.found("tape") == [("job", "caution")]


@pytest.mark.parametrize(("kind", "angle", "word"), [("wall", 0, ["hold"]), ("wall", 270, ["hold"]), ("line", 0, ["hold"]), ("wall", 1, []), ("line", 269, [])])
def test_no_edge_reaches_its_groove_at_a_right_angle_whatever_the_post(deck, kind, angle, word):
    del deck.job["system"]["turning"]
    deck.job["posts"][3].update(kind=kind, angle=angle)
    assert [w for _, w in deck.found("turn")] == word


@pytest.mark.parametrize("taped", ["level", "along"])
@pytest.mark.parametrize(("out_of_plumb", "word"), [("10", []), ("80", ["hold"]), ("120", ["hold"])])
def test_posts_that_would_lie_along_the_slope_are_held(deck, taped, out_of_plumb, word):
    # 50 % (26.6°) and 63.4° or more of lean are a right angle or more.
    deck.change("A2", "rise", value="50.0 %")
    deck.change("A2", "span", taped=taped)
    deck.add(plumb("P2", out_of_plumb, "right"), plumb("P3", out_of_plumb, "right"))
    deck.add(span("A2", "41 1/2", role="second"))
    assert [w for p, w in deck.found("plumb") if p == "A2" and w == "hold"] == word
