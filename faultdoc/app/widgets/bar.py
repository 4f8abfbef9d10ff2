"""One likely cause as a bar: its title, the per cent as a number, the system's word."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QKeyEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy

from faultdoc.app.colours import COLOURS
from faultdoc.app.style import points
from faultdoc.record.words import chance
from faultdoc.words import say

if TYPE_CHECKING:
    from faultdoc.diagnosis.explain import Ranked

__all__ = ["CauseBar"]

MARGIN = 10.0


class CauseBar(QAbstractButton):
    """A cause; click or Enter opens its reasons."""

    def __init__(self, cause: Ranked) -> None:
        super().__init__()
        self.cause = cause
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAccessibleName(f"{cause.title}: {chance(cause.probability)}, {cause.system}")
        self.setAccessibleDescription(say("Opens what spoke for and against"))
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def _fonts(self) -> tuple[QFont, QFont, QFont]:
        title, number, small = QFont(self.font()), QFont(self.font()), QFont(self.font())
        title.setWeight(QFont.Weight.DemiBold)
        number.setPointSizeF(self.font().pointSizeF() + 2.0)
        number.setBold(True)
        small.setPointSizeF(points(12.0))
        return title, number, small

    def _title_box(self, width: float) -> QRectF:
        title, number, _ = self._fonts()
        taken = QFontMetricsF(number).horizontalAdvance(say("under 1 %")) + 2 * MARGIN + 8
        room = QRectF(0, 0, max(60.0, width - taken - MARGIN), 10_000)
        flags = int(Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft)
        return QFontMetricsF(title).boundingRect(room, flags, self.cause.title)

    def hasHeightForWidth(self) -> bool:
        """Say that the height follows from the width."""
        return True

    def heightForWidth(self, width: int) -> int:
        """Return the height at a width."""
        _, _, small = self._fonts()
        return int(self._title_box(width).height() + QFontMetricsF(small).height() + 12 + 3 * 7)

    def sizeHint(self) -> QSize:
        """Return the size that suits."""
        return QSize(320, self.heightForWidth(320))

    def minimumSizeHint(self) -> QSize:
        """Return the least size."""
        return QSize(220, 64)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Press on Enter too."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
            return
        super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint it."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        title, number, small = self._fonts()
        frame = QRectF(self.rect()).adjusted(1.5, 1.5, -1.5, -1.5)
        pressed = self.isDown() or self.isChecked()
        painter.setBrush(QColor(COLOURS["strong_pale" if pressed else "paper"]))
        painter.setPen(QPen(QColor(COLOURS["focus" if self.hasFocus() else "line"]), 3 if self.hasFocus() else 1))
        painter.drawRoundedRect(frame, 6, 6)
        ink = QColor(COLOURS["ink"])
        words = self._title_box(self.width())
        painter.setPen(ink)
        painter.setFont(title)
        place = QRectF(MARGIN, 7, self.width() - 2 * MARGIN, words.height())
        place.setWidth(words.width() + 2)
        painter.drawText(place, int(Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft), self.cause.title)
        painter.setFont(number)
        right = QRectF(MARGIN, 5, self.width() - 2 * MARGIN, QFontMetricsF(number).height())
        painter.drawText(right, int(Qt.AlignmentFlag.AlignRight), chance(self.cause.probability))
        track = QRectF(MARGIN, 7 + words.height() + 5, self.width() - 2 * MARGIN, 12)
        painter.setPen(QPen(QColor(COLOURS["line"]), 1))
        painter.setBrush(QColor(COLOURS["ground"]))
        painter.drawRect(track)
        filled = QRectF(track)
        filled.setWidth(track.width() * self.cause.probability)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(COLOURS["strong"]))
        painter.drawRect(filled)
        painter.setPen(QColor(COLOURS["faint"]))
        painter.setFont(small)
        below = QRectF(MARGIN, track.bottom() + 2, self.width() - 2 * MARGIN, QFontMetricsF(small).height())
        painter.drawText(below, int(Qt.AlignmentFlag.AlignLeft), self.cause.system)
        more = say("Hide reasons") if self.isChecked() else say("Reasons")
        painter.drawText(below, int(Qt.AlignmentFlag.AlignRight), more)
        painter.end()
