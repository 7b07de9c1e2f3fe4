"""Heads of pages: the way back, where one is, and whether there is a signal and what that means."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from fieldapp.parts.action import sign_action
from fieldapp.parts.here import person_plates
from fieldapp.parts.run_strip import RunStrip, StripBay
from fieldapp.parts.text import text
from fieldapp.theme import Look

HEAD = 56
_SIGNAL = 118
_WIDE_EM = 0.6
"""A letter of a name, its tag in bold, on average."""
Click = Callable[[ft.Event], object]


class Signal:
    """The connection in plain sight: `no signal` over `kept here`. `show` with nothing to say takes it away."""

    def __init__(self, look: Look, above: str, below: str, icon: ft.IconData = ft.Icons.SIGNAL_CELLULAR_OFF) -> None:
        size = 14 if not look.big else 20
        self._lines = [
            ft.Text(s, size=size, color=look.ink2, style=ft.TextStyle(height=1.1), no_wrap=True) for s in (above, below)
        ]
        self._icon = ft.Icon(icon, size=18, color=look.ink2)
        row = ft.Row([self._icon, ft.Column(list(self._lines), spacing=0, tight=True)], spacing=4, tight=True)
        self.control = ft.Semantics(container=True, live_region=True, content=row, visible=bool(above))

    def show(self, above: str, below: str, icon: ft.IconData | None = None) -> None:
        """Set the two short lines. The caller updates `control`."""
        self._lines[0].value, self._lines[1].value = above, below
        if icon is not None:
            self._icon.icon = icon
        self.control.visible = bool(above)


class WalkHead:
    """Way back; the run itself, tapped for the review; the signal. On low phones the strip gives way to `A3 span`.

    strip_says: spoken for the strip's button (`Review`). On the strip's bays stand the letters of the others who are there; who
    they are is spoken. room: what the name may take of large letters.
    """

    def __init__(
        self, look: Look, back_says: str, on_back: Click, strip_says: str = "", on_strip: Click | None = None,
        signal: Signal | None = None,
    ) -> None:  # fmt: skip
        self._look, self._seen = look, ("", "", "", "")
        self.room = look.width - HEAD - 24
        room = look.width - HEAD - (_SIGNAL if signal and not look.big else 24)
        self._strip = RunStrip(look, [], min(room, 420), 28)
        self._tag, self._what = text(look, "", "title", bold=True), text(look, "", "title", no_wrap=True)
        place = ft.Semantics(identifier="place", container=True, content=self._tag)
        self._here = ft.Container(visible=False)
        name = ft.Row([place, self._what, self._here], spacing=8, tight=True)
        self._others = ft.Semantics(
            identifier="others", container=True, live_region=True, exclude_semantics=True, label="", content=ft.Container(width=1, height=1),
            visible=False,
        )  # fmt: skip
        strip_in = ft.Container(self._strip.control, on_click=on_strip, padding=ft.Padding.only(top=4), height=52)
        strip = ft.Semantics(button=bool(on_strip) or None, label=strip_says or None, content=strip_in)
        tail = [signal.control] if signal and not look.big else []
        self._name, self._strip_in = name, strip
        name.visible, strip.visible = look.named, not look.named
        self.control = ft.Container(
            ft.Row(
                [sign_action(look, ft.Icons.ARROW_BACK, back_says, on_back), name, strip, ft.Container(expand=True), self._others, *tail],
                spacing=0, vertical_alignment=ft.CrossAxisAlignment.CENTER,
            ),
            height=HEAD, padding=ft.Padding.only(left=4, right=12),
        )  # fmt: skip

    def show(
        self, bays: list[StripBay], now: str | None, what: str = "", others: str = "", named: bool | None = None
    ) -> list[ft.Control]:
        """The run, the bay being measured and what is asked of it; the controls to update. others: who is on which bay, spoken.

        named: the name in the place of the strip, or the strip again; left out, as before.
        """
        here = next((bay.here for bay in bays if bay.tag == now), "")
        named = self._name.visible if named is None else named
        turned = named != self._name.visible
        seen = (now or "", what, others, here)
        self._name.visible, self._strip_in.visible = named, not named
        if not self._strip.show(bays, now) and seen == self._seen and not turned:
            return []
        self._seen = seen
        if self._look.big:  # one line, whatever is asked
            fits = self.room / (_WIDE_EM * max(len(f"{now or ''} {what}"), 1))
            self._tag.size = self._what.size = min(self._look.size("title"), fits)
        self._tag.value, self._what.value, self._others.label = now or "", what, others
        self._others.visible = bool(others)
        if self._here.visible or here:
            self._here.visible, self._here.content = bool(here), person_plates(self._look, here)
        return [self.control]


def title_head(
    look: Look,
    name: str,
    under: str = "",
    back_says: str = "",
    on_back: Click | None = None,
    tail: list[ft.Control] | None = None,
) -> ft.Control:
    """A page's name over a note, the way back before it, a signal, a badge or a count after it."""
    back = [sign_action(look, ft.Icons.ARROW_BACK, back_says, on_back)] if on_back else []
    words: list[ft.Control] = [ft.Semantics(header=True, content=text(look, name, "title", bold=True))]
    if under:
        words.append(text(look, under, "note", look.ink2))
    if look.big:
        words += tail or []
    middle = ft.Column(words, spacing=0, expand=True, tight=True)
    row = ft.Row(
        [*back, middle, *([] if look.big else tail or [])], spacing=4,
        vertical_alignment=ft.CrossAxisAlignment.START if look.big else ft.CrossAxisAlignment.CENTER,
    )  # fmt: skip
    return ft.Container(row, padding=ft.Padding.only(left=4 if back else 16, right=12, top=4, bottom=4))


def tag_head(
    look: Look, tag: str, what: str, count: str = "", back_says: str = "", on_back: Click | None = None, under: str = "",
    tail: list[ft.Control] | None = None,
) -> ft.Control:  # fmt: skip
    """The way back, a bay's tag in bold and what is done with it, a note below; a count (`5 of 5`) or a badge at the right."""
    back = [sign_action(look, ft.Icons.ARROW_BACK, back_says, on_back)] if on_back else []
    place = ft.Semantics(identifier="place", container=True, content=text(look, tag, "title", bold=True))
    size = look.size("title")
    if look.big:  # one line under the tag, as long as that is no smaller than a note
        size = max(min(size, (look.width - HEAD - 16) / (_WIDE_EM * max(len(what), 1))), look.size("note"))
    lines: list[ft.Control] = [ft.Row([place, text(look, what, "title", size=size)], spacing=8, run_spacing=0, wrap=True)]
    lines += [text(look, under, "note", look.ink2)] if under else []
    last = list(tail or []) + ([text(look, count, "body", look.ink2)] if count else [])
    if look.big:
        lines += last
    row = ft.Row(
        [*back, ft.Column(lines, spacing=0, expand=True, tight=True), *([] if look.big else last)], spacing=4,
        vertical_alignment=ft.CrossAxisAlignment.START if look.big else ft.CrossAxisAlignment.CENTER,
    )  # fmt: skip
    return ft.Container(row, height=None if look.big else HEAD, padding=ft.Padding.only(left=4 if back else 16, right=12))
