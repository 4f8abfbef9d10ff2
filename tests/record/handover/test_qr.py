"""What is drawn is read by a scanner's own library, zxing-cpp: another program than the one that draws."""

import random

import numpy as np
import pytest
import zxingcpp

from faultdoc.record.handover import qr
from faultdoc.record.handover.codes import in_codes, out_of_codes


def seen(rows, pixels=3) -> np.ndarray:
    """Return a picture of a code, dark on light."""
    dark = np.array(rows, dtype=bool).repeat(pixels, axis=0).repeat(pixels, axis=1)
    return np.where(dark, 30, 225).astype(np.uint8)


def scanned(picture: np.ndarray) -> str:
    found = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)
    return "\n".join(one.text for one in found)


@pytest.mark.parametrize("size", [20, 900, 3700, 8900])
def test_a_scanner_reads_every_size(size):
    data = random.Random(size).randbytes(size)
    texts = in_codes(data)
    assert out_of_codes("\n".join(scanned(seen(qr.modules(text))) for text in reversed(texts))) == data


def test_a_scanner_reads_a_code_with_glare_turned_in_noise():
    data = random.Random(2).randbytes(900)
    (text,) = in_codes(data)
    picture = seen(qr.modules(text), pixels=5)
    middle = len(picture) // 2
    picture[middle : middle + 60, middle - 40 : middle + 40] = 255
    rough = np.random.default_rng(1).normal(0.0, 25.0, picture.shape)
    assert scanned(np.rot90(np.clip(picture + rough, 0, 255).astype(np.uint8))) == text


def test_a_scanner_reads_the_largest_easy_code_held_askew_and_out_of_focus():
    """As a hand-held camera sees it: turned by 7 degrees, from the side, blurred by a pixel, unevenly lit."""
    from scipy import ndimage

    data = random.Random(5).randbytes(940)
    (text,) = in_codes(data)
    picture = np.pad(seen(qr.modules(text), pixels=5), 60, constant_values=225).astype(float)
    turned = ndimage.rotate(picture, 7.0, reshape=False, order=1, cval=225.0)
    from_the_side = ndimage.affine_transform(turned, [[1.0, 0.06], [0.0, 1.18]], order=1, cval=225.0)
    blurred = ndimage.gaussian_filter(from_the_side, 1.2)
    light = np.linspace(0.55, 1.0, blurred.shape[1])[None, :]
    rough = np.random.default_rng(2).normal(0.0, 6.0, blurred.shape)
    assert scanned(np.clip(blurred * light + rough, 0, 255).astype(np.uint8)) == text


def test_too_much_glare_is_not_read_as_something_else():
    (text,) = in_codes(random.Random(3).randbytes(900))
    picture = seen(qr.modules(text), pixels=5)
    picture[len(picture) // 3 : len(picture) * 2 // 3] = 255
    assert scanned(picture) == ""


def test_pictures_are_kept_one_a_file(tmp_path):
    texts = in_codes(random.Random(4).randbytes(2000))
    paths = qr.save_pictures(texts, tmp_path / "case.png")
    assert [path.name for path in paths] == ["case-1-of-3.png", "case-2-of-3.png", "case-3-of-3.png"]
    assert [scanned(loaded(path)) for path in paths] == list(texts)
    (svg,) = qr.save_pictures(texts[:1], tmp_path / "case.svg")
    assert svg.read_text(encoding="utf-8").lstrip().startswith("<?xml")
    with pytest.raises(ValueError, match=r"\.svg or \.png"):
        qr.save_pictures(texts, tmp_path / "case.gif")


def loaded(path) -> np.ndarray:
    from PySide6.QtGui import QImage

    image = QImage(str(path)).convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(image.constBits(), dtype=np.uint8).reshape(image.height(), image.bytesPerLine())
    return rows[:, : image.width()].copy()


def test_a_scanner_reads_the_terminal():
    (text,) = in_codes(b"a short case")
    lines = qr.terminal_text(text).splitlines()
    assert scanned(seen([row for line in lines for row in rows_of(line)])) == text


def rows_of(line: str) -> list[list[bool]]:
    """Return the two rows of modules of a line whose ink is white and whose ground is black."""
    signs = line.removeprefix("\x1b[97;40m").removesuffix("\x1b[0m")
    assert len(line) - len(signs) == 12
    return [[sign not in inked for sign in signs] for inked in ("▀█", "▄█")]
