"""What an issued order and the bays of today differ in. An issued order never changes; this only tells."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from measure.geometry import Exact
from measure.length import Length
from measure.opening import Opening
from measure.panel import Panel


@dataclass(frozen=True, slots=True)
class OrderedPanel:
    """A panel as it went out: sizes, rack without sign, high end `left`, `right` or `none`."""

    tag: str
    width: Length
    left_edge: Length
    right_edge: Length
    rack: Length
    high_end: str

    def as_json(self) -> dict[str, Any]:
        """For the store: lengths in nm."""
        return {
            "panel": self.tag,
            "width_nm": self.width.nm,
            "left_edge_nm": self.left_edge.nm,
            "right_edge_nm": self.right_edge.nm,
            "rack_nm": self.rack.nm,
            "high_end": self.high_end,
        }


def ordered(tag: str, panel: Panel) -> OrderedPanel:
    return OrderedPanel(tag, panel.width, panel.left_edge, panel.right_edge, panel.rack, panel.high_end)


def from_json(words: Mapping[str, Any]) -> OrderedPanel:
    """What `as_json` gave."""
    width, left, right, rack = (Length(int(words[f"{name}_nm"])) for name in ("width", "left_edge", "right_edge", "rack"))
    return OrderedPanel(str(words["panel"]), width, left, right, rack, str(words["high_end"]))


@dataclass(frozen=True, slots=True)
class PanelChange:
    """An ordered panel whose bay asks for another one now. now: None where the bay cannot be solved any more.

    margin_nm: the grip margin M that the ordered panel has in the bay of today (below 0 it does not hold or fit).
    side: `hold` or `fit`, whichever is smaller.
    """

    was: OrderedPanel
    now: OrderedPanel | None
    margin_nm: Exact | None
    side: str

    @property
    def width_apart(self) -> Length:
        """Ordered less now: negative where the ordered panel is too narrow."""
        return Length(0) if self.now is None else self.was.width - self.now.width


def changes(panels: Iterable[Mapping[str, Any]], openings: Mapping[str, Opening]) -> list[PanelChange]:
    """The panels of an issued order that differ from what their bays ask for now, in the order's own order."""
    found = []
    for words in panels:
        was = from_json(words)
        opening = openings.get(was.tag)
        if opening is None:
            found.append(PanelChange(was, None, None, ""))
        elif ordered(was.tag, opening.panel) != was:
            found.append(_change(was, opening))
    return found


def _change(was: OrderedPanel, opening: Opening) -> PanelChange:
    wider = was.width.nm - opening.panel.width.nm
    hold, fit = opening.hold_margin_nm + wider, opening.fit_margin_nm - wider
    return PanelChange(was, ordered(was.tag, opening.panel), min(hold, fit), "hold" if hold <= fit else "fit")
