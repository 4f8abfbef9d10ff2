"""Figures that a report carries inside itself: drawings as SVG, photos as PNG or JPEG.

A figure comes in as data and is placed as it is; what it shows is made elsewhere.
"""

from __future__ import annotations

import re
from base64 import b64encode
from dataclasses import dataclass
from functools import cached_property

__all__ = ["Figure"]

_PIXELS = 96.0
"""To the inch, where a size is given in inches, points or millimetres."""
_UNITS = {"": 1.0, "px": 1.0, "in": _PIXELS, "pt": _PIXELS / 72.0, "mm": _PIXELS / 25.4, "cm": _PIXELS / 2.54}
# The markers that open a frame of JPEG and so tell its size (ITU-T T.81, table B.1).
_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}


@dataclass(frozen=True)
class Figure:
    """A picture and what is said of it.

    Attributes:
        title: what it is.
        caption: one or two sentences below it; when it was taken, for a photo.
        data: SVG as text or bytes, or the bytes of a PNG or JPEG file.

    Raises:
        ValueError: when the data is none of these, or its size cannot be told.
    """

    title: str
    caption: str
    data: bytes | str

    def __post_init__(self) -> None:
        if min(self.size) <= 0:
            raise ValueError(f"the picture '{self.title}' has no extent")

    @property
    def content(self) -> bytes:
        """The bytes of the file that it would be."""
        return self.data.encode() if isinstance(self.data, str) else self.data

    @cached_property
    def media_type(self) -> str:
        """By what the data begins with, not by anybody's word for it."""
        data = self.content
        if data.startswith(b"\x89PNG\r\n\x1a\n"):
            return "image/png"
        if data.startswith(b"\xff\xd8\xff"):
            return "image/jpeg"
        if re.match(rb"\s*(<\?xml[^>]*\?>\s*)?(<!--.*?-->\s*)*<svg[\s>]", data, re.DOTALL):
            return "image/svg+xml"
        raise ValueError(f"the picture '{self.title}' is neither SVG nor PNG nor JPEG; save it as one of these")

    @cached_property
    def size(self) -> tuple[float, float]:
        """(width, height) in pixels."""
        readers = {"image/png": _png, "image/jpeg": _jpeg, "image/svg+xml": _svg}
        found = readers[self.media_type](self.content)
        if found is None:
            raise ValueError(f"the picture '{self.title}' does not say how large it is; the file is damaged")
        return found

    @property
    def address(self) -> str:
        """The whole picture as a `data:` address, so that a report is one file."""
        return f"data:{self.media_type};base64,{b64encode(self.content).decode('ascii')}"

    def within(self, width: float, height: float) -> tuple[int, int]:
        """Return the size at which it fits into `width` by `height` pixels; never larger than it is."""
        scale = min(width / self.size[0], height / self.size[1], 1.0)
        return max(1, round(self.size[0] * scale)), max(1, round(self.size[1] * scale))


def _png(data: bytes) -> tuple[float, float] | None:
    # ISO/IEC 15948, 11.2.2: IHDR comes first, width and height at its start.
    if len(data) < 24 or data[12:16] != b"IHDR":
        return None
    return float(int.from_bytes(data[16:20], "big")), float(int.from_bytes(data[20:24], "big"))


def _jpeg(data: bytes) -> tuple[float, float] | None:
    # ITU-T T.81, B.1.1 and B.2.2: segments, each with its length, up to the frame's header.
    place = 2
    while place + 9 <= len(data):
        if data[place] != 0xFF:
            return None
        marker = data[place + 1]
        if marker == 0xFF:
            place += 1
            continue
        if marker in _FRAMES:
            high, wide = data[place + 5 : place + 7], data[place + 7 : place + 9]
            return float(int.from_bytes(wide, "big")), float(int.from_bytes(high, "big"))
        place += 2 + int.from_bytes(data[place + 2 : place + 4], "big")
    return None


def _svg(data: bytes) -> tuple[float, float] | None:
    found = re.search(rb"<svg\b([^>]*)>", data)
    if found is None:
        return None
    root = found[1].decode("utf-8", "replace")
    sizes = [
        re.search(rf"\b{side}\s*=\s*[\"']\s*(\d+(?:\.\d+)?)\s*([a-z]*)\s*[\"']", root)
        for side in ("width", "height")
    ]
    if all(size is not None and size[2] in _UNITS for size in sizes):
        wide, high = (float(size[1]) * _UNITS[size[2]] for size in sizes if size is not None)
        return wide, high
    box = re.search(r"\bviewBox\s*=\s*[\"']([^\"']*)[\"']", root)
    numbers = re.findall(r"-?\d+(?:\.\d+)?", box[1]) if box else []
    return (float(numbers[2]), float(numbers[3])) if len(numbers) == 4 else None
