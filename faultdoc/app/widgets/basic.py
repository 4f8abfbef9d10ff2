"""Labels, buttons and boxes in the window's own roles; the style sheet knows the roles."""

from __future__ import annotations

from collections.abc import Callable
from html import escape

from PySide6.QtCore import Qt
from PySide6.QtGui import Qt as GuiQt
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QGraphicsItem,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLayout,
    QPushButton,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from faultdoc.app.style import scaled
from faultdoc.app.widgets.flow import Flow

__all__ = [
    "TARGET",
    "Box",
    "button",
    "buttons",
    "clear",
    "facts",
    "label",
    "numbered",
    "one_of",
    "restyle",
    "row",
    "tip",
]

TARGET = 48
"""Least height of anything to be touched, in pixels."""


def label(text: str, voice: str = "text") -> QLabel:
    """Return a label that wraps; voices: headline, title, text, faint, kind, wrong, good, number."""
    made = QLabel(text)
    made.setProperty("voice", voice)
    made.setWordWrap(True)
    # Words come from files: they are shown as they stand and never read as markup.
    made.setTextFormat(Qt.TextFormat.PlainText)
    made.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
    return made


def button(text: str, on_click: Callable[[], object], role: str = "plain", name: str | None = None) -> QPushButton:
    """Return a push button; roles: plain, main, danger, quiet."""
    made = QPushButton(text)
    made.setProperty("role", role)
    made.setMinimumHeight(TARGET)
    made.setAccessibleName(name or text.replace("&", ""))
    made.setAutoDefault(True)
    made.clicked.connect(lambda: on_click())
    return made


def one_of(group: QButtonGroup, text: str, on_click: Callable[[], object], role: str, name: str) -> QPushButton:
    """Return a button that stays down until another of its group is pressed; roles: tab, way."""
    made = QPushButton(text)
    made.setProperty("role", role)
    made.setCheckable(True)
    made.setMinimumHeight(TARGET)
    made.setAccessibleName(name)
    made.clicked.connect(lambda: on_click())
    group.addButton(made)
    return made


def buttons(*parts: QWidget, spacing: int = 10) -> Flow:
    """Return buttons side by side, in several lines where the window is narrow or the letters are large."""
    return Flow(*parts, spacing=spacing)


def row(*parts: QWidget | int, spacing: int = 10) -> QHBoxLayout:
    """Return the parts side by side; a number is a stretch."""
    made = QHBoxLayout()
    made.setSpacing(spacing)
    for part in parts:
        if isinstance(part, int):
            made.addStretch(part)
        else:
            made.addWidget(part)
    return made


def tip(widget: QWidget | QGraphicsItem, text: str) -> None:
    """Set a tool tip that shows the words as they stand: Qt reads one that looks like markup as markup."""
    markup = GuiQt.mightBeRichText(text)
    widget.setToolTip(f"<span>{escape(text)}</span>".replace("\n", "<br>") if markup else text)


def restyle(widget: QWidget, name: str, value: object) -> None:
    """Set a property that the style sheet looks at, and let it look again."""
    widget.setProperty(name, value)
    widget.style().unpolish(widget)
    widget.style().polish(widget)


def clear(layout: QLayout) -> None:
    """Take everything out of a layout."""
    while (item := layout.takeAt(0)) is not None:
        if (widget := item.widget()) is not None:
            # Hidden at once: it is deleted only when the event loop comes round.
            widget.hide()
            widget.setParent(None)
            widget.deleteLater()
        elif (inner := item.layout()) is not None:
            clear(inner)
            inner.deleteLater()


class Box(QFrame):
    """A framed box with its parts one below the other; roles: card, quiet, wrong, good, doubt."""

    def __init__(self, role: str = "card", *parts: QWidget) -> None:
        super().__init__()
        self.setProperty("role", role)
        self.body = QVBoxLayout(self)
        self.body.setContentsMargins(14, 12, 14, 12)
        self.body.setSpacing(8)
        for part in parts:
            self.body.addWidget(part)


def facts(*pairs: tuple[str, str | None], left: int = 112) -> Box:
    """Return a card with a short word at the left and the words for it at the right."""
    box = Box("card")
    grid = QGridLayout()
    grid.setHorizontalSpacing(14)
    grid.setVerticalSpacing(8)
    grid.setColumnStretch(1, 1)
    for place, (word, words) in enumerate((word, words) for word, words in pairs if words):
        head = label(word, "kind")
        head.setFixedWidth(scaled(left))
        grid.addWidget(head, place, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(label(words or ""), place, 1, Qt.AlignmentFlag.AlignTop)
    box.body.addLayout(grid)
    return box


def numbered(steps: tuple[str, ...]) -> Box:
    """Return a card with steps in order."""
    return facts(*((f"{place}.", words) for place, words in enumerate(steps, start=1)), left=28)
