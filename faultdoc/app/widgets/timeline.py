"""Two paths over the same minutes, one above the other: what was done when, by sign and not by colour alone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log10

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from faultdoc.app.colours import COLOURS
from faultdoc.app.style import points
from faultdoc.words import say

__all__ = ["SIGNS", "Lane", "Legend", "Mark", "Timeline", "draw_sign", "step_of"]

SIGNS: dict[str, tuple[str, str, str]] = {
    "read": ("circle", "strong", say("read or seen")),
    "change": ("square", "faint", say("plant changed")),
    "remedy": ("diamond", "good", say("mended or proved")),
    "unit": ("bar", "ink", say("the unit by itself")),
    "hint": ("ring", "focus", "hint"),
    "unsafe": ("triangle", "danger", say("unsafe, refused")),
}
"""By sort of mark: its shape, the name of its colour, and what it stands for."""
LEFT, RIGHT, TOP, LANE, FOOT = 96.0, 30.0, 12.0, 58.0, 34.0
LONG = 240.0
"""Minutes from which the scale is in hours."""


@dataclass(frozen=True)
class Mark:
    """Something on a path: its minute, and its sort, a key of `SIGNS`."""

    minute: float
    sort: str


@dataclass(frozen=True)
class Lane:
    """One path: whose it is, how long it took, and what was done."""

    title: str
    minutes: float
    marks: tuple[Mark, ...]


def step_of(most: float) -> float:
    """Return how many minutes to put between two numbers so that there are about ten at most.

    >>> step_of(47.0), step_of(200.0), step_of(0.0)
    (5.0, 20.0, 1.0)
    """
    if most <= 10.0:
        return 1.0
    decade = 10.0 ** floor(log10(most / 10.0))
    return next(step * decade for step in (1.0, 2.0, 5.0, 10.0) if most / (step * decade) <= 10.0)


class Timeline(QWidget):
    """The paths, and a line at par."""

    def __init__(self, lanes: Sequence[Lane], par: float) -> None:
        super().__init__()
        self.lanes, self.par = tuple(lanes), par
        longest = 1.02 * max([par, *(lane.minutes for lane in self.lanes)])
        self.unit = 60.0 if longest > LONG else 1.0
        """Minutes of one on the scale below: of a minute, or of an hour."""
        self.step = self.unit * step_of(longest / self.unit)
        self.most = self.step * max(1, ceil(longest / self.step))
        said = "; ".join(
            say("{title}: {minutes:.0f} minutes", title=lane.title, minutes=lane.minutes) for lane in self.lanes
        )
        self.setAccessibleName(
            say("Time line. {said}; par is {par:.0f} minutes. Every act is listed below.", said=said, par=par)
        )
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        """Return the size that suits."""
        return QSize(600, int(TOP + LANE * len(self.lanes) + FOOT))

    def minimumSizeHint(self) -> QSize:
        """Return the least size."""
        return QSize(280, self.sizeHint().height())

    def x_of(self, minute: float) -> float:
        """Return where a minute stands, in pixels from the left."""
        return LEFT + (self.width() - LEFT - RIGHT) * minute / self.most

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        font = QFont(self.font())
        font.setPointSizeF(points(12.0))
        painter.setFont(font)
        bottom = TOP + LANE * len(self.lanes)
        self._scale(painter, bottom)
        for place, lane in enumerate(self.lanes):
            middle = TOP + LANE * (place + 0.5)
            painter.setPen(QColor(COLOURS["ink"]))
            left = QRectF(0, middle - LANE / 2, LEFT - 8, LANE)
            painter.drawText(left, int(Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight), lane.title)
            painter.setPen(QPen(QColor(COLOURS["strong"]), 5))
            painter.drawLine(QPointF(self.x_of(0.0), middle), QPointF(self.x_of(lane.minutes), middle))
            # What matters most is painted last.
            for mark in sorted(lane.marks, key=lambda mark: list(SIGNS).index(mark.sort)):
                draw_sign(painter, mark.sort, QPointF(self.x_of(mark.minute), middle))
        painter.end()

    def _scale(self, painter: QPainter, bottom: float) -> None:
        words = "hours" if self.unit > 1.0 else "minutes"
        wide = QFontMetricsF(painter.font()).horizontalAdvance("0000")
        minute = 0.0
        while minute <= self.most + 1e-6:
            x = self.x_of(minute)
            painter.setPen(QPen(QColor(COLOURS["line"]), 1))
            painter.drawLine(QPointF(x, TOP), QPointF(x, bottom + 4))
            painter.setPen(QColor(COLOURS["ink"]))
            box = QRectF(x - wide, bottom + 6, 2 * wide, FOOT - 8)
            painter.drawText(box, int(Qt.AlignmentFlag.AlignHCenter), f"{minute / self.unit:.0f}")
            minute += self.step
        painter.drawText(QRectF(0, bottom + 6, LEFT - 8, FOOT - 8), int(Qt.AlignmentFlag.AlignRight), words)
        painter.setPen(QPen(QColor(COLOURS["ink"]), 2, Qt.PenStyle.DashLine))
        painter.drawLine(QPointF(self.x_of(self.par), TOP), QPointF(self.x_of(self.par), bottom))
        painter.drawText(QPointF(self.x_of(self.par) + 4, TOP + 10), "par")


def draw_sign(painter: QPainter, sort: str, at: QPointF) -> None:
    """Paint the sign of a sort of mark."""
    shape, colour, _ = SIGNS[sort]
    x, y, size = at.x(), at.y(), 8.0
    painter.setPen(QPen(QColor(COLOURS["paper"]), 1.5))
    painter.setBrush(QColor(COLOURS[colour]))
    if shape == "circle":
        painter.drawEllipse(at, size * 0.8, size * 0.8)
    elif shape == "square":
        painter.drawRect(QRectF(x - 6, y - 6, 12, 12))
    elif shape == "diamond":
        points = [(0, -1.3), (1.3, 0), (0, 1.3), (-1.3, 0)]
        painter.drawPolygon(QPolygonF([QPointF(x + dx * size, y + dy * size) for dx, dy in points]))
    elif shape == "bar":
        painter.drawRect(QRectF(x - 2.5, y - 16, 5, 32))
    elif shape == "ring":
        painter.setBrush(QColor(COLOURS["paper"]))
        painter.setPen(QPen(QColor(COLOURS[colour]), 4))
        painter.drawEllipse(at, size * 0.8, size * 0.8)
    else:
        points = [(0, -1.6), (1.5, 1.1), (-1.5, 1.1)]
        painter.drawPolygon(QPolygonF([QPointF(x + dx * size, y + dy * size) for dx, dy in points]))


class Legend(QWidget):
    """One sign."""

    def __init__(self, sort: str) -> None:
        super().__init__()
        self._sort = sort
        self.setFixedSize(26, 34)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        draw_sign(painter, self._sort, QPointF(13, 17))
        painter.end()
