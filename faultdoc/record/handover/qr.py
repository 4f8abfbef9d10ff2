"""QR codes as pictures: on paper, on a screen, in a terminal. Made by segno, to ISO/IEC 18004."""

from __future__ import annotations

from collections.abc import Sequence
from io import BytesIO, StringIO
from pathlib import Path
from typing import TYPE_CHECKING

from faultdoc.library.whole import whole

if TYPE_CHECKING:
    from segno import QRCode

__all__ = ["BORDER", "modules", "save_pictures", "terminal_text"]

BORDER = 4
"""Light modules around a code, without which no camera finds it (ISO/IEC 18004, 9.1)."""
_PIXELS = 8
"""Of a module in a picture."""
_WHITE_ON_BLACK, _AS_BEFORE = "\x1b[97;40m", "\x1b[0m"
"""Escape sequences of ECMA-48, 8.3.117."""


def _code(text: str) -> QRCode:
    import segno

    # Level M: a seventh of the code may be lost to glare or a thumb. Alphanumeric: 11 bits for two characters.
    return segno.make(text, error="m", mode="alphanumeric", boost_error=False, micro=False)


def modules(text: str) -> tuple[tuple[bool, ...], ...]:
    """Return the rows of a code with its border, True where it is dark."""
    return tuple(tuple(bool(dark) for dark in row) for row in _code(text).matrix_iter(border=BORDER))


def terminal_text(text: str) -> str:
    """Return a code in characters, two rows of modules a line, dark on light whatever the terminal's colours."""
    drawn = StringIO()
    _code(text).terminal(drawn, border=BORDER, compact=True)
    # segno draws what is light with ink.
    return "".join(f"{_WHITE_ON_BLACK}{line}{_AS_BEFORE}\n" for line in drawn.getvalue().splitlines())


def save_pictures(texts: Sequence[str], path: Path) -> tuple[Path, ...]:
    """Write codes as pictures, one a file, and return the files; several have their numbers behind the name.

    Args:
        texts: the codes'.
        path: of the first, ending in .svg or .png.

    Raises:
        ValueError: for another ending.
        OSError: when the folder cannot be written.
    """
    ending = path.suffix.lower().removeprefix(".")
    if ending not in ("svg", "png"):
        raise ValueError(f"{path}: a code is drawn as .svg or .png; end the name so")
    paths = [path]
    if len(texts) > 1:
        paths = [path.with_stem(f"{path.stem}-{place}-of-{len(texts)}") for place in range(1, len(texts) + 1)]
    for text, where in zip(texts, paths, strict=True):
        drawn = BytesIO()
        _code(text).save(drawn, kind=ending, scale=_PIXELS, border=BORDER, light="white")
        with whole(where) as draft:
            draft.write_bytes(drawn.getvalue())
    return tuple(paths)
