"""The gallery's boards of plan, post system, tiles, samples and the guide, on an invented job."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import flet as ft

from fieldapp.parts import guide_phones, guide_pictures, post_pictures, reading_pictures, sample_pictures, taken_pictures
from fieldapp.parts.action import main_action
from fieldapp.parts.gallery_book import Show, nothing, signal
from fieldapp.parts.head import title_head
from fieldapp.parts.leaf import over_leaf
from fieldapp.parts.page import page_sheet
from fieldapp.parts.plan_picture import PlanBay, PlanPicture, PlanRun, PlanWords
from fieldapp.parts.post_section import Asked, SystemFigures, section_picture
from fieldapp.parts.row import open_row
from fieldapp.parts.space import gap, inset
from fieldapp.parts.stroke import drawing
from fieldapp.parts.text import heading, text
from fieldapp.parts.tile import Draw, Tiles
from fieldapp.parts.verdict import small_band
from fieldapp.theme import Look


def _bays(name: str, spacings: Sequence[float], signs: str, gate: int = 0) -> tuple[PlanBay, ...]:
    by = {"c": "clear", "q": "query", "h": "hold", "t": "todo"}
    return tuple(
        PlanBay(f"{name}{i}", s, by[sign], i != gate, "gate") for i, (s, sign) in enumerate(zip(spacings, signs, strict=True), 1)
    )


JOB = (
    PlanRun("A", _bays("A", (44, 44, 44), "ccq"), 135, "end", "corner"),
    PlanRun("B", _bays("B", (45, 45, 48, 45), "cchc"), 90, "corner", "corner"),
    PlanRun("C", _bays("C", (44, 44, 44, 40, 44), "ccctt", 4), None, "corner", "wall"),
)
WORDS = PlanWords("deck", "wall")


def plan(signs: bool = False, **more: object) -> Show:
    def show(look: Look, page: ft.Page) -> ft.Control:
        picture = PlanPicture(look, min(look.width, 560), 322, WORDS, nothing, signs)
        runs = JOB if not more.get("ghost") else JOB[:2]
        picture.show(runs, "Plan from above", **more)
        top = title_head(look, "Orchard deck", "seen from above", "Back", nothing, [signal(look).control])
        straight = PlanPicture(look, min(look.width, 560), 120, WORDS)
        straight.show(JOB[1:2], "One straight run")
        return page_sheet(look, [top, picture.control, straight.control], [main_action(look, "The plan is right", nothing)])

    return show


def section(ask: Asked | None) -> Show:
    def show(look: Look, page: ft.Page) -> ft.Control:
        room = look.on(min(look.width, 560))
        band = small_band(look, "clear", text(look, "Best allowance 1 5/16. Yours leaves 1/4 in each way."))
        return page_sheet(
            look, [gap(16), section_picture(room, SystemFigures(), ask, says="Two posts cut through"), gap(16), band]
        )

    return show


def tiles(title: str, options: list[tuple[str, str, Draw]], cols: int = 2, h: float = 128) -> Show:
    def show(look: Look, page: ft.Page) -> ft.Control:
        room = look.on(min(look.width, 560))
        made = Tiles(room, options, options[0][0], lambda v: (made.show(v), made.control.update()), cols, h)
        return page_sheet(
            look, [gap(40), over_leaf(look, title, [made.control, gap(12)])], [main_action(look, "It was so", nothing)]
        )

    return show


def rows(look: Look, page: ft.Page) -> ft.Control:
    r = reading_pictures
    each = [
        ("second tape", "40 7/16 in", "Started anew, by the other person.", r.second_tape),
        ("top span", "", "The same two posts, at the head.", r.top_span),
        ("plumb of a post", "P3 done", "Does it lean? A level held against it.", r.plumb()),
        ("diagonals", "", "Foot to a mark, both ways.", r.diagonals),
        ("run overall", "", "One pull, outside to outside.", r.overall),
        ("post was moved", "", "Its readings grow old: tape again.", r.moved_post),
        ("note", "", "Words that stay with this bay.", r.note),
        ("rise", "3/8 in", "Which post stands higher, and by how much.", r.rise),
    ]
    lines = [open_row(look, n, v, s, drawing(d(look, 76, 52), 76, 52), nothing, 79) for n, v, s, d in each]
    return page_sheet(
        look,
        [inset(heading(look, "More readings", "title"), top=12, bottom=10), *lines],
        [main_action(look, "Go on: A3, rise", nothing)],
    )


def large(*draws: tuple[Draw, float]) -> Show:
    def show(look: Look, page: ft.Page) -> ft.Control:
        w = min(look.width, 560)
        return page_sheet(look, [part for draw, h in draws for part in (drawing(draw(look, w, h), w, h), gap(12))])

    return show


_T, _P, _S = taken_pictures, post_pictures, sample_pictures
_WORDS = reading_pictures.PlumbWords("tape this gap", ("over the level's", "length of 24 in"), ("lean drawn", "10 times"))
BOARDS: dict[str, Callable[[Look, ft.Page], ft.Control]] = {
    "/plan": plan(),
    "/plan-signs": plan(True),
    "/plan-chosen": plan(chosen="C4"),
    "/plan-lit": plan(lit="C"),
    "/plan-turn": plan(ghost=(90, 170)),
    "/system": section(None),
    "/system-face": section("face"),
    "/system-groove": section("groove"),
    "/system-allowance": section("allowance"),
    "/system-bite": section("bite"),
    "/system-play": section("play"),
    "/system-spacing": section("spacing"),
    "/taken-span": tiles(
        "How was it taken?",
        [
            ("a", "hook on the face", _T.hooked),
            ("b", "started at 1 in", _T.from_mark("1")),
            ("c", "case in the opening", _T.cased),
            ("d", "laser", _T.laser),
            ("e", "two marks", _T.two_marks),
            ("f", "bent in the corner", _T.bent),
            ("g", "level", _T.level_lay),
            ("h", "along the slope", _T.along_lay),
        ],
    ),
    "/taken-rise": tiles(
        "What was the rise taken over?",
        [
            ("a", "over the post tops", _T.over_tops),
            ("b", "between the faces", _T.over_faces),
            ("c", "over a level", _T.over_level),
            ("d", "as a slope", _T.as_slope()),
            ("e", "the posts", _T.follows_posts),
            ("f", "the slope", _T.follows_slope),
        ],
        2,
        150,
    ),
    "/posts": tiles(
        "Its right end",
        [
            ("a", "end post", _P.end_post),
            ("b", "corner", _P.corner_post),
            ("c", "at a wall", _P.wall_post),
            *((str(v), f"{v}°", _P.turn(v)) for v in (90, 135, 180, 225, 270)),
            ("o", "another", _P.other()),
            ("8", "8 mm", _P.pane_edge(8)),
            ("10", "10 mm", _P.pane_edge(10)),
            ("13", "13.5 mm", _P.laminated_edge(13.5)),
        ],
        3,
        128,
    ),
    "/samples": tiles(
        "Settings",
        [
            ("a", "sun", _S.light("sun")),
            ("b", "shade", _S.light("shade")),
            ("c", "left", _S.hand("left", "Keep")),
            ("d", "right", _S.hand("right", "Keep")),
            ("e", "twice", _S.letters(38)),
            ("f", "large keys", _S.key_size(True)),
            ("k", "keys", _S.key_size(False)),
            ("g", "to 1/16 in", _S.scale("in")),
            ("h", "to 1/32 in", _S.scale("in", 2)),
            ("i", "to 1 mm", _S.scale("mm")),
            ("j", "to 0.5 mm", _S.scale("mm", 2)),
            ("l", "tape", _S.role_tape),
            ("m", "scribe", _S.role_scribe),
            ("n", "office", _S.role_office),
        ],
        2,
        104,
    ),
    "/rows": rows,
    "/large-readings": large(
        (reading_pictures.plumb("left", _WORDS), 160),
        (reading_pictures.plumb("right", _WORDS), 160),
        (reading_pictures.run_overall(6, "outside", "hook outside", "read outside"), 150),
        (reading_pictures.run_rise(5, "right", "not to scale"), 150),
    ),
    "/guide": large(
        (guide_pictures.foot_of_post, 350),
        (guide_pictures.straightedge_over_posts, 300),
        (guide_pictures.filling_bay(0.84, "13.4 of 15.9 MB"), 108),
    ),
    "/guide-phones": large(
        (guide_phones.onto_the_phone, 206),
        (guide_phones.what_it_keeps, 206),
        (guide_phones.both_ends_of_the_day, 206),
    ),
}
