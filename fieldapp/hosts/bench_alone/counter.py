"""The bare app of `spanbook bench phone`: one figure, one key, packed as the app is and without a line of ours."""

import flet as ft
import spanbook_phone


def counter(page: ft.Page) -> None:
    figure = ft.Text("0", size=72)
    say = ft.Semantics(identifier="entry", container=True, exclude_semantics=True, label="0", content=figure)

    def tap(_: ft.Event[ft.Button]) -> None:
        figure.value = say.label = str(int(figure.value or 0) + 1)
        page.update(say)

    page.add(say, ft.Button("7", on_click=tap, height=64, width=120))
    spanbook_phone.shown()


def main() -> None:
    ft.run(counter)
