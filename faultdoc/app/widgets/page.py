"""A page that scrolls rather than clips."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QApplication, QFrame, QScrollArea, QScroller, QVBoxLayout, QWidget
from shiboken6 import isValid

from faultdoc.app.widgets.basic import clear

__all__ = ["Page"]


class _Inside(QWidget):
    """What scrolls. Its height follows from its width alone.

    The least height that a layout of wrapping labels reports is that of some narrow width, and
    would leave a page with a blank end.
    """

    def minimumSizeHint(self) -> QSize:
        """Return the least size."""
        return QSize(0, 0)


class Page(QScrollArea):
    """A scrolling page; parts are added to `body`, one below the other."""

    def __init__(self, widest: int = 980) -> None:
        super().__init__()
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.inside = _Inside()
        self.inside.setObjectName("page")
        self._widest = widest
        self._outer = QVBoxLayout(self.inside)
        self.body = QVBoxLayout()
        self.body.setSpacing(12)
        self._outer.addLayout(self.body)
        self._outer.addStretch(1)
        self.margins = (20, 16, 20, 20)
        self._outer.setContentsMargins(*self.margins)
        self.setWidget(self.inside)
        QScroller.grabGesture(self.viewport(), QScroller.ScrollerGestureType.TouchGesture)
        self._held = QTimer(self)
        self._held.setSingleShot(True)
        self._held.setInterval(60)
        app = QApplication.instance()
        if isinstance(app, QApplication):
            app.focusChanged.connect(self._follow)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the new size."""
        # Margins rather than a maximum width: a layout asks for heights at the width it is given.
        left, top, right, bottom = self.margins
        spare = max(0, self.viewport().width() - self._widest) // 2
        self._outer.setContentsMargins(left + spare, top, right + spare, bottom)
        super().resizeEvent(event)

    def be_readable(self) -> None:
        """Take the focus, so that arrows and page keys scroll a page that has little to press."""
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setProperty("role", "readable")

    def empty(self) -> None:
        """Take everything off the page."""
        clear(self.body)

    def _follow(self, _: QWidget | None, now: QWidget | None) -> None:
        """Keep what has the focus in sight, unless the page is just being shown from its top."""
        if now is None or not self.inside.isAncestorOf(now):
            return

        def look() -> None:
            if not self._held.isActive() and isValid(self) and isValid(now) and self.isVisible():
                self.ensureWidgetVisible(now, 20, 30)

        # After the layout has settled.
        QTimer.singleShot(0, self, look)

    def to_top(self) -> None:
        """Scroll to the top, and stay there whatever takes the focus at the same time."""
        self._held.start()
        self.verticalScrollBar().setValue(0)

    def show_part(self, part: QWidget) -> None:
        """Scroll until a part of the page is seen."""
        self.ensureWidgetVisible(part, 20, 60)
