"""The folder that is handed out below /phone/: one that the person names, or one that `spanbook pack` makes beside the jobs.

Packing takes its time and two cores, so it is a process of its own: whoever measures meanwhile does not feel it, and it ends
with the server. An earlier folder is handed out until the new one is whole.
"""

from __future__ import annotations

import asyncio
import contextlib
import contextvars
import hashlib
import json
import os
import sys
from collections.abc import Callable
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from fieldapp.hosts.phone_app import PATH, Handing, Stage
from measure.errors import SpanbookError

BASES = (PATH + "/", "./")
"""What a folder may be bound to, to be handed out here."""
NOTE = "spanbook-pack.json"
PROGRAM = Path(__file__).parents[2]
_LONGEST = 300


class PhoneFolder:
    """Implements `PhoneApp`. data: where the jobs lie. given: a folder of the person's own; nothing is ever made there.

    Raises SpanbookError for a given folder that is none.
    """

    def __init__(self, data: Path, given: Path | None = None) -> None:
        self._folder, self._note = given or data / "phone", data / "phone-made-from"
        self._given = given is not None
        self.address: Callable[[], str] = str
        """Where phones find this machine; empty where they do not."""
        self.here = ""
        """Where its owner does."""
        self.changed: Callable[[], None] = lambda: None
        """Told after each step of what is being made."""
        self._stage: Stage = "none"
        self._told = ""
        self._process: asyncio.subprocess.Process | None = None
        self._work: asyncio.Task[None] | None = None
        if given is not None and _base(given) not in BASES:
            raise SpanbookError(
                f"{given} is no folder for phones that can be handed out here. Make one: spanbook pack -o {given} --base {PATH}/"
            )

    # ---- PhoneApp ------------------------------------------------------------------------------------------------------
    @property
    def handing(self) -> Handing:
        there, address = self.served is not None, self.address()
        stage: Stage = "there" if there and self._stage == "none" else self._stage
        at = PATH.strip("/") + "/"
        return Handing(stage, self._told, there, self._given, f"{address}{at}" if address else "", f"{self.here}{at}")

    def make(self) -> None:
        if self._given or self._work is not None:
            return
        self._told, self._stage = "", "making"
        # A context of its own: the page whose tap began it has to hear of it too.
        self._work = asyncio.get_running_loop().create_task(self._make(), context=contextvars.Context())

    # ---- the server ----------------------------------------------------------------------------------------------------
    @property
    def served(self) -> Path | None:
        """The folder as it is handed out now; None while there is none."""
        return self._folder if (self._folder / NOTE).is_file() else None

    def bring_up_to_date(self) -> None:
        """Make it anew where it was made from an older Spanbook: phones then find the newer version by themselves."""
        if not self._given and self.served and self._made_from() != made_of():
            self.make()

    async def close(self) -> None:
        """End what is being made; nothing half-made stays."""
        work, self._work = self._work, None
        if work is not None:
            work.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await work

    def _made_from(self) -> str:
        try:
            return self._note.read_text(encoding="utf-8")
        except OSError:
            return ""

    async def _make(self) -> None:
        made_from = made_of()
        try:
            trouble = await self._packed()
            if not trouble:
                self._note.write_text(made_from, encoding="utf-8")
            self._stage, self._told = ("failed", trouble) if trouble else ("none", "")
        except OSError as problem:
            self._stage, self._told = "failed", problem.strerror or str(problem)
        finally:
            self._work = None
        self.changed()

    async def _packed(self) -> str:
        """Pack; empty when it is done, else why it could not be."""
        command = [sys.executable, "-P", "-m", "fieldapp.command", "pack", "-o", str(self._folder), "--base", PATH + "/"]
        paths = [str(PROGRAM), *filter(None, [os.environ.get("PYTHONPATH")])]
        environment = {**os.environ, "PYTHONPATH": os.pathsep.join(paths), "PYTHONUTF8": "1"}
        pipe = asyncio.subprocess.PIPE
        process = await asyncio.create_subprocess_exec(
            *command, stdin=asyncio.subprocess.DEVNULL, stdout=pipe, stderr=pipe, env=environment
        )
        try:
            assert process.stdout is not None and process.stderr is not None
            said = asyncio.ensure_future(process.stderr.read())
            async for line in process.stdout:
                self._told = line.decode("utf-8", "replace").strip()[:_LONGEST]
                self.changed()
            wrong = (await said).decode("utf-8", "replace").strip().splitlines()
            code = await process.wait()
        except asyncio.CancelledError:
            process.terminate()
            await process.wait()
            raise
        return "" if code == 0 else (wrong[-1] if wrong else str(code)).removeprefix("spanbook: ")[:_LONGEST]


def _base(folder: Path) -> str:
    """The path that a folder was packed for; empty where it is no such folder."""
    try:
        told = json.loads((folder / NOTE).read_text(encoding="utf-8"))
        return str(told["base"])
    except (OSError, ValueError, KeyError, TypeError):
        return ""


def made_of() -> str:
    """What a folder would be made from now: our own files and the client, as hexadecimal digits."""
    whole = hashlib.sha256()
    for package in ("fieldapp", "measure"):
        for path in sorted((PROGRAM / package).rglob("*")):
            if path.is_file() and "__pycache__" not in path.parts:
                whole.update(f"{path.relative_to(PROGRAM).as_posix()}\0".encode() + hashlib.sha256(path.read_bytes()).digest())
    with contextlib.suppress(PackageNotFoundError):
        whole.update(version("flet-web").encode())
    return whole.hexdigest()
