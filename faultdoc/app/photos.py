"""Photos made ready for paper: turned the right way up, small enough, and without what the camera wrote into them.

A telephone writes where a photo was taken, and by whose device, into the file. Only the picture itself is
printed and handed on.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize, Qt
from PySide6.QtGui import QImage, QImageReader, QPainter

from faultdoc.record.casebook import Attachment
from faultdoc.record.figures import Figure
from faultdoc.words import say

__all__ = ["LONGEST", "photos", "shrunk"]

LONGEST = 1000
"""Pixels of the longer side: 300 to the inch at the size in which a photo stands in a report."""
QUALITY = 82


def shrunk(data: bytes) -> bytes | None:
    """Return a photo as a JPEG of at most `LONGEST` pixels; None where the data is no picture Qt can read."""
    buffer = QBuffer()
    buffer.setData(QByteArray(data))
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    # The way up that the camera noted (EXIF orientation).
    reader.setAutoTransform(True)
    image = reader.read()
    if image.isNull():
        return None
    size = image.size()
    if max(size.width(), size.height()) > LONGEST:
        size = size.scaled(QSize(LONGEST, LONGEST), Qt.AspectRatioMode.KeepAspectRatio)
        image = image.scaled(
            size, Qt.AspectRatioMode.IgnoreAspectRatio, Qt.TransformationMode.SmoothTransformation
        )
    # On white, where it could be seen through; and nothing but the picture goes with it.
    plain = QImage(image.size(), QImage.Format.Format_RGB32)
    plain.fill(Qt.GlobalColor.white)
    painter = QPainter(plain)
    painter.drawImage(0, 0, image)
    painter.end()
    out = QBuffer()
    out.open(QIODevice.OpenModeFlag.WriteOnly)
    plain.save(out, "JPEG", QUALITY)  # type: ignore[call-overload]
    return bytes(out.data().data())


def photos(kept: Iterable[tuple[Attachment, bytes]]) -> tuple[tuple[Figure, ...], tuple[str, ...]]:
    """Return the photos among what was kept with a case, and the names of all else.

    Args:
        kept: each attachment with its content.
    """
    shown, not_shown = [], []
    for one, data in kept:
        small = shrunk(data) if one.media_type.startswith("image/") else None
        if small is None:
            not_shown.append(one.name)
        else:
            shown.append(Figure(one.name, say("Added {clock}", clock=_clock(one.at)), small))
    return tuple(shown), tuple(not_shown)


def _clock(at: datetime) -> str:
    local = at.astimezone()
    return f"{local:%Y-%m-%d %H:%M} {local.tzname() or ''}".strip()
