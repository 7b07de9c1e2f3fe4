"""The database as it lies in a browser, in either way of keeping: taken out, or put there."""

from __future__ import annotations

import base64
import shutil
import sqlite3
from pathlib import Path

from playwright.sync_api import Page

from tests.phone.handset import StaticServer, add_to

WAYS = ["files", "record"]
NO_FILES = "StorageManager.prototype.getDirectory = async () => { throw new DOMException('refused', 'SecurityError'); };"
"""Makes a browser one that gives no files to a page."""
FILE = """
    const root = await navigator.storage.getDirectory(), folder = await root.getDirectoryHandle((await root.keys().next()).value);
    const file = await folder.getFileHandle("spanbook.db");
"""
SHELF = """
    const done = (asked) => new Promise((yes, no) => { asked.onsuccess = () => yes(asked.result); asked.onerror = () => no(asked.error); });
    const db = await done(indexedDB.open((await indexedDB.databases())[0].name));
    const shelf = db.transaction("kept", "readwrite").objectStore("kept");
"""
AS_TEXT = """
    const read = new FileReader();
    await new Promise((yes) => { read.onload = yes; read.readAsDataURL(new Blob([bytes])); });
    return read.result.split(",")[1];
"""
TAKE = {
    "files": FILE + "const bytes = new Uint8Array(await (await file.getFile()).arrayBuffer());",
    "record": SHELF + "const { bytes } = await done(shelf.get('database')); db.close();",
}
PUT = {
    "files": FILE + "const writing = await file.createWritable(); await writing.write(bytes); await writing.close();",
    "record": SHELF + "await done(shelf.put({ stamp: 1, bytes }, 'database')); db.close();",
}


def keeps_as(site: StaticServer, way: str) -> None:
    """Hand out an app that keeps in this way."""
    if way == "record":
        add_to(site, "opfs.js", NO_FILES)


def kept(page: Page, site: StaticServer, way: str, file: Path) -> sqlite3.Connection:
    """The database as the app kept it, opened in a file here. The app is left for it."""
    page.goto(site.address + "manifest.json")
    file.write_bytes(base64.b64decode(page.evaluate("async () => {" + TAKE[way] + AS_TEXT + "}")))
    return sqlite3.connect(file)


def put(page: Page, site: StaticServer, way: str, file: Path) -> None:
    """Put another database in the place of the app's own. The app was open once, and is left for it."""
    shutil.copy(file, site.folder / "put.db")
    page.goto(site.address + "manifest.json")
    fetched = "const bytes = await fetch('put.db').then((a) => a.arrayBuffer()).then((b) => new Uint8Array(b));"
    page.evaluate("async () => {" + fetched + PUT[way] + "}")
