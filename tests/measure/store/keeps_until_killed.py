"""Keeps readings in a store one after the other and says each id once it is kept, until somebody ends it."""

import sys
from itertools import count
from pathlib import Path

from measure.store import Store


def main(folder: str, journal: str, job: str) -> None:
    store = Store.open(Path(folder), journal="wal" if journal == "wal" else "delete")
    for n in count():
        at = f"2026-05-02T10:{n // 60 % 60:02}:{n % 60:02}Z"
        kept = store.add_reading(job, {"bay": "A4", "what": "span", "value": f"{n + 1} mm", "by": "Mona", "at": at})
        store.set_draft("phone", "A4 span", kept["id"])
        print(kept["id"], flush=True)


if __name__ == "__main__":
    main(*sys.argv[1:])
