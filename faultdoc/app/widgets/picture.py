"""Paints a picture of `faultdoc.record.pictures`, on the screen and into an image for paper."""

from __future__ import annotations

from PySide6.QtCore import QByteArray, QLineF, QPoint, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QAccessible,
    QAccessibleAnnouncementEvent,
    QColor,
    QFont,
    QFontMetricsF,
    QKeyEvent,
    QPainter,
    QPainterPath,
    QPen,
    QPolygonF,
    QResizeEvent,
)
from PySide6.QtSvg import QSvgRenderer
from PySide6.QtSvgWidgets import QGraphicsSvgItem
from PySide6.QtWidgets import QGraphicsItem, QGraphicsRectItem, QStyleOptionGraphicsItem, QWidget

from faultdoc.app.colours import COLOURS
from faultdoc.app.widgets.basic import tip
from faultdoc.app.widgets.canvas import Canvas
from faultdoc.record.figures import Figure
from faultdoc.record.pictures.shapes import Disc, Picture, Role, Shape, Spot, Words
from faultdoc.record.pictures.svg import arrow_head
from faultdoc.words import say

__all__ = ["PictureView", "paint_picture"]


REACH = 30.0
"""Pixels from a point's middle within which a press is meant for it."""


def _colour(role: Role | None) -> QColor:
    return QColor(Qt.GlobalColor.transparent) if role is None else QColor(COLOURS[role.value])


def _pen(role: Role | None, width: float, dash: tuple[float, ...]) -> QPen:
    if role is None:
        return QPen(Qt.PenStyle.NoPen)
    pen = QPen(_colour(role), width)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    if dash:
        pen.setDashPattern([one / width for one in dash])
    return pen


def paint_picture(painter: QPainter, picture: Picture) -> None:
    """Paint a picture at its natural size; scale the painter for any other."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for shape in picture.shapes:
        _paint(painter, shape)


def _paint(painter: QPainter, shape: Shape) -> None:
    if isinstance(shape, Words):
        _write(painter, shape)
        return
    painter.setPen(_pen(shape.role, shape.width, shape.dash))
    painter.setBrush(_colour(shape.fill))
    if isinstance(shape, Disc):
        painter.drawEllipse(QPointF(*shape.at), shape.radius, shape.radius)
        return
    path = QPainterPath(QPointF(*shape.points[0]))
    for x, y in shape.points[1:]:
        path.lineTo(x, y)
    if shape.closed:
        path.closeSubpath()
    painter.drawPath(path)
    if shape.arrow:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(_colour(shape.role))
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in arrow_head(shape.points)]))


def _write(painter: QPainter, words: Words) -> None:
    font = QFont(painter.font())
    font.setPixelSize(round(words.size))
    font.setBold(words.bold)
    painter.setFont(font)
    painter.setPen(_colour(words.role))
    wide = QFontMetricsF(font).horizontalAdvance(words.text)
    before = {"start": 0.0, "middle": wide / 2.0, "end": wide}[words.anchor]
    painter.save()
    painter.translate(*words.at)
    if words.upward:
        painter.rotate(-90.0)
    painter.drawText(QPointF(-before, words.size * 0.35), words.text)
    painter.restore()


class _Sheet(QGraphicsItem):
    """All shapes of a picture as one item."""

    def __init__(self, picture: Picture) -> None:
        super().__init__()
        self._picture = picture

    def boundingRect(self) -> QRectF:
        """All of it."""
        return QRectF(0.0, 0.0, self._picture.width, self._picture.height)

    def paint(self, painter: QPainter, _: QStyleOptionGraphicsItem, __: QWidget | None = None) -> None:
        """Paint it."""
        paint_picture(painter, self._picture)


class PictureView(Canvas):
    """A picture; `pressed` is sent with the measuring point that is clicked, tapped or entered.

    Tab-free by keyboard: N and P go to the next and the previous point, Enter presses it.
    """

    def __init__(self, *, still: bool = False) -> None:
        """Make an empty view.

        Args:
            still: whether it always shows the whole picture, for those that are small.
        """
        super().__init__()
        self.picture: Picture | None = None
        self.marked: str | None = None
        self._still = still
        self._fitted = True
        self._frame: QGraphicsRectItem | None = None
        self._spots: dict[str, Spot] = {}
        if still:
            self.setDragMode(Canvas.DragMode.NoDrag)
            self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
            self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
            self.setFrameShape(Canvas.Shape.NoFrame)

    @property
    def spots(self) -> dict[str, Spot]:
        """The measuring points shown, by id."""
        return self._spots

    def show_picture(self, picture: Picture, *, keep_place: bool = False) -> None:
        """Show a picture, whole; or from where one looked at the one before."""
        self.picture = picture
        scene = self.scene()
        scene.clear()
        self._frame = None
        scene.addItem(_Sheet(picture))
        scene.setSceneRect(0.0, 0.0, picture.width, picture.height)
        self._spots = {spot.point: spot for spot in picture.spots}
        for spot in picture.spots:
            left, top, right, bottom = spot.box
            area = QGraphicsRectItem(QRectF(QPointF(left, top), QPointF(right, bottom)))
            area.setPen(QPen(Qt.PenStyle.NoPen))
            tip(area, spot.words)
            area.setCursor(Qt.CursorShape.PointingHandCursor)
            area.setData(0, spot.point)
            scene.addItem(area)
        self.setAccessibleName(picture.title)
        self.setAccessibleDescription(picture.words)
        marked = self.marked if self.marked in self._spots else None
        self.marked = None
        if marked is not None:
            self.mark(marked)
        if not keep_place:
            self.fit()

    def show_svg(self, figure: Figure) -> None:
        """Show a drawing that comes as SVG, on the paper for which it was drawn."""
        self.clear()
        width, height = figure.size
        scene = self.scene()
        ground = scene.addRect(0.0, 0.0, width, height, QPen(Qt.PenStyle.NoPen), QColor(Qt.GlobalColor.white))
        ground.setZValue(-1.0)
        item = QGraphicsSvgItem()
        self._renderer = QSvgRenderer(QByteArray(figure.content))
        item.setSharedRenderer(self._renderer)
        scene.addItem(item)
        scene.setSceneRect(0.0, 0.0, width, height)
        self.setAccessibleName(figure.title)
        self.setAccessibleDescription(figure.caption)
        self.fit()

    def clear(self) -> None:
        """Show nothing."""
        self.picture, self.marked, self._frame = None, None, None
        self._spots = {}
        self.scene().clear()
        self.setAccessibleName(say("No picture"))
        self.setAccessibleDescription("")

    def fit(self) -> None:
        """Show all of it."""
        super().fit()
        self._fitted = True

    def zoom(self, factor: float) -> None:
        """Come nearer or go farther."""
        if not self._still:
            self._fitted = False
            super().zoom(factor)

    def sizeHint(self) -> QSize:
        """Ask for the picture's natural size."""
        if self.picture is None:
            return super().sizeHint()
        return QSize(round(self.picture.width), round(self.picture.height))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Go on showing all of it, if all was shown."""
        super().resizeEvent(event)
        if self._fitted:
            self.fit()

    def mark(self, point: str) -> None:
        """Frame one point, bring it into sight and read it to those who do not see it."""
        spot = self._spots[point]
        self.marked = point
        left, top, right, bottom = spot.box
        if self._frame is None:
            self._frame = QGraphicsRectItem()
            self._frame.setPen(QPen(QColor(COLOURS["focus"]), 3.0))
            self.scene().addItem(self._frame)
        self._frame.setRect(QRectF(QPointF(left - 3, top - 3), QPointF(right + 3, bottom + 3)))
        self.ensureVisible(self._frame)
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(self, spot.words))

    def enter(self) -> None:
        """Press the point that is marked."""
        if self.marked is not None:
            self.pressed.emit(self.marked)

    def found_at(self, at: QPoint) -> str | None:
        """Return the point at a place, or the nearest one within a gloved finger's reach."""
        found = super().found_at(at)
        if found is not None or not self._spots:
            return found
        near = {
            point: QLineF(QPointF(at), QPointF(self.mapFromScene(QPointF(*spot.at)))).length()
            for point, spot in self._spots.items()
        }
        point = min(near, key=lambda one: near[one])
        return point if near[point] <= REACH else None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """N and P go from point to point; the rest as in any drawing."""
        order = list(self._spots)
        if event.text().lower() in ("n", "p") and order:
            step = 1 if event.text().lower() == "n" else -1
            here = order.index(self.marked) if self.marked in self._spots else (-1 if step == 1 else 0)
            self.mark(order[(here + step) % len(order)])
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.marked is None:
            event.ignore()
        else:
            super().keyPressEvent(event)
