"""Files written whole or not at all: what is there stays until its successor is complete."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

__all__ = ["whole", "write_whole"]


@contextmanager
def whole(path: Path) -> Iterator[Path]:
    """Give the path of an empty draft beside `path`; at the end of a block without an error it takes its place.

    Raises:
        OSError: when the folder cannot be written.
    """
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.", suffix=".tmp")
    os.close(handle)
    draft = Path(name)
    try:
        yield draft
        with draft.open("rb+") as stream:
            os.fsync(stream.fileno())
        # A draft is its owner's alone; the file is to be read like any other made here.
        umask = os.umask(0)
        os.umask(umask)
        draft.chmod(0o666 & ~umask)
        os.replace(draft, path)
    finally:
        draft.unlink(missing_ok=True)


def write_whole(text: str, path: Path) -> None:
    """Write a text file, whole or not at all.

    Raises:
        OSError: when the folder cannot be written.
    """
    with whole(path) as draft:
        draft.write_text(text, encoding="utf-8", newline="\n")
