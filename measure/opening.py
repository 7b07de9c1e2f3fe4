"""One bay's opening: the readings that count there and what follows from them, up to the pane that would be cut."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from measure import geometry, uncertainty
from measure.book import Book
from measure.geometry import Exact, Leaning, Sloped
from measure.length import NM_PER_MM, Length
from measure.panel import Panel, cut_panel
from measure.plan import Bay, RackFollows
from measure.reading import Reading
from measure.rounding import round_to_step
from measure.slope import Slope
from measure.system import DEFAULT_GROOVES
from measure.uncertainty import SpanDoubt

LEAST_UPRIGHT = 1e-6
"""What 1 − tan θ · tan α must at least be, so that the span square to leaning posts is one."""


@dataclass(frozen=True, slots=True)
class Opening:
    """A bay whose span and rise count. Lengths named _nm are exact where they can be, as seen from the run's side.

    span_nm: S that the width is made from (level, square to the posts). level_nm: S level, between the feet.
    top_nm: the top span in the same frame, None where not taken. rack_nm, other_rack_nm: signed R by what the glass
    follows and by the other rule. rests: every reading that span and rack rest on, plumb ones too. turn_deg, extra_nm: φ and d(1/cos φ − 1) of the left and the right edge.
    """

    bay: Bay
    span_reading: Reading
    rise_reading: Reading
    rests: tuple[Reading, ...]
    read_back: Reading | None
    doubt: SpanDoubt
    sloped: Sloped
    lean: Leaning
    faces_nm: Exact
    span_nm: Exact
    top_nm: Exact | None
    turn_deg: tuple[float, float]
    extra_nm: tuple[Exact, Exact]
    allowance_nm: Exact
    width_nm: Exact
    rack_follows: RackFollows
    rack_nm: Exact
    other_rack_nm: Exact
    rack_without_lean_nm: Exact
    rise_u_tan: float
    panel: Panel
    finish_face: str | None
    hold_margin_nm: Exact
    fit_margin_nm: Exact
    margin_u_mm: float

    @property
    def level_nm(self) -> Exact:
        return self.lean.feet

    @property
    def margin_nm(self) -> Exact:
        """The smaller of the two grip margins: M."""
        return min(self.hold_margin_nm, self.fit_margin_nm)

    @property
    def margin_side(self) -> str:
        """`hold` or `fit`: which margin decides."""
        return "hold" if self.hold_margin_nm <= self.fit_margin_nm else "fit"

    @property
    def tan(self) -> float:
        return float(self.sloped.tan)


def rise_reading(book: Book, bay: Bay) -> Reading | None:
    """The rise that counts: a base-rise replaces a rise; a trimmed post's bay needs one."""
    base = book.counting("bay", bay.tag, "base-rise")
    if base is not None or needs_base_rise(book, bay):
        return base
    return book.counting("bay", bay.tag, "rise")


def needs_base_rise(book: Book, bay: Bay) -> bool:
    return book.posts[bay.left].trimmed or book.posts[bay.right].trimmed


def signed(reading: Reading, nm: Exact) -> Exact:
    """A rise with its sign: negative where the left foot is higher."""
    return -nm if reading.high == "left" else nm


def slope_of(span: Reading, rise: Reading, faces: Exact, along: bool | None = None) -> Sloped | None:
    """S and θ of a bay from a span and a rise; None where a rise between faces is as long as the tape along it.

    along: which way the tape lay; None takes it from the span.
    """
    read = span.corrected.nm
    tilted = span.taped == "along" if along is None else along
    if isinstance(rise.value, Slope):
        return geometry.from_tan(read, tilted, signed(rise, rise.value.tan), faces)
    height = int(signed(rise, rise.corrected.nm))
    if isinstance(rise.over, Length):
        return geometry.from_tan(read, tilted, Fraction(height, rise.over.nm), faces)
    if (rise.over or ("faces" if rise.what == "base-rise" else "centres")) == "faces":
        return geometry.from_rise_over_faces(read, tilted, height, faces)
    return geometry.from_rise_over_centres(read, tilted, height, faces)


def rise_u_tan(book: Book, rise: Reading, sloped: Sloped, faces: Exact) -> float:
    """Standard uncertainty of tan θ."""
    if isinstance(rise.value, Slope):
        return uncertainty.slope_u_tan(rise.value.half_digit_tan, float(sloped.tan))
    base = rise_base_mm(rise, sloped, faces)
    return uncertainty.rise_u_mm(book.job.tape.division, base) / base


def rise_base_mm(rise: Reading, sloped: Sloped, faces: Exact) -> float:
    """The level length that a rise was read over, mm."""
    if isinstance(rise.over, Length):
        return rise.over.mm
    faced = (rise.over or ("faces" if rise.what == "base-rise" else "centres")) == "faces"
    return float(sloped.span if faced else sloped.span + faces) / NM_PER_MM


def lean_angle(reading: Reading) -> float:
    """A post's lean in radians, positive where its head stands to the right."""
    if not isinstance(reading.value, Length) or not isinstance(reading.over, Length):
        return 0.0
    angle = math.atan2(reading.corrected.nm, reading.over.nm)
    return -angle if reading.toward == "left" else angle


def plumbs(book: Book, bay: Bay) -> tuple[Reading, Reading] | None:
    """The plumb readings of both posts; None unless both count."""
    left, right = book.plumb(bay.left, bay.run), book.plumb(bay.right, bay.run)
    return None if left is None or right is None else (left, right)


def mean_lean(book: Book, bay: Bay) -> float:
    """α: the mean lean of both posts, 0 unless both were read."""
    read = plumbs(book, bay)
    return 0.0 if read is None else (lean_angle(read[0]) + lean_angle(read[1])) / 2


def turn_at(book: Book, post_id: str) -> float:
    """φ of a panel at a post, degrees."""
    post = book.posts[post_id]
    turning = book.job.system.turning.get(post.kind)
    grooves = turning.grooves if turning is not None and turning.grooves is not None else DEFAULT_GROOVES.get(post.kind)
    return geometry.turn_of_panel(post.turned_to, grooves, post.kind == "wall")


def open_bay(book: Book, bay: Bay) -> Opening | None:
    """Solve a bay; None while its span or rise does not count, or they cannot belong together."""
    span, rise = book.counting("bay", bay.tag, "span"), rise_reading(book, bay)
    if span is None or rise is None or span.corrected.nm <= 0:
        return None
    faces = geometry.mean_faces(book.face(bay.left).nm, book.face(bay.right).nm)
    sloped = slope_of(span, rise, faces)
    # Posts that lie along the slope, or beyond it, hold no panel: cos(θ + α) is no longer above 0.
    if sloped is None or 1.0 - float(sloped.tan) * math.tan(mean_lean(book, bay)) < LEAST_UPRIGHT:
        return None
    return _solve(book, bay, span, rise, faces, sloped)


def _solve(book: Book, bay: Bay, span: Reading, rise: Reading, faces: Exact, sloped: Sloped) -> Opening:
    job, system = book.job, book.job.system
    lean = geometry.leaning(sloped, span.corrected.nm, span.taped == "along", mean_lean(book, bay))
    turns = (turn_at(book, bay.left), turn_at(book, bay.right))
    axis = 0 if system.turn_axis is None else system.turn_axis.nm
    extra = (geometry.turned_edge(turns[0], axis), geometry.turned_edge(turns[1], axis))
    allowance = system.allowance.nm + extra[0] + extra[1]
    width = lean.square + allowance
    follows: RackFollows = book.runs[bay.run].rack_follows or "posts"
    other: RackFollows = "slope" if follows == "posts" else "posts"
    rack = geometry.rack(follows, sloped, lean, faces, width)
    plumb = geometry.leaning(sloped, span.corrected.nm, span.taped == "along", 0.0)
    height = bay.height or job.glass.height
    step = job.order_step
    panel = cut_panel(
        bay.shape, round_to_step(width, step), round_to_step(height.nm, step), round_to_step(rack, step), job.glass.thickness
    )
    doubt = uncertainty.span_doubt(job.tape, span.corrected.nm, span.how, span.case is not None, span.start is not None)
    top = _top_span(book, bay, rise, faces, lean.alpha)
    low, high = _span_range(lean.square, top, doubt)
    turned = extra[0] + extra[1]
    return Opening(
        bay=bay,
        span_reading=span,
        rise_reading=rise,
        rests=(span, rise, *(plumbs(book, bay) or ())),
        read_back=book.read_back(span),
        doubt=doubt,
        sloped=sloped,
        lean=lean,
        faces_nm=faces,
        span_nm=lean.square,
        top_nm=top,
        turn_deg=turns,
        extra_nm=extra,
        allowance_nm=allowance,
        width_nm=width,
        rack_follows=follows,
        rack_nm=rack,
        other_rack_nm=geometry.rack(other, sloped, lean, faces, width),
        rack_without_lean_nm=rack if not lean.alpha else geometry.rack(follows, sloped, plumb, faces, plumb.square + allowance),
        rise_u_tan=rise_u_tan(book, rise, sloped, faces),
        panel=panel,
        finish_face=job.glass.finish_face if bay.finish_face is None else bay.finish_face or None,
        hold_margin_nm=panel.width.nm - (high + turned) - system.groove_depth.nm - system.least_bite.nm,
        fit_margin_nm=(low + turned) + 2 * system.groove_depth.nm - system.least_play.nm - panel.width.nm,
        margin_u_mm=uncertainty.margin_u_mm(job.glass.size_tolerance, doubt.u),
    )


def _top_span(book: Book, bay: Bay, rise: Reading, faces: Exact, alpha: float) -> Exact | None:
    """The top span, level and square to the posts as the base span is; it uses the foot's slope."""
    top = book.counting("bay", bay.tag, "top-span")
    if top is None:
        return None
    span = book.counting("bay", bay.tag, "span")
    foot = None if span is None else slope_of(span, rise, faces)
    if foot is None:
        return None
    read, along = top.corrected.nm, top.taped == "along"
    sloped = geometry.from_tan(read, along, foot.tan, faces)
    return geometry.leaning(sloped, read, along, alpha).square


def _span_range(base: Exact, top: Exact | None, doubt: SpanDoubt) -> tuple[Exact, Exact]:
    """S_min and S_max: the top counts only where it differs by more than two honest readings on one tape do."""
    if top is None or geometry.magnitude(top - base) <= doubt.same_tape_difference * NM_PER_MM:
        return base, base
    return min(base, top), max(base, top)
