"""Puts the style sheet on the application."""

from __future__ import annotations

from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication

from faultdoc.app.colours import COLOURS
from faultdoc.library.places import resources_folder

__all__ = ["BASE_POINTS", "apply_style", "style_sheet"]

BASE_POINTS = 13.0
"""Size of plain text in points."""


def style_sheet() -> str:
    """Return the style sheet with its colour names replaced by the colours."""
    files = sorted((resources_folder() / "style").glob("*.qss"))
    text = "\n".join(path.read_text(encoding="utf-8") for path in files)
    # Longest names first: `strong_dark` begins with `strong`.
    for name in sorted(COLOURS, key=len, reverse=True):
        text = text.replace(f"@{name}", COLOURS[name])
    return text


def apply_style(app: QApplication) -> None:
    """Give the application its look: the same on every system."""
    app.setStyle("Fusion")
    font = QFont(app.font())
    font.setPointSizeF(BASE_POINTS)
    app.setFont(font)
    app.setStyleSheet(style_sheet())
