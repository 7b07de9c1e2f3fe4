"""A layer of a page: it comes and goes as a whole without what is on it being looked through."""

from __future__ import annotations

import flet as ft


@ft.control("Container", isolated=True)
class Layer(ft.Container):
    """A Container whose own values are sent with what is around it, and its content only when it is updated itself.

    Hiding twenty-seven keys then costs one value. The caller updates what changed on the layer, then what the layers lie in.
    """
