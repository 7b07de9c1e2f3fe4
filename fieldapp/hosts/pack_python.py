"""Python's own library for the phone: byte-compiled as the app is, without what no app in a browser can use.

The client brings it as sources, which every start would compile anew.
"""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import Path

ZIP = "pyodide/python_stdlib.zip"
# Debuggers, terminals, other processes, servers, mail and file transfer, profilers, makers of documents and of further programs.
_NAMES = (
    "_pydatetime", "_pyio", "_pyrepl", "antigravity", "bdb", "cProfile", "cmd", "compileall", "curses", "dbm", "doctest", "ensurepip",
    "ftplib", "idlelib", "imaplib", "lib2to3", "mailbox", "modulefinder", "multiprocessing", "netrc", "pdb", "pickletools", "poplib",
    "profile", "pstats", "pty", "pyclbr", "pydoc", "pydoc_data", "sched", "shelve", "smtplib", "symtable", "tabnanny", "test", "this",
    "timeit", "trace", "tty", "turtle", "turtledemo", "unittest", "venv", "wave", "wsgiref", "xmlrpc", "zipapp",
)  # fmt: skip
_ENCODINGS = "__init__|_win_cp_codecs|aliases|ascii|charmap|cp437|cp1252|idna|latin_1|punycode|raw_unicode_escape|undefined|unicode_escape|utf_.*"
_LEFT = re.compile(rf"({'|'.join(_NAMES)})(\.py|/.*)|http/server\.py|ctypes/(macholib|util).*|encodings/(?!({_ENCODINGS})\.py).*")


def lay_out(web: Path, folder: Path) -> None:
    """The library's sources into a folder, without what is left at home."""
    with zipfile.ZipFile(web / ZIP) as archive:
        for name in archive.namelist():
            if not name.endswith("/") and not _LEFT.fullmatch(name):
                archive.extract(name, folder)


def zipped(folder: Path) -> bytes:
    """The folder as an archive in which nothing is packed: it is read quicker, and the line packs it better as one piece."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_STORED) as archive:
        for path in sorted(folder.rglob("*")):
            if path.is_file():
                archive.writestr(zipfile.ZipInfo(path.relative_to(folder).as_posix()), path.read_bytes())
    return out.getvalue()
