"""clear, query, hold: the sign, and the band that answers.

The sign is a bay: two posts and what stands between them. More ink, more in the way: outline and tick, hatched and a question
mark, solid and a bar; being measured is the tape's yellow with a dimension arrow, not yet is dashed. So it reads in sun, in
grey, on paper and to any eye. The word always stands beside it.
"""

from __future__ import annotations

from typing import Literal

import flet as ft
import flet.canvas as cv

from fieldapp.parts.space import column, gap
from fieldapp.parts.stroke import HIDDEN, Point, Shapes, box, dot, drawing, framed, hatch, line, poly, stroke, wash, word
from fieldapp.parts.text import text
from fieldapp.theme import GRID, MARGIN, Look

Sign = Literal["clear", "query", "hold", "now", "todo"]


def sign_shapes(look: Look, sign: Sign, x: float, y: float, w: float, h: float, posts: bool = True) -> Shapes:
    """The sign inside the box x, y, w, h. posts False where the drawing has its own."""
    thick = max(2.5, w / 14)
    shapes: Shapes = []
    if posts:
        ink = look.line if sign == "todo" else look.ink
        shapes = [line((p, y), (p, y + h), stroke(ink, thick)) for p in (x + thick / 2, x + w - thick / 2)]
    inner = (x + thick + 2, y + 2, w - 2 * thick - 4, h - 4)
    middle = (x + w / 2, y + h / 2)
    return shapes + {"clear": _tick, "query": _question, "hold": _bar, "now": _arrow}.get(sign, _dashed)(
        look, inner, middle, min(w, h)
    )


def _tick(look: Look, inner: tuple[float, float, float, float], middle: Point, u: float) -> Shapes:
    return [*framed(*inner, look.clear_bg, look.clear, 2), tick(look, middle, u)]


def tick(look: Look, middle: Point, u: float) -> cv.Shape:
    """The clear sign's tick alone. u: the smaller side of the sign."""
    m, n = middle
    mark = [(m - u * 0.24, n + u * 0.02), (m - u * 0.06, n + u * 0.2), (m + u * 0.26, n - u * 0.2)]
    return poly(mark, stroke(look.clear, max(2.5, u * 0.1)), close=False)


def _question(look: Look, inner: tuple[float, float, float, float], middle: Point, u: float) -> Shapes:
    x, y, w, h = inner
    m, n = middle
    lines = hatch(x, y, x + w, y + h, look.query, 5 if u < 34 else 7, 1.3)
    disc = [dot(m, n, u * 0.3, wash(look.query_bg)), dot(m, n, u * 0.3, stroke(look.query, 1.5))]
    return [
        box(*inner, wash(look.query_bg)),
        *lines,
        box(*inner, stroke(look.query, 2)),
        *disc,
        word(m, n, "?", look.query, u * 0.46, True),
    ]


def _bar(look: Look, inner: tuple[float, float, float, float], middle: Point, u: float) -> Shapes:
    m, n = middle
    return [box(*inner, wash(look.hold)), line((m - u * 0.24, n), (m + u * 0.24, n), stroke(look.paper, max(3, u * 0.13)))]


def _arrow(look: Look, inner: tuple[float, float, float, float], middle: Point, u: float) -> Shapes:
    m, n = middle
    half, head = min(inner[2] * 0.36, 22), max(3.5, inner[3] * 0.15)
    tips = [
        poly(
            [(m + s * (half + 2), n), (m + s * (half - head - 1), n - head), (m + s * (half - head - 1), n + head)],
            wash(look.on_tape),
        )
        for s in (1, -1)
    ]
    return [*framed(*inner, look.tape, look.ink, 2.5), line((m - half, n), (m + half, n), stroke(look.on_tape, 2)), *tips]


def _dashed(look: Look, inner: tuple[float, float, float, float], middle: Point, u: float) -> Shapes:
    return [box(*inner, stroke(look.line, 1.5, HIDDEN))]


def sign(look: Look, name: Sign, w: float = 40, h: float = 32, says: str = "") -> ft.Control:
    """The sign as a picture. says: only where no word stands beside it; never inside anything that is tapped."""
    return drawing(sign_shapes(look, name, 1, 1, w - 2, h - 2), w, h, says)


class VerdictBand:
    """The answer across the page: sign, word, one bold sentence, and what supports it. It is announced when it changes.

    body: facts or a drawing of the slip, below the sentence. fill: takes the room that is left.
    """

    def __init__(self, look: Look) -> None:
        self._look = look
        self._picture = ft.Container()
        self._word = text(look, "", "word", bold=True)
        self._sentence = text(look, "", "lead", bold=True)
        self._body = column([], GRID)
        word = ft.Semantics(identifier="verdict", container=True, content=self._word)
        head = ft.Row([self._picture, word], spacing=MARGIN, vertical_alignment=ft.CrossAxisAlignment.CENTER)
        finding = ft.Semantics(identifier="finding", container=True, live_region=True, content=self._sentence)
        self.control = ft.Container(column([head, finding, self._body], GRID), padding=MARGIN)

    def show(self, verdict: Sign, word: str, sentence: str, body: list[ft.Control] | None = None) -> None:
        """Sets the answer. The caller updates `control`."""
        ink, ground = self._look.verdict(verdict)
        self._picture.content = sign(self._look, verdict, 64, 48)
        self._word.value, self._word.color = word, ink
        self._sentence.value = sentence
        self._body.controls = list(body or [])
        self.control.bgcolor = ground
        self.control.border = ft.Border.only(top=ft.BorderSide(2, ink))


def verdict_band(look: Look, verdict: Sign, word: str, sentence: str, body: list[ft.Control] | None = None) -> ft.Container:
    """The band for a page that shows one answer and keeps it."""
    band = VerdictBand(look)
    band.show(verdict, word, sentence, body)
    return band.control


def small_band(look: Look, verdict: Sign, content: ft.Control) -> ft.Container:
    """A line across in a verdict's ground, its sign at the left: a live sentence under a drawing."""
    ink, ground = look.verdict(verdict)
    row = ft.Row([sign(look, verdict, 44, 32), ft.Container(content, expand=True)], spacing=12)
    return ft.Container(
        row,
        bgcolor=ground,
        border=ft.Border.only(top=ft.BorderSide(2, ink)),
        padding=ft.Padding.symmetric(horizontal=MARGIN, vertical=9),
    )


def verdict_word(look: Look, verdict: Sign, word: str) -> ft.Control:
    """Sign and word in a line, for tables and lists."""
    ink, _ = look.verdict(verdict)
    return ft.Row([sign(look, verdict, 36, 26), text(look, word, "note", ink, bold=True)], spacing=GRID, tight=True)


def tally(look: Look, counts: list[tuple[Sign, str]]) -> ft.Control:
    """Counts beside their signs: `8 clear`, `1 to tape`."""
    one = [ft.Row([sign(look, v, 30, 22), text(look, words, "note", bold=True)], spacing=5, tight=True) for v, words in counts]
    return ft.Row([*one, gap(0)], spacing=MARGIN, run_spacing=4, wrap=True)
