"""Widgets side by side that go on in a next line where the window is narrow or the letters are large."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QRect, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

__all__ = ["Flow"]


class Flow(QWidget):
    """Its parts from left to right, line below line; its height follows from its width."""

    def __init__(self, *parts: QWidget, spacing: int = 10) -> None:
        super().__init__()
        self._parts = list(parts)
        self._spacing = spacing
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        for part in parts:
            part.setParent(self)

    def hasHeightForWidth(self) -> bool:
        """Return that the height follows from the width."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height at a width."""
        places = self._places(width)
        return max((place.bottom() + 1 for place in places), default=0)

    def sizeHint(self) -> QSize:
        """Return the size of all parts in one line, or at the width there is."""
        hints = [self._hint(part) for part in self._shown()]
        width = sum(hint.width() for hint in hints) + self._spacing * max(len(hints) - 1, 0)
        return QSize(width, self.heightForWidth(self.width()))

    def minimumSizeHint(self) -> QSize:
        """Return the width of the widest part."""
        widest = max((self._hint(part).width() for part in self._shown()), default=0)
        return QSize(widest, self.heightForWidth(self.width()))

    def event(self, event: QEvent) -> bool:
        """Lay the parts anew when one of them has changed its size, or comes or goes."""
        if event.type() is QEvent.Type.LayoutRequest:
            self.updateGeometry()
            self._lay()
        return super().event(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Lay the parts for the new width."""
        super().resizeEvent(event)
        self._lay()
        if event.size().width() != event.oldSize().width():
            self.updateGeometry()

    def _shown(self) -> list[QWidget]:
        return [part for part in self._parts if not part.isHidden()]

    @staticmethod
    def _hint(part: QWidget) -> QSize:
        return part.sizeHint().expandedTo(part.minimumSizeHint()).expandedTo(part.minimumSize())

    def _places(self, width: int) -> list[QRect]:
        x, y, tallest = 0, 0, 0
        places = []
        for part in self._shown():
            hint = self._hint(part).boundedTo(part.maximumSize())
            if x and x + hint.width() > width:
                x, y, tallest = 0, y + tallest + self._spacing, 0
            places.append(QRect(x, y, min(hint.width(), max(width, 1)), hint.height()))
            x += hint.width() + self._spacing
            tallest = max(tallest, hint.height())
        return places

    def _lay(self) -> None:
        for part, place in zip(self._shown(), self._places(self.width()), strict=True):
            part.setGeometry(place)
