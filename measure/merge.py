"""Two copies of one job become one: everything said on either side, once, and nothing decided silently.

The union is the same whichever copy comes first, however often and in whatever order copies meet. What two devices need for
that beside the job itself travels in the file's optional `history`:

    job           the job's own id, the same on every device
    plan          id, by, at and before (ids of older versions) of the plan that the file shows
    other_plans   further newest plans, where it was changed on both sides: id, by, at, before and the plan itself
    ties          by list and key: the order of things said at the same instant, where the list does not show it
    unplaced      by list: what was said of a place that the shown plan no longer has
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from measure.errors import DocumentError, PlaceError
from measure.plan_version import PlanVersion, newest, plan_of, plans_of
from measure.said import SECTIONS, Said, Words, digest, in_order, keyed, named, odd_ties, united
from measure.unplaced import placed

Document = dict[str, Any]
"""A job file as it is read from JSON."""
UID_LENGTH, LONGEST_UID = 32, 64


@dataclass(frozen=True, slots=True)
class Copy:
    """A job as one device has it. plans: the newest ones, the shown one last. said: by list, by key."""

    uid: str
    plans: tuple[PlanVersion, ...]
    said: Mapping[str, Mapping[str, Said]]

    @property
    def plan(self) -> PlanVersion:
        """The plan that is shown."""
        return self.plans[-1]

    @classmethod
    def of(cls, document: Document, uid: str | None = None) -> Copy:
        """A job file as a copy. uid: whose copy it is, for a file that does not say so."""
        history: Document = document.get("history") or {}
        unplaced = history.get("unplaced") or {}
        ties = history.get("ties") or {}
        said = {
            name: united(keyed(document.get(name) or (), ties.get(name, {})), keyed(unplaced.get(name) or (), ties.get(name, {})))
            for name in SECTIONS
        }
        return cls(_told_uid(history) or uid or uid_of(document), plans_of(document), said)

    def __or__(self, other: Copy) -> Copy:
        """The union. Raises DocumentError when the two are no copies of one job."""
        if self.uid != other.uid:
            raise DocumentError([PlaceError("history.job", "These are two different jobs. Keep them apart.")])
        if _units(self) != _units(other):
            raise DocumentError([PlaceError("job.units", "One copy is in inches and the other in millimetres. Keep them apart.")])
        said = {name: united(self.said[name], other.said[name]) for name in SECTIONS}
        return Copy(self.uid, newest([*self.plans, *other.plans]), said)

    def document(self, by_time: bool = True) -> Document:
        """The job file of this copy, with its history. by_time: the lists in the order of time, else as they were kept."""
        words = {name: named(self.said[name].values()) for name in SECTIONS}
        here = placed(self.plan.plan, words)
        lists = {name: in_order(self.said[name].values()) if by_time else list(self.said[name].values()) for name in SECTIONS}
        document: Document = dict(self.plan.plan)
        unplaced: dict[str, list[Words]] = {}
        ties: dict[str, dict[str, int]] = {}
        for name, everything in lists.items():
            shown = [s for s in everything if s.key in here[name]]
            aside = [s for s in everything if s.key not in here[name]]
            if shown or name != "notes":
                document[name] = [words[name][s.key] for s in shown]
            if aside:
                unplaced[name] = [words[name][s.key] for s in aside]
            if odd := odd_ties(shown) | odd_ties(aside):
                ties[name] = odd
        document["history"] = self._history(ties, unplaced)
        return document

    def _history(self, ties: dict[str, dict[str, int]], unplaced: dict[str, list[Words]]) -> Document:
        history: Document = {"job": self.uid, "plan": _version_words(self.plan)}
        if len(self.plans) > 1:
            history["other_plans"] = [{**_version_words(v), "plan": v.plan} for v in self.plans[:-1]]
        if ties:
            history["ties"] = ties
        if unplaced:
            history["unplaced"] = unplaced
        return history


def merge(one: Document, other: Document) -> Document:
    """One job file from two copies. Raises DocumentError when they are no copies of one job."""
    return (Copy.of(one) | Copy.of(other)).document()


def uid_of(document: Document) -> str:
    """The id of a job that came as a file without one: the same on every device that read this file."""
    return digest(plan_of(document))[:UID_LENGTH]


def _told_uid(history: Document) -> str | None:
    told: str | None = history.get("job")
    if told is not None and not 0 < len(told) <= LONGEST_UID:
        raise DocumentError([PlaceError("history.job", f"A job's id has 1 to {LONGEST_UID} letters. Take `history` out.")])
    return told


def _version_words(version: PlanVersion) -> Document:
    return {"id": version.id, "by": version.by, "at": version.at, "before": sorted(version.before)}


def _units(copy: Copy) -> object:
    return copy.plan.plan["job"]["units"]
