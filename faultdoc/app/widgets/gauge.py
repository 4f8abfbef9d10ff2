"""Gauges to read: a dial whose needle moves, and a meter with a display. Drawn for reading, after no maker's."""

from __future__ import annotations

from math import cos, radians, sin

from PySide6.QtCore import QEasingCurve, QPointF, QRectF, QSize, Qt, QVariantAnimation
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from faultdoc.app.colours import COLOURS
from faultdoc.app.practice.scales import Dial, Meter, angle, between, beyond, digits, ticks
from faultdoc.app.widgets.basic import tip
from faultdoc.words import say

__all__ = ["DialFace", "MeterFace"]

SWING = 350
"""Milliseconds in which a needle comes to where it belongs."""


def _point(centre: QPointF, radius: float, degrees: float) -> QPointF:
    """Return a point at an angle clockwise from upright."""
    turned = radians(degrees)
    return QPointF(centre.x() + radius * sin(turned), centre.y() - radius * cos(turned))


class _Face(QWidget):
    """What shows a value; `live` False greys it, when it is not at the point any more."""

    def __init__(self, title: str) -> None:
        super().__init__()
        self.title = title
        self.value: float | None = None
        self.live = True
        self.setMinimumSize(216, 216)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Return the size that suits."""
        return QSize(230, 230)


class DialFace(_Face):
    """A round gauge. `put` moves its needle."""

    def __init__(self, title: str, dial: Dial) -> None:
        super().__init__(title)
        self.dial = dial
        self.needle = -135.0
        """Degrees at which the needle is drawn now, on its way or there."""
        self._swing = QVariantAnimation(self)
        self._swing.setDuration(SWING)
        self._swing.setEasingCurve(QEasingCurve.Type.OutCubic)
        self._swing.valueChanged.connect(self._move)
        self._tell()

    @property
    def aim(self) -> float:
        """Degrees where the needle belongs."""
        return angle(self.dial, self.dial.least if self.value is None else self.dial.number(self.value))

    def put(self, value: float | None, *, live: bool = True) -> None:
        """Show an SI value; None is a gauge that nothing acts on."""
        self.value, self.live = value, live
        self._swing.stop()
        if self.isVisible() and abs(self.aim - self.needle) > 0.5:
            self._swing.setStartValue(self.needle)
            self._swing.setEndValue(self.aim)
            self._swing.start()
        else:
            self.needle = self.aim
        self._tell()
        self.update()

    def _move(self, where: float) -> None:
        self.needle = where
        self.update()

    def _tell(self) -> None:
        """Say to a screen reader what the eye sees: between which numbers the needle stands."""
        where = say("nothing to read") if self.value is None else between(self.dial, self.dial.number(self.value))
        self.setAccessibleName(f"{self.dial.name}, {self.title}: {where}")
        tip(
            self,
            say(
                "{title}: one division is {division:g} {unit}",
                title=self.title,
                division=self.dial.division,
                unit=self.dial.unit,
            ),
        )

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        side = min(self.width(), self.height()) - 4.0
        centre = QPointF(self.width() / 2.0, self.height() / 2.0)
        radius = side / 2.0
        ink = QColor(COLOURS["ink"] if self.live else COLOURS["off"])
        painter.setPen(QPen(QColor(COLOURS["faint"]), radius * 0.06))
        painter.setBrush(QColor(COLOURS["paper"] if self.live else COLOURS["off_ground"]))
        painter.drawEllipse(centre, radius * 0.96, radius * 0.96)
        self._strokes(painter, centre, radius, ink)
        self._words(painter, centre, radius, ink)
        self._hand(painter, centre, radius, ink)
        painter.end()

    def _strokes(self, painter: QPainter, centre: QPointF, radius: float, ink: QColor) -> None:
        font = QFont(self.font())
        font.setPixelSize(max(11, round(radius * 0.12)))
        font.setWeight(QFont.Weight.DemiBold)
        painter.setFont(font)
        for tick in ticks(self.dial):
            long, thick = ((0.07, 1.0), (0.10, 1.4), (0.14, 2.4))[tick.rank]
            painter.setPen(QPen(ink, thick))
            painter.drawLine(
                _point(centre, radius * 0.90, tick.angle), _point(centre, radius * (0.90 - long), tick.angle)
            )
            if tick.text:
                box = QRectF(0, 0, radius * 0.5, radius * 0.2)
                box.moveCenter(_point(centre, radius * 0.585, tick.angle))
                painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), tick.text)

    def _words(self, painter: QPainter, centre: QPointF, radius: float, ink: QColor) -> None:
        font = QFont(self.font())
        font.setPixelSize(max(12, round(radius * 0.13)))
        font.setBold(True)
        painter.setFont(font)
        painter.setPen(ink)
        box = QRectF(0, 0, radius * 0.9, radius * 0.22)
        box.moveCenter(QPointF(centre.x(), centre.y() + radius * 0.62))
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), self.dial.unit)
        out = "" if self.value is None else beyond(self.dial, self.dial.number(self.value))
        if out:
            words = say("OVER") if out == "over" else say("UNDER")
            box.moveCenter(QPointF(centre.x(), centre.y() + radius * 0.30))
            painter.setBrush(QColor(COLOURS["doubt_pale"]))
            painter.setPen(QPen(QColor(COLOURS["ink"]), 2))
            painter.drawRect(box.adjusted(-radius * 0.06, 0, radius * 0.06, 0))
            painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), say("{words} SCALE", words=words))

    def _hand(self, painter: QPainter, centre: QPointF, radius: float, ink: QColor) -> None:
        # The tip ends where the strokes begin, and is thin enough to tell one from the next.
        left, right = self.needle - 90.0, self.needle + 90.0
        tip, tail = _point(centre, radius * 0.84, self.needle), _point(centre, radius * 0.18, self.needle + 180.0)
        shape = [tip, _point(centre, radius * 0.035, right), tail, _point(centre, radius * 0.035, left)]
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(COLOURS["strong_text"]) if self.live else ink)
        painter.drawPolygon(QPolygonF(shape))
        painter.drawEllipse(centre, radius * 0.085, radius * 0.085)


class MeterFace(_Face):
    """A meter with a display; a clamp meter has its jaw."""

    def __init__(self, title: str, meter: Meter) -> None:
        super().__init__(title)
        self.meter = meter
        self._tell()

    @property
    def shown(self) -> tuple[str, str]:
        """The number in the display and its unit."""
        return ("----", "") if self.value is None else digits(self.meter, self.value)

    def put(self, value: float | None, *, live: bool = True) -> None:
        """Show an SI value; None is a meter that nothing acts on."""
        self.value, self.live = value, live
        self._tell()
        self.update()

    def _tell(self) -> None:
        self.setAccessibleName(f"{self.meter.name}, {self.title}: {' '.join(self.shown).strip()}")

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        side = min(self.width(), self.height()) - 4.0
        centre = self.width() / 2.0
        top = (self.height() - side) / 2.0
        edge = QColor(COLOURS["faint"])
        if self.meter.clamp:
            # The jaw, closed round one lead.
            ring = QRectF(centre - side * 0.2, top + side * 0.02, side * 0.4, side * 0.4)
            painter.setPen(QPen(edge, side * 0.07))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(ring.adjusted(side * 0.04, side * 0.04, -side * 0.04, -side * 0.04))
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(COLOURS["ink"]))
            painter.drawEllipse(ring.center(), side * 0.05, side * 0.05)
            body = QRectF(centre - side * 0.42, top + side * 0.36, side * 0.84, side * 0.6)
        else:
            body = QRectF(centre - side * 0.42, top + side * 0.1, side * 0.84, side * 0.72)
        painter.setPen(QPen(QColor(COLOURS["ink"]), 2))
        painter.setBrush(edge)
        painter.drawRoundedRect(body, 14, 14)
        glass = body.adjusted(side * 0.06, side * 0.08, -side * 0.06, -side * 0.12)
        if not self.meter.clamp:
            glass.setHeight(side * 0.4)
            for place in (-0.16, 0.16):
                painter.setBrush(QColor(COLOURS["ink"]))
                painter.drawEllipse(
                    QPointF(centre + place * side, body.bottom() - side * 0.11), side * 0.04, side * 0.04
                )
                painter.setPen(QPen(QColor(COLOURS["ink"]), 4))
                painter.drawLine(
                    QPointF(centre + place * side, body.bottom() - side * 0.11),
                    QPointF(centre + place * side * 1.4, top + side * 0.98),
                )
                painter.setPen(QPen(QColor(COLOURS["ink"]), 2))
        painter.setBrush(QColor(COLOURS["display"] if self.live else COLOURS["off_ground"]))
        painter.drawRoundedRect(glass, 5, 5)
        self._digits(painter, glass)
        painter.end()

    def _digits(self, painter: QPainter, glass: QRectF) -> None:
        number, unit = self.shown
        painter.setPen(QColor(COLOURS["ink"] if self.live else COLOURS["off"]))
        font = QFont(self.font())
        font.setBold(True)
        font.setPixelSize(round(min(glass.height() * 0.52, glass.width() * 1.35 / max(4, len(number)))))
        painter.setFont(font)
        flags = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(glass.adjusted(6, 2, -10, -glass.height() * 0.28), flags, number)
        font.setPixelSize(round(glass.height() * 0.2))
        painter.setFont(font)
        painter.drawText(glass.adjusted(6, glass.height() * 0.68, -10, -2), flags, unit)
