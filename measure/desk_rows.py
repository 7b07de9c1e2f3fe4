"""What lies on the desk beside the jobs: settings, half-typed figures, and presets that the crew uses again."""

from __future__ import annotations

import json
from typing import Any

from measure.database import StoreFile
from measure.said import from_text, to_text


class DeskRows(StoreFile):
    """Settings, drafts, presets."""

    def setting(self, key: str, default: Any = None) -> Any:
        """A JSON value that was set, else the default."""
        found = self.row("SELECT value FROM setting WHERE key = ?", key)
        return default if found is None else json.loads(found["value"])

    def set_setting(self, key: str, value: Any) -> None:
        """Keep a JSON value; for figures, keep their text."""
        with self.action():
            self.write(
                "INSERT INTO setting (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value",
                key,
                json.dumps(value, ensure_ascii=False, allow_nan=False),
            )

    def draft(self, scope: str, key: str) -> str | None:
        """What is half-typed there; None for nothing."""
        found = self.row("SELECT words FROM draft WHERE scope = ? AND key = ?", scope, key)
        return None if found is None else str(found["words"])

    def drafts(self, scope: str) -> dict[str, str]:
        """All that is half-typed in a scope, by key."""
        return {r["key"]: r["words"] for r in self.rows("SELECT key, words FROM draft WHERE scope = ? ORDER BY key", scope)}

    def set_draft(self, scope: str, key: str, text: str | None) -> None:
        """Keep what is half-typed, as cheaply as lets it outlive the program; None forgets it."""
        with self.lesser_action():
            if text is None:
                self.write("DELETE FROM draft WHERE scope = ? AND key = ?", scope, key)
                return
            self.write(
                """INSERT INTO draft (scope, key, words) VALUES (?, ?, ?)
                   ON CONFLICT (scope, key) DO UPDATE SET words = excluded.words""",
                scope,
                key,
                text.encode(errors="replace").decode(),  # half a character from a keyboard cannot be kept
            )

    def presets(self, kind: str) -> dict[str, dict[str, Any]]:
        """Presets of a kind (`system`, `glass`, `tape`, `limits`) by name."""
        found = self.rows("SELECT name, words FROM preset WHERE kind = ? ORDER BY name COLLATE NOCASE, name", kind)
        return {r["name"]: from_text(r["words"]) for r in found}

    def save_preset(self, kind: str, name: str, words: dict[str, Any]) -> None:
        """Keep a preset under a name; the one that had it before is gone."""
        with self.action():
            self.write(
                """INSERT INTO preset (kind, name, words) VALUES (?, ?, ?)
                   ON CONFLICT (kind, name) DO UPDATE SET words = excluded.words""",
                kind,
                name,
                to_text(words),
            )

    def remove_preset(self, kind: str, name: str) -> None:
        """Forget a preset; jobs that were made with it keep their own figures."""
        with self.action():
            self.write("DELETE FROM preset WHERE kind = ? AND name = ?", kind, name)
