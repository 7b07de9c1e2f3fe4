"""A process that is killed at any moment loses nothing that it said was kept. SPANBOOK_KILLS: how often to try (4)."""

import os
import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

from measure.store import Store

KILLS = int(os.environ.get("SPANBOOK_KILLS", "4"))
WRITER = Path(__file__).parent / "keeps_until_killed.py"


@pytest.mark.parametrize("journal", ["wal", "delete"])
def test_every_reading_that_was_acknowledged_is_there_after_a_kill(journal, tmp_path, deck_file):
    with Store.open(tmp_path, journal=journal) as store:
        job = store.add_job(deck_file)
    acknowledged: list[str] = []
    chance = random.Random(7)
    for _ in range(KILLS):
        acknowledged += killed_while_keeping(tmp_path, journal, job, chance.uniform(0.0, 0.25))
        with Store.open(tmp_path, journal=journal) as store:
            assert store.troubles() == []
            there = [r["id"] for r in store.document(job)["readings"] if "id" in r]
            # At most the one that was under way may be there without having been said.
            assert set(acknowledged) <= set(there)
            assert len(there) == len(set(there))
            draft = store.draft("phone", "A4 span")
            assert draft in there or draft is None
    assert acknowledged


def killed_while_keeping(folder: Path, journal: str, job: str, seconds: float) -> list[str]:
    """Starts a process that keeps readings one after the other, kills it that long after its first, and returns what it said."""
    writer = subprocess.Popen([sys.executable, "-u", str(WRITER), str(folder), journal, job], stdout=subprocess.PIPE, text=True)
    assert writer.stdout is not None
    first = writer.stdout.readline()
    time.sleep(seconds)
    writer.kill()
    rest = writer.stdout.read()
    writer.wait()
    writer.stdout.close()
    # A line that is cut short was not said.
    return [line.strip() for line in (first + rest).splitlines(keepends=True) if line.endswith("\n")]
