"""The Python packages that go to the phone: pinned and checksummed in phone/wheels.txt, fetched by pip once, then cached."""

from __future__ import annotations

import hashlib
import os
import re
import subprocess
import sys
import zipfile
from collections.abc import Callable
from dataclasses import dataclass
from email.parser import Parser
from pathlib import Path

from fieldapp.hosts.pack_client import PackError

Say = Callable[[str], None]
LIST = Path(__file__).parent / "phone" / "wheels.txt"
_LINE = re.compile(r"(?P<name>[A-Za-z0-9._-]+)==(?P<version>\S+)\s+--hash=sha256:(?P<sha256>[0-9a-f]{64})")
_DROPPED = re.compile(r"(^|/)(tests?|testing|__pycache__|__pyinstaller)/|\.pyi$|\.pxd$|\.dist-info/|\.data/|/py\.typed$")


@dataclass(frozen=True, slots=True)
class Wheel:
    """One line of the list. sha256: of the wheel's file."""

    name: str
    version: str
    sha256: str


def listed(text: str) -> list[Wheel]:
    """The wheels of a list. Raises PackError for a line that is not `name==version --hash=sha256:…`."""
    wheels = []
    for line in text.replace("\\\n", " ").splitlines():
        line = line.split(" #")[0].strip()
        if not line or line.startswith("#"):
            continue
        found = _LINE.fullmatch(line)
        if not found:
            raise PackError(f"wheels.txt: “{line}” is no pinned package with its checksum.")
        wheels.append(Wheel(**found.groupdict()))
    return wheels


def cache_folder() -> Path:
    """Where fetched wheels stay: SPANBOOK_CACHE, or the system's folder for such things."""
    if given := os.environ.get("SPANBOOK_CACHE"):
        return Path(given)
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData/Local") / "Spanbook" / "cache"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "spanbook"


def fetched(source: Path, python: str, platform: str, say: Say) -> list[tuple[Wheel, Path]]:
    """Each wheel of a list with its file, in the list's order. pip is asked only for what the cache lacks.

    python: as `3.14`. platform: the wheels' platform tag. Raises PackError with what pip said.
    """
    wheels, cache = listed(source.read_text(encoding="utf-8")), cache_folder() / "wheels"
    here = _present(cache)
    if any(w.sha256 not in here for w in wheels):
        say(f"fetching {sum(w.sha256 not in here for w in wheels)} of {len(wheels)} packages for Python {python} on {platform}")
        _download(source, python, platform, cache)
        here = _present(cache)
    lacking = [w.name for w in wheels if w.sha256 not in here]
    if lacking:
        raise PackError(f"These packages did not come as listed: {', '.join(lacking)}.")
    return [(w, here[w.sha256]) for w in wheels]


def _present(cache: Path) -> dict[str, Path]:
    return {hashlib.sha256(path.read_bytes()).hexdigest(): path for path in sorted(cache.glob("*.whl"))}


def _download(source: Path, python: str, platform: str, cache: Path) -> None:
    cache.mkdir(parents=True, exist_ok=True)
    # --no-deps: pip would judge what depends on the platform by this machine and bring what the browser cannot use.
    command = [sys.executable, "-m", "pip", "download", "--quiet", "--disable-pip-version-check", "--no-input", "--require-hashes",
               "--no-deps", "--only-binary=:all:", "--platform", platform, "--python-version", python, "--implementation", "cp",
               "--abi", "cp" + python.replace(".", ""), "--dest", str(cache), "-r", str(source)]  # fmt: skip
    ended = subprocess.run(command, capture_output=True, text=True)
    if ended.returncode:
        said = [line for line in ended.stderr.splitlines() if line.strip() and not line.startswith("WARNING")]
        why = said[-1].removeprefix("ERROR: ") if said else "pip said nothing"
        raise PackError(f"The packages for the phone could not be fetched: {why} A connection to the package index is needed once.")


def unpack(wheel: Path, target: Path) -> str:
    """Lay a wheel's packages into a folder, without tests, stubs and notes; gives the texts of its licence files."""
    with zipfile.ZipFile(wheel) as archive:
        licences = []
        for name in archive.namelist():
            if ".dist-info/" in name and re.search(r"licen[cs]e|copying|notice|authors", name.rpartition("/")[2], re.I):
                licences.append(archive.read(name).decode("utf-8", "replace"))
            if not name.endswith("/") and not _DROPPED.search(name):
                archive.extract(name, target)
            if name.endswith(".dist-info/METADATA"):
                _write_metadata(target / name, archive.read(name).decode("utf-8"))
    return "\n\n".join(licences)


def _write_metadata(path: Path, text: str) -> None:
    """Name and version only: all that a package asks of its own notes."""
    notes = Parser().parsestr(text, headersonly=True)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(f"Metadata-Version: 2.1\nName: {notes['Name']}\nVersion: {notes['Version']}\n", encoding="utf-8")
