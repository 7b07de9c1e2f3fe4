"""QR codes in pictures, where the machine has OpenCV beside Python. A phone alone and a plain installation do not."""

from __future__ import annotations

from fieldapp.words import say
from measure.errors import SpanbookError

LARGEST = 20_000_000


def read_qr(picture: bytes) -> str:
    """The text of the QR code in a PNG or JPEG. Raises SpanbookError where none can be read."""
    try:
        import cv2
        import numpy
    except ImportError:
        raise SpanbookError(say("letter.no_picture")) from None
    try:
        image = cv2.imdecode(numpy.frombuffer(picture[:LARGEST], numpy.uint8), cv2.IMREAD_GRAYSCALE) if picture else None
        text = "" if image is None else cv2.QRCodeDetector().detectAndDecode(image)[0]
    except cv2.error:
        text = ""
    if not text:
        raise SpanbookError(say("letter.no_code"))
    return str(text)
