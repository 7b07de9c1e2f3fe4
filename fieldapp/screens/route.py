"""Addresses of screens: one pattern a screen, matched without caring for a query, written with every sign quoted."""

from __future__ import annotations

import importlib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import quote, unquote, urlsplit

if TYPE_CHECKING:
    from fieldapp.screens.screen import Screen


@dataclass(frozen=True, slots=True)
class Route:
    """pattern: `/job/{job}/walk/{bay}`. screen: `module:Class` inside fieldapp.screens, imported at its first use."""

    pattern: str
    screen: str

    def match(self, address: str) -> dict[str, str] | None:
        """The parameters of an address, or None where it is not this route's."""
        wanted, given = _parts(self.pattern), _parts(urlsplit(address).path)
        if len(wanted) != len(given):
            return None
        found: dict[str, str] = {}
        for want, got in zip(wanted, given, strict=True):
            if want.startswith("{"):
                found[want[1:-1]] = unquote(got)
            elif want != unquote(got):
                return None
        return found

    def address(self, **params: object) -> str:
        """The address with these parameters; KeyError when one is missing."""
        return "/" + "/".join(quote(str(params[p[1:-1]]), safe="") if p.startswith("{") else p for p in _parts(self.pattern))

    def load(self) -> type[Screen]:
        """The screen's class."""
        module, _, name = self.screen.partition(":")
        return getattr(importlib.import_module(f"fieldapp.screens.{module}"), name)


def find(routes: Mapping[str, Route], address: str) -> tuple[str, dict[str, str]] | None:
    """Name and parameters of the screen at an address; None where there is none."""
    for name, route in routes.items():
        params = route.match(address)
        if params is not None:
            return name, params
    return None


def _parts(path: str) -> list[str]:
    return [p for p in path.split("/") if p]
