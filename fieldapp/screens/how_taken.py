"""A leaf over the walk: how the figure was taken, over what the rise was read, what the glass follows."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import flet as ft

from fieldapp.parts import taken_pictures as pictures
from fieldapp.parts.action import main_action, small_action
from fieldapp.parts.choice import Choice
from fieldapp.parts.figure import still_figure
from fieldapp.parts.head import tag_head
from fieldapp.parts.leaf import over_leaf
from fieldapp.parts.page import mid, mid_sheet
from fieldapp.parts.space import column, gap, inset
from fieldapp.parts.text import heading, text
from fieldapp.parts.tile import Draw, Tiles
from fieldapp.screens import ROUTES
from fieldapp.screens import how_taken_model as model
from fieldapp.screens.asking import ASKED, asking
from fieldapp.screens.name_pick import NamePick
from fieldapp.screens.question_view import SLOPE_EXAMPLES, start_mark
from fieldapp.screens.screen import Screen
from fieldapp.screens.settings_model import crew_of
from fieldapp.screens.taken_kept import keep_taken, kept_taken
from fieldapp.screens.typing_state import Typing
from fieldapp.screens.walk_model import names_offered
from fieldapp.theme import GRID, MARGIN
from fieldapp.words import say
from measure.errors import SpanbookError

if TYPE_CHECKING:
    from fieldapp.app import App

_TILE, _FOLLOW = 128, 168
OF_THE_WALK = ("span", "rise", "base-rise")


class HowTakenScreen(Screen):
    """what: the question whose taking is said. Its half-typed figure stays in sight."""

    def __init__(self, app: App, job: str, bay: str, what: str) -> None:
        super().__init__(app)
        self.id, self.live, self.tag, self.what = job, app.desk.job(job), bay, what
        if bay not in self.live.book.bays or what not in ASKED:
            raise SpanbookError(say("walk.no_bay", tag=bay, job=self.live.name))
        self.title, self.up = self.live.name, ("walk", {"job": job, "bay": bay})
        self.run = self.live.bay(bay).run
        self._busy = False
        self._choosing = model.Choosing.begin(self.live, self.run, kept_taken(app, job), app.draft)

    # ---- what is drawn -------------------------------------------------------------------------------------------------
    def view(self) -> ft.Control:
        look = mid(self.app.look)
        self._question = asking(self.live, self.tag, self.what, kept_taken(self.app, self.id))
        self._counts = text(look, "", "lead", bold=True)
        self._told = text(look, "", "body", look.ink2)
        parts = self._rise() if model.is_rise(self.what) else self._span()
        self._tell()
        head = tag_head(look, self._question.tag, self._question.what, "", say("app.back"), lambda _: self.app.back())
        above = ft.Container(column([head, *self._figure_line()]), bgcolor=look.paper)
        main = main_action(look, say("taken.it_was_so"), self._keep, height=64)
        return mid_sheet(self.app.look, [above, *parts], [main], ground=look.leaf)

    def _figure_line(self) -> list[ft.Control]:
        """The figure as typed and, for a span, what it counts as: it changes with every tap below."""
        look = mid(self.app.look)
        shown = Typing.begin(self._question, *self._drafts()).shown()
        if not shown.whole and shown.fraction is None or model.is_rise(self.what):
            return [inset(self._counts, bottom=GRID)]
        figure = still_figure(look, shown.whole, shown.fraction, shown.unit, shown.says, look.width * 0.56, 60)
        counts = ft.Column([text(look, say("taken.counts"), "note", look.ink2), self._counts], spacing=0, tight=True)
        arrow = ft.Icon(ft.Icons.ARROW_FORWARD, size=22, color=look.ink2)
        row = ft.Row([figure, arrow, counts], spacing=12, alignment=ft.MainAxisAlignment.CENTER, wrap=look.big)
        return [inset(row, bottom=10)]

    def _drafts(self) -> tuple[str, str]:
        """The figure that is being typed, and its side."""
        where = self._walk_address()
        return self.app.draft_of(self._question.key, where), self.app.draft_of(f"{self._question.key} side", where)

    def _span(self) -> list[ft.Control]:
        look, span = mid(self.app.look), self._choosing.span
        draws: dict[str, Draw] = {
            "hook": pictures.hooked, "start": pictures.from_mark(start_mark(self.live.units)), "case": pictures.cased, "laser": pictures.laser,
        }  # fmt: skip
        self._hows = Tiles(look, [(v, w, draws[v]) for v, w in model.span_options(self.live)], span.how, self._pick_how, h=_TILE)
        lays: list[tuple[str, str, Draw]] = [
            ("level", say("walk.lay_level"), pictures.level_lay), ("along", say("walk.lay_along"), pictures.along_lay),
        ]  # fmt: skip
        self._lays = Tiles(look, lays, span.lay or None, self._pick_lay, h=_TILE)
        again = small_action(look, say("taken.another_case"), lambda _: self._tool("case-length"))
        self._tool_row = ft.Container(inset(again, GRID, GRID, bottom=GRID), visible=span.how == "case" and bool(span.case))
        body = [self._hows.control, self._note(), self._tool_row, self._part(say("taken.lay")), self._lays.control, gap(MARGIN)]
        return [over_leaf(look, say("taken.how"), body)]

    def _rise(self) -> list[ft.Control]:
        look, rise = mid(self.app.look), model.shown_rise(self.what, self._choosing.rise)
        draws: dict[str, Draw] = {
            "centres": pictures.over_tops, "faces": pictures.over_faces, "level": pictures.over_level,
            "slope": pictures.as_slope(SLOPE_EXAMPLES[rise.form]),
        }  # fmt: skip
        self._overs = Tiles(look, [(v, w, draws[v]) for v, w in model.rise_options(self.what)], rise.over, self._pick_over, h=_TILE)
        self._forms = Choice(look, model.form_options(self.live), rise.form, self._pick_form)
        again = small_action(look, say("taken.another_level"), lambda _: self._tool("level-length"))
        self._tool_row = ft.Container(inset(again, GRID, GRID, bottom=GRID), visible=rise.over == "level" and bool(rise.level))
        self._form_row = ft.Container(inset(self._forms.control, 0, 0, bottom=GRID), visible=rise.over == "slope")
        follows: list[tuple[str, str, Draw]] = [
            (v, w, pictures.follows_posts if v == "posts" else pictures.follows_slope) for v, w in model.follow_options()
        ]
        self._follows = Tiles(look, follows, self._choosing.follows, self._pick_follows, h=_FOLLOW)
        self._follow_told = text(look, "", "body", look.ink2)
        crew = crew_of(self.app.desk.setting("crew", []))
        names = names_offered(self.live, (p.name for p in crew))
        self._who = NamePick(self.app, names, say("change.who"), self._named, self.app.person)
        self._who_row = ft.Container(self._who.control, visible=self._asks_who(), padding=ft.Padding.only(bottom=MARGIN))
        body = [
            self._overs.control, self._note(), self._form_row, self._tool_row, self._part(say("taken.follows", run=self.run)),
            self._follows.control, inset(self._follow_told, top=GRID, bottom=GRID), self._who_row,
        ]  # fmt: skip
        return [over_leaf(look, say("taken.over_what"), body)]

    def _note(self) -> ft.Control:
        return inset(self._told, top=GRID, bottom=GRID)

    def _part(self, words: str) -> ft.Control:
        return inset(heading(mid(self.app.look), words), top=GRID, bottom=GRID)

    def _tell(self) -> None:
        """The line above and the words under the tiles follow the choice."""
        if model.is_rise(self.what):
            typed = model.typed_rise(Typing.begin(self._question, *self._drafts()))
            self._counts.value = typed or say("taken.nothing_typed")
            self._told.value = model.rise_told(self.live, model.shown_rise(self.what, self._choosing.rise))
            self._follow_told.value = say(f"taken.follows_{self._choosing.follows or 'unsaid'}")
            return
        typed = self._drafts()[0]
        unread = say("taken.unread") if typed else say("taken.nothing_typed")
        self._counts.value = model.counts(self.live, typed, self._choosing.span) or unread
        self._told.value = model.span_told(self.live, self._choosing.span)

    def _walk_address(self) -> str:
        """Where the figure is being typed."""
        if self.what in OF_THE_WALK:
            return ROUTES["walk"].address(job=self.id, bay=self.tag)
        return ROUTES["read"].address(job=self.id, bay=self.tag, what=self.what)

    # ---- what a tap chooses --------------------------------------------------------------------------------------------
    def _chose(self, choosing: model.Choosing, *parts: ft.Control) -> None:
        self._choosing = choosing
        self.app.keep_draft(choosing.draft)
        self._tell()
        self.update(self._counts, self._told, *parts)

    def _pick_how(self, how: str) -> None:
        span = replace(self._choosing.span, how=how)  # type: ignore[arg-type]
        self._hows.show(how)
        self._tool_row.visible = how == "case" and bool(span.case)
        self._chose(replace(self._choosing, span=span), self._hows.control, self._tool_row)

    def _pick_lay(self, lay: str) -> None:
        """A second tap takes it back: it is not said then."""
        lay = "" if lay == self._choosing.span.lay else lay
        self._lays.show(lay or None)
        self._chose(replace(self._choosing, span=replace(self._choosing.span, lay=lay)), self._lays.control)  # type: ignore[arg-type]

    def _pick_over(self, over: str) -> None:
        rise = replace(self._choosing.rise, over=over)  # type: ignore[arg-type]
        self._overs.show(over)
        self._tool_row.visible, self._form_row.visible = over == "level" and bool(rise.level), over == "slope"
        self._chose(replace(self._choosing, rise=rise), self._overs.control, self._tool_row, self._form_row)

    def _pick_form(self, form: str) -> None:
        self._forms.show(form)
        self._chose(replace(self._choosing, rise=replace(self._choosing.rise, form=form)), self._forms.control)  # type: ignore[arg-type]

    def _pick_follows(self, follows: str) -> None:
        self._follows.show(follows)
        self._choosing = replace(self._choosing, follows=follows)
        self._who_row.visible = self._asks_who()
        self._chose(self._choosing, self._follows.control, self._follow_told, self._who_row)

    def _changes_plan(self) -> bool:
        """What the glass follows stands in the plan, and a change of the plan has a name."""
        follows = self._choosing.follows
        return model.is_rise(self.what) and bool(follows) and follows != self.live.book.runs[self.run].rack_follows

    def _asks_who(self) -> bool:
        return self._changes_plan() and not self.app.person

    def _named(self) -> None:
        """A name was chosen; nothing else waits for it."""

    def _tool(self, what: str) -> None:
        self.app.go("read", job=self.id, bay=self.tag, what=what)

    async def _keep(self, event: ft.Event[ft.Control]) -> None:
        changes = self._changes_plan()
        wrong = self._who.refused() if changes else ""
        if wrong:
            self.app.tell(wrong)
        if wrong or self._busy:
            return
        self._busy = True
        try:
            await keep_taken(self.app, self.id, model.with_choice(kept_taken(self.app, self.id), self.run, self.what, self._choosing))
            follows = self._choosing.follows
            if changes and follows:
                words = model.plan_following(self.app.desk.words(self.id), self.run, follows)
                await self.app.desk.keep_plan(self.id, words, self._who.name)
            missing = self._choosing.missing(self.what)
            self.app.keep_draft("")
            self.app.keep_draft_of("name", "")
            self.app.back()
            if missing:  # asked from where the figure stands, so that the way back leads there
                self._tool(missing)
        finally:
            self._busy = False
