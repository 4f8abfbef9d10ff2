"""Keeps what is to be printed where the user says: as PDF, or as HTML, whole or not at all."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QWidget

from faultdoc.app.desk import Desk
from faultdoc.library.whole import write_whole
from faultdoc.words import say

__all__ = ["asked_path", "keep_html"]


def asked_path(parent: QWidget, title: str, start: Path, ending: str) -> Path | None:
    """Ask for a file's name and return its path with `ending` ("pdf"); None where nobody gave one."""
    name, _ = QFileDialog.getSaveFileName(parent, title, str(start), f"*.{ending}")
    if not name:
        return None
    return Path(name) if Path(name).suffix.lower() == f".{ending}" else Path(f"{name}.{ending}")


def keep_html(html: str, path: Path, desk: Desk, what: str) -> bool:
    """Write a page to a file, as PDF or HTML by its ending, and tell of it in the bar.

    Args:
        html: the page.
        path: of the file; one that is there is replaced only by a complete one.
        desk: whose bar tells.
        what: the page's name with its article: "The report".

    Returns:
        Whether it was written.
    """
    from faultdoc.app.pdf import html_to_pdf

    try:
        if path.suffix.lower() == ".pdf":
            html_to_pdf(html, path)
        else:
            write_whole(html, path)
    except OSError as problem:
        desk.told.emit(
            "bad",
            say("{path} could not be written: {problem}. Choose another folder.", path=path, problem=problem),
        )
        return False
    desk.told.emit("good", say("{what} is in {path}.", what=what, path=path))
    return True
