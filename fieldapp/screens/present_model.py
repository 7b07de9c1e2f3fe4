"""Who else is in a job, in a few words. Pure."""

from __future__ import annotations

from fieldapp.company import Company
from fieldapp.words import listed, say


def on_bays(company: Company, job: str, but: object) -> str:
    """`Kit on A3 and Mara on B1`: the others in a job who are on a bay; empty where nobody is."""
    return listed([say("share.on_bay", name=p.name, bay=p.bay) for p in company.of(job, but) if p.bay and p.name])
