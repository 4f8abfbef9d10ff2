"""A QR code, painted as large as its place allows, in whole pixels: dark on white with the border it needs."""

from __future__ import annotations

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from faultdoc.words import say

__all__ = ["QrCode"]

LEAST = 2
"""Pixels of a module below which no camera reads it off a screen."""


class QrCode(QWidget):
    """One code; `put` shows another."""

    def __init__(self) -> None:
        super().__init__()
        self._rows: tuple[tuple[bool, ...], ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(say("QR code of the case, to be scanned by the other telephone or tablet"))

    def put(self, rows: tuple[tuple[bool, ...], ...]) -> None:
        """Show a code, its border among the rows."""
        self._rows = rows
        self.setMinimumSize(LEAST * len(rows), LEAST * len(rows))
        self.update()

    @property
    def module(self) -> int:
        """Pixels of a module, of the screen's own."""
        if not self._rows:
            return 0
        return max(LEAST, int(min(self.width(), self.height()) * self.devicePixelRatioF()) // len(self._rows))

    def sizeHint(self) -> QSize:
        """Return the size that suits."""
        return QSize(4 * len(self._rows), 4 * len(self._rows))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint it; modules are a whole number of the screen's own pixels, or a camera sees stripes."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor("white"))
        ratio, module, count = self.devicePixelRatioF(), self.module, len(self._rows)
        painter.scale(1.0 / ratio, 1.0 / ratio)
        left = (int(self.width() * ratio) - module * count) // 2
        top = (int(self.height() * ratio) - module * count) // 2
        black = QColor("black")
        for y, row in enumerate(self._rows):
            for x, dark in enumerate(row):
                if dark:
                    painter.fillRect(QRect(left + x * module, top + y * module, module, module), black)
        painter.end()
