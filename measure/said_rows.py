"""What was said of a job, as rows that are only ever added: readings, moved posts, answers, notes."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from measure.database import StoreFile
from measure.entry_id import device_of, mark_of, new_device, new_id, settled_by
from measure.errors import StoreError
from measure.said import Said, Words, from_text, key_of, keyed, to_text
from measure.unplaced import KINDS, kind_and_place

TABLES = {"readings": "reading", "moved": "moved", "answers": "answer", "notes": "note"}
"""The table of each list of a job file."""
OWN_COLUMNS = {
    "readings": ("own_id", "kind", "place", "what", "role", "replaces"),
    "moved": ("post",),
    "answers": ("kind", "place", '"check"'),
    "notes": ("bay",),
}
OTHER_CONTENT = "There is another reading with the id {id}. Leave the id out, it is made here."


def own_values(section: str, words: Words) -> tuple[object, ...]:
    """The columns that queries look at, beside the words."""
    if section == "moved":
        return (words["post"],)
    if section == "notes":
        return (words["bay"],)
    kind, place = kind_and_place(words)
    if section == "answers":
        return (kind, place, words["check"])
    return (words.get("id"), kind, place, words["what"], words.get("role", "first"), words.get("replaces"))


class SaidRows(StoreFile):
    """Rows by job and list."""

    def _said(self, job_id: str, section: str) -> dict[str, Said]:
        """All of one list by key, in the order in which it was kept."""
        found = self.rows(
            f"""SELECT s.key, s.words, s.at_us, max(s.tie, coalesce(t.tie, 0)) AS tie
                FROM {TABLES[section]} AS s LEFT JOIN later_tie AS t ON t.job = s.job AND t.list = ? AND t.key = s.key
                WHERE s.job = ? ORDER BY s.seq""",
            section,
            job_id,
        )
        return {r["key"]: Said(r["key"], from_text(r["words"]), r["at_us"], r["tie"]) for r in found}

    def _keep_said(self, job_id: str, section: str, said: Iterable[Said]) -> None:
        """Add rows, inside an action."""
        columns = ("job", "key", "at_us", "tie", "words", "kept_at", *OWN_COLUMNS[section])
        marks = ", ".join("?" * len(columns))
        now = self.now_text()
        rows: list[tuple[object, ...]] = [
            (job_id, s.key, s.at_us, s.tie, to_text(s.words), now, *own_values(section, s.words)) for s in said
        ]
        self.write_many(f"INSERT INTO {TABLES[section]} ({', '.join(columns)}) VALUES ({marks})", rows)

    def _keep_later_ties(self, job_id: str, section: str, said: Iterable[Said]) -> None:
        """Another copy knew a later place on a tie, inside an action."""
        self.write_many(
            """INSERT INTO later_tie (job, list, key, tie) VALUES (?, ?, ?, ?)
               ON CONFLICT (job, list, key) DO UPDATE SET tie = max(tie, excluded.tie)""",
            [(job_id, section, s.key, s.tie) for s in said],
        )

    def _has(self, job_id: str, section: str, words: Words) -> bool:
        """Whether the very same was kept before."""
        return self.row(f"SELECT 1 FROM {TABLES[section]} WHERE job = ? AND key = ?", job_id, key_of(words)) is not None

    def _add(self, job_id: str, section: str, words: Words) -> None:
        """One more row, inside an action."""
        if section == "readings":
            self._refuse_doubled_id(job_id, words)
        (one,) = keyed([words]).values()
        self._keep_said(job_id, section, [Said(one.key, words, one.at_us, self._next_tie(job_id, section, one.at_us))])

    def _next_tie(self, job_id: str, section: str, at_us: int) -> int:
        last = self.row(
            f"""SELECT max(max(s.tie, coalesce(t.tie, 0))) AS tie
                FROM {TABLES[section]} AS s LEFT JOIN later_tie AS t ON t.job = s.job AND t.list = ? AND t.key = s.key
                WHERE s.job = ? AND s.at_us = ?""",
            section,
            job_id,
            at_us,
        )
        return 0 if last is None or last["tie"] is None else int(last["tie"]) + 1

    def _refuse_doubled_id(self, job_id: str, words: Words) -> None:
        if self._with_own_id(job_id, words["id"]):
            raise StoreError(OTHER_CONTENT.format(id=words["id"]))

    def _with_own_id(self, job_id: str, own_id: str) -> list[Words]:
        """The readings of this id: one, but for a file that was changed by hand. Found by their keys, which begin with it."""
        sql = "SELECT words FROM reading WHERE job = ? AND key > ? AND key < ? AND own_id = ? ORDER BY key"
        return [from_text(r["words"]) for r in self.rows(sql, job_id, f"{own_id}~", f"{own_id}\x7f", own_id)]

    def _with_id(self, job_id: str, words: Words) -> Words:
        return words if words.get("id") is not None else {**words, "id": new_id(self.device(), self._beside(job_id, words))}

    def _beside(self, job_id: str, words: Words) -> list[str]:
        """The first readings that stand here beside the one which this one replaces: whoever keeps it has them all, and settles them."""
        if words.get("replaces") is None or words.get("role", "first") != "first" or not any(words.get(k) for k in KINDS):
            return []
        kind, place = kind_and_place(words)
        sql = "SELECT words FROM reading WHERE job = ? AND kind = ? AND place = ? AND what = ? AND role = 'first' ORDER BY seq"
        here = [from_text(r["words"]) for r in self.rows(sql, job_id, kind, place, words.get("what"))]
        gone = {words["replaces"], *(r.get("replaces") for r in here)}
        marks = {mark for r in here for mark in settled_by(r.get("id"))}
        ids = [r["id"] for r in here if device_of(r.get("id")) is not None and (kind != "post" or r.get("run") == words.get("run"))]
        return [id for id in ids if id not in gone and mark_of(id) not in marks]

    def device(self) -> str:
        """This store's name in the ids that are made here; made once, inside or outside an action."""
        known = self.row("SELECT value FROM setting WHERE key = 'name of this store'")
        if known is not None:
            return str(from_text(known["value"]))
        made = new_device()
        with self.action():
            self.write("INSERT INTO setting (key, value) VALUES ('name of this store', ?)", to_text(made))
        return made

    def notes(self, job_id: str) -> list[dict[str, Any]]:
        """Notes on bays, oldest first: `bay`, `text`, `photo`, `by`, `at`."""
        return [s.words for s in sorted(self._said(job_id, "notes").values(), key=lambda s: s.order)]


def note_words(bay: str, text: str, photo_name: str, by: str, at: str) -> Words:
    """A note as it stands in a job file."""
    words: Words = {"bay": bay, "text": text, "photo": photo_name, "by": by, "at": at}
    return {k: v for k, v in words.items() if v or k != "photo"}

