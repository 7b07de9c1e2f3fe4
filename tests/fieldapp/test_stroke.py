"""A canvas that is drawn anew shows what was drawn, and sends nothing where that stands there already."""

from __future__ import annotations

import dataclasses

import flet.canvas as cv
from hypothesis import given
from hypothesis import strategies as st

from fieldapp.parts.stroke import HIDDEN, Shapes, dot, line, poly, redraw, stroke, wash, word

SMALL = st.integers(0, 3).map(float)
PENS = st.sampled_from([stroke("#111111"), stroke("#111111", 2, HIDDEN), wash("#222222")])
POINTS = st.tuples(SMALL, SMALL)
SHAPE = st.one_of(
    st.builds(line, POINTS, POINTS, PENS), st.builds(poly, st.lists(POINTS, min_size=2, max_size=4), PENS, st.booleans()),
    st.builds(dot, SMALL, SMALL, SMALL, PENS), st.builds(word, SMALL, SMALL, st.sampled_from(["A1", "A2"]), st.just("#111111")),
)  # fmt: skip


def looks(shapes: Shapes) -> list[tuple[object, ...]]:
    """Kind and values of every shape, as the page draws them."""
    own = {field.name for field in dataclasses.fields(cv.Shape)}
    return [(type(s), *(getattr(s, f.name) for f in dataclasses.fields(s) if f.name not in own)) for s in shapes]


@given(before=st.lists(SHAPE, max_size=6), after=st.lists(SHAPE, max_size=6))
def test_a_canvas_that_is_drawn_anew_shows_the_new_drawing_whatever_stood_there(before, after):
    canvas = cv.Canvas(shapes=before)
    wanted = looks(after)
    redraw(canvas, after)
    assert looks(canvas.shapes) == wanted


def test_a_drawing_that_stands_there_already_is_left_alone():
    canvas = cv.Canvas(shapes=[line((0, 0), (1, 1), stroke("#111111")), word(0, 0, "A1", "#111111")])
    were = canvas.shapes
    redraw(canvas, [line((0, 0), (1, 1), stroke("#111111")), word(0, 0, "A1", "#111111")])
    assert canvas.shapes is were
    redraw(canvas, [line((0, 0), (1, 1), stroke("#111111")), word(0, 0, "A2", "#111111")])
    assert canvas.shapes is not were
