"""Puts the style sheet on the application: its colours by the theme, its letters by the size wanted."""

from __future__ import annotations

import re

from PySide6.QtGui import QFont
from PySide6.QtWidgets import QApplication

from faultdoc.app.colours import COLOURS, use_theme
from faultdoc.library.places import resources_folder
from faultdoc.record.settings import Theme

__all__ = ["BASE_POINTS", "SIZES", "apply_style", "points", "scaled", "style_sheet"]

BASE_POINTS = 13.0
"""Size of plain text in points, at 100 %."""
SIZES = (100, 125, 150, 175, 200)
"""Text sizes that can be chosen, in per cent."""

_percent = 100


def points(size: float) -> float:
    """Return a size of letters (points at 100 %) at the text size in use."""
    return size * _percent / 100.0


def scaled(pixels: float) -> int:
    """Return a length (pixels at 100 %) that must grow with the letters, at the text size in use."""
    return round(pixels * _percent / 100.0)


def style_sheet() -> str:
    """Return the style sheet with its colour names and letters' sizes replaced by those in use."""
    files = sorted((resources_folder() / "style").glob("*.qss"))
    text = "\n".join(path.read_text(encoding="utf-8") for path in files)
    # Longest names first: `strong_text` begins with `strong`.
    for name in sorted(COLOURS, key=len, reverse=True):
        text = text.replace(f"@{name}", COLOURS[name])
    return re.sub(r"\b(\d+)pt\b", lambda found: f"{points(float(found[1])):g}pt", text)


def apply_style(app: QApplication, theme: Theme = "sunlight", percent: int = 100) -> None:
    """Give the application its look, the same on every system; again when theme or text size change."""
    global _percent
    _percent = percent
    use_theme(theme)
    app.setStyle("Fusion")
    font = QFont(app.font())
    font.setPointSizeF(points(BASE_POINTS))
    app.setFont(font)
    app.setStyleSheet(style_sheet())
    for widget in app.allWidgets():
        widget.update()
