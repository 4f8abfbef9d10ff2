"""A page whose main part takes the room that the others leave, and that scrolls where they leave too little."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget
from shiboken6 import isValid

from faultdoc.app.style import scaled
from faultdoc.app.widgets.page import Page

__all__ = ["StagePage"]

LEAST = 250
"""Least height of the main part, in pixels at 100 %."""


class StagePage(Page):
    """Parts are added to `body`; what goes into `stage` is the main one, added by the page that knows where."""

    def __init__(self) -> None:
        super().__init__(widest=4000)
        self.margins = (12, 8, 12, 8)
        self.body.setSpacing(6)
        self.stage = QWidget()
        self.staged = QVBoxLayout(self.stage)
        self.staged.setContentsMargins(0, 0, 0, 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the new size."""
        super().resizeEvent(event)
        self.fit()

    def fit(self) -> None:
        """Give the main part the room that is left, once words that were just set have found their lines."""
        QTimer.singleShot(0, self, self._fit)

    def _fit(self) -> None:
        if not isValid(self) or not self.isVisible():
            return
        left, top, right, bottom = self.margins
        width = self.viewport().width() - left - right
        self.stage.setFixedHeight(scaled(LEAST))
        self.body.invalidate()
        rest = self.body.totalHeightForWidth(width) - scaled(LEAST)
        room = self.viewport().height() - top - bottom - rest
        self.stage.setFixedHeight(max(scaled(LEAST), room))
