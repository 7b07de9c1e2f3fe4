"""QR codes in pictures, where the machine has OpenCV beside Python. A phone alone and a plain installation do not."""

from __future__ import annotations

from contextlib import suppress

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
    image = cv2.imdecode(numpy.frombuffer(picture[:LARGEST], numpy.uint8), cv2.IMREAD_GRAYSCALE) if picture else None
    # Neither of the two finds every code (of 80 dense ones the second missed 4), and both like some sizes better than others.
    for scale in (1.0, 0.5, 2.0) if image is not None else ():
        sized = image if scale == 1.0 else cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
        for detector in (cv2.QRCodeDetectorAruco, cv2.QRCodeDetector):
            with suppress(cv2.error):
                if text := detector().detectAndDecode(sized)[0]:
                    return str(text)
    raise SpanbookError(say("letter.no_code"))
