from base64 import b64decode

import pytest
from hypothesis import given
from hypothesis import strategies as st

from faultdoc.record.figures import Figure


def encoded(form, width, height):
    """What Qt writes of a picture of this size."""
    from PySide6.QtCore import QBuffer, QIODevice
    from PySide6.QtGui import QImage

    image = QImage(width, height, QImage.Format.Format_RGB32)
    image.fill(0x336699)
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    assert image.save(buffer, form)
    return bytes(buffer.data().data())


@pytest.mark.parametrize(("form", "media_type"), [("PNG", "image/png"), ("JPEG", "image/jpeg")])
@pytest.mark.parametrize("size", [(3, 5), (640, 480), (3000, 12)])
def test_size_and_sort_of_what_qt_writes(qapp, form, media_type, size):
    found = Figure("a", "", encoded(form, *size))
    assert (found.media_type, found.size) == (media_type, size)
    assert found.address.startswith(f"data:{media_type};base64,")
    assert b64decode(found.address.split(",")[1]) == found.data


def test_a_jpeg_with_what_a_camera_puts_in_front(qapp):
    plain = encoded("JPEG", 40, 30)
    # An APP1 segment (EXIF) and a fill byte before the next marker: ITU-T T.81, B.1.1.2 and B.1.1.4.
    exif = b"\xff\xe1" + (2 + 200).to_bytes(2, "big") + b"\xff\xc0" * 100
    assert Figure("a", "", plain[:2] + exif + b"\xff" + plain[2:]).size == (40, 30)


@pytest.mark.parametrize(
    ("root", "size"),
    [
        ('width="660" height="300"', (660, 300)),
        ("width='66.5px' height='30'", (66.5, 30)),
        ('width="1in" height="25.4mm"', (96, 96)),
        ('viewBox="0 0 120 80"', (120, 80)),
        ('width="100%" height="100%" viewBox="-5 -5 120.5 80"', (120.5, 80)),
    ],
)
def test_size_of_svg(root, size):
    text = f'<?xml version="1.0"?>\n<!-- a drawing --><svg xmlns="http://www.w3.org/2000/svg" {root}></svg>'
    for data in (text, text.encode()):
        found = Figure("a", "", data)
        assert (found.media_type, found.size) == ("image/svg+xml", pytest.approx(size))


@pytest.mark.parametrize(
    "data",
    [b"", b"GIF89a", b"%PDF-1.7", "<html><svg></svg></html>", b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff\xe0\x00\x04",
     "<svg>", '<svg width="0" height="0"></svg>', '<svg width="9%" height="9%"></svg>'],
)  # fmt: skip
def test_what_is_no_picture_is_refused_by_name(data):
    with pytest.raises(ValueError, match="the picture 'Coil'"):
        Figure("Coil", "", data)


@given(st.binary(max_size=200))
def test_no_bytes_break_it(data):
    for start in (b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff", b"<svg "):
        try:
            found = Figure("a", "", start + data).size
        except ValueError as problem:
            said = str(problem)
        else:
            said = "the picture 'a'" if min(found) > 0 else "no extent"
        assert "the picture 'a'" in said


@given(st.integers(1, 5000), st.integers(1, 5000), st.integers(50, 800), st.integers(50, 800))
def test_fitted_keeps_its_shape_and_is_never_larger(width, height, wide, high):
    found = Figure("a", "", f'<svg width="{width}" height="{height}"></svg>').within(wide, high)
    assert found[0] <= min(wide, width)
    assert found[1] <= min(high, height)
    # To half a pixel: the sides are whole ones.
    scale = min(wide / width, high / height, 1.0)
    assert abs(found[0] - max(1.0, width * scale)) <= 0.5
    assert abs(found[1] - max(1.0, height * scale)) <= 0.5
