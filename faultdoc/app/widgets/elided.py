"""A label of one line that ends in three dots where there is too little room."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QLabel, QSizePolicy

from faultdoc.app.widgets.basic import tip

__all__ = ["ElidedLabel"]


class ElidedLabel(QLabel):
    """The whole text is in the tool tip and read by a screen reader."""

    def __init__(self, text: str = "") -> None:
        super().__init__(text)
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def put(self, text: str) -> None:
        """Show a text."""
        self.setText(text)
        tip(self, text)
        self.setAccessibleName(text)

    def minimumSizeHint(self) -> QSize:
        """Return the least size."""
        return QSize(40, super().minimumSizeHint().height())

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint it."""
        painter = QPainter(self)
        painter.setPen(self.palette().windowText().color())
        words = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, self.width())
        painter.drawText(self.rect(), int(Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft), words)
        painter.end()
