"""Flet's web client, as it lies inside the installed flet-web package: only what a phone asks for, and two changes to it."""

from __future__ import annotations

import json
import re
import shutil
from importlib.metadata import PackageNotFoundError, version
from importlib.resources import files
from pathlib import Path

from measure.errors import SpanbookError

FLET = "1.0.5"
"""The client's private names (jsConnect, flet_js) are relied on: no other version is tried."""

# Everything else in the package is symbols, maps, other renderers' builds, formula fonts and command line tools.
TAKEN = (
    "flutter_bootstrap.js", "main.dart.js", "main.dart.mjs", "main.dart.wasm",
    "canvaskit/skwasm.js", "canvaskit/skwasm.wasm", "canvaskit/canvaskit.js", "canvaskit/canvaskit.wasm",
    "assets/AssetManifest.bin.json", "assets/FontManifest.json", "assets/fonts/MaterialIcons-Regular.otf",
    "assets/shaders/ink_sparkle.frag", "assets/shaders/stretch_effect.frag",
    "assets/packages/cupertino_icons/assets/CupertinoIcons.ttf", "assets/packages/wakelock_plus/assets/no_sleep.js",
    "pyodide/pyodide.mjs", "pyodide/pyodide.asm.mjs", "pyodide/pyodide.asm.wasm", "pyodide/python_stdlib.zip",
)  # fmt: skip

SKWASM = {"main.dart.mjs", "main.dart.wasm", "canvaskit/skwasm.js", "canvaskit/skwasm.wasm"}
CANVASKIT = {"main.dart.js", "canvaskit/canvaskit.js", "canvaskit/canvaskit.wasm"}


class PackError(SpanbookError):
    """The folder for phones cannot be made; the sentence says what to do."""


def web_folder() -> Path:
    """Where the installed flet-web keeps the client. Raises PackError when it is not there or another version."""
    try:
        found = version("flet-web")
    except PackageNotFoundError:
        raise PackError(f"The package flet-web is not installed. Install it: pip install flet-web=={FLET}") from None
    if found != FLET:
        raise PackError(f"flet-web {found} is installed, and this Spanbook packs {FLET} only. Install it: pip install flet-web=={FLET}")
    return Path(str(files("flet_web"))) / "web"


def renderer_of(path: str) -> str:
    """Which renderer alone needs a file: `skwasm` (Chromium), `canvaskit` (all others), or empty: both."""
    return "skwasm" if path in SKWASM else "canvaskit" if path in CANVASKIT else ""


def python_of(web: Path) -> tuple[str, str]:
    """(version, platform tag) of the Python in the client, as `3.14` and `pyemscripten_2026_0_wasm32`."""
    info = json.loads((web / "pyodide/pyodide-lock.json").read_text())["info"]
    return info["python"].rpartition(".")[0], f"pyemscripten_{info['abi_version']}_wasm32"


def copy_client(web: Path, assets: Path, out: Path) -> None:
    """The client and the app's own assets into a new folder, patched. assets: as Flet expects them, to lie at the root."""
    for name in TAKEN:
        target = out / name
        target.parent.mkdir(parents=True, exist_ok=True)
        if not (web / name).is_file():
            raise PackError(f"flet-web lacks {name}. Install it anew: pip install --force-reinstall flet-web=={FLET}")
        shutil.copyfile(web / name, target)
    if assets.is_dir():
        shutil.copytree(assets, out, dirs_exist_ok=True, ignore=shutil.ignore_patterns("icon*.png", "splash*.png", "__pycache__"))
    _patch_bootstrap(out / "flutter_bootstrap.js")
    _patch_fonts(out / "assets")
    _patch_lock(web, out)
    shutil.copyfile(web / "assets/NOTICES", out / "licences-client.txt")


def _patch_bootstrap(path: Path) -> None:
    """Out with Flutter's service worker, which would unregister ours; one build of CanvasKit instead of two."""
    text = path.read_text(encoding="utf-8")
    text, first = re.subn(r"serviceWorkerSettings:\s*\{.*?\},", "", text, flags=re.S)
    text, second = re.subn(r"multiViewEnabled: flet\.multiView,", r'\g<0> canvasKitVariant: "full",', text)
    if (first, second) != (1, 1):
        raise PackError(f"flutter_bootstrap.js of flet-web is not the one of {FLET}. Install it anew.")
    path.write_text(text, encoding="utf-8")


def _patch_fonts(assets: Path) -> None:
    """Only fonts that lie in the folder; the app's own one also as Roboto, which Flutter asks a far server for otherwise."""
    path = assets / "FontManifest.json"
    families = [f for f in json.loads(path.read_text()) if all((assets / font["asset"]).is_file() for font in f["fonts"])]
    names = [family["family"] for family in families]
    if "Roboto" not in names and "Spanbook" in names:
        families.append({"family": "Roboto", "fonts": families[names.index("Spanbook")]["fonts"]})
    path.write_text(json.dumps(families))


def _patch_lock(web: Path, out: Path) -> None:
    """Pyodide wants its list of packages; ours come with the app, so the list is empty."""
    lock = json.loads((web / "pyodide/pyodide-lock.json").read_text())
    (out / "pyodide/pyodide-lock.json").write_text(json.dumps({"info": lock["info"], "packages": {}}))
