"""A drawing to move about in: drag, wheel, pinch and keys come nearer or go farther."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QWheelEvent
from PySide6.QtWidgets import QApplication, QGraphicsScene, QGraphicsView, QPinchGesture

from faultdoc.app.colours import COLOURS

__all__ = ["FARTHEST", "NEARER", "NEAREST", "Canvas"]

NEARER = 1.25
"""Factor of one step nearer."""
NEAREST, FARTHEST = 4.0, 0.1


class Canvas(QGraphicsView):
    """A scene to look at.

    Items whose data(0) is a text can be pressed: `pressed` is sent with it.
    """

    pressed = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.setScene(QGraphicsScene(self))
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setDragMode(QGraphicsView.DragMode.ScrollHandDrag)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.AnchorUnderMouse)
        self.grabGesture(Qt.GestureType.PinchGesture)
        self._from = QPoint()

    def drawBackground(self, painter: QPainter, area: QRectF | QRect) -> None:
        """Paint the paper, in the theme in use."""
        painter.fillRect(area, QColor(COLOURS["paper"]))

    @property
    def scale_now(self) -> float:
        """Pixels on the screen to one of the drawing."""
        return self.transform().m11()

    def fit(self) -> None:
        """Show all of it."""
        self.fitInView(self.sceneRect(), Qt.AspectRatioMode.KeepAspectRatio)

    def zoom(self, factor: float) -> None:
        """Come nearer (over 1) or go farther (under 1), within limits."""
        wanted = min(max(self.scale_now * factor, FARTHEST), NEAREST)
        self.scale(wanted / self.scale_now, wanted / self.scale_now)

    def enter(self) -> None:
        """Do what pressing the thing that is marked would do; nothing here is marked."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Come nearer or go farther."""
        if event.angleDelta().y():
            self.zoom(NEARER if event.angleDelta().y() > 0 else 1.0 / NEARER)
        event.accept()

    def event(self, event: QEvent) -> bool:
        """Pinch to come nearer or go farther."""
        pinch = event.gesture(Qt.GestureType.PinchGesture) if event.type() is event.Type.Gesture else None  # type: ignore[attr-defined]
        if isinstance(pinch, QPinchGesture):
            self.zoom(pinch.scaleFactor())
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Plus, minus and 0 for size; Enter opens what is marked; arrows move the picture."""
        if event.text() in ("+", "="):
            self.zoom(NEARER)
        elif event.text() == "-":
            self.zoom(1.0 / NEARER)
        elif event.text() == "0":
            self.fit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.enter()
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Remember where it was pressed, to tell a click from a drag."""
        self._from = event.position().toPoint()
        super().mousePressEvent(event)

    def found_at(self, at: QPoint) -> str | None:
        """Return the thing at a place of the view, None where there is none."""
        item = self.itemAt(at)
        while item is not None and item.data(0) is None:
            item = item.parentItem()
        return None if item is None else str(item.data(0))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Send what was clicked, unless the drawing was dragged."""
        super().mouseReleaseEvent(event)
        at = event.position().toPoint()
        dragged = (at - self._from).manhattanLength() >= QApplication.startDragDistance()
        found = None if dragged else self.found_at(at)
        if found is not None:
            self.pressed.emit(found)
