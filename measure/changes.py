"""What an issued order and the bays of today differ in. An issued order never changes; this only tells."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from measure.geometry import Exact
from measure.length import Length
from measure.opening import Opening
from measure.panel import Panel
from measure.rounding import order_text
from measure.system import Glass


@dataclass(frozen=True, slots=True)
class OrderedPanel:
    """A panel as it went out: sizes, rack without sign, high end `left`, `right` or `none`.

    glass: all that is ordered beside the sizes, as `glass_text` says it; empty where nobody wrote it down.
    """

    tag: str
    width: Length
    left_edge: Length
    right_edge: Length
    rack: Length
    high_end: str
    glass: str = ""

    def as_json(self) -> dict[str, Any]:
        """For the store: lengths in nm."""
        return {
            "panel": self.tag,
            "width_nm": self.width.nm,
            "left_edge_nm": self.left_edge.nm,
            "right_edge_nm": self.right_edge.nm,
            "rack_nm": self.rack.nm,
            "high_end": self.high_end,
            **({"glass": self.glass} if self.glass else {}),
        }


def ordered(tag: str, panel: Panel, glass: str = "") -> OrderedPanel:
    return OrderedPanel(tag, panel.width, panel.left_edge, panel.right_edge, panel.rack, panel.high_end, glass)


def glass_text(glass: Glass, finish_face: str | None) -> str:
    """The pane of an order without its sizes: `10 mm clear toughened, top polished, …`. finish_face: the panel's own."""
    pane = " ".join(w for w in (order_text(glass.thickness, "mm"), glass.kind.strip()) if w)
    named = (
        ("top", glass.edge_top), ("uprights", glass.edge_uprights), ("bottom", glass.edge_bottom), ("corners", glass.corners),
        ("holes", "" if glass.holes == "none" else glass.holes), ("face", finish_face or ""), ("stamp", glass.stamp), ("standard", glass.standard),
    )  # fmt: skip
    return ", ".join([pane, *(f"{what} {words.strip()}" for what, words in named if words.strip())])


def from_json(words: Mapping[str, Any]) -> OrderedPanel:
    """What `as_json` gave."""
    width, left, right, rack = (Length(int(words[f"{name}_nm"])) for name in ("width", "left_edge", "right_edge", "rack"))
    return OrderedPanel(str(words["panel"]), width, left, right, rack, str(words["high_end"]), str(words.get("glass", "")))


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
    def other_glass(self) -> bool:
        """Whether the pane itself is another one now, whatever its sizes."""
        return self.now is not None and _other_glass(self.was, self.now)

    @property
    def width_apart(self) -> Length:
        """Ordered less now: negative where the ordered panel is too narrow."""
        return Length(0) if self.now is None else self.was.width - self.now.width


def changes(panels: Iterable[Mapping[str, Any]], openings: Mapping[str, Opening], glass: Glass | None = None) -> list[PanelChange]:
    """The panels of an issued order that differ from what their bays ask for now, in the order's own order.

    glass: of the job now; left out, only sizes are compared.
    """
    found = []
    for words in panels:
        was = from_json(words)
        opening = openings.get(was.tag)
        if opening is None:
            found.append(PanelChange(was, None, None, ""))
            continue
        now = ordered(was.tag, opening.panel, "" if glass is None else glass_text(glass, opening.finish_face))
        if replace(now, glass="") != replace(was, glass="") or _other_glass(was, now):
            found.append(_change(was, now, opening))
    return found


def _other_glass(was: OrderedPanel, now: OrderedPanel) -> bool:
    return bool(was.glass and now.glass) and was.glass != now.glass


def _change(was: OrderedPanel, now: OrderedPanel, opening: Opening) -> PanelChange:
    wider = was.width.nm - opening.panel.width.nm
    hold, fit = opening.hold_margin_nm + wider, opening.fit_margin_nm - wider
    return PanelChange(was, now, min(hold, fit), "hold" if hold <= fit else "fit")
