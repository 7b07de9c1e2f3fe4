"""QR codes in pictures: read on the machine that serves, or by the browser's own reader where the app runs alone in it and it has one."""

from __future__ import annotations

import asyncio
import io
import sys
from importlib.util import find_spec

from fieldapp.words import say
from measure.errors import SpanbookError

LARGEST, MOST_PIXELS = 20_000_000, 60_000_000
"""Bytes of a picture; its pixels. A small file may unpack to very many."""
_LONGEST_SIDE = 2400
_ALONE = sys.platform == "emscripten"


def can_read() -> bool:
    """Whether pictures can be read here: where a server stands; alone in a browser where it has a reader of its own; else not yet.

    A reader may be there by name only: then `read_qr` tells it.
    """
    if not _ALONE:
        return all(find_spec(name) is not None for name in ("zxingcpp", "PIL"))
    import js

    return hasattr(js, "BarcodeDetector")


async def read_qr(picture: bytes) -> str:
    """The text of the QR code in a PNG or JPEG. Raises SpanbookError where none can be read."""
    # Beside the loop: meanwhile the other phones are answered.
    found = await _by_browser(picture) if _ALONE else await asyncio.to_thread(_by_machine, picture)
    if not found:
        raise SpanbookError(say("letter.no_code"))
    return found


def _by_machine(picture: bytes) -> str:
    import zxingcpp
    from PIL import Image, UnidentifiedImageError

    if len(picture) > LARGEST:
        return ""
    try:
        with Image.open(io.BytesIO(picture), formats=("PNG", "JPEG")) as opened:
            if opened.width * opened.height > MOST_PIXELS:
                return ""
            opened.draft("L", (_LONGEST_SIDE, _LONGEST_SIDE))
            image = opened.convert("L")
    except (UnidentifiedImageError, Image.DecompressionBombError, Image.DecompressionBombWarning, OSError, SyntaxError, ValueError):
        # No picture, a broken one, one that unpacks to very much. Pillow has no error of its own for broken ones.
        return ""
    image.thumbnail((_LONGEST_SIDE, _LONGEST_SIDE))
    found = zxingcpp.read_barcodes(image, formats=zxingcpp.BarcodeFormat.QRCode)
    return str(found[0].text) if found else ""


async def _by_browser(picture: bytes) -> str:
    import js
    from pyodide.ffi import JsException, to_js

    if len(picture) > LARGEST:
        return ""
    try:
        image = await js.createImageBitmap(js.Blob.new(to_js([to_js(picture)])))
    except JsException:  # no picture
        return ""
    try:
        kinds = to_js({"formats": ["qr_code"]}, dict_converter=js.Object.fromEntries)
        found = await js.BarcodeDetector.new(kinds).detect(image)
    except JsException:  # the system below the browser has no reader
        raise SpanbookError(say("letter.no_reader")) from None
    finally:
        image.close()
    return str(found[0].rawValue) if len(found) else ""
