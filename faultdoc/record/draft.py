"""What is being typed for a case and is not yet in its journal: kept at every pause, so that nothing is lost.

One small file a case beside the case book, written whole or not at all, and gone once its words are a note.
"""

from __future__ import annotations

from pathlib import Path

from faultdoc.library.whole import write_whole
from faultdoc.record.settings import data_home

__all__ = ["draft", "keep_draft"]


def _path(uid: str) -> Path:
    return data_home() / "drafts" / f"{uid}.txt"


def draft(uid: str) -> str:
    """Return what was being typed for a case, '' for nothing.

    Args:
        uid: of the case, from `CaseBook.uid`.

    Raises:
        OSError: when there is a file that cannot be read.
    """
    try:
        return _path(uid).read_text(encoding="utf-8", errors="replace")
    except FileNotFoundError:
        return ""


def keep_draft(uid: str, text: str) -> None:
    """Keep what is being typed for a case; nothing but blanks takes the file away.

    Raises:
        OSError: when the folder cannot be written.
    """
    path = _path(uid)
    if not text.strip():
        path.unlink(missing_ok=True)
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(text, path)
