"""Which of several findings at one place is told first. Pure."""

from __future__ import annotations

from collections.abc import Iterable

from measure.conflict import CHECK
from measure.finding import Finding


def foremost(found: Iterable[Finding]) -> list[Finding]:
    """What is wrong, then what two sides said differently, then what is not read yet, then other queries; else as they stand.

    Two sides stand before a figure that is only still to come: whoever reads that one shall not find them afterwards.
    """
    return sorted(found, key=_rank)


def _rank(finding: Finding) -> int:
    if finding.check == CHECK:
        return 1
    return 3 if finding.verdict != "hold" else 2 if finding.unread else 0
