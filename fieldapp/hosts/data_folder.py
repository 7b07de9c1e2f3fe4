"""Where this machine keeps the jobs, and that one Spanbook at a time works there."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import IO

from measure.errors import StoreError


def usual_folder() -> Path:
    """The folder of this person on this system, where programs are to keep their data."""
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local") / "Spanbook"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "Spanbook"
    return Path(os.environ.get("XDG_DATA_HOME") or Path.home() / ".local" / "share") / "spanbook"


def make_folder(folder: Path) -> None:
    """Make the folder if it is missing. Raises StoreError with a sentence."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as problem:
        why = problem.strerror or "not possible"
        raise StoreError(f"The data folder {folder} cannot be used: {why}. Name another with --data.") from None


class Occupied:
    """A mark that a folder is in use. It goes with the process, however that ends."""

    def __init__(self, folder: Path) -> None:
        self._file: IO[str] | None = None
        self._path = folder / "in-use"

    def __enter__(self) -> Occupied:
        """Raises StoreError when another Spanbook has the folder open."""
        try:
            self._file = self._path.open("a+", encoding="utf-8")
            _take(self._file)
        except BlockingIOError:
            self._close()
            raise StoreError(
                f"Another Spanbook works in {self._path.parent}. Use that one, or name another folder with --data."
            ) from None
        except OSError as problem:
            self._close()
            why = problem.strerror or "not possible"
            raise StoreError(f"{self._path.parent} cannot be written: {why}. Name another folder with --data.") from None
        return self

    def __exit__(self, *_: object) -> None:
        self._close()

    def _close(self) -> None:
        if self._file is not None:
            self._file.close()
            self._file = None


if sys.platform == "win32":
    import msvcrt

    def _take(file: IO[str]) -> None:
        try:
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        except PermissionError as taken:
            raise BlockingIOError from taken
else:
    import fcntl

    def _take(file: IO[str]) -> None:
        fcntl.flock(file.fileno(), fcntl.LOCK_EX | fcntl.LOCK_NB)
