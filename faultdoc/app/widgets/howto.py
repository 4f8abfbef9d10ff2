"""A small drawing of how a reading is taken; it makes way where the window is narrow."""

from __future__ import annotations

from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from faultdoc.app.colours import COLOURS
from faultdoc.app.style import scaled
from faultdoc.app.widgets.basic import tip
from faultdoc.app.widgets.picture import paint_picture
from faultdoc.model.points import Point
from faultdoc.record.pictures.howto import howto_picture
from faultdoc.words import say

__all__ = ["HowTo"]

SCALE = 0.9


class HowTo(QWidget):
    """The drawing for one measuring point."""

    def __init__(self, point: Point) -> None:
        super().__init__()
        self.picture = howto_picture(point)
        self.setFixedSize(scaled(self.picture.width * SCALE), scaled(self.picture.height * SCALE))
        self.setAccessibleName(say("Drawing: {title}", title=self.picture.title))
        self.setAccessibleDescription(self.picture.words)
        tip(self, self.picture.title)

    def paintEvent(self, _: QPaintEvent) -> None:
        """Paint it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(COLOURS["paper"]))
        times = self.width() / self.picture.width
        painter.scale(times, times)
        paint_picture(painter, self.picture)
        painter.end()
