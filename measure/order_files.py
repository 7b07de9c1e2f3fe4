"""An order's files in a folder: each appears whole or not at all, and an earlier order there is replaced."""

from __future__ import annotations

import errno
import os
import secrets
import stat
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path

from measure.drawing import MARK, drawing_file
from measure.errors import OrderError
from measure.order import Order
from measure.order_csv import head_csv, order_csv, summary_csv
from measure.order_html import page_parts
from measure.order_schema import order_schema

CSV, SCHEMA, SUMMARY, HEAD, PAGE = "order.csv", "order.schema.json", "order-summary.csv", "order-head.csv", "order.html"
Told = Callable[[str], None]
Pieces = Iterable[bytes]


def order_bytes(order: Order, drawings: bool = False) -> dict[str, bytes]:
    """Every file of an order by its name, as an app hands them out."""
    return {name: b"".join(pieces) for name, pieces in _files(order, drawings)}


def write_order(order: Order, folder: Path, drawings: bool = False, told: Told | None = None) -> tuple[Path, ...]:
    """Write every file of an order; the folder is made if missing, an earlier order's drawings there go.

    All files are written beside their names first and take them at the end, so that a full or read-only folder leaves an earlier
    order as it was. told: hears of each file that is begun. Raises OrderError with a sentence.
    """
    if not order.lines:
        raise OrderError("No panel is left to order: nothing was written.")
    try:
        folder.mkdir(parents=True, exist_ok=True)
        return _write_all(_files(order, drawings), folder, told)
    except OSError as wrong:
        raise OrderError(_sentence(wrong, folder)) from wrong


def drawing_names(order: Order) -> dict[str, str]:
    """Tag to the name of its drawing file. Tags that differ in case alone get a number: some disks do not tell them apart."""
    names: dict[str, str] = {}
    taken: set[str] = set()
    for line in order.lines:
        stem, count = f"panel-{line.panel}", 1
        while stem.casefold() in taken:
            count += 1
            stem = f"panel-{line.panel}~{count}"
        taken.add(stem.casefold())
        names[line.panel] = f"{stem}.svg"
    return names


def _files(order: Order, drawings: bool) -> Iterator[tuple[str, Pieces]]:
    yield CSV, (order_csv(order),)
    yield SCHEMA, (order_schema(order),)
    yield SUMMARY, (summary_csv(order),)
    yield HEAD, (head_csv(order),)
    yield PAGE, (part.encode("utf-8", "replace") for part in page_parts(order))
    if drawings:
        names = drawing_names(order)
        for line in order.lines:
            yield names[line.panel], (drawing_file(line, order.governs),)


def _write_all(files: Iterable[tuple[str, Pieces]], folder: Path, told: Told | None) -> tuple[Path, ...]:
    beside: dict[Path, Path] = {}
    try:
        for name, pieces in files:
            if told is not None:
                told(name)
            target = folder / name
            if target.is_dir():
                raise IsADirectoryError(errno.EISDIR, os.strerror(errno.EISDIR), str(target))
            part = folder / f".{name}.{secrets.token_hex(6)}.part"
            beside[target] = part
            _write_whole(part, pieces)
        stale = _earlier_drawings(folder) - set(beside)
        for target, part in beside.items():
            os.replace(part, target)
        for drawing in stale:
            drawing.unlink(missing_ok=True)
        _settle(folder)
    finally:
        for part in beside.values():
            with suppress(OSError):
                part.unlink(missing_ok=True)
    return tuple(beside)


def _write_whole(path: Path, pieces: Pieces) -> None:
    """A new file, on the disk when this returns."""
    with open(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666), "wb") as file:
        file.writelines(pieces)
        file.flush()
        os.fsync(file.fileno())


def _settle(folder: Path) -> None:
    """Bring the new names to the disk too, where the system lets a folder be opened."""
    with suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _earlier_drawings(folder: Path) -> set[Path]:
    """Drawings of ours in a folder: plain files of our naming that carry our mark."""
    return {path for path in folder.glob("panel-*.svg") if stat.S_ISREG(path.lstat().st_mode) and _is_ours(path)}


def _is_ours(path: Path) -> bool:
    with path.open("rb") as file:
        return MARK.encode() in file.read(200)


_SAYS: Mapping[int, str] = {
    errno.ENOSPC: "there is no room left on it. Free some space, or name another folder with -o",
    errno.EDQUOT: "your share of it is full. Free some space, or name another folder with -o",
    errno.EROFS: "it is read-only. Name a folder that can be written with -o",
    errno.EACCES: "it may not be written. Name a folder of your own with -o",
    errno.EPERM: "it may not be written. Name a folder of your own with -o",
    errno.ENOTDIR: "a part of its path is a file, not a folder. Name another folder with -o",
    errno.EEXIST: "that is a file, not a folder. Name another folder with -o",
    errno.ENAMETOOLONG: "its name is too long. Name another folder with -o",
    errno.EFBIG: "a file would grow larger than is allowed there. Name another folder with -o",
}


def _sentence(wrong: OSError, folder: Path) -> str:
    if wrong.errno == errno.EISDIR:
        return f"The order was not written: {wrong.filename} is a folder. Move it away, or name another folder with -o."
    why = _SAYS.get(wrong.errno or 0, f"{wrong.strerror or wrong}. Name another folder with -o")
    return f"The order was not written to {folder}: {why}."
