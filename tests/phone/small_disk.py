"""A small disk of its own, so that a browser whose profile lies on it really finds no room. Needs the right to mount."""

from __future__ import annotations

import os
import subprocess
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

MEGA = 1_000_000
TRIES = 50
"""How often the browser may be quicker than whoever fills its disk."""
OFTEN = 0.005
"""Seconds between two looks whether something became free on a disk that is held full."""


class SmallDisk:
    """A file system in memory of so many bytes. A file of nothing takes the room that the test wants gone."""

    def __init__(self, folder: Path, size: int) -> None:
        """Raises RuntimeError where this machine does not let it be mounted: a test that needs it fails then, and says so."""
        folder.mkdir(parents=True)
        self.folder, self._ballast = folder, folder / "ballast"
        self._run("mount", "-t", "tmpfs", "-o", f"size={size},uid={os.getuid()},mode=700", "none", folder)

    @staticmethod
    def _run(*command: object) -> None:
        words = [str(word) for word in command]
        done = subprocess.run(words if os.getuid() == 0 else ["sudo", "-n", *words], capture_output=True, text=True)
        if done.returncode:
            raise RuntimeError(f"No small disk to test a full phone on. Run the tests as root, or with sudo: {done.stderr.strip()}")

    def unmount(self) -> None:
        """Also while something on it is still open: it goes with its last user."""
        self._run("umount", "-l", self.folder)

    @property
    def left(self) -> int:
        state = os.statvfs(self.folder)
        return state.f_bavail * state.f_frsize

    def fill(self, leave: int) -> None:
        """Nothing but so many bytes are left."""
        with self._ballast.open("ab") as file:
            for _ in range(TRIES):
                more = self.left - leave
                if more <= 0:
                    return
                with suppress(OSError):  # the browser took some of it meanwhile: look again
                    os.posix_fallocate(file.fileno(), os.fstat(file.fileno()).st_size, more)

    def make_room(self) -> None:
        self._ballast.unlink()

    @contextmanager
    def full(self) -> Iterator[None]:
        """Not a byte is left, and what somebody frees meanwhile is taken at once."""
        done = threading.Event()

        def hold() -> None:
            while not done.wait(OFTEN):
                self.fill(0)

        self.fill(0)
        holding = threading.Thread(target=hold)
        holding.start()
        try:
            yield
        finally:
            done.set()
            holding.join()
            self.make_room()
