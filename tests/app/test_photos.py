import struct
from datetime import UTC, datetime

import pytest
from PySide6.QtCore import QBuffer, QIODevice
from PySide6.QtGui import QColor, QImage

from faultdoc.app.photos import LONGEST, photos, shrunk
from faultdoc.record.casebook import Attachment
from faultdoc.record.figures import Figure


def encoded(image, form):
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    assert image.save(buffer, form)
    return bytes(buffer.data().data())


@pytest.fixture
def photo(qapp):
    """A wide photo, red at its left end."""
    image = QImage(2400, 1200, QImage.Format.Format_RGB32)
    image.fill(QColor("blue"))
    for x in range(600):
        for y in range(1200):
            image.setPixelColor(x, y, QColor("red"))
    return encoded(image, "JPEG")


def with_exif(data, orientation):
    """The JPEG with an Exif segment (CIPA DC-008, 4.5.2 and 4.6.4): orientation, and a maker's name."""
    maker = b"Secret maker 12.345678 N\0"
    entries = struct.pack("<HHII", 0x010F, 2, len(maker), 8 + 2 + 2 * 12 + 4)
    entries += struct.pack("<HHIHH", 0x0112, 3, 1, orientation, 0)
    tiff = b"II*\0" + struct.pack("<IH", 8, 2) + entries + struct.pack("<I", 0) + maker
    body = b"Exif\0\0" + tiff
    return data[:2] + b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body + data[2:]


def test_made_small_in_its_own_shape(photo):
    small = shrunk(photo)
    assert Figure("a", "", small).media_type == "image/jpeg"
    assert Figure("a", "", small).size == (LONGEST, LONGEST / 2)
    assert len(small) < len(photo)


def test_turned_the_way_up_that_the_camera_noted_and_nothing_else_of_its_notes_is_kept(photo):
    noted = with_exif(photo, 6)
    assert b"Secret maker" in noted
    small = shrunk(noted)
    assert b"Secret" not in small
    assert b"Exif" not in small
    assert Figure("a", "", small).size == (LONGEST / 2, LONGEST)
    turned = QImage.fromData(small)
    # Orientation 6: the 0th row is the visual right side, so the left end comes to the top.
    assert turned.pixelColor(250, 20).red() > 200
    assert turned.pixelColor(250, 980).blue() > 200


def test_never_made_larger(qapp):
    image = QImage(40, 30, QImage.Format.Format_ARGB32)
    image.fill(QColor(0, 0, 0, 0))
    small = shrunk(encoded(image, "PNG"))
    assert Figure("a", "", small).size == (40, 30)
    # What could be seen through is white on paper.
    assert QImage.fromData(small).pixelColor(5, 5).lightness() > 250


def test_what_is_no_photo_is_named_and_left_out(photo):
    at = datetime(2026, 3, 1, 12, tzinfo=UTC)
    kept = [
        (Attachment(1, "good.jpg", "image/jpeg", 1, at, ""), photo),
        (Attachment(2, "cut.jpg", "image/jpeg", 1, at, ""), photo[:40]),
        (Attachment(3, "papers.pdf", "application/pdf", 1, at, ""), b"%PDF-1.4"),
    ]
    shown, not_shown = photos(kept)
    assert [one.title for one in shown] == ["good.jpg"]
    assert shown[0].caption.startswith("Added 2026-0")
    assert not_shown == ("cut.jpg", "papers.pdf")


def test_the_same_photo_gives_the_same_bytes(photo):
    assert shrunk(photo) == shrunk(photo)
