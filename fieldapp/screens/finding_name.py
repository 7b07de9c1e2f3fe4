"""What a finding is called: its check, or what is still to be read. Pure."""

from __future__ import annotations

from fieldapp.words import say
from measure.finding import Finding


def finding_name(finding: Finding) -> str:
    """`off plan`, `read-back still to come`."""
    return say(f"check.missing_{finding.unread}" if finding.unread else f"check.{finding.check}")
