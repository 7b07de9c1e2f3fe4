"""`spanbook pack`: one folder with the whole app in it, for any web server that hands out files over https.

    index.html boot.js page.js ready.js worker.js opfs.js record.js tar.js   the start (phone/)
    sw.js                                                                     keeps versions in the phone, lists every file with its checksum
    flutter_bootstrap.js main.dart.* canvaskit/ assets/                       Flet's client (pack_client)
    pyodide/ app.tar.packed                                                   Python, and our code with its packages (pack_archive)
    *.packed                                                                  the large ones gzipped, for servers that do not do it themselves
"""

from __future__ import annotations

import base64
import gzip
import hashlib
import html
import json
import re
import shutil
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from string import Template

from fieldapp.hosts.pack_archive import OURS, PHONE, Cargo, archive
from fieldapp.hosts.pack_client import PackError, copy_client, renderer_of, web_folder
from fieldapp.hosts.pack_python import ZIP as LIBRARY
from fieldapp.words import LANGUAGE, LANGUAGES
from fieldapp.words import say as words

Say = Callable[[str], None]
SCRIPTS = ("boot.js", "page.js", "ready.js", "worker.js", "opfs.js", "record.js", "tar.js")
NOT_KEPT = re.compile(r"^(sw\.js|licences-.*\.txt|.*\.packed)$")
"""What the phone does not keep: the keeper itself, texts that are only asked for, the packed twins."""
WORTH_PACKING = 20_000
CARGO = Cargo()
MADE_BY_US = "spanbook-pack.json"
_NOT_SMALLER = (".png", ".woff2", ".packed")


@dataclass(frozen=True, slots=True)
class PackReport:
    """version: 12 hex digits of all contents. files, bytes: of the folder. on_the_line: bytes a phone fetches, by renderer."""

    folder: Path
    version: str
    files: int
    bytes: int
    on_the_line: dict[str, int]

    def __str__(self) -> str:
        fetched = ", ".join(f"{size / 1e6:.1f} MB ({name})" for name, size in self.on_the_line.items())
        return f"{self.folder}: version {self.version}, {self.files} files, {self.bytes / 1e6:.1f} MB. A phone fetches {fetched}, once."


def pack(out: Path, base: str = "./", say: Say = print, cargo: Cargo = CARGO) -> PackReport:
    """Write the folder. An earlier one is replaced, whole or not at all.

    base: `./` works at any address; `/x/` binds the folder to that path. Raises PackError, nothing is half-written then.
    cargo: another app in place of ours, packed the same way (tests, benchmarks).
    """
    base = _base(base)
    _may_replace(out)
    web = web_folder()
    try:
        return _pack(web, out, base, say, cargo)
    except OSError as problem:
        why = problem.strerror or "not possible"
        raise PackError(f"{problem.filename or out} cannot be written: {why}. Give a folder that you may write to.") from problem


def _pack(web: Path, out: Path, base: str, say: Say, cargo: Cargo) -> PackReport:
    out.parent.mkdir(parents=True, exist_ok=True)
    made = Path(tempfile.mkdtemp(prefix=f".{out.name}-", dir=out.parent))
    try:
        say("copying the client")
        copy_client(web, OURS["fieldapp"] / "assets", made)
        freight = archive(web, cargo, say)
        (made / "app.tar.packed").write_bytes(freight.app)
        (made / LIBRARY).write_bytes(freight.library)
        (made / "licences-packages.txt").write_text(freight.licences, encoding="utf-8")
        say("writing the start")
        report = _finish(made, out, base)
        made.chmod(0o755)
        _swap(made, out)
    finally:
        shutil.rmtree(made, ignore_errors=True)
    say(str(report))
    return report


def _base(text: str) -> str:
    if text in ("", ".", "./"):
        return "./"
    if not re.fullmatch(r"/?([A-Za-z0-9._~-]+/?)*", text) or {".", ".."} & set(text.split("/")):
        raise PackError(f"“{text}” is no path of an address. Give one like /x/, or leave --base out: then any path will do.")
    return "/" + text.strip("/") + "/" if text.strip("/") else "/"


def _may_replace(out: Path) -> None:
    if out.is_file():
        raise PackError(f"{out} is a file. Give a folder.")
    if out.is_dir() and any(out.iterdir()) and not (out / MADE_BY_US).is_file():
        raise PackError(f"{out} holds other things. Give an empty or a new folder.")


def _swap(made: Path, out: Path) -> None:
    if out.exists():
        old = made.with_name(made.name + "-old")
        out.rename(old)
        made.rename(out)
        shutil.rmtree(old)
    else:
        made.rename(out)


def _finish(made: Path, out: Path, base: str) -> PackReport:
    """The start page, its scripts, icons and the list of all files with their checksums."""
    for name in SCRIPTS:
        shutil.copyfile(PHONE / name, made / name)
    for icon in sorted((PHONE / "icons").iterdir()):
        target = made / ("favicon.png" if icon.name == "favicon.png" else f"icons/{icon.name}")
        target.parent.mkdir(exist_ok=True)
        shutil.copyfile(icon, target)
    _write_page(made, base, "$version")
    version = _digest(made)
    _write_page(made, base, version)
    (made / MADE_BY_US).write_text(json.dumps({"version": version, "base": base}))
    listing = _listing(made)
    keeper = (PHONE / "sw.js").read_text(encoding="utf-8")
    (made / "sw.js").write_text(keeper.replace("$version", version).replace("$files", json.dumps(listing)), encoding="utf-8")
    every = [path for path in made.rglob("*") if path.is_file()]
    lines = {name: sum(f[1] for f in listing.values() if f[3] in ("", name)) for name in ("skwasm", "canvaskit")}
    return PackReport(out, version, len(every), sum(path.stat().st_size for path in every), lines)


def _write_page(made: Path, base: str, version: str) -> None:
    early = (PHONE / "early.js").read_text(encoding="utf-8")
    proof = base64.b64encode(hashlib.sha256(early.encode()).digest()).decode()
    policy = (
        f"default-src 'self'; script-src 'self' 'sha256-{proof}' 'wasm-unsafe-eval' blob:; style-src 'self' 'unsafe-inline'; "
        "img-src 'self' data: blob:; font-src 'self' data:; connect-src 'self' data: blob:; worker-src 'self' blob:; "
        "media-src 'self' data: blob:; object-src 'none'; base-uri 'self'; form-action 'none'"
    )
    table = LANGUAGES[LANGUAGE]
    spoken = {key.removeprefix("start."): text for key, text in table.items() if key.startswith("start.")}
    values = {
        "language": LANGUAGE, "base": base, "version": version, "policy": policy, "early": early,
        "title": words("app.name"), "description": words("app.what_it_is"), "opening": spoken["opening"],
        "no_script_head": spoken["no_script_head"], "no_script": spoken["no_script"],
    }  # fmt: skip
    shown = {key: value if key == "early" else html.escape(str(value)) for key, value in values.items()}
    shown["policy"] = policy  # quotes are part of it, and none is double
    shown["words"] = json.dumps(spoken, ensure_ascii=False).replace("<", "\\u003c")
    page = Template((PHONE / "index.html").read_text(encoding="utf-8")).substitute(shown)
    (made / "index.html").write_text(page, encoding="utf-8")
    manifest = Template((PHONE / "manifest.json").read_text(encoding="utf-8")).substitute(
        base=base, title=values["title"], description=values["description"]
    )
    (made / "manifest.json").write_text(manifest, encoding="utf-8")


def _digest(made: Path) -> str:
    whole = hashlib.sha256()
    for path in sorted(made.rglob("*")):
        if path.is_file():
            whole.update(f"{path.relative_to(made).as_posix()}\0".encode() + hashlib.sha256(path.read_bytes()).digest())
    return whole.hexdigest()[:12]


def _listing(made: Path) -> dict[str, tuple[str, int, int, str]]:
    """path: [sha-256, bytes on the line, 1 when a packed twin lies beside it, renderer]. Writes the packed twins."""
    listing = {}
    for path in sorted(made.rglob("*")):
        name = path.relative_to(made).as_posix()
        if not path.is_file() or (NOT_KEPT.match(name) and name != "app.tar.packed"):
            continue
        data = path.read_bytes()
        twin = gzip.compress(data, 9, mtime=0) if len(data) >= WORTH_PACKING and not name.endswith(_NOT_SMALLER) else data
        smaller = len(twin) < 0.9 * len(data)
        if smaller:
            path.with_name(path.name + ".packed").write_bytes(twin)
        listing[name] = (hashlib.sha256(data).hexdigest(), len(twin) if smaller else len(data), int(smaller), renderer_of(name))
    return listing
