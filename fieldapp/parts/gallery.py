"""Every part on invented values, an address each:  python -m fieldapp.parts.gallery [port]

`/walk-span?theme=shade&text=2&hand=left&large=1`; `/` lists the addresses. For looking at the parts and for pictures of them
(tests/shots.py); nothing is computed or kept, and no figure here is a check value.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from urllib.parse import parse_qs, urlparse

import flet as ft

from fieldapp.parts.action import action
from fieldapp.parts.page import page_sheet
from fieldapp.parts.space import inset
from fieldapp.theme import FONT, Look

ASSETS = Path(__file__).resolve().parents[1] / "assets"
Show = Callable[[Look, ft.Page], ft.Control]


def boards() -> dict[str, Show]:
    """Addresses and what they show."""
    from fieldapp.parts import gallery_book, gallery_plan, gallery_walk

    return {**gallery_walk.BOARDS, **gallery_book.BOARDS, **gallery_plan.BOARDS}


def look_of(route: str, width: float, height: float) -> tuple[str, Look]:
    """The path and the look that an address asks for."""
    url = urlparse(route)
    asked = {key: values[0] for key, values in parse_qs(url.query).items()}
    look = Look(
        theme="shade" if asked.get("theme") == "shade" else "sun", text=float(asked.get("text", "1")),
        hand="left" if asked.get("hand") == "left" else "right", large_keys=asked.get("large") == "1", width=width, height=height,
    )  # fmt: skip
    return url.path, look


def _contents(look: Look, page: ft.Page) -> ft.Control:
    go = lambda path: lambda _: page.navigate(path)  # noqa: E731
    return page_sheet(look, [inset(action(look, path, go(path), height=48, role="body"), bottom=8) for path in boards()])


def main(page: ft.Page) -> None:
    """One session of the gallery."""
    page.padding = page.spacing = 0
    page.theme = page.dark_theme = ft.Theme(font_family=FONT)

    def show(_: object = None) -> None:
        path, look = look_of(page.route or "/", page.width or 390, page.height or 844)
        page.theme_mode = ft.ThemeMode.LIGHT if look.theme == "sun" else ft.ThemeMode.DARK
        page.bgcolor = look.paper
        page.title = path  # tests/shots.py waits for it
        page.controls = [boards().get(path, _contents)(look, page)]
        page.update()

    page.on_route_change = show
    page.on_resize = show
    show()


def run(port: int) -> None:
    """Serve the gallery on this machine until it is stopped."""
    ft.run(main, view=ft.AppView.WEB_BROWSER, host="127.0.0.1", port=port, no_cdn=True, assets_dir=str(ASSETS))


if __name__ == "__main__":
    run(int(sys.argv[1]) if len(sys.argv) > 1 else 8610)
