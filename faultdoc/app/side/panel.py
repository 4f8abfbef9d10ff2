"""A side panel: a scrolling page that is drawn anew when it is seen and something has changed."""

from __future__ import annotations

from PySide6.QtGui import QShowEvent

from faultdoc.app.desk import Desk
from faultdoc.app.widgets.page import Page

__all__ = ["Panel"]


class Panel(Page):
    """One panel; `draw` fills it for the assessment."""

    title = ""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self._stale = True
        self.margins = (12, 12, 12, 14)
        self.body.setSpacing(8)
        desk.changed.connect(self.refresh)

    def draw(self) -> None:
        """Fill the panel."""
        raise NotImplementedError

    def refresh(self) -> None:
        """Draw the panel anew, now or when it is next seen."""
        self._stale = True
        if self.isVisible():
            self._draw()

    def showEvent(self, event: QShowEvent) -> None:
        """Draw what has changed since it was last seen."""
        super().showEvent(event)
        if self._stale:
            self._draw()

    def _draw(self) -> None:
        if self.desk.assessment is None:
            return
        self._stale = False
        at = self.verticalScrollBar().value()
        self.empty()
        self.draw()
        self.verticalScrollBar().setValue(at)
