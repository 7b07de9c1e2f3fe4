"""app.tar.packed: our own packages and all wheels, byte-compiled for the phone's Python, in one gzipped tar archive; and that Python's library."""

from __future__ import annotations

import gzip
import io
import os
import shutil
import subprocess
import sys
import tarfile
import tempfile
from dataclasses import dataclass
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import measure.errors
from fieldapp.hosts.pack_client import python_of
from fieldapp.hosts.pack_python import lay_out, zipped
from fieldapp.hosts.pack_wheels import LIST, Say, fetched, unpack

PHONE = Path(__file__).parent / "phone"
OURS = {"fieldapp": PHONE.parents[1], "measure": Path(measure.errors.__file__).parent}
# Nothing of this runs on a phone: the server, the command line, and what makes this very folder.
LEFT_AT_HOME = {
    "fieldapp": ("assets", "command.py", "command_*.py", "bench*", "pack*.py", "phone", "page", "server.py", "client_files.py",
                 "data_folder.py", "doorkeeper.py", "phone_mount.py", "phone_folder.py", "sign.py", "bare.py",
                 "door.py", "guesses.py", "guest_socket.py", "join_page.py", "network.py", "office_door.py", "phone_line.py", "rest.py", "pictures", "__pycache__"),
    "measure": ("command_*.py", "bench*", "__pycache__"),
}  # fmt: skip
LEAN = {"PYTHONHASHSEED": "0", "PYTHONNODEBUGRANGES": "1"}
"""For compiling: the same bytes each time, and lines but no columns in what a mishap tells. compile.mjs has them too."""
# Of the wheels: what no code on the phone imports.
UNUSED = ("flet/testing", "flet/fastapi", "flet/cli.py", "flet/pytest_plugin.py", "flet/utils/griffe_deprecations.py",
          "flet/messaging/flet_socket_server.py", "flet/messaging/flet_dart_bridge_server.py", "pydantic/v1", "pydantic/mypy.py",
          "pydantic/experimental", "annotated_types/test_cases.py", "sqlite_utils/cli.py", "sqlite_utils/__main__.py", "click/testing.py",
          "dateutil/zoneinfo", "dateutil/rrule.py", "dateutil/easter.py", "segno/cli.py", "segno/helpers.py", "bin")  # fmt: skip


@dataclass(frozen=True, slots=True)
class Cargo:
    """What goes to the phone. entry: the module whose `main()` starts the app. extra: a folder of further modules.

    only: the wheels that it needs, by name, without a line of ours; None: all of them, and our packages.
    """

    entry: str = "fieldapp.hosts.browser"
    extra: Path | None = None
    wheels: Path = LIST
    only: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True)
class Freight:
    """What was packed. app: the gzipped tar archive. library: the zip of Python's own. licences: of all wheels."""

    app: bytes
    library: bytes
    licences: str


def archive(web: Path, cargo: Cargo, say: Say) -> Freight:
    """web: the client's folder, for its Python."""
    python, platform = python_of(web)
    wheels = [(w, path) for w, path in fetched(cargo.wheels, python, platform, say) if cargo.only is None or w.name in cargo.only]
    with tempfile.TemporaryDirectory(prefix="spanbook-pack-") as made:
        root, library = Path(made, "app"), Path(made, "python")
        root.mkdir()
        if cargo.only is None:
            _own_packages(root)
        if cargo.extra:
            shutil.copytree(cargo.extra, root, dirs_exist_ok=True, ignore=shutil.ignore_patterns("__pycache__"))
        (root / "entry.py").write_text(f"from {cargo.entry} import main as main\n")
        licences = [f"{wheel.name} {wheel.version}\n\n{unpack(path, root / 'wheels')}" for wheel, path in wheels]
        _drop_unused(root / "wheels")
        lay_out(web, library)
        _compile(web, Path(made), python, say)
        return Freight(_packed(root), zipped(library), f"\n\n{'-' * 100}\n".join(licences))


def _own_packages(root: Path) -> None:
    for package, left in LEFT_AT_HOME.items():
        shutil.copytree(OURS[package], root / package, ignore=shutil.ignore_patterns(*left))
    try:
        number = version("spanbook")
    except PackageNotFoundError:  # run from a bare checkout
        number = "0"
    notes = root / f"spanbook-{number}.dist-info"
    notes.mkdir()
    (notes / "METADATA").write_text(f"Metadata-Version: 2.1\nName: spanbook\nVersion: {number}\n")


def _drop_unused(wheels: Path) -> None:
    for name in UNUSED:
        path = wheels / name
        if path.is_dir():
            shutil.rmtree(path)
        else:
            path.unlink(missing_ok=True)


def _compile(web: Path, root: Path, python: str, say: Say) -> None:
    """Byte-compile with the phone's own Python under node; with this Python when it is the same; else leave the sources."""
    script = PHONE / "bytecode.py"
    if node := shutil.which("node"):
        say("byte-compiling for the phone")
        ended = subprocess.run([node, PHONE / "compile.mjs", web / "pyodide/pyodide.mjs", script, root], capture_output=True, text=True)
        if ended.returncode == 0:
            return
        say(f"node could not do it ({(ended.stderr.strip() or 'no reason given').splitlines()[-1]})")
    if f"{sys.version_info[0]}.{sys.version_info[1]}" == python and sys.implementation.name == "cpython":
        say("byte-compiling with this Python")
        subprocess.run([sys.executable, script, root], check=True, env={**os.environ, **LEAN})
        return
    say("node was not found: the sources go along as they are, and each start takes some seconds longer")


def _packed(root: Path) -> bytes:
    """The same bytes for the same files, whenever and wherever they are packed."""
    out = io.BytesIO()
    with tarfile.open(fileobj=out, mode="w", format=tarfile.USTAR_FORMAT) as archive:
        for path in sorted(root.rglob("*")):
            if path.is_file():
                entry = tarfile.TarInfo(path.relative_to(root).as_posix())
                entry.size = path.stat().st_size
                with path.open("rb") as data:
                    archive.addfile(entry, data)
    return gzip.compress(out.getvalue(), 9, mtime=0)
